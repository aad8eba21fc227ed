"""The timed tests of one goaltender: what to set up, how to time, and what the laws predict.

A watch runs from her first motion to the stop with the blades still (or, down, to the seal), so
neither reaction nor settling is in it. Distances are those of the point midway between her
skates.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from tendline.base import Constant, InputError, assumed, require_number
from tendline.motion.catalogue import Move, move, require_age
from tendline.motion.kinds import MoveKind
from tendline.motion.parameters import MotionParameters


class TimedTestKind(StrEnum):
    """One timed test, by what she does."""

    SHUFFLE = "shuffle post to post and back"
    PUSH = "T-push post to post and back"
    LONG_PUSH = "long T-push and back"
    OUT = "out on the line"
    BACK = "back on the line"
    FORWARD_PUSH = "post to crease top"
    SLIDE = "butterfly slide across"
    KNEES = "butterfly push and back"
    RECOVERY = "drop and full recovery, three times"


def _distance(name: str, label: str, value: float) -> Constant:
    return assumed(f"motion.timed_test.{name}", label, value, "m", low=0.5, high=6.0)


DISTANCES: dict[TimedTestKind, Constant] = {
    TimedTestKind.SHUFFLE: _distance("shuffle", "timed shuffle, one way", 1.2),
    TimedTestKind.PUSH: _distance("push", "timed T-push, one way", 1.2),
    TimedTestKind.LONG_PUSH: _distance("long_push", "timed long T-push, one way", 2.8),
    TimedTestKind.OUT: _distance("out", "timed way out on the line", 1.5),
    TimedTestKind.BACK: _distance("back", "timed way back on the line", 1.5),
    TimedTestKind.FORWARD_PUSH: _distance("forward_push", "timed push from post to top", 1.6),
    TimedTestKind.SLIDE: _distance("slide", "timed butterfly slide", 1.2),
    TimedTestKind.KNEES: _distance("knees", "timed butterfly push, one way", 1.0),
}

DROPS_IN_A_ROW = 3
"""Drops and recoveries in the recovery test, as its name says."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedTest:
    """Times [s] of one test, one entry per repetition.

    ``distance`` [m] one way if it was not the usual one. Raises ``InputError`` for no times, a
    time outside 0.1 to 60 s, or a distance where the test has none.
    """

    kind: TimedTestKind
    times: tuple[float, ...]
    distance: float | None = None

    def __post_init__(self) -> None:
        object.__setattr__(self, "times", tuple(self.times))
        if not self.times:
            raise InputError("a timed test needs at least one time", item=self.kind.value)
        for one in self.times:
            require_number("a time", one, low=0.1, high=60.0, unit="s", item=self.kind.value)
        if self.distance is not None:
            if self.kind not in DISTANCES:
                raise InputError("this test has no distance", came=f"{self.distance} m",
                                 item=self.kind.value)  # fmt: skip
            require_number("the distance", self.distance, low=0.3, high=6.0, unit="m",
                           item=self.kind.value)  # fmt: skip

    @property
    def way(self) -> float:
        """Return the distance one way [m]; 0 for a test on the spot."""
        if self.kind not in DISTANCES:
            return 0.0
        return DISTANCES[self.kind].value if self.distance is None else self.distance


_LEGS: dict[TimedTestKind, tuple[MoveKind, int]] = {
    TimedTestKind.SHUFFLE: (MoveKind.STEP_SHUFFLE, 2),
    TimedTestKind.PUSH: (MoveKind.T_PUSH, 2),
    TimedTestKind.LONG_PUSH: (MoveKind.T_PUSH, 2),
    TimedTestKind.OUT: (MoveKind.C_CUT_FORWARD, 1),
    TimedTestKind.BACK: (MoveKind.C_CUT_BACK, 1),
    TimedTestKind.FORWARD_PUSH: (MoveKind.FORWARD_PUSH, 1),
    TimedTestKind.SLIDE: (MoveKind.BUTTERFLY_SLIDE, 1),
    TimedTestKind.KNEES: (MoveKind.BUTTERFLY_PUSH, 2),
}


