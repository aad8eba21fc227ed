"""Games: events in, events and games out. An event is on disk when ``add`` returns."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, func, insert, select, update

from tendline.base import DEFAULT_SETTINGS, InputError, Level, NotFoundError, Settings
from tendline.log import (
    Game,
    GameEvent,
    GameSetUp,
    event_from_dict,
    event_kind,
    event_to_dict,
    replay,
)
from tendline.store.database import Database
from tendline.store.moments import this_moment
from tendline.store.tables import events, games
from tendline.store.types import GameHeader


class Games:
    """The games of the club."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def start(self, set_up: GameSetUp, *, game: str = "") -> str:
        """Start a game (again: does nothing) and return its id, the set-up's unless given."""
        name = game or set_up.id
        self.add(name, set_up)
        return name

    def add(self, game: str, *new: GameEvent) -> int:
        """Save events of a game, all or none; return how many were new.

        When this returns they are on disk. An event whose id is already there is not saved
        again. Raises ``InputError`` if the same id comes with other content, ``NotFoundError`` if
        the game was never set up, ``StoreError`` if the file cannot be written.
        """
        with self._database.writing() as connection:
            return add_events(connection, game, new)

    def add_many(self, batch: Iterable[tuple[str, Sequence[GameEvent]]]) -> int:
        """Save events of several games, all or none; return how many were new."""
        with self._database.writing() as connection:
            return sum(add_events(connection, game, new) for game, new in batch)

    def events(self, game: str) -> tuple[GameEvent, ...]:
        """Return a game's events in the order in which they were saved."""
        with self._database.reading() as connection:
            found = connection.execute(
                select(events.c.document).where(events.c.game == game).order_by(events.c.number)
            ).scalars()
            every = tuple(event_from_dict(one) for one in found)
        if not every:
            raise self._unknown(game)
        return every

    def game(self, game: str, *, settings: Settings = DEFAULT_SETTINGS) -> Game:
        """Return a game as its events tell it."""
        return replay(self.events(game), game=game, settings=settings)

    def headers(self, *, team: str = "", goaltender: str = "") -> tuple[GameHeader, ...]:
        """Return the list of games, newest first; of one team or one goaltender if named."""
        with self._database.reading() as connection:
            wanted = select(games).order_by(games.c.day.desc(), games.c.started_at.desc())
            if team:
                wanted = wanted.where(games.c.team == team)
            if goaltender:
                played = select(events.c.game).where(events.c.goaltender == goaltender)
                wanted = wanted.where(games.c.id.in_(played))
            rows = connection.execute(wanted).mappings().all()
            totals = connection.execute(select(events.c.game, func.count()).group_by(events.c.game))
            counts: dict[str, int] = {row[0]: row[1] for row in totals}
            ended = set(
                connection.execute(select(events.c.game).where(events.c.kind == "end")).scalars()
            )
            people: dict[str, dict[str, None]] = {}
            hers = (
                select(events.c.game, events.c.goaltender)
                .where(events.c.goaltender != "")
                .order_by(events.c.number)
            )
            for name, who in connection.execute(hers):
                people.setdefault(name, {})[who] = None
        return tuple(
            GameHeader(
                id=row["id"],
                day=row["day"],
                team=row["team"],
                opponent=row["opponent"],
                level=Level(row["level"]),
                goaltenders=tuple(people.get(row["id"], {})),
                events=counts.get(row["id"], 0),
                ended=row["id"] in ended,
            )
            for row in rows
        )

    def of(
        self, goaltender: str, *, last: int | None = None, settings: Settings = DEFAULT_SETTINGS
    ) -> tuple[Game, ...]:
        """Return the games one goaltender took part in, oldest first; the ``last`` n if given."""
        headers = self.headers(goaltender=goaltender)
        chosen = headers if last is None else headers[:last]
        return tuple(self.game(one.id, settings=settings) for one in reversed(chosen))

    def _unknown(self, game: str) -> NotFoundError:
        known = [one.id for one in self.headers()][:5]
        return NotFoundError("no game of that id", came=game, allowed=", ".join(known))


def add_events(connection: Connection, game: str, new: Iterable[GameEvent]) -> int:
    """Save events inside an open transaction; see :meth:`Games.add`."""
    count = 0
    for event in new:
        document = event_to_dict(event)
        if isinstance(event, GameSetUp):
            _header(connection, game, event)
        before = connection.execute(
            select(events.c.document).where(events.c.game == game, events.c.id == event.id)
        ).scalar()
        if before is not None:
            _same(before, document, event.id)
            continue
        if not isinstance(event, GameSetUp) and not _exists(connection, game):
            raise NotFoundError(
                "the game was never set up", came=game, hint="Send its 'set up' event first."
            )
        connection.execute(
            insert(events).values(
                game=game,
                id=event.id,
                kind=event_kind(event),
                goaltender=getattr(event, "goaltender", ""),
                document=document,
                saved_at=this_moment(),
            )
        )
        count += 1
    return count


def _header(connection: Connection, game: str, event: GameSetUp) -> None:
    values: dict[str, Any] = {
        "day": event.day,
        "team": event.team,
        "opponent": event.opponent,
        "level": event.level.value,
    }
    if _exists(connection, game):
        connection.execute(update(games).where(games.c.id == game).values(**values))
    else:
        connection.execute(insert(games).values(id=game, started_at=this_moment(), **values))


def _exists(connection: Connection, game: str) -> bool:
    return connection.execute(select(games.c.id).where(games.c.id == game)).scalar() is not None


def _same(before: dict[str, Any], now: dict[str, Any], name: str) -> None:
    keys: Sequence[str] = [
        key for key in {**before, **now} if key != "made_at" and before.get(key) != now.get(key)
    ]
    if keys:
        raise InputError(
            "two different events came under one id",
            came=", ".join(f"{key} {now.get(key)!r} after {before.get(key)!r}" for key in keys),
            allowed="the same event again, or a new id",
            item=name,
        )
