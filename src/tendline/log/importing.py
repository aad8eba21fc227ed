"""Games from a table of shots or events, through a column mapping.

One game of the log for each game and defending team of the file. Every event's id is made from
what it says, so that importing the same file again, or a longer one, adds only what is new. Either
everything that was asked for comes in, or nothing does: rows that cannot be used stop the import
with all of them named, unless the coach asks to leave those rows out.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import TypeVar

from tendline.base import InputError, Level, RowError, nearest_name
from tendline.ice import RuleSet
from tendline.log.cells import Cells
from tendline.log.codec import event_to_dict
from tendline.log.columns import ColumnMapping
from tendline.log.events import (
    GameEnd,
    GameEvent,
    GameSetUp,
    GoaltenderChange,
    PeriodStart,
    ShotTaken,
)
from tendline.log.placing import Raw, allowed_places, place, require_sense, sheet_of
from tendline.log.stream import NOTHING, Before, Following, meets
from tendline.log.table import Row, Table
from tendline.log.vocabulary import Frame

SHOWN = 5
"""So many faulty rows are named in one message; all of them are in its ``rows``."""
REGULAR_PERIODS = 3
"""A file's game has this many periods; what comes after is overtime, ended by its last shot."""
OUR_NET = "our net"
"""The team of a file that names none."""
Named = TypeVar("Named", bound=GameEvent)
Progress = Callable[[int, int], None]


