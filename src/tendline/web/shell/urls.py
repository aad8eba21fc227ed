"""Addresses, built in one place."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from urllib.parse import urlencode


@dataclass(frozen=True, slots=True)
class Place:
    """One of the six places of the coach's week: where it is and what it is called."""

    path: str
    name: str
    purpose: str


PLACES = (
    Place("/tonight", "Tonight", "what to train on tonight's ice, and the sheet"),
    Place("/read", "Read the play", "where to stand, and why"),
    Place("/drills", "Drills", "write, see, check and run drills"),
    Place("/games", "Games", "log shots and see what they cost"),
    Place("/goaltenders", "Goaltenders", "each goaltender's file"),
    Place("/season", "Season", "the weeks, planned and done"),
)


def with_query(path: str, query: Iterable[tuple[str, str]]) -> str:
    """Return ``path`` with a query string; names and values are escaped."""
    text = urlencode(list(query), safe=",")
    return f"{path}?{text}" if text else path


def origin_of(page: str, figure: str, query: Iterable[tuple[str, str]] = ()) -> str:
    """Return the address that says where a figure on a page comes from."""
    return with_query("/origin/figure", [("page", page), ("figure", figure), *query])


def game(game_id: str, tail: str = "") -> str:
    """Return the address of a game, or of something under it."""
    return f"/games/{game_id}{f'/{tail}' if tail else ''}"


def drills(query: str = "") -> str:
    """Return the address of the drills that fit a query string (already escaped)."""
    return f"/drills?{query}" if query else "/drills"


def drill(drill_id: str, tail: str = "") -> str:
    """Return the address of a drill, or of something under it."""
    return f"/drills/{drill_id}{f'/{tail}' if tail else ''}"


def goaltender(person_id: str, tail: str = "") -> str:
    """Return the address of a goaltender's file, or of something under it."""
    return f"/goaltenders/{person_id}{f'/{tail}' if tail else ''}"
