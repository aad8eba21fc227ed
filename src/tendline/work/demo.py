"""The demo club: loaded into a file of its own, never among the coach's data."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from tendline.base import Level, StoreError
from tendline.store import Club, Note, Practice, Store, Team, demo_path, open_store
from tendline.work.demo_club.cast import (
    CLUB,
    PLAYERS,
    SEASON_END,
    SEASON_START,
    TODAY,
)
from tendline.work.demo_club.files import files
from tendline.work.demo_club.season import NAMES, season
from tendline.work.demo_club.words import PRACTICE_NOTES

__all__ = ["TODAY", "load_demo", "open_demo"]


def open_demo(path: Path | None = None) -> Store:
    """Return the demo club's store, loading it when the file is new."""
    store = open_store(path or demo_path())
    if not store.club.get().is_demo:
        load_demo(store)
    return store


def load_demo(store: Store) -> None:
    """Put the demo club into ``store``; doing it again changes nothing.

    Raises ``StoreError`` if the file holds a club that is not the demo.
    """
    there = store.club.get()
    if not there.is_demo and (there.name or store.games.headers() or store.people.ids()):
        raise StoreError(
            "the demo club is never mixed with a club's own data",
            came=f"a file that holds {there.name or 'games'}",
            allowed="an empty file",
            item=str(store.path),
        )
    for file in files():
        store.people.save_file(file)
    for team, level, skaters, helpers in (
        ("kh-u15", Level.U15, 16, 1), ("kh-adults", Level.ADULT, 13, 0)
    ):  # fmt: skip
        members = tuple(one.id for one in PLAYERS if one.team == team)
        store.club.save_team(
            Team(id=team, name=NAMES[team], level=level, goaltenders=members, skaters=skaters,
                 helpers=helpers)
        )  # fmt: skip
    for game, events in season():
        store.games.add(game, *events)
    for index, (day, about, text) in enumerate(PRACTICE_NOTES):
        store.notes.save(
            Note(id=f"demo-n{index:02d}", day=day, about=about, kind="note", text=text)
        )
    for practice in _practices():
        store.practices.save(practice)
    store.club.save(Club(name=CLUB, season_start=SEASON_START, season_end=SEASON_END, is_demo=True))


def _practices() -> tuple[Practice, ...]:
    rows = (
        (date(2026, 11, 10), ("M05", "M03"), (33, 41, 58, 30)),
        (date(2026, 11, 12), ("M05", "M03"), (36, 44, 55, 33)),
        (date(2026, 11, 17), ("R01", "T03"), (52, 49, 40, 41)),
        (date(2026, 11, 19), ("R01", "T03"), (49, 51, 38, 42)),
    )
    return tuple(
        Practice(
            id=f"demo-p{index:02d}",
            day=day,
            team=NAMES["kh-u15"],
            done={
                "drills": list(drills),
                "load": {
                    "ronja": dict(
                        zip(("shots", "drops", "hard_stops", "recoveries"), load, strict=True)
                    )
                },
            },
        )
        for index, (day, drills, load) in enumerate(rows)
    )
