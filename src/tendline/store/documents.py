"""The club, teams, people, notes, practices, refusals, mappings and own drills."""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import date
from enum import Enum
from typing import Any, cast

from sqlalchemy import Table, delete, insert, select, update

from tendline.base import LengthUnit, Level, NotFoundError, Settings, nearest_name
from tendline.ice import RuleSet
from tendline.people import GoaltenderFile, from_mapping, to_mapping
from tendline.store.database import Database
from tendline.store.moments import this_moment
from tendline.store.tables import (
    club,
    drills,
    mappings,
    notes,
    people,
    practices,
    refusals,
    settings,
    teams,
)
from tendline.store.types import Club, Note, OwnDrill, Practice, Refusal, Team


def put(database: Database, table: Table, key: dict[str, Any], values: dict[str, Any]) -> None:
    """Insert or replace one entry."""
    with database.writing() as connection:
        chosen = [table.c[name] == value for name, value in key.items()]
        done = connection.execute(update(table).where(*chosen).values(**values))
        if done.rowcount == 0:
            connection.execute(insert(table).values(**key, **values))


def take(database: Database, table: Table, key: dict[str, Any]) -> dict[str, Any] | None:
    """Return one entry as a dictionary, or None."""
    with database.reading() as connection:
        row = connection.execute(
            select(table).where(*[table.c[name] == value for name, value in key.items()])
        ).mappings()
        found = row.first()
        return None if found is None else dict(found)


def every(database: Database, table: Table, *order: Any, **only: Any) -> list[dict[str, Any]]:
    """Return entries as dictionaries, restricted by column values."""
    with database.reading() as connection:
        wanted = select(table).order_by(*order)
        for name, value in only.items():
            wanted = wanted.where(table.c[name] == value)
        return [dict(row) for row in connection.execute(wanted).mappings()]


def drop(database: Database, table: Table, **key: Any) -> None:
    """Delete entries by column values."""
    with database.writing() as connection:
        connection.execute(
            delete(table).where(*[table.c[name] == value for name, value in key.items()])
        )


def plain(value: object) -> dict[str, Any]:
    """Return a dataclass as JSON values, field by field."""
    return {one.name: _plain(getattr(value, one.name)) for one in fields(cast("Any", value))}


def _plain(value: Any) -> Any:
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    return value


class Clubs:
    """The club itself and its teams."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def get(self) -> Club:
        """Return the club; an unnamed one until it was saved."""
        row = take(self._database, club, {"id": 1})
        if row is None:
            return Club(name="")
        data = row["document"]
        return Club(
            name=data["name"],
            rule_set=RuleSet(data["rule_set"]),
            unit=LengthUnit(data["unit"]),
            season_start=_day(data["season_start"]),
            season_end=_day(data["season_end"]),
            cautions=tuple(data["cautions"]),
            is_demo=data["is_demo"],
        )

    def save(self, value: Club) -> None:
        """Save the club."""
        put(self._database, club, {"id": 1}, {"document": plain(value)})

    def teams(self) -> tuple[Team, ...]:
        """Return the teams by name."""
        found = [_team(row["document"]) for row in every(self._database, teams, teams.c.id)]
        return tuple(sorted(found, key=lambda one: one.name))

    def team(self, name: str) -> Team:
        """Return a team by id or name; raises ``NotFoundError`` with the nearest name."""
        known = self.teams()
        for one in known:
            if name in (one.id, one.name):
                return one
        names = [one.name for one in known]
        raise NotFoundError(
            "no team of that name", came=name, allowed=", ".join(names),
            hint=nearest_name(name, names),
        )  # fmt: skip

    def save_team(self, value: Team) -> None:
        """Save a team."""
        put(self._database, teams, {"id": value.id}, {"document": plain(value)})


class People:
    """Goaltenders' files by id."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def save(self, person: str, document: dict[str, Any]) -> None:
        """Save a person's document (what ``people.to_mapping`` makes)."""
        values = {"document": document, "changed_at": this_moment()}
        put(self._database, people, {"id": person}, values)

    def save_file(self, file: GoaltenderFile) -> None:
        """Save a goaltender's file."""
        self.save(file.id, to_mapping(file))

    def get(self, person: str) -> dict[str, Any]:
        """Return a person's document; raises ``NotFoundError``."""
        row = take(self._database, people, {"id": person})
        if row is None:
            raise NotFoundError("no person of that id", came=person, allowed=", ".join(self.ids()))
        return cast("dict[str, Any]", row["document"])

    def file(self, person: str) -> GoaltenderFile:
        """Return a goaltender's file; raises ``NotFoundError``, or ``InputError`` if unreadable."""
        return from_mapping({**self.get(person), "id": person})

    def ids(self) -> tuple[str, ...]:
        """Return every person's id."""
        return tuple(row["id"] for row in every(self._database, people, people.c.id))

    def all(self) -> dict[str, dict[str, Any]]:
        """Return every document by id."""
        return {row["id"]: row["document"] for row in every(self._database, people, people.c.id)}

    def files(self) -> tuple[GoaltenderFile, ...]:
        """Return every goaltender's file, by display name."""
        found = [from_mapping({**data, "id": name}) for name, data in self.all().items()]
        return tuple(sorted(found, key=lambda one: one.display_name))


