"""A game as append-only events. Nothing is ever changed: an undo is an event too.

Each event carries an ``id`` made by the device that recorded it, so that sending it twice counts
once, and ``made_at``, when that device recorded it (for people; replay does not order by it).
Lengths in metres, times in seconds since the start of the period.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime

from tendline.base import (
    InputError,
    Level,
    ScoringSituation,
    ShotResult,
    ShotType,
    Side,
    require_number,
)
from tendline.ice import IceFormat, RuleSet
from tendline.log.vocabulary import (
    Cause,
    Frame,
    Grade,
    NoteKind,
    Readiness,
    RinkEnd,
    Strength,
)

ID_PATTERN = re.compile(r"[A-Za-z0-9_.:-]{1,64}")
LONGEST_TEXT = 4000
FURTHEST = 100.0
"""Coordinates beyond this many metres are never a place on a rink; a finer check follows."""


def check_id(value: str, what: str = "the event's id") -> str:
    """Return a usable id, or raise ``InputError``."""
    if not isinstance(value, str) or not ID_PATTERN.fullmatch(value):
        raise InputError(
            f"{what} cannot be used",
            came=repr(value)[:80],
            allowed="1 to 64 letters, digits, dots, dashes, colons or underscores",
        )
    return value


def check_text(value: str, what: str) -> str:
    """Return text of bearable length, or raise ``InputError``."""
    if len(value) > LONGEST_TEXT:
        raise InputError(
            f"{what} is too long",
            came=f"{len(value)} characters",
            allowed=f"up to {LONGEST_TEXT}",
        )
    return value


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """What all events share."""

    id: str
    made_at: datetime | None = None

    def __post_init__(self) -> None:
        check_id(self.id)
        if self.made_at is not None and self.made_at.tzinfo is None:
            raise InputError(
                "the time of an event needs its time zone",
                came=str(self.made_at),
                allowed="a time with an offset, such as 2026-11-25T18:00:00+01:00",
                item=self.id,
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class GameSetUp(Event):
    """The game before the first face-off.

    ``first_end``: the end of the whole-rink picture that our goaltender defends in period 1;
    ``ends_switch``: whether teams change ends after every period. ``period_length`` in seconds.
    ``goaltender``: id of the person who starts in our net.
    """

    day: date
    team: str
    opponent: str
    goaltender: str
    level: Level = Level.ADULT
    rule_set: RuleSet = RuleSet.NHL
    ice_format: IceFormat = IceFormat.FULL
    first_end: RinkEnd = RinkEnd.NEAR
    ends_switch: bool = True
    periods: int = 3
    period_length: float = 1200.0
    at_home: bool | None = None

    def __post_init__(self) -> None:
        Event.__post_init__(self)
        check_id(self.goaltender, "the goaltender's id")
        check_text(self.team, "the team's name")
        check_text(self.opponent, "the opponent's name")
        require_number("periods", self.periods, low=1, high=9, unit="", item=self.id)
        require_number(
            "length of a period", self.period_length, low=60, high=7200, unit="s", item=self.id
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class PeriodStart(Event):
    """A period begins; ends change by the set-up's rule unless ``defended_end`` says otherwise."""

    period: int
    defended_end: RinkEnd | None = None

    def __post_init__(self) -> None:
        Event.__post_init__(self)
        require_number("period", self.period, low=1, high=20, unit="", item=self.id)


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """What is known of the play around a shot; everything may be left out.

    Places (``pass_x`` ... ``goaltender_y``) are in the frame of the shot they belong to.
    ``since_*``: seconds before the release. ``attackers`` and ``defenders``: numbers of the rush.
    """

    readiness: Readiness | None = None
    screened: bool | None = None
    one_timer: bool | None = None
    crossed_middle: bool | None = None
    off_rush: bool | None = None
    pass_x: float | None = None
    pass_y: float | None = None
    since_pass: float | None = None
    since_entry: float | None = None
    since_shot: float | None = None
    attackers: int | None = None
    defenders: int | None = None
    goaltender_x: float | None = None
    goaltender_y: float | None = None
    shooter: str = ""
    shooter_hand: Side | None = None
    strength: Strength | None = None
    empty_net: bool = False
    penalty_shot: bool = False

    def __post_init__(self) -> None:
        for name in ("pass_x", "pass_y", "goaltender_x", "goaltender_y"):
            value = getattr(self, name)
            if value is not None:
                require_number(name, value, low=-FURTHEST, high=FURTHEST, unit="m")
        for name in ("since_pass", "since_entry", "since_shot"):
            value = getattr(self, name)
            if value is not None:
                require_number(name, value, low=0, high=7200, unit="s")
        for name in ("attackers", "defenders"):
            value = getattr(self, name)
            if value is not None:
                require_number(name, value, low=0, high=6, unit="")
        check_text(self.shooter, "the shooter")


