"""One person's data: all of it out as plain JSON, or all of it gone.

Erasing keeps the games' counts but nothing that leads to her: her id becomes a nameless one (a new
one for each game), notes about her and the words of ratings of her goals are dropped, and her file,
settings and refusals are deleted. Backups made before still hold her; their names are given so
that they can be deleted too.
"""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, delete, insert, select, update

from tendline.base import NotFoundError
from tendline.log import event_to_dict
from tendline.store.backup import backups_of
from tendline.store.documents import plain
from tendline.store.store import Store
from tendline.store.tables import (
    erasing,
    events,
    notes,
    people,
    practices,
    refusals,
    settings,
    teams,
)

NAMELESS = "someone"


@dataclass(frozen=True, slots=True, kw_only=True)
class Erased:
    """What erasing a person did, and which older copies still hold her."""

    person: str
    games: int
    notes: int
    backups: tuple[Path, ...]

    @property
    def words(self) -> str:
        """Return it in two sentences."""
        text = (
            f"Her file, {self.notes} notes and her settings are gone; {self.games} games keep "
            "their counts without her name."
        )
        if self.backups:
            text += (
                f" {len(self.backups)} older backups still hold her data: delete them when you no "
                "longer need them."
            )
        return text


def export_person(store: Store, person: str) -> dict[str, Any]:
    """Return everything kept about one person as plain JSON values.

    Her file, her settings, notes about her, refusals, her loads at practice, and of each game she
    played the events that are hers: nothing of another goaltender, no name of an opponent's
    player. Raises ``NotFoundError`` if nothing is kept under that id.
    """
    file = store.people.all().get(person)
    headers = store.games.headers(goaltender=person)
    written = store.notes.about(person)
    if file is None and not headers and not written:
        raise NotFoundError(
            "nothing is kept about a person of that id", came=person,
            allowed=", ".join(store.people.ids()),
        )  # fmt: skip
    return {
        "person": person,
        "file": file or {},
        "settings": store.choices.own_settings(person),
        "refusals": [plain(one) for one in store.choices.refusals(person)],
        "notes": [plain(one) for one in written],
        "practices": [
            {"day": one.day.isoformat(), "load": one.done["load"][person]}
            for one in store.practices.list()
            if person in one.done.get("load", {})
        ],
        "games": [_game(store, one.id, person) for one in headers],
    }


def erase_person(store: Store, person: str) -> Erased:
    """Erase one person for good and return what was done; cannot be undone.

    Raises ``NotFoundError`` if nothing is kept under that id.
    """
    headers = store.games.headers(goaltender=person)
    written = store.notes.about(person)
    if person not in store.people.ids() and not headers and not written:
        raise NotFoundError(
            "nothing is kept about a person of that id", came=person,
            allowed=", ".join(store.people.ids()),
        )  # fmt: skip
    hers = {one.id: _shot_ids(store, one.id, person) for one in headers}
    with store.database.writing() as connection:
        connection.execute(insert(erasing).values(person=person))
        for game, shots in hers.items():
            _nameless(connection, game, person, shots)
        for table, column in ((notes, notes.c.about), (refusals, refusals.c.goaltender),
                              (settings, settings.c.whose), (people, people.c.id)):  # fmt: skip
            connection.execute(delete(table).where(column == person))
        _from_practices(connection, person)
        _from_teams(connection, person)
        connection.execute(delete(erasing))
    store.database.tidy()
    return Erased(
        person=person,
        games=len(headers),
        notes=len(written),
        backups=tuple(one.path for one in backups_of(store.path)),
    )


def _game(store: Store, game: str, person: str) -> dict[str, Any]:
    played = store.games.game(game)
    shots = _shot_ids(store, game, person)
    kept = [
        event_to_dict(one)
        for one in store.games.events(game)
        if one.id in shots
        or getattr(one, "shot", "") in shots
        or getattr(one, "goaltender", "") == person
        or getattr(one, "about", "") == person
    ]
    for one in kept:
        one.get("context", {}).pop("shooter", None)
    return {
        "id": game,
        "day": played.day.isoformat(),
        "team": played.team,
        "opponent": played.opponent,
        "events": kept,
    }


def _shot_ids(store: Store, game: str, person: str) -> frozenset[str]:
    return frozenset(one.id for one in store.games.game(game).shots_of(person))


def _nameless(connection: Connection, game: str, person: str, shots: frozenset[str]) -> None:
    alias = f"{NAMELESS}-{secrets.token_hex(4)}"
    rows = connection.execute(
        select(events.c.number, events.c.kind, events.c.document, events.c.goaltender).where(
            events.c.game == game
        )
    ).all()
    for number, kind, document, goaltender in rows:
        if kind == "note" and document.get("about") == person:
            connection.execute(delete(events).where(events.c.number == number))
            continue
        fresh = _without(document, person, alias, shots)
        if fresh != document:
            connection.execute(
                update(events)
                .where(events.c.number == number)
                .values(document=fresh, goaltender=alias if goaltender == person else goaltender)
            )


def _without(
    document: Mapping[str, Any], person: str, alias: str, shots: frozenset[str]
) -> dict[str, Any]:
    fresh = dict(document)
    if fresh.get("goaltender") == person:
        fresh["goaltender"] = alias
    if fresh.get("kind") == "rating" and fresh.get("shot") in shots:
        fresh.pop("text", None)
    return fresh


def _from_practices(connection: Connection, person: str) -> None:
    rows = connection.execute(select(practices.c.id, practices.c.document)).all()
    for name, document in rows:
        fresh = _scrubbed(document, person)
        if fresh != document:
            connection.execute(
                update(practices).where(practices.c.id == name).values(document=fresh)
            )


def _scrubbed(value: Any, person: str) -> Any:
    """Return JSON values without entries keyed by or naming the person."""
    if isinstance(value, dict):
        return {
            key: _scrubbed(one, person)
            for key, one in value.items()
            if key != person and one != person
        }
    if isinstance(value, list):
        return [_scrubbed(one, person) for one in value if one != person]
    return value


def _from_teams(connection: Connection, person: str) -> None:
    rows = connection.execute(select(teams.c.id, teams.c.document)).all()
    for name, document in rows:
        members = [one for one in document.get("goaltenders", ()) if one != person]
        if members != document.get("goaltenders"):
            fresh = {**document, "goaltenders": members}
            connection.execute(update(teams).where(teams.c.id == name).values(document=fresh))
