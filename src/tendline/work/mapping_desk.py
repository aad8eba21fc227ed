"""Make a column mapping by picking: a first guess, what it makes of the rows, keep it, use it.

Nothing is imported or kept here unless it is asked for; every row is told apart as read, refused
(with its reason) or passed over, and the three add up to the whole file.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from tendline.base import InputError, RowError, counted
from tendline.ice import RuleSet, rink, zone_of
from tendline.log import (
    ColumnMapping,
    Ends,
    FileUnit,
    Origin,
    Table,
    fitting,
    mapping_to_dict,
)
from tendline.log.guessing import guess
from tendline.log.importing import ReadShot, line_of, read_shots
from tendline.log.placing import require_sense
from tendline.store import Store
from tendline.work.imports import known_mappings, save_mapping

SHOWN_ROWS = 8
"""So many rows are shown as read, and so many refused ones at first."""
LONGEST_NAME = 60
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


@dataclass(frozen=True, slots=True, kw_only=True)
class Picks:
    """What was picked so far; unlike a mapping it may still lack something."""

    name: str = ""
    base: str = ""
    columns: Mapping[str, str] = field(default_factory=dict)
    unit: FileUnit = FileUnit.METRES
    origin: Origin = Origin.GOAL
    ends: Ends = Ends.SHOT_AT
    x_out: bool = True
    y_left: bool = True
    near_end_first: bool = True
    rule_set: RuleSet = RuleSet.NHL
    period_length: float = 1200.0
    values: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    where: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    where_column: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Started:
    """Where picking starts: the picks, and whether they come from a kept mapping or a guess."""

    picks: Picks
    kept: bool


@dataclass(frozen=True, slots=True)
class TrialRow:
    """One row as read: in words."""

    line: int
    place: str
    side: str
    result: str
    is_goal: bool
    who: str
    when: str
    more: str


@dataclass(frozen=True, slots=True)
class RefusedRow:
    """One row that cannot be used: its cells as they stand, and the reason."""

    line: int
    cells: tuple[str, ...]
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """What picks make of a table; ``fault`` says what is wrong with them as a whole."""

    rows: tuple[TrialRow, ...] = ()
    refused: tuple[RefusedRow, ...] = ()
    places: tuple[tuple[float, float, bool], ...] = ()
    passed_over: int = 0
    total: int = 0
    goaltenders: tuple[str, ...] = ()
    fault: InputError | None = None

    @property
    def read(self) -> int:
        """Return how many rows were read as shots."""
        return len(self.places)

    @property
    def usable(self) -> bool:
        """Return whether anything could be imported with these picks."""
        return self.fault is None and bool(self.places)

    @property
    def answer(self) -> str:
        """Return the outcome as a sentence."""
        if self.fault is not None and not self.places:
            return f"Not readable yet: {self.fault.asked}."
        goals = sum(one[2] for one in self.places)
        text = (
            f"{self.read} of {counted(self.total, 'row')} read as shots, {counted(goals, 'goal')}"
        )
        if self.refused:
            text += f"; {len(self.refused)} refused"
        if self.passed_over:
            text += f"; {self.passed_over} passed over, as they are no shots"
        return f"{text}."


def start_picks(store: Store, table: Table) -> Started:
    """Return the kept mapping that fits a table's columns, else a guess."""
    found = fitting(table.columns, known_mappings(store))
    if found is not None:
        return Started(picks=picks_of(found), kept=True)
    club = store.club.get().rule_set
    first = guess(table, club)
    return Started(
        picks=Picks(
            columns=first.columns, unit=first.unit, origin=first.origin, ends=first.ends,
            x_out=first.x_out, values=first.values, where=first.where, rule_set=club,
            where_column=next(iter(first.where), ""),
        ),
        kept=False,
    )  # fmt: skip


def picks_of(mapping: ColumnMapping) -> Picks:
    """Return a mapping as picks."""
    return Picks(
        name=mapping.name, base=mapping.name, columns=mapping.columns, unit=mapping.unit,
        origin=mapping.origin, ends=mapping.ends, x_out=mapping.x_out, y_left=mapping.y_left,
        near_end_first=mapping.near_end_first, rule_set=mapping.rule_set,
        period_length=mapping.period_length, values=mapping.values, where=mapping.where,
        where_column=next(iter(mapping.where), ""),
    )  # fmt: skip


def mapping_of(store: Store, picks: Picks, table: Table) -> ColumnMapping:
    """Return the mapping that picks say; raises ``InputError`` for what they lack.

    What the page cannot show of the mapping it started from (corrections by another column, and
    the play before a shot) is kept, as far as the table has those columns.
    """
    found = ColumnMapping(
        name=picks.name.strip() or "these columns",
        columns=dict(picks.columns), unit=picks.unit, origin=picks.origin, ends=picks.ends,
        x_out=picks.x_out, y_left=picks.y_left, near_end_first=picks.near_end_first,
        rule_set=picks.rule_set, period_length=picks.period_length,
        values={name: dict(words) for name, words in picks.values.items() if words},
        where=dict(picks.where),
    )  # fmt: skip
    base = next((one for one in known_mappings(store) if one.name == picks.base), None)
    if base is None:
        return found
    minus = {name: column for name, column in base.minus.items()
             if column in table.columns and name in found.columns}  # fmt: skip
    return replace(found, minus=minus, stream=base.stream, about=base.about)


