"""The limits of a practice and the weights of a plan, each with its origin.

What limits a single drill (release to release, after-part, sides, turns, longest minutes) lives in
:mod:`tendline.drill.rules` and is used from there. The limits here are those of published sheets,
of coaching columns or of common practice; no published limit on a young goaltender's shots or
drops was found, so none is set: the shot budget compares with her own games. The weights decide
between plans that all keep the rules; they are ours.
"""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import OriginKind, assumed, parameter
from tendline.drill.rules import (
    AFTER_PART,
    LEAST_GAP,
    OLDER_MINUTES,
    REST_PER_WORK,
    SIDE_TOLERANCE,
    TURN_LIMIT,
    YOUNG_MINUTES,
)

_PUBLISHED = OriginKind.PUBLISHED
_WEAK = OriginKind.PUBLISHED_WEAK
_PRACTICE = OriginKind.PRACTICE
_SEASON_PLAN = (
    "USA Hockey Goaltending, season plan: two drills, ten minutes, at the start of every practice"
)

BLOCK_MINUTES = assumed(
    "practice.block_minutes", "goaltender block", 10, "min", low=6, high=20,
    kind=_PUBLISHED, source=_SEASON_PLAN, note="others ask for 15 to 20 minutes",
)  # fmt: skip
CHANGEOVER = assumed(
    "practice.changeover", "change-over between segments", 45, "s", low=0, high=180, kind=_PRACTICE
)
IDLE_LIMIT = assumed(
    "practice.idle_limit", "longest wait of a goaltender without a job", 180, "s",
    low=30, high=600, kind=_PRACTICE,
)  # fmt: skip
EQUAL_TOLERANCE = assumed(
    "practice.equal_tolerance", "difference allowed between goaltenders' repetitions", 0.10,
    "ratio", low=0, high=1, kind=_PRACTICE, note="Saskatoon MHA evaluations end once equal",
)  # fmt: skip
SHOTS_OF_GAME = assumed(
    "practice.shots_of_game", "shots in a practice against her own game average", 1.25, "ratio",
    low=0.5, high=5, kind=_PRACTICE,
)  # fmt: skip
SHOTS_RED = assumed(
    "practice.shots_red", "shots in a practice that no plan passes", 150, "count",
    low=20, high=400, kind=_WEAK,
    source="goaliedevelopment.com: 150 and more in an unplanned practice",
    note="a count to stay away from, not a medical limit; the coach's own number replaces it",
)  # fmt: skip
YOUNG_SEGMENT_LOW = assumed(
    "practice.segment_low.young", "shortest segment, U9 and U11", 4, "min", low=2, high=20,
    kind=_PUBLISHED, source="USA Hockey Goaltending 10U and 12U sheets: 4 and 5 min a drill",
)  # fmt: skip
OLDER_SEGMENT_LOW = assumed(
    "practice.segment_low.older", "shortest segment, U13 and older", 5, "min", low=2, high=20,
    kind=_PRACTICE,
)  # fmt: skip
SETTLE_MINUTES = assumed(
    "practice.settle", "getting on the ice and first strides", 2, "min", low=0, high=10,
    kind=_PRACTICE,
)  # fmt: skip
WATER_MINUTES = assumed("practice.water", "water break", 2, "min", low=0, high=10, kind=_PRACTICE)
CLOSING_MINUTES = assumed(
    "practice.closing", "three questions at the end", 2, "min", low=0, high=10, kind=_PRACTICE
)
EXPLANATION = assumed(
    "practice.explanation", "longest explanation of one drill", 45, "s", low=15, high=180,
    kind=_PRACTICE,
)  # fmt: skip
NET_CHANGE = assumed(
    "practice.net_change", "goaltenders who share a net in a team drill change every", 90, "s",
    low=30, high=180, kind=_PRACTICE,
)  # fmt: skip
WEIGHT_TIME = assumed(
    "practice.weight.time", "points for each minute used", 10, "points", low=1, high=100
)
WEIGHT_NEED = assumed(
    "practice.weight.need", "points a minute for training what cost most", 60, "points",
    low=0, high=200, note="shared among the needs by their counts",
)  # fmt: skip
WEIGHT_STAGE = assumed(
    "practice.weight.stage", "points a minute for the season plan's theme", 40, "points",
    low=0, high=200,
)  # fmt: skip
WEIGHT_RECENT = assumed(
    "practice.weight.recent", "points a minute taken off a drill used lately", 15, "points",
    low=0, high=100,
)  # fmt: skip
WEIGHT_CHOICE = assumed(
    "practice.weight.choice", "points a minute for a drill whose carrier has a real choice", 8,
    "points", low=0, high=100,
)  # fmt: skip
WEIGHT_KEEP = assumed(
    "practice.weight.keep", "points a minute for a drill of the plan being changed", 30, "points",
    low=0, high=200,
)  # fmt: skip
WEIGHT_UNUSED = assumed(
    "practice.weight.unused", "points lost for each minute of ice left unused", 300, "points",
    low=0, high=2000,
)  # fmt: skip
WEIGHT_SHOT = assumed(
    "practice.weight.shot", "points lost for each shot above the budget from her own games", 30,
    "points", low=0, high=200,
    note="a shot too many for one goaltender weighs about as much as a net left out for a minute",
)  # fmt: skip
LOAD_OF_PAST = assumed(
    "practice.load_of_past", "each load of a practice against her own past mean", 1.5, "ratio",
    low=1, high=5, note="a practice much unlike her last ones surprises; not a medical limit",
)  # fmt: skip
LOAD_TOLERANCE = assumed(
    "practice.load_tolerance", "part above the usual load that is not worth a word", 0.05, "ratio",
    low=0, high=1,
)  # fmt: skip
MOVES_OF_GAME = assumed(
    "practice.moves_of_game", "drops, hard stops or recoveries for each shot of her games", 2.5,
    "ratio", low=0.5, high=10, note="only used while nobody on the roster has a past practice",
)  # fmt: skip
LONGEST_RHYTHM = assumed(
    "practice.longest_rhythm", "longest time from start to start against the drill's own", 2,
    "ratio", low=1, high=4, note="slower than this, skaters stand and the drill falls apart",
)  # fmt: skip
LONGEST_START = assumed(
    "practice.longest_start", "longest time from start to start at one net, when slowed down", 60,
    "s", low=15, high=180, note="a drill that is slower by itself stays as it is",
)  # fmt: skip
SITUATION_SHARE = assumed(
    "practice.situation_share", "worth of sharing a theme's situation against sharing the theme",
    0.4, "ratio", low=0, high=1,
)  # fmt: skip
TWICE = assumed(
    "practice.segments_per_theme", "segments that train each theme to correct", 2, "count",
    low=0, high=6,
)  # fmt: skip
WEIGHT_LOAD = assumed(
    "practice.weight.load", "points lost for each per cent above a goaltender's usual load", 12,
    "points", low=0, high=200, note="each load by itself, mean of the goaltenders",
)  # fmt: skip
WEIGHT_NET = assumed(
    "practice.weight.net", "points a minute lost for each net or station left out", 30, "points",
    low=0, high=100,
)  # fmt: skip
WEIGHT_RHYTHM = assumed(
    "practice.weight.rhythm", "points a minute lost when starts come half as often", 15, "points",
    low=0, high=100,
)  # fmt: skip
PENALTY = assumed(
    "practice.penalty", "points lost for breaking a rule that only warns", 600, "points",
    low=0, high=5000,
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class PracticeRules:
    """The limits in force, in the units of their constants."""

    block_minutes: float = parameter(BLOCK_MINUTES)
    changeover: float = parameter(CHANGEOVER)
    idle_limit: float = parameter(IDLE_LIMIT)
    release_gap: float = parameter(LEAST_GAP)
    after_part: float = parameter(AFTER_PART)
    side_tolerance: float = parameter(SIDE_TOLERANCE)
    equal_tolerance: float = parameter(EQUAL_TOLERANCE)
    turn_limit: float = parameter(TURN_LIMIT)
    rest_per_work: float = parameter(REST_PER_WORK)
    shots_of_game: float = parameter(SHOTS_OF_GAME)
    shots_red: float = parameter(SHOTS_RED)
    young_segment_low: float = parameter(YOUNG_SEGMENT_LOW)
    young_segment_high: float = parameter(YOUNG_MINUTES)
    older_segment_low: float = parameter(OLDER_SEGMENT_LOW)
    older_segment_high: float = parameter(OLDER_MINUTES)
    settle_minutes: float = parameter(SETTLE_MINUTES)
    water_minutes: float = parameter(WATER_MINUTES)
    closing_minutes: float = parameter(CLOSING_MINUTES)
    explanation: float = parameter(EXPLANATION)
    net_change: float = parameter(NET_CHANGE)
    load_of_past: float = parameter(LOAD_OF_PAST)
    load_tolerance: float = parameter(LOAD_TOLERANCE)
    moves_of_game: float = parameter(MOVES_OF_GAME)
    longest_rhythm: float = parameter(LONGEST_RHYTHM)
    longest_start: float = parameter(LONGEST_START)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanWeights:
    """Points that decide between plans which all keep the rules."""

    time: float = parameter(WEIGHT_TIME)
    need: float = parameter(WEIGHT_NEED)
    stage: float = parameter(WEIGHT_STAGE)
    recent: float = parameter(WEIGHT_RECENT)
    choice: float = parameter(WEIGHT_CHOICE)
    keep: float = parameter(WEIGHT_KEEP)
    unused: float = parameter(WEIGHT_UNUSED)
    shot: float = parameter(WEIGHT_SHOT)
    penalty: float = parameter(PENALTY)
    load: float = parameter(WEIGHT_LOAD)
    net: float = parameter(WEIGHT_NET)
    rhythm: float = parameter(WEIGHT_RHYTHM)
    situation_share: float = parameter(SITUATION_SHARE)
    segments_per_theme: float = parameter(TWICE)