class ImportRefusedError(InputError):
    """A table has rows that cannot be used; nothing was imported. ``rows`` holds their errors."""

    def __init__(self, mapping: str, rows: tuple[RowError, ...], of: int) -> None:
        self.rows = rows
        shown = " | ".join(one.message.rstrip(".") for one in rows[:SHOWN])
        more = f" | and {len(rows) - SHOWN} more" if len(rows) > SHOWN else ""
        super().__init__(
            f"{len(rows)} of {of} shots cannot be used, so nothing was imported",
            came=shown + more,
            hint="Mend these rows, or import again and ask to leave them out.",
            item=mapping,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportedGame:
    """One game read from a table: its id and its events, set-up first."""

    id: str
    events: tuple[GameEvent, ...]

    @property
    def shots(self) -> int:
        """Return how many shots it holds."""
        return sum(isinstance(one, ShotTaken) for one in self.events)


@dataclass(frozen=True, slots=True, kw_only=True)
class Imported:
    """What a table gave: games, the rows left out, and how many shots each goaltender faced."""

    mapping: str
    games: tuple[ImportedGame, ...]
    left_out: tuple[RowError, ...]
    faced: tuple[tuple[str, int], ...]

    @property
    def words(self) -> str:
        """Return the outcome in one sentence."""
        shots = sum(one.shots for one in self.games)
        text = f"{shots} shots in {len(self.games)} games"
        return f"{text}; {len(self.left_out)} rows left out" if self.left_out else text


def import_table(
    table: Table,
    mapping: ColumnMapping,
    *,
    day: date,
    level: Level = Level.ADULT,
    goaltenders: Collection[str] = (),
    people: Mapping[str, str] | None = None,
    leave_out_bad_rows: bool = False,
    progress: Progress | None = None,
) -> Imported:
    """Return the games in a table; pure, nothing is stored.

    ``day``: the day of games whose row has none. ``goaltenders``: names as the file writes them;
    only games in which one of them was in the net are kept (all if empty). ``people``: the file's
    goaltender to a person's id (``""`` for a file that names none). ``progress``: called with
    rows done and rows in all.

    Raises ``InputError`` for a mapping that does not fit the table or a wrong unit or frame, and
    :class:`ImportRefusedError` for rows that cannot be used (unless ``leave_out_bad_rows``).
    """
    read = read_shots(table, mapping, progress=progress)
    require_sense(mapping, read.places)
    good, faults = read.shots, read.faults
    if faults and not leave_out_bad_rows:
        raise ImportRefusedError(mapping.name, faults, len(good) + len(faults))
    if not good:
        raise InputError(
            "no shot was found in the file", came=f"{len(table.rows)} rows",
            allowed="rows that " + _condition(mapping), item=mapping.name,
        )  # fmt: skip
    games = _games(good, mapping, day=day, level=level, wanted=goaltenders, people=people or {})
    if not games:
        known = sorted({one.goaltender for one in good})
        asked = ", ".join(goaltenders)
        raise InputError(
            "no game with that goaltender is in the file", came=asked,
            allowed=", ".join(known[:20]), hint=nearest_name(asked, known), item=mapping.name,
        )  # fmt: skip
    return Imported(mapping=mapping.name, games=games, left_out=faults, faced=_faced(good))


@dataclass(frozen=True, slots=True)
class ReadShot:
    """A shot's row read and placed: (x, y) in the frame of the net shot at [m]."""

    raw: Raw
    game: str
    team: str
    defending: str
    goaltender: str
    x: float
    y: float
    day: date | None
    elapsed: float | None
    event: ShotTaken


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotsRead:
    """A table's rows through a mapping: shots that can be used, and each row that cannot.

    ``places``: every shot's place as the file gives it, those off the ice too; ``passed_over``:
    how many rows are no shots by the mapping's own condition. Together they are all rows.
    """

    shots: tuple[ReadShot, ...]
    faults: tuple[RowError, ...]
    places: tuple[Raw, ...]
    passed_over: int


def read_shots(
    table: Table, mapping: ColumnMapping, *, progress: Progress | None = None
) -> ShotsRead:
    """Return what a mapping makes of a table's rows, faulty ones with their reason; pure.

    Raises ``InputError`` for a mapping that names columns which the table lacks. Whether unit and
    frame make sense for the file as a whole is not judged here (``require_sense`` does).
    """
    _require_columns(table, mapping)
    found, faults, passed_over = _rows(table, mapping, progress)
    sheet = sheet_of(mapping)
    faults += [_off(mapping, one) for one in found if not sheet.contains(one.x, one.y)]
    faults.sort(key=line_of)
    return ShotsRead(
        shots=tuple(one for one in found if sheet.contains(one.x, one.y)),
        faults=tuple(faults),
        places=tuple(one.raw for one in found),
        passed_over=passed_over,
    )


def line_of(fault: RowError) -> int:
    """Return the line of the file that an error is about."""
    return int(fault.item.split()[1])


def _rows(
    table: Table, mapping: ColumnMapping, progress: Progress | None
) -> tuple[list[ReadShot], list[RowError], int]:
    teams = _teams(table, mapping)
    following = Following(mapping, lambda row: _clock(mapping, row))
    found: list[ReadShot] = []
    faults: list[RowError] = []
    passed_over = 0
    for index, row in enumerate(table.rows):
        if not mapping.where or meets(row, mapping.where):
            before = following.before(row) if mapping.stream else NOTHING
            try:
                found.append(_shot(Cells(mapping, row), before, teams))
            except RowError as error:
                faults.append(error)
            except InputError as error:
                faults.append(
                    RowError(
                        error.asked,
                        came=error.came,
                        allowed=error.allowed,
                        hint=error.hint,
                        item=f"line {row.line}",
                    )
                )
        else:
            passed_over += 1
        following.follow(row)
        if progress is not None and index % 1000 == 0:
            progress(index, len(table.rows))
    return found, faults, passed_over


def _shot(cells: Cells, before: Before, teams: Mapping[str, tuple[str, ...]]) -> ReadShot:
    mapping, period = cells.mapping, cells.period()
    x, y = cells.number("x", needed=True), cells.number("y", needed=True)
    assert x is not None
    assert y is not None
    px, py = place(mapping, x=x, y=y, period=period)
    game, team = cells.text("game") or "1", cells.text("team")
    others = [one for one in teams.get(game, ()) if one != team]
    defending = cells.text("opponent") or (others[0] if len(others) == 1 else "")
    goaltender = cells.text("goaltender") or (
        defending if "goaltender" not in mapping.columns else ""
    )
    elapsed, result = cells.elapsed(), cells.result()
    shot_type, situation = cells.shot_type(), cells.situation()
    target_y, target_z = cells.number("target_y"), cells.number("target_z")
    passed = _pair(cells, "pass", period)
    if passed is not None:
        before = Before(*passed, before.since_pass, before.since_entry)
    context = cells.context(before, _pair(cells, "goaltender", period))
    event = ShotTaken(
        id="x", x=px, y=py, frame=Frame.NET, result=result, situation=situation,
        shot_type=shot_type, target_y=target_y, target_z=target_z, period=period,
        elapsed=elapsed, context=context,
    )  # fmt: skip
    return ReadShot(
        Raw(cells.row.line, x, y, period), game, team, defending, goaltender, px, py, cells.day(),
        elapsed, event,
    )  # fmt: skip


def _pair(cells: Cells, what: str, period: int) -> tuple[float, float] | None:
    x, y = cells.number(f"{what}_x"), cells.number(f"{what}_y")
    if x is None or y is None:
        return None
    return place(cells.mapping, x=x, y=y, period=period)


def _games(
    shots: Sequence[ReadShot],
    mapping: ColumnMapping,
    *,
    day: date,
    level: Level,
    wanted: Collection[str],
    people: Mapping[str, str],
) -> tuple[ImportedGame, ...]:
    groups: dict[tuple[str, str], list[ReadShot]] = {}
    for one in shots:
        defending = one.defending or (f"against {one.team}" if one.team else OUR_NET)
        groups.setdefault((one.game, defending), []).append(one)
    found = []
    for (game, team), group in groups.items():
        if wanted and not any(one.goaltender in wanted for one in group):
            continue
        found.append(_game(game, team, group, mapping, day=day, level=level, people=people))
    return tuple(found)


def _game(
    game: str,
    team: str,
    group: Sequence[ReadShot],
    mapping: ColumnMapping,
    *,
    day: date,
    level: Level,
    people: Mapping[str, str],
) -> ImportedGame:
    def person(written: str) -> str:
        return people.get(written) or _id(written)

    named_one = next((one.goaltender for one in group if one.goaltender), "")
    starter = named_one or people.get("") or team
    named = _Namer()
    set_up = GameSetUp(
        id="x",
        day=group[0].day or day,
        team=team,
        opponent=group[0].team or "unknown",
        goaltender=person(starter),
        level=level,
        rule_set=RuleSet(mapping.rule_set),
        periods=REGULAR_PERIODS,
        period_length=mapping.period_length,
        ends_switch=False,
    )
    events: list[GameEvent] = [named(set_up)]
    now, period = starter, 1
    for one in group:
        if one.raw.period != period:
            period = one.raw.period
            events.append(named(PeriodStart(id="x", period=period)))
        who = one.goaltender
        if who and who != now and not one.event.context.empty_net:
            change = GoaltenderChange(
                id="x", goaltender=person(who), period=period, elapsed=one.elapsed
            )
            events.append(named(change))
            now = who
        events.append(named(one.event))
    late = [one.elapsed for one in group if one.raw.period == period and one.elapsed is not None]
    over = max(late, default=None) if period > REGULAR_PERIODS else None
    events.append(named(GameEnd(id="x", elapsed=over)))
    return ImportedGame(id=_id(f"{game}:{team}"), events=tuple(events))


class _Namer:
    """Gives events ids made from what they say; the same words again get a running number."""

    def __init__(self) -> None:
        self.seen: dict[str, int] = {}

    def __call__(self, event: Named) -> Named:
        words = json.dumps(event_to_dict(event), sort_keys=True)
        mark = hashlib.sha256(words.encode()).hexdigest()[:16]
        self.seen[mark] = self.seen.get(mark, 0) + 1
        return replace(event, id=f"file.{mark}.{self.seen[mark]}")


def _id(text: str) -> str:
    """Return an id like the text; long or odd ones are shortened with a mark of the whole."""
    plain = re.sub(r"[^A-Za-z0-9_.:-]+", "-", text).strip("-")
    if plain == text and len(plain) <= 64:
        return plain
    mark = hashlib.sha256(text.encode()).hexdigest()[:8]
    return f"{plain[:54]}-{mark}" if plain else f"x-{mark}"


def _teams(table: Table, mapping: ColumnMapping) -> dict[str, tuple[str, ...]]:
    """Return the teams that appear in each game, so that the other one defends."""
    game, team = mapping.columns.get("game", ""), mapping.columns.get("team", "")
    found: dict[str, dict[str, None]] = {}
    for row in table.rows:
        name = row.cells.get(team, "")
        if name:
            found.setdefault(row.cells.get(game, "") or "1", {})[name] = None
    return {key: tuple(names) for key, names in found.items()}


def _clock(mapping: ColumnMapping, row: Row) -> float | None:
    try:
        return Cells(mapping, row).elapsed()
    except RowError:
        return None


def _off(mapping: ColumnMapping, one: ReadShot) -> RowError:
    return RowError(
        "the shot lies off the ice",
        came=f"({one.raw.x:g}, {one.raw.y:g}) {mapping.unit.value}",
        allowed=allowed_places(mapping),
        hint="Check the row, or the unit and frame of the mapping.",
        item=f"line {one.raw.line}",
    )


def _require_columns(table: Table, mapping: ColumnMapping) -> None:
    wanted = {*mapping.columns.values(), *mapping.minus.values(), *mapping.where}
    missing = sorted(wanted - set(table.columns))
    if missing:
        raise InputError(
            "the file lacks columns that the mapping names",
            came=", ".join(missing),
            allowed=", ".join(one for one in table.columns if one),
            hint=nearest_name(missing[0], table.columns) or "Choose another mapping.",
            item=mapping.name,
        )


def _condition(mapping: ColumnMapping) -> str:
    parts = [f"have '{column}' = {' or '.join(words)}" for column, words in mapping.where.items()]
    return " and ".join(parts) or "hold a shot"


def _faced(shots: Sequence[ReadShot]) -> tuple[tuple[str, int], ...]:
    counts: dict[str, int] = {}
    for one in shots:
        if one.goaltender:
            counts[one.goaltender] = counts.get(one.goaltender, 0) + 1
    return tuple(sorted(counts.items(), key=lambda item: (-item[1], item[0])))