def carried_over(store: Store, picks: Picks) -> str:
    """Return what is kept of the mapping that picks started from, in words; '' if nothing."""
    base = next((one for one in known_mappings(store) if one.name == picks.base), None)
    if base is None:
        return ""
    parts = []
    if base.minus:
        parts.append("its corrections by other columns")
    if base.stream is not None:
        parts.append("how it finds passes and entries before a shot")
    return f"Kept from '{base.name}': {' and '.join(parts)}." if parts else ""


def try_picks(store: Store, table: Table, picks: Picks) -> Trial:
    """Return what picks make of a table, row by row; nothing is saved."""
    try:
        mapping = mapping_of(store, picks, table)
        read = read_shots(table, mapping)
    except InputError as fault:
        return Trial(total=len(table.rows), fault=fault)
    fault_of_all: InputError | None = None
    try:
        require_sense(mapping, read.places)
    except InputError as fault:
        fault_of_all = fault
    if fault_of_all is None and not read.shots:
        fault_of_all = InputError(
            "no row can be read as a shot", came=counted(len(table.rows), "row"),
            allowed="at least one",
        )  # fmt: skip
    return Trial(
        rows=tuple(_row(one, mapping) for one in read.shots[:SHOWN_ROWS]),
        refused=_refused(table, read.faults),
        places=tuple((one.x, one.y, one.event.result.value == "goal") for one in read.shots),
        passed_over=read.passed_over,
        total=len(table.rows),
        goaltenders=tuple(sorted({one.goaltender for one in read.shots if one.goaltender})),
        fault=fault_of_all,
    )


def keep_picks(store: Store, table: Table, picks: Picks, *, replacing: bool) -> ColumnMapping:
    """Save picks under their name; raises ``InputError`` without a name or for one that is taken.

    ``replacing``: a mapping of the coach's own with that name may be replaced.
    """
    name = picks.name.strip()
    if not name or len(name) > LONGEST_NAME or "/" in name or name.endswith(".json"):
        raise InputError(
            "the columns need a name to be kept under", came=f"'{name[:LONGEST_NAME]}'",
            allowed=f"1 to {LONGEST_NAME} letters, no slash", hint="Such as: our rink's scorer.",
        )  # fmt: skip
    mapping = mapping_of(store, picks, table)
    there = store.mappings.all().get(name)
    if there is not None and there != mapping_to_dict(mapping) and not replacing:
        raise InputError(
            "there are columns of that name, and they differ", came=f"'{name}'",
            hint="Tick 'replace it', or give another name.",
        )  # fmt: skip
    save_mapping(store, mapping)
    return mapping


def refused_table(table: Table, refused: tuple[RefusedRow, ...]) -> bytes:
    """Return refused rows as a CSV to mend: their line, the reason, and their cells as they stand.

    Cells that a spreadsheet would run as a formula are written with an apostrophe before them.
    """
    out = io.StringIO()
    writer = csv.writer(out, delimiter=table.separator, lineterminator="\r\n")
    writer.writerow(["line", "reason", *table.columns])
    for one in refused:
        writer.writerow([_safe(cell) for cell in (str(one.line), one.reason, *one.cells)])
    return out.getvalue().encode("utf-8-sig")


def _safe(cell: str) -> str:
    if not cell.startswith(_FORMULA):
        return cell
    try:
        float(cell.replace(",", "."))
    except ValueError:
        return f"'{cell}"
    return cell


def _refused(table: Table, faults: tuple[RowError, ...]) -> tuple[RefusedRow, ...]:
    rows = {row.line: row.cells for row in table.rows} if faults else {}
    found = []
    for fault in faults:
        line = line_of(fault)
        parts = [fault.asked]
        if fault.came:
            parts.append(f"it says {fault.came}")
        if fault.allowed:
            parts.append(f"allowed: {fault.allowed}")
        cells = tuple(rows[line].get(one, "") for one in table.columns)
        found.append(RefusedRow(line, cells, "; ".join(parts)))
    return tuple(found)


def _row(one: ReadShot, mapping: ColumnMapping) -> TrialRow:
    event = one.event
    zone = zone_of(rink(mapping.rule_set), one.x, one.y).value
    when = [f"period {event.period}"] if "period" in mapping.columns else []
    if one.elapsed is not None:
        when.append(f"{int(one.elapsed // 60)}:{int(one.elapsed % 60):02d}")
    more = [str(word.value) for word in (event.situation, event.shot_type) if word is not None]
    if event.context.readiness is not None:
        more.append(event.context.readiness.value)
    if event.context.screened:
        more.append("screened")
    side = "left" if one.y > 0 else "right"
    return TrialRow(
        line=one.raw.line,
        place=zone,
        side=f"{one.x:.1f} m out, {abs(one.y):.1f} m to her {side}",
        result=event.result.value,
        is_goal=event.result.value == "goal",
        who=" in the net against ".join(part for part in (one.goaltender, one.team) if part),
        when=", ".join(when),
        more=", ".join(more),
    )