class Notes:
    """Notes outside games."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def save(self, note: Note) -> None:
        """Save a note."""
        values = {"day": note.day, "about": note.about, "document": plain(note)}
        put(self._database, notes, {"id": note.id}, values)

    def about(self, person: str) -> tuple[Note, ...]:
        """Return the notes about a person, newest first."""
        rows = every(self._database, notes, notes.c.day.desc(), notes.c.id, about=person)
        return tuple(Note(**{**row["document"], "day": row["day"]}) for row in rows)


class Practices:
    """Practice sheets and what was done."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def save(self, practice: Practice) -> None:
        """Save a practice."""
        values = {
            "day": practice.day,
            "team": practice.team,
            "document": {"sheet": practice.sheet, "done": practice.done},
            "saved_at": this_moment(),
        }
        put(self._database, practices, {"id": practice.id}, values)

    def get(self, practice: str) -> Practice:
        """Return a practice; raises ``NotFoundError``."""
        row = take(self._database, practices, {"id": practice})
        if row is None:
            raise NotFoundError("no practice of that id", came=practice)
        return _practice(row)

    def list(self, *, team: str = "") -> tuple[Practice, ...]:
        """Return the practices, newest first."""
        only = {"team": team} if team else {}
        rows = every(self._database, practices, practices.c.day.desc(), practices.c.id, **only)
        return tuple(_practice(row) for row in rows)


class Choices:
    """Settings the club or a goaltender changed, and themes the coach refused."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def settings(self, whose: str = "") -> Settings:
        """Return the settings in force: the club's, with one person's own on top if named."""
        found = {
            row["key"]: row["value"]
            for owner in dict.fromkeys(("", whose))
            for row in every(self._database, settings, settings.c.key, whose=owner)
        }
        return Settings.of(found)

    def own_settings(self, whose: str) -> dict[str, float]:
        """Return only what one person's own settings change."""
        rows = every(self._database, settings, settings.c.key, whose=whose)
        return {row["key"]: row["value"] for row in rows}

    def set(self, key: str, value: float, *, whose: str = "") -> None:
        """Save one setting (of the club, or of one person)."""
        put(self._database, settings, {"whose": whose, "key": key}, {"value": value})

    def clear(self, key: str, *, whose: str = "") -> None:
        """Return one setting to its default."""
        drop(self._database, settings, whose=whose, key=key)

    def refuse(self, refusal: Refusal) -> None:
        """Remember that a theme was refused."""
        values = {name: getattr(refusal, name) for name in ("day", "goaltender", "theme", "reason")}
        put(self._database, refusals, {"id": refusal.id}, values)

    def refusals(self, goaltender: str) -> tuple[Refusal, ...]:
        """Return what was refused for a goaltender, newest first."""
        rows = every(
            self._database, refusals, refusals.c.day.desc(), refusals.c.id, goaltender=goaltender
        )
        return tuple(Refusal(**row) for row in rows)

    def take_back(self, refusal: str) -> None:
        """Forget a refusal."""
        drop(self._database, refusals, id=refusal)


class MappingDocuments:
    """Column mappings for imports, by name."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def save(self, name: str, document: dict[str, Any]) -> None:
        """Save a mapping's document."""
        put(self._database, mappings, {"name": name}, {"document": document})

    def all(self) -> dict[str, dict[str, Any]]:
        """Return every mapping's document by name."""
        rows = every(self._database, mappings, mappings.c.name)
        return {row["name"]: row["document"] for row in rows}


class OwnDrills:
    """The coach's own drills."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def save(self, drill: OwnDrill) -> None:
        """Save a drill."""
        values = {"name": drill.name, "script": drill.script, "saved_at": this_moment()}
        put(self._database, drills, {"id": drill.id}, values)

    def list(self) -> tuple[OwnDrill, ...]:
        """Return the drills by name."""
        return tuple(OwnDrill(**row) for row in every(self._database, drills, drills.c.name))

    def delete(self, drill: str) -> None:
        """Delete a drill."""
        drop(self._database, drills, id=drill)


def _day(value: str | None) -> date | None:
    return None if value is None else date.fromisoformat(value)


def _team(data: dict[str, Any]) -> Team:
    return replace(
        Team(**{**data, "level": Level(data["level"])}), goaltenders=tuple(data["goaltenders"])
    )


def _practice(row: dict[str, Any]) -> Practice:
    return Practice(
        id=row["id"], day=row["day"], team=row["team"], sheet=row["document"]["sheet"],
        done=row["document"]["done"], saved_at=row["saved_at"],
    )  # fmt: skip
