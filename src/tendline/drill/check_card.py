"""V10, V18, V20, ages and aims: what the card must hold."""

from __future__ import annotations

from tendline.base import Level
from tendline.drill.check_timing import purpose
from tendline.drill.findings import Finding, finding
from tendline.drill.moves import KINDS
from tendline.drill.rules import YOUNG_DROPS, DrillLimits, RuleLevel, safety_lines
from tendline.drill.run_types import Run
from tendline.drill.types import Drill, actions_of
from tendline.drill.vocabulary import DrillKind, IceUse, Role, Theme, Verb
from tendline.motion import MoveKind, usually_later_than
from tendline.shot.constants import AGE_OF_LEVEL

_LIGHT = ("light puck", "ball", "soft puck", "light pucks", "balls", "soft pucks", "ring")


def real_choice(drill: Drill, run: Run) -> tuple[Finding, ...]:
    """V10: a read or a game has a choice she is not told; a technique drill is only noted."""
    if drill.kind in (DrillKind.READ, DrillKind.GAME):
        if run.untold_choices or (drill.kind is DrillKind.GAME and not drill.play):
            return ()
        return (
            finding("V10", RuleLevel.WARN, "called a read, but nobody chooses anything",
                    evidence=f"{run.untold_choices} choices that she is not told",
                    on_purpose=purpose(drill, "V10")),
        )  # fmt: skip
    if drill.kind is DrillKind.TECHNIQUE and drill.ages.oldest is not Level.U9:
        return (
            finding("V10", RuleLevel.INFORM,
                    "no read: from U11 up another drill of the practice must have one"),
        )  # fmt: skip
    return ()


def for_the_young(drill: Drill, run: Run, limits: DrillLimits) -> tuple[Finding, ...]:
    """V18: what a drill for U9 must and must not hold."""
    if drill.ages.youngest is not Level.U9:
        return ()
    why = purpose(drill, "V18")
    found = []
    if Theme.POST_PLAY in drill.themes or any(
        one.verb is Verb.SEAL for one in actions_of(drill.play)
    ):
        found.append(finding("V18", RuleLevel.HARD, "post technique is not for U9", on_purpose=why))
    equipment = " ".join(drill.equipment).lower()
    uses_puck = run.shots_total > 0 or "puck" in equipment
    if uses_puck and not any(word in equipment for word in _LIGHT):
        found.append(
            finding("V18", RuleLevel.WARN, "name a light puck or a ball for U9 in the equipment",
                    on_purpose=why)
        )  # fmt: skip
    if run.total.drops > limits.young_drops:
        found.append(
            finding("V18", RuleLevel.INFORM,
                    f"{run.total.drops:.0f} drops in the drill: with U9 let her stay up or play "
                    "from her knees as a game", limit=YOUNG_DROPS, value=limits.young_drops)
        )  # fmt: skip
    return tuple(found)


def technique_for_age(drill: Drill, run: Run) -> tuple[Finding, ...]:
    """AGE: moves that the script asks of her and that are usually taught later."""
    youngest = drill.ages.youngest
    asked: dict[MoveKind, str] = {}
    for action in actions_of(drill.play):
        if action.who[0] != Role.GOALTENDER.value:
            continue
        for kind in KINDS.get(action.verb, ()):
            asked.setdefault(kind, action.verb.value)
        if action.verb is Verb.DROP:
            asked.setdefault(MoveKind.DROP, action.verb.value)
        if action.verb is Verb.SEAL:
            asked.setdefault(MoveKind.POST_ENTRY, action.verb.value)
    found = []
    later = {row.kind: row.age.words for row in usually_later_than(AGE_OF_LEVEL[youngest] + 1.0)}
    for kind, word in asked.items():
        if kind in later:
            found.append(
                finding("AGE", RuleLevel.WARN, f"'{word}' is usually taught later than {youngest}",
                        evidence=later[kind], on_purpose=purpose(drill, "AGE"))
            )  # fmt: skip
    return tuple(found)


def aims(drill: Drill, run: Run) -> tuple[Finding, ...]:
    """AIM: shooters without an aim of their own."""
    skaters = any(one.who[0] == Role.FORWARD.value for one in actions_of(drill.play))
    if skaters and not drill.shooters_aim:
        return (finding("AIM", RuleLevel.WARN, "the shooters have no aim: they will invent one"),)
    return ()


def safety(drill: Drill) -> tuple[Finding, ...]:
    """V20: the safety lines, on every drill."""
    lines = safety_lines(
        on_ice=drill.ice.use is not IceUse.OFF_ICE,
        youngest_u9=drill.ages.youngest is Level.U9,
    )
    return tuple(finding("V20", RuleLevel.INFORM, line) for line in lines)
