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
