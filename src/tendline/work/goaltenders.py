"""The goaltenders of a club: add, list, export, erase; as little as possible is kept."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Any

from tendline.base import InputError, Level, Side, require_number
from tendline.store import Store, Team

_LOW_STATURE, _HIGH_STATURE = 0.9, 2.2
_EARLIEST, _LATEST = 1920, 2100


@dataclass(frozen=True, slots=True, kw_only=True)
class GoaltenderLine:
    """One goaltender in a list; ``games`` counts the logged ones."""

    id: str
    name: str
    level: str
    catches: str
    games: int


def save_goaltender(
    store: Store,
    person: str,
    *,
    name: str = "",
    level: Level = Level.U18,
    catching_hand: Side = Side.LEFT,
    stature: float | None = None,
    birth_year: int | None = None,
    team: str = "",
) -> str:
    """Add a goaltender or change her, put her on a team if one is named; return her name.

    Raises ``InputError`` for a short name with other than letters, digits and dashes, or for a
    stature or year that cannot be.
    """
    if not re.fullmatch(r"[a-z0-9][a-z0-9-]{0,40}", person):
        raise InputError(
            "a short name is made of small letters, digits and dashes", came=f"'{person}'",
            allowed="for example ida or ida-2",
        )  # fmt: skip
    document: dict[str, Any] = {
        **(store.people.get(person) if person in store.people.ids() else {}),
        "id": person,
        "name": name or person,
        "level": level.value,
        "catching_hand": catching_hand.value,
    }
    if stature is not None:
        document["stature"] = require_number(
            "stature", stature, low=_LOW_STATURE, high=_HIGH_STATURE, unit="m", item=person
        )
    if birth_year is not None:
        document["birth_year"] = int(
            require_number(
                "year of birth", birth_year, low=_EARLIEST, high=_LATEST, unit="", item=person
            )
        )
    store.people.save(person, document)
    if team:
        _join(store, person, team, level)
    return str(document["name"])


def goaltenders(store: Store) -> tuple[GoaltenderLine, ...]:
    """Return every goaltender in the club's file."""
    return tuple(
        GoaltenderLine(
            id=one,
            name=str(file.get("name") or file.get("display_name") or one),
            level=str(file.get("level", "")),
            catches=str(file.get("catching_hand", "")),
            games=len(store.games.headers(goaltender=one)),
        )
        for one, file in store.people.all().items()
    )


def _join(store: Store, person: str, team: str, level: Level) -> None:
    for one in store.club.teams():
        if team in (one.id, one.name):
            if person not in one.goaltenders:
                store.club.save_team(replace(one, goaltenders=(*one.goaltenders, person)))
            return
    slug = re.sub(r"[^a-z0-9]+", "-", team.lower()).strip("-") or "team"
    store.club.save_team(
        Team(id=slug, name=team, level=level, goaltenders=(person,), skaters=15, helpers=1)
    )
