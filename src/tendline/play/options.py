"""The kinds of option an attack has, and an option made ready for the computation."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from tendline.base import ShotType
from tendline.play.lanes import Point


class OptionKind(StrEnum):
    """The kinds of option, as switches and habits name them."""

    SHOOT = "shoot now"
    ONE_TIMER = "pass and one-time"
    SETTLE = "pass, settle and shoot"
    CARRY = "carry across"
    COME_IN = "come in and shoot"
    DEKE = "go round her"
    TIP = "tip"
    NET_DRIVE = "drive the net"
    POINT_SHOT = "pass to the point"
    TRAILER = "drop to the trailer"
    LOW_PASS = "pass out to the low slot"
    HIGH_PASS = "pass out to the high slot"
    WALK_OUT = "walk out"
    WRAP = "wraparound"

    @property
    def is_pass(self) -> bool:
        """Return whether the puck goes from one attacker to another."""
        return self in PASSES


PASSES = frozenset(
    {
        OptionKind.ONE_TIMER, OptionKind.SETTLE, OptionKind.POINT_SHOT, OptionKind.TRAILER,
        OptionKind.LOW_PASS, OptionKind.HIGH_PASS,
    }
)  # fmt: skip
"""Everything that sends the puck to another attacker who then shoots."""

COMING_IN = (OptionKind.DEKE, OptionKind.COME_IN)
"""What a carrier who comes in may do near her."""

_WORDS = {
    OptionKind.SHOOT: ("shoot now", "shot"),
    OptionKind.ONE_TIMER: ("pass to {to}, one-timer", "{to} one-timer"),
    OptionKind.SETTLE: ("pass to {to}, who settles it and shoots", "{to} settles"),
    OptionKind.CARRY: ("carry it across to her {to}", "across, {to}"),
    OptionKind.COME_IN: ("come in and shoot", "come in"),
    OptionKind.DEKE: ("go round her", "go round her"),
    OptionKind.TIP: ("shoot for {to} to tip", "{to} tips"),
    OptionKind.NET_DRIVE: ("drive the net across to her {to}", "net drive"),
    OptionKind.POINT_SHOT: ("pass to {to} at the point, who shoots", "{to} from the point"),
    OptionKind.TRAILER: ("drop it to {to}, trailing, who shoots in stride", "{to} trailing"),
    OptionKind.LOW_PASS: ("pass out to {to} in the low slot", "{to} low"),
    OptionKind.HIGH_PASS: ("pass out to {to} in the high slot", "{to} high"),
    OptionKind.WALK_OUT: ("walk out in front on her {to}", "walk-out, {to}"),
    OptionKind.WRAP: ("wrap it in at her {to} post", "wrap, {to}"),
}


@dataclass(frozen=True, slots=True)
class Option:
    """One option: its kind and, where it has one, to whom or to which side of hers."""

    kind: OptionKind
    to: str = ""

    @property
    def key(self) -> str:
        """Return a text that names the option within a situation."""
        return f"{self.kind.value}: {self.to}" if self.to else self.kind.value

    @property
    def words(self) -> str:
        """Return the option in a coach's words."""
        return _WORDS[self.kind][0].format(to=self.to)

    @property
    def short(self) -> str:
        """Return a label short enough for a curve."""
        return _WORDS[self.kind][1].format(to=self.to)


@dataclass(frozen=True, slots=True, kw_only=True)
class Threat:
    """An option made ready for the computation.

    ``release`` [m] is where the shot leaves; ``time`` [s] runs from the first sign she can see
    (``cue``, in words) to the release, 0 for a shot that she is set for; ``wrong_foot`` [s] is
    what a feint adds to her reaction. ``comes_off`` is the chance that the shot is taken at all:
    ``lane`` (nobody cuts it), ``struck`` (he masters it), ``unblocked`` (no skater blocks it).
    ``length`` [m] and ``puck_speed`` [m/s] belong to the pass or the carry; ``shooter`` is who
    shoots.
    """

    option: Option
    release: Point
    time: float
    shot_type: ShotType
    speed: float
    lane: float
    struck: float
    unblocked: float
    shooter: str
    wrong_foot: float = 0.0
    length: float = 0.0
    puck_speed: float = 0.0
    cue: str = ""

    @property
    def comes_off(self) -> float:
        """Return the chance that the option ends in a shot."""
        return self.lane * self.struck * self.unblocked
