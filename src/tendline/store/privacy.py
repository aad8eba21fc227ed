"""One person's data: all of it out as plain JSON, or all of it gone.

Erasing keeps the games' counts but nothing that leads to her: her id becomes a nameless one (a new
one for each game), notes about her and the words of ratings of her goals are dropped, her name is
taken out of every other text, and her file, settings and refusals are deleted. Backups made before
still hold her; their names are given so that they can be deleted too.
"""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, delete, insert, select, update

from tendline.base import NotFoundError
from tendline.log import event_to_dict
from tendline.store.backup import backups_of
from tendline.store.documents import plain
from tendline.store.scrub import NAMELESS, Scrubber
from tendline.store.store import Store
from tendline.store.tables import (
    club,
    drafts,
    drills,
    erasing,
    events,
    games,
    notes,
    people,
    practices,
    refusals,
    settings,
    teams,
)


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
    document = store.people.all().get(person)
    if document is None and not headers and not written:
        raise NotFoundError(
            "nothing is kept about a person of that id", came=person,
            allowed=", ".join(store.people.ids()),
        )  # fmt: skip
    shown = str((document or {}).get("display_name") or "")
    scrub = Scrubber.of(person, shown)
    hers = {one.id: _shot_ids(store, one.id, person) for one in headers}
    with store.database.writing() as connection:
        connection.execute(insert(erasing).values(person=person))
        for game in connection.execute(select(games.c.id)).scalars().all():
            _nameless(connection, game, person, hers.get(game, frozenset()), scrub)
        for table, column in ((notes, notes.c.about), (refusals, refusals.c.goaltender),
                              (settings, settings.c.whose), (people, people.c.id)):  # fmt: skip
            connection.execute(delete(table).where(column == person))
        _from_documents(connection, scrub)
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


def _nameless(
    connection: Connection, game: str, person: str, shots: frozenset[str], scrub: Scrubber
) -> None:
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
        fresh = dict(document)
        if fresh.get("goaltender") == person:
            fresh["goaltender"] = alias
        if kind == "rating" and fresh.get("shot") in shots:
            fresh.pop("text", None)
        for name in ("text", "team", "opponent"):
            if name in fresh:
                fresh[name] = scrub.text(str(fresh[name]))
        if fresh != document:
            connection.execute(
                update(events)
                .where(events.c.number == number)
                .values(document=fresh, goaltender=alias if goaltender == person else goaltender)
            )


def _from_documents(connection: Connection, scrub: Scrubber) -> None:
    """Take her out of every document that stays."""
    for table in (teams, practices, notes, people, club):
        key = table.c.id
        for name, document in connection.execute(select(key, table.c.document)).all():
            fresh = scrub.value(document, first_names=table is practices)
            if fresh != document:
                connection.execute(update(table).where(key == name).values(document=fresh))
    for name, title, script in connection.execute(
        select(drills.c.id, drills.c.name, drills.c.script)
    ).all():
        clean = {"name": scrub.text(title), "script": scrub.text(script)}
        if clean != {"name": title, "script": script}:
            connection.execute(update(drills).where(drills.c.id == name).values(**clean))
    for name, script in connection.execute(select(drafts.c.id, drafts.c.script)).all():
        if scrub.text(script) != script:
            connection.execute(
                update(drafts).where(drafts.c.id == name).values(script=scrub.text(script))
            )
