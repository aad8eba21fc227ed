"""The focus plan: what body and mind do by where the puck is, a cue word each, and parking.

The default table follows published pieces that agree on shape, not on words; the goaltender
chooses her own cue words.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from tendline.base import InputError


class FocusZone(StrEnum):
    """Where the puck is, for attention."""

    FAR = "beyond the red line"
    NEUTRAL = "red line to blue line"
    ENTRY = "crosses the blue line"
    PERIMETER = "in the zone, perimeter"
    DANGER = "danger area"
    WHISTLE = "whistle or goal"


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneFocus:
    """Body, mind and cue word for one zone."""

    zone: FocusZone
    body: str
    mind: str
    cue: str


DEFAULT_FOCUS: tuple[ZoneFocus, ...] = (
    ZoneFocus(zone=FocusZone.FAR, body="relaxed, middle of the crease, eyes on the play",
              mind="breathe, look for a stretched pass, talk", cue="rest"),
    ZoneFocus(zone=FocusZone.NEUTRAL, body="in the stance, call the numbers",
              mind="count attackers and defenders, see their hands", cue="count"),
    ZoneFocus(zone=FocusZone.ENTRY, body="one push out to depth", mind="anybody on the weak side?",
              cue="out"),
    ZoneFocus(zone=FocusZone.PERIMETER, body="on the line, quick looks off the puck",
              mind="who is open, where are the sticks", cue="look"),
    ZoneFocus(zone=FocusZone.DANGER, body="set and still", mind="puck only", cue="puck"),
    ZoneFocus(zone=FocusZone.WHISTLE, body="her routine, done before the next face-off",
              mind="notice it, park it, come back", cue="next"),
)  # fmt: skip

DEFAULT_PARKING: tuple[str, ...] = (
    "Name what disturbs you, in one word.",
    "Put it aside until after the game.",
    "Come back to something you can feel: feet, breath, posts.",
)
"""The parking routine (published and common practice)."""

LONGEST_CUE = 14
"""Letters of a cue word: short enough to say in one breath."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FocusPlan:
    """Zones in order from far to near, and the parking routine.

    Raises ``InputError`` for a zone given twice, a cue that is long or empty, or no parking step.
    """

    zones: tuple[ZoneFocus, ...] = DEFAULT_FOCUS
    parking: tuple[str, ...] = DEFAULT_PARKING

    def __post_init__(self) -> None:
        names = [one.zone for one in self.zones]
        if len(set(names)) != len(names):
            raise InputError("a zone stands twice in the focus plan",
                             came=", ".join(one.value for one in names))  # fmt: skip
        for one in self.zones:
            if not one.cue.strip() or len(one.cue) > LONGEST_CUE:
                raise InputError("a cue is one short word", came=f"'{one.cue}'",
                                 allowed=f"1 to {LONGEST_CUE} letters",
                                 item=one.zone.value)  # fmt: skip
        if not any(step.strip() for step in self.parking):
            raise InputError("a parking routine needs at least one step")

    def cue(self, zone: FocusZone) -> str:
        """Return the cue word for a zone, empty if the plan has none."""
        return next((one.cue for one in self.zones if one.zone is zone), "")

    def with_cue(self, zone: FocusZone, cue: str) -> FocusPlan:
        """Return the plan with her own word for a zone."""
        return replace(
            self,
            zones=tuple(replace(one, cue=cue) if one.zone is zone else one for one in self.zones),
        )
