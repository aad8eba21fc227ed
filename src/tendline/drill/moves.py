"""Her own lines as chains of moves: the move that the script names, timed by ``motion``.

Where the direction of a named move is outside its sector (a T-push drawn straight ahead, say) it
is timed at the nearest legal direction: the script says what she does, not whether it is wise.
"""

from __future__ import annotations

from tendline.body import Pose
from tendline.drill.vocabulary import Verb
from tendline.motion import Chain, MotionParameters, MoveKind, chain_by

KINDS: dict[Verb, tuple[MoveKind, ...]] = {
    Verb.SHUFFLE: (MoveKind.SHORT_SHUFFLE, MoveKind.STEP_SHUFFLE),
    Verb.PUSH: (MoveKind.T_PUSH, MoveKind.FORWARD_PUSH),
    Verb.C_CUT: (MoveKind.C_CUT_FORWARD, MoveKind.C_CUT_BACK),
    Verb.SLIDE: (MoveKind.BUTTERFLY_SLIDE,),
    Verb.BUTTERFLY_PUSH: (MoveKind.BUTTERFLY_PUSH, MoveKind.KNEE_SHUFFLE),
}


def named_chain(verb: Verb, start: Pose, end: Pose, motion: MotionParameters) -> Chain:
    """Return the chain from ``start`` to the place and facing of ``end`` by the named move.

    She gets up, or drops, first if the move needs it. Times count from 0, without a reaction.
    """
    return chain_by(KINDS[verb], start, end, motion)
