"""What a coach would call the attack: numbers, direct or indirect, and how deep she stands."""

from __future__ import annotations

import math

from tendline.ice import Crease
from tendline.play.result import Attack, DepthName, Numbers
from tendline.play.situation import Situation


def in_the_play(situation: Situation) -> tuple[int, int]:
    """Return how many attackers and how many defenders are in the play.

    Every attacker given counts. A defender counts if he is nearer to the goal than some
    attacker: one whom everybody has passed is out of the play.
    """
    furthest = max(math.hypot(one.x, one.y) for one in situation.attackers)
    goal_side = [one for one in situation.defenders if math.hypot(one.x, one.y) < furthest]
    return len(situation.attackers), len(goal_side)


def numbers(situation: Situation) -> Numbers:
    """Return what the numbers are called: alone, odd-man, even or outnumbered."""
    attackers, defenders = in_the_play(situation)
    if attackers == 1 and defenders == 0:
        return Numbers.ALONE
    if attackers > defenders:
        return Numbers.ODD
    return Numbers.EVEN if attackers == defenders else Numbers.OUTNUMBERED


def numbers_word(situation: Situation) -> str:
    """Return the numbers as a coach says them, for example ``'2-on-1'`` or ``'lone carrier'``."""
    attackers, defenders = in_the_play(situation)
    return "lone carrier" if (attackers, defenders) == (1, 0) else f"{attackers}-on-{defenders}"


def attack(situation: Situation) -> Attack:
    """Return whether the puck comes from in front of the goal line (direct) or behind it."""
    return Attack.DIRECT if situation.puck_place[0] > 0.0 else Attack.INDIRECT


def crease_edge(crease: Crease, bearing: float) -> float:
    """Return how far out the crease reaches [m] in a direction ``bearing`` [rad] off straight."""
    aside = abs(math.sin(bearing))
    return min(crease.radius, crease.half_width / aside) if aside > 0.0 else crease.radius


def depth_name(depth: float, bearing: float, crease: Crease, tolerance: float) -> DepthName:
    """Return the published name of a depth [m] on a line with this ``bearing`` [rad].

    Base: within ``tolerance`` [m] of the edge of the crease. Aggressive: further out.
    Defensive: within twice the tolerance of the goal's centre, so on the goal line or by a post.
    Conservative: between these.
    """
    edge = crease_edge(crease, bearing)
    if depth > edge + tolerance:
        return DepthName.AGGRESSIVE
    if depth >= edge - tolerance:
        return DepthName.BASE
    return DepthName.DEFENSIVE if depth < 2.0 * tolerance else DepthName.CONSERVATIVE
