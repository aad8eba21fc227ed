"""The goaltenders of a club: their files, read and written; as little as possible is kept."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date

from tendline.base import InputError, Level, Side, unknown_name
from tendline.people import GoaltenderFile, level_on
from tendline.store import Store, Team


@dataclass(frozen=True, slots=True, kw_only=True)
class GoaltenderLine:
    """One goaltender in a list; ``games`` counts the logged ones."""

    id: str
    name: str
    level: str
    catches: str
    games: int


def file_of(store: Store, person: str) -> GoaltenderFile | None:
    """Return a goaltender's file, or None where none is kept (an imported game's, say)."""
    return store.people.file(person) if person in store.people.ids() else None


def known_file(store: Store, person: str) -> GoaltenderFile:
    """Return a goaltender's file; raises ``NotFoundError`` with the nearest name."""
    file = file_of(store, person)
    if file is None:
        raise unknown_name("goaltender", person, store.people.ids())
    return file


def save_goaltender(
    store: Store,
    person: str,
    *,
    day: date,
    name: str = "",
    level: Level | None = None,
    catching_hand: Side | None = None,
    stature: float | None = None,
    birth_year: int | None = None,
    team: str = "",
) -> GoaltenderFile:
    """Add a goaltender or change what is given of her; put her on a team if one is named.

    ``day``: when the stature was noted. Raises ``InputError`` for a short name with other than
    small letters, digits and dashes, or for a stature or year that cannot be.
    """
    if not re.fullmatch(r"[a-z0-9][a-z0-9-]{0,40}", person):
        raise InputError(
            "a short name is made of small letters, digits and dashes", came=f"'{person}'",
            allowed="for example ida or ida-2",
        )  # fmt: skip
    file = file_of(store, person) or GoaltenderFile(id=person, display_name=name or person)
    file = replace(
        file,
        display_name=name or file.display_name,
        level=level or file.level,
        catching_hand=catching_hand or file.catching_hand,
        birth_year=birth_year or file.birth_year,
    )
    if stature is not None:
        file = file.with_stature(stature, day)
    store.people.save_file(file)
    if team:
        _join(store, person, team, level_on(file, day))
    return file


def goaltenders(store: Store, day: date) -> tuple[GoaltenderLine, ...]:
    """Return every goaltender in the club's file."""
    return tuple(
        GoaltenderLine(
            id=one.id,
            name=one.display_name,
            level=level_on(one, day).value,
            catches=one.catching_hand.value,
            games=len(store.games.headers(goaltender=one.id)),
        )
        for one in store.people.files()
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