def predicted_time(test: TimedTest, parameters: MotionParameters) -> float:
    """Return the time [s] of one repetition of ``test`` by these parameters."""
    if test.kind is TimedTestKind.RECOVERY:
        return DROPS_IN_A_ROW * (parameters.drop + parameters.recovery)
    kind, legs = _LEGS[test.kind]
    law = parameters.law(kind)
    return legs * law.duration(test.way) - law.start_delay


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRow:
    """One row of the printed sheet; ``gives`` says which figures the test settles."""

    kind: TimedTestKind
    set_up: str
    how_to_time: str
    repetitions: int
    rest: str
    gives: str
    move: Move

    @property
    def name(self) -> str:
        """Return the name of the test."""
        return self.kind.value


CAUTIONS = (
    "Warm up first, off the ice and on it; new or hard moves never come cold.",
    "Stop the test when form breaks or when something hurts; pain is for a doctor, not the clock.",
    "Rest fully between repetitions; a tired time says nothing about her speed.",
    "Compare her with herself on the same ice. Never read children's times out as a ranking.",
    "In a growth spurt keep drops and hard stops few, or leave those tests out.",
)
"""Printed on every sheet of timed tests (common practice)."""

HOW_TO_FILM = (
    "A phone on a stick at rink side, 60 pictures a second: count the pictures from first motion "
    "to still blades. A stopwatch by hand does too; take one more repetition then."
)

_STILL = "Start: her first motion. Stop: both blades still."
_REST = "20 to 40 s, until her breath is calm"


def _row(
    kind: TimedTestKind, set_up: str, how: str, repetitions: int, gives: str, move_kind: MoveKind
) -> SheetRow:
    return SheetRow(
        kind=kind, set_up=set_up, how_to_time=how, repetitions=repetitions, rest=_REST,
        gives=gives, move=move(move_kind),
    )  # fmt: skip


TEST_SHEET: tuple[SheetRow, ...] = (
    _row(TimedTestKind.SHUFFLE,
         "In front of the goal line, outer skate on one post. Shuffle until the other skate "
         "touches the other post, stop, shuffle back.",
         _STILL, 4, "shuffle pace", MoveKind.STEP_SHUFFLE),
    _row(TimedTestKind.PUSH,
         "As for the shuffle, but one T-push across, a full stop, one T-push back.",
         _STILL, 4, "start of her pushes", MoveKind.T_PUSH),
    _row(TimedTestKind.LONG_PUSH,
         "Two marks 2.8 m apart, facing the far net: one T-push to the second mark, full stop, "
         "one back.",
         _STILL, 4, "top speed of her pushes", MoveKind.T_PUSH),
    _row(TimedTestKind.OUT,
         "From a mark 1.5 m nearer the goal to a mark above the crease top, straight out, C-cuts.",
         _STILL, 4, "pace out on the line", MoveKind.C_CUT_FORWARD),
    _row(TimedTestKind.BACK,
         "The same two marks, straight back, C-cuts.",
         _STILL, 4, "pace back on the line", MoveKind.C_CUT_BACK),
    _row(TimedTestKind.FORWARD_PUSH,
         "Skate against a post, facing the far net; one push to the crease top and stop.",
         _STILL, 4, "pace of the forward push", MoveKind.FORWARD_PUSH),
    _row(TimedTestKind.SLIDE,
         "Set in front of one post; slide in the butterfly until the lead pad is at the other.",
         "Start: her first motion. Stop: pads closed and still.", 3, "pace of the slide",
         MoveKind.BUTTERFLY_SLIDE),
    _row(TimedTestKind.KNEES,
         "Already down between two marks 1 m apart: one butterfly push across, one back.",
         "Start: far leg leaves the ice. Stop: pads closed and still.", 3,
         "pace on the knees", MoveKind.BUTTERFLY_PUSH),
    _row(TimedTestKind.RECOVERY,
         "Set on the spot: drop to the butterfly and come up to set feet, three times, without "
         "travelling.",
         "Start: knees leave the stance. Stop: set on her feet the third time.", 3,
         "time to recover", MoveKind.FULL_RECOVERY),
)  # fmt: skip


def sheet_for(age: float) -> tuple[SheetRow, ...]:
    """Return the rows whose move is usually taught by ``age`` [years], in the order to run them.

    Raises ``InputError`` for an age that nobody has.
    """
    age = require_age(age)
    return tuple(row for row in TEST_SHEET if row.move.age.age is None or age >= row.move.age.age)


TIMED_TEST_CONSTANTS: tuple[Constant, ...] = tuple(DISTANCES.values())
