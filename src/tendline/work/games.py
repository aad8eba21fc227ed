"""Log a game: the same few steps for the page and for the command line."""

from __future__ import annotations

import secrets
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from tendline.base import InputError, Level, ScoringSituation, ShotResult
from tendline.log import (
    Frame,
    Game,
    GameSetUp,
    GoaltenderChange,
    PeriodStart,
    ShotTaken,
    Undo,
    event_from_dict,
)
from tendline.store import Store


def new_id(kind: str) -> str:
    """Return a fresh id for an event or a game; ``kind`` is a short word to read it by."""
    return f"{kind}-{secrets.token_hex(8)}"


def begin_game(store: Store, *, day: date, team: str, opponent: str, goaltender: str) -> str:
    """Start a game with its first period and return its id; the team gives its level."""
    if not opponent.strip():
        raise InputError("the opponent needs a name", hint="A town or a colour will do.")
    known = {one.name: one.level for one in store.club.teams()}
    set_up = GameSetUp(
        id=new_id("game"),
        day=day,
        team=team,
        opponent=opponent,
        goaltender=goaltender,
        level=known.get(team, Level.ADULT),
        rule_set=store.club.get().rule_set,
    )
    store.games.add(set_up.id, set_up, PeriodStart(id=new_id("period"), period=1))
    return set_up.id


def add_documents(store: Store, game: str, documents: Sequence[Mapping[str, Any]]) -> Game:
    """Save events that a device sent, all or none, and return the game as it now stands.

    Raises ``InputError`` for an event that cannot be (nothing is saved then) and ``StoreError``
    when the file cannot be written.
    """
    events = [event_from_dict(one) for one in documents]
    store.games.add(game, *events)
    return store.games.game(game)


def log_shot(
    store: Store,
    game: str,
    *,
    x: float,
    y: float,
    result: ShotResult,
    situation: ScoringSituation | None = None,
) -> Game:
    """Log a shot at our net, in the frame of that net (metres), and return the game."""
    shot = ShotTaken(
        id=new_id("shot"), x=x, y=y, frame=Frame.NET, result=result, situation=situation
    )
    store.games.add(game, shot)
    return store.games.game(game)


def undo_last(store: Store, game: str) -> Game:
    """Take back the newest event that counts; raises ``InputError`` when there is none."""
    last = store.games.game(game).can_undo
    if last is None:
        raise InputError("there is nothing to take back", item=game)
    store.games.add(game, Undo(id=new_id("undo"), undoes=last.id))
    return store.games.game(game)


def start_period(store: Store, game: str, period: int | None = None) -> Game:
    """Start the next period (or the one named); ends change as the game's set-up says."""
    number = period or store.games.game(game).period + 1
    store.games.add(game, PeriodStart(id=new_id("period"), period=number))
    return store.games.game(game)


def change_goaltender(store: Store, game: str, person: str) -> Game:
    """Put another goaltender in; an empty ``person`` means an empty net."""
    store.games.add(game, GoaltenderChange(id=new_id("goaltender"), goaltender=person))
    return store.games.game(game)
