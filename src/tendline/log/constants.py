"""The log's own figures: time windows that tell one scoring situation from another."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import assumed, parameter

REBOUND_WITHIN = assumed(
    "log.rebound_within", "a shot this soon after the last one is a rebound", 3.0, "s",
    low=1.0, high=5.0, note="window used by the open event tables too",
)  # fmt: skip
PASS_WITHIN = assumed(
    "log.pass_within", "a pass this long before the shot still belongs to it", 3.0, "s",
    low=0.5, high=5.0, note="window used by the open event tables too",
)  # fmt: skip
ENTRY_WITHIN = assumed(
    "log.entry_within", "a shot this soon after crossing the blue line is off the entry", 6.0, "s",
    low=3.0, high=10.0, note="window used by the open event tables too",
)  # fmt: skip
NET_DRIVE_WITHIN = assumed(
    "log.net_drive_within", "a carried puck shot this near the goal is a net drive", 4.0, "m",
    low=2.0, high=6.0,
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class SituationParameters:
    """Windows for working out the scoring situation of a shot."""

    rebound_within: float = parameter(REBOUND_WITHIN)
    pass_within: float = parameter(PASS_WITHIN)
    entry_within: float = parameter(ENTRY_WITHIN)
    net_drive_within: float = parameter(NET_DRIVE_WITHIN)


DEFAULT_WINDOWS = SituationParameters()

FEWEST_GOALS = assumed(
    "log.fewest_goals", "fewer goals than this say nothing about what to train", 5.0, "goals",
    low=3.0, high=20.0,
)  # fmt: skip
FEWEST_IN_THEME = assumed(
    "log.fewest_in_theme", "a theme needs at least this many goals behind it", 3.0, "goals",
    low=1.0, high=10.0,
)  # fmt: skip
CAUTION = assumed(
    "log.caution", "how strongly a theme's figure is pulled toward what its chances explain",
    4.0, "goals", low=1.0, high=20.0,
    note="weight of the prior: so many goals' worth of 'nothing special here'",
)  # fmt: skip
HARD_TO_EXPLAIN = assumed(
    "log.hard_to_explain", "said to be hard to explain by chance below", 0.05, "share",
    low=0.01, high=0.10,
)  # fmt: skip
COULD_BE_CHANCE = assumed(
    "log.could_be_chance", "said to be possibly chance from", 0.25, "share", low=0.10, high=0.50,
)  # fmt: skip
LEAST_EXCESS = assumed(
    "log.least_excess", "goals above the usual, after caution, before a theme counts as hers",
    0.5, "goals", low=0.1, high=3.0,
)  # fmt: skip
TOO_ORDINARY = assumed(
    "log.too_ordinary", "a theme that chance alone outdoes this often is not proposed", 0.8,
    "share", low=0.3, high=1.0,
)  # fmt: skip
SAME_GOALS = assumed(
    "log.same_goals", "a second theme may share this much of its goals with the first", 0.5,
    "share", low=0.0, high=1.0,
)  # fmt: skip
MANY_CHANCES = assumed(
    "log.many_chances", "chances the team gives up are named from this share of expected goals",
    0.25, "share", low=0.1, high=0.6,
)  # fmt: skip
CORRECTIVE_SHARE = assumed(
    "log.corrective_share", "share of the goaltender's time for what games showed", 0.5, "share",
    low=0.0, high=1.0, note="the rest belongs to the stage's planned theme",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingParameters:
    """When a finding is said, how surely, and how much time it may take."""

    fewest_goals: float = parameter(FEWEST_GOALS)
    fewest_in_theme: float = parameter(FEWEST_IN_THEME)
    caution: float = parameter(CAUTION)
    least_excess: float = parameter(LEAST_EXCESS)
    hard_to_explain: float = parameter(HARD_TO_EXPLAIN)
    could_be_chance: float = parameter(COULD_BE_CHANCE)
    too_ordinary: float = parameter(TOO_ORDINARY)
    same_goals: float = parameter(SAME_GOALS)
    many_chances: float = parameter(MANY_CHANCES)
    corrective_share: float = parameter(CORRECTIVE_SHARE)


MOVING_DELAY = assumed(
    "log.moving_delay", "what being on the move at the release costs her save", 0.12, "s",
    low=0.03, high=0.30, note="the log says that she was moving, not how late she was",
)  # fmt: skip
SHOULD_STOP = assumed(
    "log.should_stop", "a goal whose chance was below this is put down to execution, or luck",
    0.08, "share", low=0.02, high=0.20,
)  # fmt: skip
MOSTLY = assumed(
    "log.mostly", "a cause with at least this share of a goal is named as the main one", 0.6,
    "share", low=0.4, high=0.9,
)  # fmt: skip
STAYED_NEAR = assumed(
    "log.stayed_near", "her place counts as one for the passer if this much nearer to his line",
    0.15, "m", low=0.05, high=0.5,
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class CauseParameters:
    """How the engine's chances are turned into causes."""

    moving_delay: float = parameter(MOVING_DELAY)
    should_stop: float = parameter(SHOULD_STOP)
    mostly: float = parameter(MOSTLY)
    stayed_near: float = parameter(STAYED_NEAR)
