"""What a shot usually costs, from published tables: the yardstick until the engine has spoken.

Distance and angle: a logistic fit to the even-strength shots of the NHL, 2011-12. Four kinds of
play have published rates of their own, used in their place where they are higher. These are men's
professional rates: they give the *shape* (which shots are hard), never the level. Expectation
scales the shape so that its sum equals the goals that were really scored; what remains says where
she is better or worse than herself, not how she compares with professionals.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tendline.base import Constant, OriginKind, ScoringSituation, assumed, fact, fact_table
from tendline.base.constant import source_text
from tendline.base.units import METRES_PER_FOOT
from tendline.log.game import Shot

REBOUND_RATE = fact("game.rebound_goal_share_2009_10", "goals per shot on a rebound, NHL 2009-10")
CROSSING_RATE = fact(
    "game.midline_pass_shooting", "goals per shot after a pass across the middle, NHL"
)
BREAKAWAY_RATE = fact("game.breakaway_goal", "goals per breakaway, NHL")


def _logit(name: str, label: str) -> Constant:
    table = fact_table("game.ev_logit")
    value = float(table[name])
    return assumed(
        f"game.ev_logit.{name}", label, value, "1", low=value, high=value,
        kind=OriginKind.COMPUTED, source=source_text(str(table["src"])),
    )  # fmt: skip


def _tip() -> Constant:
    table = fact_table("game.by_type")
    value = float(table["tip"]["goals"]) / float(table["tip"]["shots"])
    return assumed(
        "game.by_type.tip", "goals per tipped shot, NHL 2011-12", value, "ratio",
        low=value, high=value, kind=OriginKind.COMPUTED, source=source_text(str(table["src"])),
    )  # fmt: skip


LOGIT_CONSTANT = _logit("const", "goal chance by place: constant")
LOGIT_DISTANCE = _logit("ln_distance_ft", "goal chance by place: per logarithm of distance")
LOGIT_ANGLE = _logit("angle_over_90", "goal chance by place: per right angle off the middle")
LOGIT_NEAREST = _logit("min_distance_ft", "goal chance by place: nearest distance it holds for")
TIP_RATE = _tip()

BASELINE_CONSTANTS: tuple[Constant, ...] = (
    LOGIT_CONSTANT, LOGIT_DISTANCE, LOGIT_ANGLE, LOGIT_NEAREST, REBOUND_RATE, CROSSING_RATE,
    BREAKAWAY_RATE, TIP_RATE,
)  # fmt: skip

_RATES: Mapping[ScoringSituation, Constant] = {
    ScoringSituation.REBOUND: REBOUND_RATE,
    ScoringSituation.EAST_WEST: CROSSING_RATE,
    ScoringSituation.BREAKAWAY: BREAKAWAY_RATE,
    ScoringSituation.DEFLECTION: TIP_RATE,
}


def chance_by_place(distance: float, angle: float) -> float:
    """Return the published goal chance of a shot on goal from ``distance`` [m], ``angle`` [rad].

    Angle from the middle line; behind the goal line counts as a right angle. Holds for even
    strength from 0.9 m (nearer counts as that).
    """
    feet = max(distance / METRES_PER_FOOT, LOGIT_NEAREST.value)
    turned = min(abs(angle), math.pi / 2) / (math.pi / 2)
    logit = (
        LOGIT_CONSTANT.value + LOGIT_DISTANCE.value * math.log(feet) + LOGIT_ANGLE.value * turned
    )
    return 1.0 / (1.0 + math.exp(-logit))


def published_chance(shot: Shot) -> float:
    """Return what a shot like this usually costs, by published rates."""
    by_place = chance_by_place(shot.distance, shot.angle)
    rate = _RATES.get(shot.situation) if shot.situation is not None else None
    return by_place if rate is None else max(by_place, rate.value)


@dataclass(frozen=True, slots=True)
class Expectation:
    """Goals to expect per shot on goal, by shot id; the sum equals the goals really scored.

    ``factor`` is what the raw chances' odds were multiplied by to get there; ``source`` says
    whose chances they are.
    """

    chances: Mapping[str, float]
    factor: float
    source: str

    def over(self, shots: Sequence[Shot]) -> float:
        """Return the goals to expect over some shots on goal."""
        return sum(self.chances.get(one.id, 0.0) for one in shots)


PUBLISHED_SOURCE = "the shape of men's professional shots (NHL 2011-12 and others), her own level"
ENGINE_SOURCE = "the engine's answer for each shot from the recommended place, her own level"


def expectation(shots: Sequence[Shot], costs: Mapping[str, float] | None = None) -> Expectation:
    """Return what each shot on goal should have cost, given how hard it was.

    ``costs``: the engine's goal chances by shot id where it could answer; the others take the
    published rates, brought to the engine's scale over the shots that have both. The odds of all
    are multiplied by one factor so that the sum equals the goals (or, with no goal or nothing but
    goals, half a goal away from that, so that chances stay inside 0 .. 1).
    """
    known = costs or {}
    on_goal = [one for one in shots if one.on_goal]
    usual = {one.id: _inside(published_chance(one)) for one in on_goal}
    both = [one.id for one in on_goal if one.id in known]
    bridge = 1.0
    if len(both) > 1:
        bridge = _odds_factor(
            [usual[one] for one in both], sum(_inside(known[one]) for one in both)
        )
    raw = {
        name: _inside(known[name]) if name in known else _scaled(value, bridge)
        for name, value in usual.items()
    }
    goals = sum(one.is_goal for one in on_goal)
    wanted = min(max(goals, 0.5), len(on_goal) - 0.5)
    factor = _odds_factor(tuple(raw.values()), wanted) if len(on_goal) > 1 else 1.0
    chances = {name: _scaled(value, factor) for name, value in raw.items()}
    most = 2 * sum(name in known for name in raw) > len(raw)
    return Expectation(chances, factor, ENGINE_SOURCE if most else PUBLISHED_SOURCE)


def _inside(chance: float) -> float:
    return min(max(chance, 1e-4), 1.0 - 1e-4)


def _scaled(chance: float, factor: float) -> float:
    odds = factor * chance / (1.0 - chance)
    return odds / (1.0 + odds)


def _odds_factor(chances: Sequence[float], wanted: float) -> float:
    """Return the factor on the odds that makes the sum ``wanted``; the sum grows with it."""
    low, high = -20.0, 20.0
    for _ in range(80):
        middle = (low + high) / 2.0
        total = sum(_scaled(one, math.exp(middle)) for one in chances)
        if total < wanted:
            low = middle
        else:
            high = middle
    return math.exp((low + high) / 2.0)
