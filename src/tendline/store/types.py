"""What the store keeps besides games, people and drills: small values, never rows."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any

from tendline.base import LengthUnit, Level
from tendline.ice import RuleSet


@dataclass(frozen=True, slots=True, kw_only=True)
class Club:
    """The club: its name, rule set, the unit it reads lengths in, and its season."""

    name: str
    rule_set: RuleSet = RuleSet.NHL
    unit: LengthUnit = LengthUnit.METRES
    season_start: date | None = None
    season_end: date | None = None
    cautions: tuple[str, ...] = ()
    is_demo: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Team:
    """A team; ``goaltenders`` are ids of people."""

    id: str
    name: str
    level: Level
    goaltenders: tuple[str, ...] = ()
    skaters: int = 0
    helpers: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class GameHeader:
    """One line of the list of games. ``goaltenders`` in order of appearance in the log."""

    id: str
    day: date
    team: str
    opponent: str
    level: Level
    goaltenders: tuple[str, ...]
    events: int
    ended: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """A few words kept outside a game, for example after practice; ``about``: a person's id."""

    id: str
    day: date
    about: str
    kind: str
    text: str
    practice: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Practice:
    """A practice: its sheet as a JSON document, and what was really done."""

    id: str
    day: date
    team: str
    sheet: dict[str, Any] = field(default_factory=dict)
    done: dict[str, Any] = field(default_factory=dict)
    saved_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """A theme the coach did not want for this goaltender, and why."""

    id: str
    day: date
    goaltender: str
    theme: str
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnDrill:
    """A drill of the coach's own: its script as he wrote it."""

    id: str
    name: str
    script: str
    saved_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A drill script that is still being written; ``drill`` is what it started from ('' if new).

    The script may have faults. ``counter`` grows with every change, so that of two windows the
    older one cannot overwrite the newer.
    """

    id: str
    drill: str
    script: str
    counter: int
    saved_at: datetime | None = None
