"""What must go, and what may stay without her name, when a goaltender's file is erased."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from tendline.people.types import GoaltenderFile

REMOVED_NAME = "removed goaltender"
"""Stands where her name stood in counts that stay."""


class Kept(StrEnum):
    """A kind of record that may speak of her."""

    FILE = "file"
    TEAM_LISTS = "team lists"
    NOTES = "notes about her"
    REFUSALS = "refused themes"
    GAMES = "games"
    PRACTICES = "practice sheets"
    BACKUPS = "backups"
    EXPORTS = "files handed out"


@dataclass(frozen=True, slots=True, kw_only=True)
class Erasure:
    """The whole work of erasing one person.

    ``remove``: records to delete. ``rename``: records that stay as counts, her id and name
    replaced by ``id_after`` and :data:`REMOVED_NAME`. ``by_hand``: what the tool cannot reach.
    """

    id: str
    id_after: str
    names: tuple[str, ...]
    remove: tuple[Kept, ...] = (Kept.FILE, Kept.NOTES, Kept.REFUSALS)
    rename: tuple[Kept, ...] = (Kept.TEAM_LISTS, Kept.GAMES, Kept.PRACTICES)
    by_hand: tuple[Kept, ...] = (Kept.BACKUPS, Kept.EXPORTS)

    @property
    def words(self) -> tuple[str, ...]:
        """Return what happens, in sentences."""
        return (
            f"Deleted: {_listed(self.remove)}.",
            f"Kept as counts without her name: {_listed(self.rename)}.",
            f"Delete by hand: {_listed(self.by_hand)}. The tool cannot reach them.",
        )


def _listed(kinds: tuple[Kept, ...]) -> str:
    return ", ".join(one.value for one in kinds)


def erasure(file: GoaltenderFile, number: int) -> Erasure:
    """Return what erasing ``file`` asks for; ``number`` makes the id that stays in counts."""
    return Erasure(id=file.id, id_after=f"removed-{number}", names=(file.id, file.display_name))


def mentions(value: Any, names: tuple[str, ...]) -> tuple[str, ...]:
    """Return the paths inside a JSON value where any of ``names`` still stands.

    The check after erasing: it must be empty for every record that stays.
    """
    found: list[str] = []
    _search(value, tuple(one.casefold() for one in names if one.strip()), "", found)
    return tuple(found)


def _search(value: Any, names: tuple[str, ...], path: str, found: list[str]) -> None:
    if isinstance(value, Mapping):
        for key, inside in value.items():
            _search(key, names, f"{path}/{key} (key)", found)
            _search(inside, names, f"{path}/{key}", found)
    elif isinstance(value, (list, tuple)):
        for index, inside in enumerate(value):
            _search(inside, names, f"{path}/{index}", found)
    elif isinstance(value, str) and speaks_of(value, names):
        found.append(path or "/")


def speaks_of(text: str, names: tuple[str, ...]) -> bool:
    """Return whether a whole word or run of words in ``text`` is one of ``names``."""
    words = _words(text)
    for name in names:
        wanted = _words(name)
        span = len(wanted)
        if span and any(words[i : i + span] == wanted for i in range(len(words) - span + 1)):
            return True
    return False


def _words(text: str) -> list[str]:
    letters = "".join(one if one.isalnum() else " " for one in text.casefold())
    return letters.split()