NO_CONTEXT = Context()


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotTaken(Event):
    """A shot at our net: tapped on the ice (``x``, ``y`` in ``frame``) and judged.

    ``target_y``, ``target_z``: where it crossed the goal mouth [m], +y to her left. ``period``
    and ``elapsed`` may be left out: then the period running in the log counts.
    """

    x: float
    y: float
    result: ShotResult
    frame: Frame = Frame.RINK
    situation: ScoringSituation | None = None
    shot_type: ShotType | None = None
    target_y: float | None = None
    target_z: float | None = None
    period: int | None = None
    elapsed: float | None = None
    context: Context = NO_CONTEXT

    def __post_init__(self) -> None:
        Event.__post_init__(self)
        for name, value in (("x", self.x), ("y", self.y)):
            require_number(name, value, low=-FURTHEST, high=FURTHEST, unit="m", item=self.id)
        for name, target in (("target_y", self.target_y), ("target_z", self.target_z)):
            if target is not None:
                require_number(name, target, low=-3, high=3, unit="m", item=self.id)
        _check_clock(self.period, self.elapsed, self.id)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotDetail(Event):
    """More about a shot logged earlier, said that night; what is None stays as it was."""

    shot: str
    result: ShotResult | None = None
    situation: ScoringSituation | None = None
    shot_type: ShotType | None = None
    target_y: float | None = None
    target_z: float | None = None
    readiness: Readiness | None = None
    screened: bool | None = None
    crossed_middle: bool | None = None
    goaltender_x: float | None = None
    goaltender_y: float | None = None
    frame: Frame = Frame.NET

    def __post_init__(self) -> None:
        Event.__post_init__(self)
        check_id(self.shot, "the shot's id")


@dataclass(frozen=True, slots=True, kw_only=True)
class GoaltenderChange(Event):
    """Another goaltender goes in (or none: ``goaltender`` is empty, the net is empty).

    Entered late? Give ``before``, the id of the first shot that is hers; or ``period`` and
    ``elapsed``: shots with a clock at or after it are hers too, wherever they stand in the log.
    """

    goaltender: str
    period: int | None = None
    elapsed: float | None = None
    before: str = ""

    def __post_init__(self) -> None:
        Event.__post_init__(self)
        if self.goaltender:
            check_id(self.goaltender, "the goaltender's id")
        if self.before:
            check_id(self.before, "the shot's id")
        _check_clock(self.period, self.elapsed, self.id)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChanceSeen(Event):
    """A chance that gave no shot at the net, or is worth a grade of its own."""

    x: float
    y: float
    frame: Frame = Frame.RINK
    grade: Grade = Grade.A
    situation: ScoringSituation | None = None
    text: str = ""
    period: int | None = None

    def __post_init__(self) -> None:
        Event.__post_init__(self)
        for name, value in (("x", self.x), ("y", self.y)):
            require_number(name, value, low=-FURTHEST, high=FURTHEST, unit="m", item=self.id)
        check_text(self.text, "the note")
        _check_clock(self.period, None, self.id)


@dataclass(frozen=True, slots=True, kw_only=True)
class GoalRating(Event):
    """A goal rated: 0 no chance, 1 an error, 2 hers alone; best done ``with_goaltender``.

    Scale: philmyretalkshockey.com, Mar 2013 (coach and goaltender rate together).
    """

    shot: str
    rating: int
    with_goaltender: bool = False
    cause: Cause | None = None
    text: str = ""

    def __post_init__(self) -> None:
        Event.__post_init__(self)
        check_id(self.shot, "the shot's id")
        if self.rating not in (0, 1, 2):
            raise InputError(
                "a goal is rated with one of three figures",
                came=repr(self.rating),
                allowed="0 (no chance), 1 (an error), 2 (the goaltender's alone)",
                item=self.shot,
            )
        check_text(self.text, "the note")


@dataclass(frozen=True, slots=True, kw_only=True)
class NoteTaken(Event):
    """A few words, about a goaltender, a shot or the opponent (``about`` may stay empty)."""

    text: str
    purpose: NoteKind = NoteKind.FREE
    about: str = ""

    def __post_init__(self) -> None:
        Event.__post_init__(self)
        check_text(self.text, "the note")
        if self.about:
            check_id(self.about, "what the note is about")


@dataclass(frozen=True, slots=True, kw_only=True)
class Undo(Event):
    """The named event does not count. Undoing an undo brings it back."""

    undoes: str

    def __post_init__(self) -> None:
        Event.__post_init__(self)
        check_id(self.undoes, "the id of the event to undo")


@dataclass(frozen=True, slots=True, kw_only=True)
class GameEnd(Event):
    """The game is over; ``elapsed`` [s] of the last period when it ended early or in overtime."""

    elapsed: float | None = None

    def __post_init__(self) -> None:
        Event.__post_init__(self)
        _check_clock(None, self.elapsed, self.id)


GameEvent = (
    GameSetUp
    | PeriodStart
    | ShotTaken
    | ShotDetail
    | GoaltenderChange
    | ChanceSeen
    | GoalRating
    | NoteTaken
    | Undo
    | GameEnd
)


def _check_clock(period: int | None, elapsed: float | None, item: str) -> None:
    if period is not None:
        require_number("period", period, low=1, high=20, unit="", item=item)
    if elapsed is not None:
        require_number("seconds into the period", elapsed, low=0, high=7200, unit="s", item=item)
