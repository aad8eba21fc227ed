"""Bring games in from a file: choose the mapping, read, check, and save all or nothing."""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from tendline.base import InputError, Level, unknown_name
from tendline.log import (
    ColumnMapping,
    GameEvent,
    GameSetUp,
    Imported,
    Undo,
    fitting,
    import_table,
    live,
    mapping_from_dict,
    mapping_to_dict,
    read_table,
    ready_mappings,
    standing,
    text_of,
)
from tendline.log.importing import Progress
from tendline.store import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportOutcome:
    """What an import did: the games by id, how many events were new, and what was left out."""

    imported: Imported
    mapping: ColumnMapping
    games: tuple[str, ...]
    new_events: int
    replaced_games: int

    @property
    def words(self) -> str:
        """Return the outcome in one or two sentences."""
        text = f"Imported with the mapping '{self.mapping.name}': {self.imported.words}."
        if not self.new_events:
            return f"{text} All of it was there already; nothing was added."
        if self.replaced_games:
            text += (
                f" {self.replaced_games} games were there already and now say what this file says."
            )
        return text


def known_mappings(store: Store) -> tuple[ColumnMapping, ...]:
    """Return the coach's own mappings, then those that come with tendline."""
    own = tuple(mapping_from_dict(one) for one in store.mappings.all().values())
    names = {one.name for one in own}
    return (*own, *(one for one in ready_mappings() if one.name not in names))


def save_mapping(store: Store, mapping: ColumnMapping) -> None:
    """Keep a mapping for the next file of its kind."""
    store.mappings.save(mapping.name, mapping_to_dict(mapping))


def mapping_file(path: Path) -> ColumnMapping:
    """Return the mapping in a JSON file; raises ``InputError``."""
    try:
        found = json.loads(path.read_text("utf-8"))
    except OSError as error:
        raise InputError(
            "the mapping's file cannot be read", came=str(error), item=str(path)
        ) from error
    except ValueError as error:
        raise InputError(
            "the mapping's file is no JSON", came=str(error), item=str(path),
            hint="Check commas, braces and quotation marks at that place.",
        ) from error  # fmt: skip
    if not isinstance(found, dict):
        raise InputError("a mapping is a JSON object", came=type(found).__name__, item=str(path))
    return mapping_from_dict(found)


def choose_mapping(store: Store, columns: tuple[str, ...], name: str = "") -> ColumnMapping:
    """Return the named mapping, or the one that fits a file's columns; raises ``InputError``.

    A name that ends in ``.json`` is a file with a mapping in it.
    """
    known = known_mappings(store)
    if name.endswith(".json"):
        return mapping_file(Path(name))
    if name:
        for one in known:
            if one.name == name:
                return one
        raise unknown_name("mapping", name, [one.name for one in known])
    found = fitting(columns, known)
    if found is None:
        raise InputError(
            "no mapping fits the columns of this file",
            came=", ".join(columns),
            allowed="; ".join(one.name for one in known),
            hint="Say which column holds what on the page Games, Say which column holds what; or "
            "write a mapping, a small JSON file (docs: do/import-games), and name that file.",
        )
    return found


def import_games(
    store: Store,
    data: bytes,
    *,
    day: date,
    mapping: str = "",
    level: Level = Level.ADULT,
    goaltenders: Collection[str] = (),
    people: Mapping[str, str] | None = None,
    leave_out_bad_rows: bool = False,
    progress: Progress | None = None,
) -> ImportOutcome:
    """Import the games in a file's bytes and save them, all or none.

    ``day``: for games whose rows have no date; ``mapping``: its name, or a JSON file that is kept
    for the next import (found by the columns when empty); ``goaltenders``: keep only games with
    one of these in the net, as the file writes them; ``people``: the file's goaltender to a
    person's id (``""`` for a file that names none). Importing again adds nothing; a longer or
    corrected file, or another mapping, takes back what is no longer said (undo events) and adds
    what is new.

    Raises ``InputError`` (``ImportRefusedError`` names every row that cannot be used) and
    ``StoreError``; nothing is saved then.
    """
    table = read_table(text_of(data))
    chosen = choose_mapping(store, table.columns, mapping)
    imported = import_table(
        table,
        chosen,
        day=day,
        level=level,
        goaltenders=goaltenders,
        people=people,
        leave_out_bad_rows=leave_out_bad_rows,
        progress=progress,
    )
    there = {one.id for one in store.games.headers()}
    batch: list[tuple[str, tuple[GameEvent, ...]]] = []
    replaced = 0
    for game in imported.games:
        events = game.events
        if game.id in there:
            events, changed = _on_top_of(store.games.events(game.id), events, chosen)
            replaced += changed
        batch.append((game.id, events))
    new = store.games.add_many(batch)
    if mapping.endswith(".json"):
        save_mapping(store, chosen)
    return ImportOutcome(
        imported=imported,
        mapping=chosen,
        games=tuple(one.id for one in imported.games),
        new_events=new,
        replaced_games=replaced,
    )


def _on_top_of(
    before: tuple[GameEvent, ...], fresh: tuple[GameEvent, ...], mapping: ColumnMapping
) -> tuple[tuple[GameEvent, ...], bool]:
    """Return what to add to a game that is there so that it says what the file says now.

    Earlier events that the file no longer says are undone; ones that were undone are brought
    back. The second value tells whether anything had to be undone or brought back.
    """
    alive = live(before)
    if "day" not in mapping.columns:
        fresh = _keeping_the_day(alive, fresh)
    wanted, standing_ids = {one.id for one in fresh}, {one.id for one in alive}
    known = {one.id for one in before}
    old = [one.id for one in alive if one.id not in wanted]
    lost = [one.id for one in fresh if one.id in known and one.id not in standing_ids]
    undos = [one for one in standing(before) if isinstance(one, Undo)]
    old += [one.id for one in undos if one.undoes in lost]
    back = tuple(Undo(id=f"undo.{len(before)}.{name[:48]}", undoes=name) for name in old)
    return (*back, *fresh), bool(back)


def _keeping_the_day(
    alive: tuple[GameEvent, ...], fresh: tuple[GameEvent, ...]
) -> tuple[GameEvent, ...]:
    """Return the events with the set-up that is there, if only the day of import differs."""
    there = next((one for one in alive if isinstance(one, GameSetUp)), None)
    new = fresh[0]
    if (
        there is not None
        and isinstance(new, GameSetUp)
        and replace(there, id=new.id, day=new.day, made_at=new.made_at) == new
    ):
        return (there, *fresh[1:])
    return fresh
