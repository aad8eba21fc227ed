"""The goaltender's file: as little as serves her coaching, nothing medical.

A display name or initials, a year of birth (no date), the hand, statures, teams, timed tests,
rating forms, a focus plan, what to leave out in practice, and who consented to what. Whole files
are values; changing one makes a new one.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date
from enum import StrEnum

from tendline.base import InputError, Level, Sex, Side, require_number
from tendline.motion import TimedTest
from tendline.people.focus import FocusPlan
from tendline.people.rating import RatingForm


class LeaveOut(StrEnum):
    """What a restriction may ask to leave out of her practice."""

    BUTTERFLY = "butterfly"
    SLIDES = "slides"
    GETTING_UP = "getting up"
    POST_PLAY = "post play"
    LONG_PUSHES = "long pushes"
    SHOTS = "shots"


class SaidBy(StrEnum):
    """Who asked for a restriction or gave consent."""

    HERSELF = "herself"
    PARENT = "parent or guardian"
    DOCTOR = "doctor"
    THERAPIST = "therapist"
    COACH = "coach"


@dataclass(frozen=True, slots=True, kw_only=True)
class Restriction:
    """Moves to leave out from a day on, until a day or until lifted.

    There is no place for a reason: what is wrong with her is no business of the tool.
    """

    begins: date
    leave_out: frozenset[LeaveOut]
    said_by: SaidBy
    ends: date | None = None

    def __post_init__(self) -> None:
        object.__setattr__(self, "leave_out", frozenset(LeaveOut(one) for one in self.leave_out))
        if not self.leave_out:
            raise InputError("a restriction names what to leave out",
                             allowed=", ".join(one.value for one in LeaveOut))  # fmt: skip
        if self.ends is not None and self.ends < self.begins:
            raise InputError("a restriction cannot end before it begins",
                             came=f"{self.begins} to {self.ends}")  # fmt: skip

    def holds_on(self, day: date) -> bool:
        """Return whether it is in force on ``day`` (last day included)."""
        return self.begins <= day and (self.ends is None or day <= self.ends)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stature:
    """Her height [m] without skates on a day; ``day`` None where nobody noted it."""

    metres: float
    day: date | None = None

    def __post_init__(self) -> None:
        require_number("stature", self.metres, low=0.9, high=2.2, unit="m")


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedDay:
    """Timed tests of one day; ``ice`` says where, so that times stay comparable."""

    day: date
    tests: tuple[TimedTest, ...]
    ice: str = ""


class ConsentItem(StrEnum):
    """What somebody may consent to."""

    FILE = "keeping this file"
    FILM = "film of her"
    REPORTS = "reports to the head coach"


@dataclass(frozen=True, slots=True, kw_only=True)
class Consent:
    """Who consented to what, and when."""

    day: date
    given_by: SaidBy
    items: frozenset[ConsentItem]

    def __post_init__(self) -> None:
        object.__setattr__(self, "items", frozenset(ConsentItem(one) for one in self.items))


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """A process goal: something she does, counted; never a result such as a save percentage."""

    words: str
    target: int
    done: int = 0
    until: date | None = None

    def __post_init__(self) -> None:
        if not self.words.strip():
            raise InputError("an aim says what she does")
        require_number("the target", self.target, low=1, high=10000, unit="times", item=self.words)
        require_number("the count", self.done, low=0, high=100000, unit="times", item=self.words)


MOST_AIMS = 2
"""Aims at one time: more are not followed (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GoaltenderFile:
    """One goaltender. ``level`` None means the class of her age.

    Raises ``InputError`` for an empty id or name, a year of birth that cannot be, or more aims
    than :data:`MOST_AIMS`.
    """

    id: str
    display_name: str
    catching_hand: Side = Side.LEFT
    birth_year: int | None = None
    sex: Sex | None = None
    level: Level | None = None
    teams: tuple[str, ...] = ()
    statures: tuple[Stature, ...] = ()
    timed_days: tuple[TimedDay, ...] = ()
    forms: tuple[RatingForm, ...] = ()
    focus: FocusPlan = field(default_factory=FocusPlan)
    restrictions: tuple[Restriction, ...] = ()
    consents: tuple[Consent, ...] = ()
    aims: tuple[Aim, ...] = ()

    def __post_init__(self) -> None:
        for name in ("id", "display_name"):
            if not str(getattr(self, name)).strip():
                raise InputError(f"a goaltender's file needs a {name.replace('_', ' ')}",
                                 item=self.id)  # fmt: skip
        if self.birth_year is not None:
            require_number("year of birth", self.birth_year, low=1930, high=2030, unit="",
                           item=self.id)  # fmt: skip
        if len(self.aims) > MOST_AIMS:
            raise InputError("too many aims at one time", came=str(len(self.aims)),
                             allowed=f"at most {MOST_AIMS}", item=self.id,
                             hint="Finish or drop one first.")  # fmt: skip

    def with_stature(self, metres: float, day: date) -> GoaltenderFile:
        """Return the file with one more stature."""
        return replace(self, statures=(*self.statures, Stature(metres=metres, day=day)))

    def with_restriction(self, restriction: Restriction) -> GoaltenderFile:
        """Return the file with one more restriction."""
        return replace(self, restrictions=(*self.restrictions, restriction))

    def with_form(self, form: RatingForm) -> GoaltenderFile:
        """Return the file with one more rating form."""
        return replace(self, forms=(*self.forms, form))

    def with_tests(self, tests: TimedDay) -> GoaltenderFile:
        """Return the file with one more day of timed tests."""
        return replace(self, timed_days=(*self.timed_days, tests))
