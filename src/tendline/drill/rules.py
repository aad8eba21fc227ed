"""The rules that concern a drill, with their limits, and who owns each limit.

Ids are those of the plan's validators, so that a drill's findings and a practice's checks name
the same rule. A coach may change every limit; a finding always says which one was used.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from tendline.base import (
    DEFAULT_SETTINGS,
    Constant,
    OriginKind,
    Settings,
    assumed,
    build,
    parameter,
)
from tendline.drill.constants import STAY_DOWN

_CP = OriginKind.PRACTICE
_WEAK = OriginKind.PUBLISHED_WEAK


class RuleLevel(StrEnum):
    """What breaking a rule means."""

    HARD = "stop"
    WARN = "warn"
    INFORM = "note"


ONE_PUCK = assumed(
    "drill.one_puck", "Another puck is not shot until this long after the save", 2.0, "s",
    low=0.0, high=6.0, kind=_WEAK,
    source="Columns on one puck at a time (Hockey Journal, 24 Oct 2011); the time is ours",
)  # fmt: skip
LEAST_GAP = assumed(
    "drill.least_gap", "Least time from release to release at one goaltender", 4.0, "s",
    low=1.0, high=12.0, kind=_WEAK,
    source="goaliereview.com, part four: 3 to 4 s called workable in line drills",
)  # fmt: skip
REBOUND_GAP = assumed(
    "drill.rebound_gap", "Least time between shots when the rebound is to be played", 6.0, "s",
    low=3.0, high=15.0, kind=_CP,
)  # fmt: skip
AFTER_PART = assumed(
    "drill.after_part", "Least time after a save to follow, play and recover", 2.0, "s",
    low=0.0, high=8.0, kind=_WEAK,
    source="USA Hockey Goaltending, news 1156979: time before, for and after the save; 2 s ours",
)  # fmt: skip
SIDE_TOLERANCE = assumed(
    "drill.side_tolerance", "Left and right may differ by", 0.10, "share", low=0.0, high=0.5,
    kind=_CP,
)  # fmt: skip
TURN_LIMIT = assumed(
    "drill.turn_limit", "Longest work in one turn", 45.0, "s", low=10.0, high=120.0, kind=_WEAK,
    source="USA Hockey affiliate goaltending sheet: turns of 30 to 45 s in puck handling",
)  # fmt: skip
REST_PER_WORK = assumed(
    "drill.rest_per_work", "Rest for every second of work, at least", 2.0, "s",
    low=0.0, high=8.0, kind=_CP,
)  # fmt: skip
YOUNG_MINUTES = assumed(
    "drill.young_minutes", "Longest drill for the young (to U11)", 6.0, "min", low=3.0, high=15.0,
    kind=_WEAK, source="USA Hockey goaltending sheets: 4 min at 10U, 5 min at 12U",
)  # fmt: skip
OLDER_MINUTES = assumed(
    "drill.older_minutes", "Longest drill for older ones", 12.0, "min", low=5.0, high=30.0,
    kind=_WEAK, source="Balanced team practices: about 5 activities of about 10 min",
)  # fmt: skip
YOUNG_DROPS = assumed(
    "drill.young_drops", "Drops in one U9 drill from which the card says so", 6.0, "count",
    low=0.0, high=60.0,
    note="No published limit was found; U9 teaching asks for no butterfly volume. Ours, a remark.",
)  # fmt: skip

FIRE_MARGIN = assumed(
    "drill.fire_margin", "Nobody stands this near to a line of fire beside the net", 1.5, "m",
    low=0.5, high=5.0,
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillLimits:
    """The limits in force; sight time depends on the level and comes with the run's world."""

    one_puck: float = parameter(ONE_PUCK)
    least_gap: float = parameter(LEAST_GAP)
    rebound_gap: float = parameter(REBOUND_GAP)
    after_part: float = parameter(AFTER_PART)
    side_tolerance: float = parameter(SIDE_TOLERANCE)
    turn_limit: float = parameter(TURN_LIMIT)
    rest_per_work: float = parameter(REST_PER_WORK)
    young_minutes: float = parameter(YOUNG_MINUTES)
    older_minutes: float = parameter(OLDER_MINUTES)
    young_drops: float = parameter(YOUNG_DROPS)
    fire_margin: float = parameter(FIRE_MARGIN)
    stay_down: float = parameter(STAY_DOWN)


def drill_limits(settings: Settings = DEFAULT_SETTINGS) -> DrillLimits:
    """Return the limits with the coach's settings."""
    return build(DrillLimits, settings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One rule: id, name, and where it comes from when no constant says so."""

    id: str
    name: str
    origin: str
    limit: Constant | None = None


RULES: tuple[Rule, ...] = (
    Rule(id="V1", name="set, on the line and sighted before every shot",
         origin="USA Hockey Goaltending; coaching columns; sight time by level"),
    Rule(id="V2", name="one puck at a time at one net",
         origin=ONE_PUCK.source, limit=ONE_PUCK),
    Rule(id="V3", name="time between shots at one goaltender", origin=LEAST_GAP.source,
         limit=LEAST_GAP),
    Rule(id="V4", name="time after the save to track, play and recover", origin=AFTER_PART.source,
         limit=AFTER_PART),
    Rule(id="V5", name="left and right alike", origin="common practice", limit=SIDE_TOLERANCE),
    Rule(id="V6", name="length of a turn, and rest", origin=TURN_LIMIT.source, limit=TURN_LIMIT),
    Rule(id="V10", name="a real choice that she is not told, from U11 up",
         origin="USA Hockey presentation on using the goaltender in practice"),
    Rule(id="V16", name="minutes of a drill by age", origin=YOUNG_MINUTES.source,
         limit=YOUNG_MINUTES),
    Rule(id="V18", name="U9: light puck, games and edges, no post technique, few drops",
         origin="USA Hockey 8U rules; Red Deer half-ice rules", limit=YOUNG_DROPS),
    Rule(id="V19", name="nobody in a line of fire, everything inside its ice",
         origin="common practice", limit=FIRE_MARGIN),
    Rule(id="V20", name="safety before the first repetition",
         origin="published club safety rules; common practice"),
    Rule(id="AGE", name="technique usual for the age",
         origin="catalogue of moves, ages in motion; never a limit"),
    Rule(id="AIM", name="an objective for everybody", origin="published practice sheets"),
)  # fmt: skip
BY_ID = {one.id: one for one in RULES}

SAFETY: tuple[str, ...] = (
    "Goal on its pegs; holes of a moved goal covered.",
    "Pucks out of the crease before each repetition; doors shut.",
    "Full equipment, mask on, neck protected, for everyone on the ice.",
    "Nobody shoots while she looks away; no head-high shots on purpose.",
    "Form breaks: stop the drill. Pain: stop, and let medical staff judge.",
)
"""Safety lines of every drill on ice. Origin: published club rules and facts, part J."""
SAFETY_OFF_ICE: tuple[str, ...] = (
    "Clear floor, shoes that grip, room to every side.",
    "Form breaks: stop the drill. Pain: stop, and let medical staff judge.",
)
SAFETY_U9 = "Light puck or ball at U9; everybody takes a turn in goal."


def safety_lines(*, on_ice: bool, youngest_u9: bool) -> tuple[str, ...]:
    """Return the safety lines that stand on a drill's card."""
    if not on_ice:
        return SAFETY_OFF_ICE
    return (*SAFETY, SAFETY_U9) if youngest_u9 else SAFETY
