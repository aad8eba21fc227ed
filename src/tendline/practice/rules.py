"""The rules of a practice plan, each with its name, default, level and origin."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import Constant
from tendline.drill.rules import BY_ID, SAFETY, RuleLevel
from tendline.practice import constants as c

_HARD, _WARN, _INFORM = RuleLevel.HARD, RuleLevel.WARN, RuleLevel.INFORM


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One rule: ``limit`` is the constant behind it, when it has one."""

    id: str
    name: str
    level: RuleLevel
    origin: str
    limit: Constant | None = None

    @property
    def label(self) -> str:
        """Return id and name, for example ``'V2, one puck for each net'``."""
        return f"{self.id}, {self.name}"


def _of_drill(rule: str, level: RuleLevel) -> Rule:
    """Return a rule that single drills are checked by too, under the same name and limit."""
    known = BY_ID[rule]
    return Rule(
        id=rule, name=known.name, level=level, origin=known.origin or "common practice",
        limit=known.limit,
    )  # fmt: skip


_RULES = (
    _of_drill("V1", _HARD),
    _of_drill("V2", _HARD),
    _of_drill("V3", _HARD),
    _of_drill("V4", _WARN),
    _of_drill("V5", _WARN),
    _of_drill("V6", _WARN),
    Rule(
        id="V7", name="goaltender block first, two drills", level=_WARN,
        origin=c.BLOCK_MINUTES.origin, limit=c.BLOCK_MINUTES,
    ),
    Rule(
        id="V8", name="warm-up order: movement, long clear shots, then closer plays",
        level=_WARN, origin="published columns on warming a goaltender up; common practice",
    ),
    _of_drill("V10", _WARN),
    Rule(
        id="V11", name="shots for each goaltender against her own games", level=_WARN,
        origin=c.SHOTS_OF_GAME.origin, limit=c.SHOTS_OF_GAME,
    ),
    Rule(
        id="V12", name="drops, hard stops, recoveries beside her own past", level=_INFORM,
        origin="no published limit for the young was found: shown, not judged",
    ),
    Rule(
        id="V13", name="no goaltender idle without a job", level=_WARN,
        origin=c.IDLE_LIMIT.origin, limit=c.IDLE_LIMIT,
    ),
    Rule(
        id="V14", name="equal shots between goaltenders", level=_WARN,
        origin=c.EQUAL_TOLERANCE.origin, limit=c.EQUAL_TOLERANCE,
    ),
    Rule(
        id="V15", name="segments, change-overs and water within the ice time", level=_HARD,
        origin=c.CHANGEOVER.origin, limit=c.CHANGEOVER,
    ),
    _of_drill("V16", _INFORM),
    Rule(
        id="V18", name="drills for the age", level=_HARD,
        origin="age rules of the associations (half ice, everyone in goal at U9); common practice",
    ),
    Rule(
        id="V19", name="drill and shooting lines stay inside the ice", level=_HARD,
        origin="common practice",
    ),
    Rule(
        id="V20", name="safety list read before the first drill", level=_HARD,
        origin=BY_ID["V20"].origin,
    ),
    Rule(
        id="V21", name="new technique in the first third", level=_INFORM, origin="common practice"
    ),
    Rule(
        id="V22", name="restrictions filter drills", level=_HARD, origin="common practice"
    ),
    Rule(
        id="net", name="a drill that needs a net has one", level=_HARD, origin="common practice"
    ),
    Rule(
        id="people", name="enough people to run the drill", level=_HARD, origin="common practice"
    ),
    Rule(
        id="goaltenders", name="the drill suits the number of goaltenders", level=_HARD,
        origin="common practice",
    ),
    Rule(
        id="refused", name="drills that you do not want stay out", level=_HARD,
        origin="set by the coach",
    ),
    Rule(
        id="block time", name="the two drills within the block's minutes", level=_HARD,
        origin=c.BLOCK_MINUTES.origin, limit=c.BLOCK_MINUTES,
    ),
    Rule(
        id="once", name="no drill twice in one practice", level=_HARD, origin="common practice"
    ),
)  # fmt: skip

RULES: dict[str, Rule] = {one.id: one for one in _RULES}
"""Every rule that the planner or the checker knows, by id."""

SAFETY_LIST: tuple[str, ...] = SAFETY
"""Read before the first drill; it stands on every sheet, as on every drill's card."""
