"""Find drills by what is there: people, ice, nets, minutes, age, and by what they train.

A coach says what he has; a drill fits if it needs no more. When nothing fits, the answer says
which single condition to leave out, and what that would give.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from enum import StrEnum
from typing import TypeVar

from tendline.base import Level, ScoringSituation, unknown_name
from tendline.drill import Drill, search_drills
from tendline.drill.vocabulary import Family, IceUse, Theme
from tendline.ice import Rink, rink
from tendline.practice.adapter import ground_of
from tendline.practice.spaces import END_ZONE, FULL_ICE, HALF_ICE, PATCH_SIDE, spaces
from tendline.practice.types import Space
from tendline.store import Store
from tendline.work.drills import all_drills

E = TypeVar("E", bound=StrEnum)
OFF_ICE = IceUse.OFF_ICE.value
CROSS_ICE = IceUse.CROSS_ICE.value
PATCH = "a patch of ice"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What a coach has and wants; whatever is left empty is not asked about.

    Counts are how many there are; ``nets`` may be 0; ``minutes`` is how long there is;
    ``room`` names a piece of ice (see ``rooms``).
    """

    words: str = ""
    goaltenders: int | None = None
    skaters: int | None = None
    helpers: int | None = None
    room: str = ""
    nets: int | None = None
    minutes: float | None = None
    level: Level | None = None
    theme: Theme | None = None
    situation: ScoringSituation | None = None
    family: Family | None = None

    @property
    def asked(self) -> tuple[str, ...]:
        """Return the names of the conditions that are asked, in their order."""
        blank = Wish()
        return tuple(
            one.name for one in fields(self)
            if getattr(self, one.name) != getattr(blank, one.name)
        )  # fmt: skip

    def without(self, *names: str) -> Wish:
        """Return the wish with some conditions left out."""
        blank = Wish()
        return replace(self, **{name: getattr(blank, name) for name in names})

    def says(self, name: str) -> str:
        """Return one condition in a coach's words."""
        value = getattr(self, name)
        if name in _COUNTED:
            none, one, more = _COUNTED[name]
            return none if value == 0 else f"{value} {one if value == 1 else more}"
        if name == "minutes":
            return f"{value:g} minute{'' if value == 1 else 's'}"
        if name == "words":
            return f"the words '{value}'"
        said = str(getattr(value, "value", value))
        return {"level": f"age {said}", "theme": f"training {said}",
                "situation": f"the situation {said}"}.get(name, said)  # fmt: skip


_COUNTED = {
    "goaltenders": ("no goaltender", "goaltender", "goaltenders"),
    "skaters": ("no skater", "skater", "skaters"),
    "helpers": ("nobody to serve", "person to serve", "people to serve"),
    "nets": ("no net", "net", "nets"),
}


@dataclass(frozen=True, slots=True)
class Loosen:
    """Conditions to leave out so that something fits: their names, words, and what it gives."""

    names: tuple[str, ...]
    words: str
    count: int


@dataclass(frozen=True, slots=True)
class FoundDrills:
    """The drills that fit, of how many, and what to loosen if none does."""

    drills: tuple[Drill, ...]
    total: int
    loosen: tuple[Loosen, ...]


def named(kind: type[E], label: str, value: str) -> E | None:
    """Return the word of a vocabulary, None for ''; raises ``NotFoundError`` with the nearest."""
    if not value:
        return None
    try:
        return kind(value)
    except ValueError:
        raise unknown_name(label, value, [one.value for one in kind]) from None


def rooms(sheet: Rink) -> dict[str, Space | None]:
    """Return the pieces of ice that may be asked for, from much to little; None: no ice."""
    named = spaces(sheet)
    side = PATCH_SIDE.value
    return {
        FULL_ICE: named[FULL_ICE],
        HALF_ICE: named[HALF_ICE],
        CROSS_ICE: Space(name=CROSS_ICE, length=sheet.length / 3.0, width=sheet.width, nets=2),
        END_ZONE: named[END_ZONE],
        PATCH: Space(name=PATCH, length=side, width=side, nets=0),
        OFF_ICE: None,
    }


def find_drills(store: Store, wish: Wish) -> FoundDrills:
    """Return the drills of the club that fit a wish; raises ``NotFoundError`` (unknown room)."""
    every = all_drills(store)
    sheet = rink(store.club.get().rule_set)
    found = _fitting(every, wish, sheet)
    loosen = () if found else _loosen(every, wish, sheet)
    return FoundDrills(found, len(every), loosen)


def _fitting(drills: Sequence[Drill], wish: Wish, sheet: Rink) -> tuple[Drill, ...]:
    known = rooms(sheet)
    if wish.room and wish.room not in known:
        raise unknown_name("piece of ice", wish.room, known)
    found = search_drills(
        drills, words=wish.words, theme=wish.theme, situation=wish.situation,
        family=wish.family, level=wish.level, goaltenders=wish.goaltenders,
        skaters=wish.skaters, helpers=wish.helpers, minutes=wish.minutes, nets=wish.nets,
    )  # fmt: skip
    if not wish.room:
        return found
    return tuple(one for one in found if _fits_room(one, known[wish.room], sheet))


def _fits_room(drill: Drill, room: Space | None, sheet: Rink) -> bool:
    """Return whether the ice a drill really covers fits; off the ice only what needs no ice."""
    off_ice = drill.ice.use is IceUse.OFF_ICE
    if room is None or off_ice:
        return room is None and off_ice
    return room.holds(ground_of(drill, sheet))


def _loosen(drills: Sequence[Drill], wish: Wish, sheet: Rink) -> tuple[Loosen, ...]:
    """Return what to leave out, what gives most first: one condition, or two if one will not do."""
    asked = wish.asked
    singles = [(one,) for one in asked]
    pairs = [(a, b) for at, a in enumerate(asked) for b in asked[at + 1 :]]
    for groups in (singles, pairs):
        gives = [
            Loosen(names, " and ".join(wish.says(name) for name in names), count)
            for names in groups
            if (count := len(_fitting(drills, wish.without(*names), sheet)))
        ]
        if gives:
            return tuple(sorted(gives, key=lambda one: -one.count))
    return ()


def needs_of(drill: Drill) -> str:
    """Return what a drill needs in one line: people, ice, nets.

    >>> from tendline.drill import drill_by_id
    >>> needs_of(drill_by_id("L01"))
    '1 to 2 goaltenders, 2 to 6 skaters; end zone, 1 net'
    """
    many = "goaltender" if drill.goaltenders.high == 1 else "goaltenders"
    people = [f"{drill.goaltenders} {many}"]
    if drill.skaters.high:
        people.append(f"{drill.skaters} {'skater' if drill.skaters.high == 1 else 'skaters'}")
    if drill.helpers.high:
        people.append(f"{drill.helpers} to serve")
    place = drill.ice.use.value
    if drill.ice.length is not None and drill.ice.width is not None:
        place = f"{place} {drill.ice.length:g} x {drill.ice.width:g} m"
    if drill.ice.use is not IceUse.OFF_ICE:
        nets = {0: "no net", 1: "1 net"}.get(drill.nets, f"{drill.nets} nets")
        place = f"{place}, {nets}"
    return f"{', '.join(people)}; {place}"


def in_turns(drill: Drill, goaltenders: int | None) -> str:
    """Return what happens to goaltenders that a drill does not take at once; '' if it takes all."""
    if goaltenders is None or goaltenders <= drill.goaltenders.high:
        return ""
    most = drill.goaltenders.high
    return f"{most} at a time, {goaltenders - most} in turn"
