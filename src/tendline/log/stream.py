"""The play before a shot, read from a file that holds every event in order.

Per game, the last completed pass and the last entry of the team that has the puck; the other team
getting the puck ends both. Times are as fine as the file's clock.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from tendline.log.columns import ColumnMapping
from tendline.log.placing import place, sheet_of
from tendline.log.table import Row, number_in

ENTRY_REACH = 2.0
"""An entry is noted within this many metres outside the blue line."""


@dataclass(frozen=True, slots=True)
class Before:
    """What came before a shot: start of the last pass [m] and seconds since it and the entry."""

    pass_x: float | None = None
    pass_y: float | None = None
    since_pass: float | None = None
    since_entry: float | None = None


NOTHING = Before()


def meets(row: Row, condition: Mapping[str, tuple[str, ...]]) -> bool:
    """Return whether a row fulfils a condition; an empty condition holds for no row."""
    return bool(condition) and all(row.cells.get(key, "") in ok for key, ok in condition.items())


class Following:
    """Walks through a file's rows and says what came before each shot."""

    def __init__(self, mapping: ColumnMapping, clock: Callable[[Row], float | None]) -> None:
        self.mapping = mapping
        self.clock = clock
        self.blue = sheet_of(mapping).blue_line_x
        self.where: tuple[str, str] = ("", "")
        self.team = ""
        self.passed: tuple[float, float, float] | None = None
        self.entered: float | None = None

    def before(self, row: Row) -> Before:
        """Return what came before a shot's row (call before :meth:`follow`)."""
        now = self.clock(row)
        if now is None or self._column(row, "team") != self.team or self._part(row) != self.where:
            return NOTHING
        found = Before()
        if self.passed is not None:
            at, x, y = self.passed
            found = Before(x, y, max(now - at, 0.0))
        since = None if self.entered is None else max(now - self.entered, 0.0)
        return Before(found.pass_x, found.pass_y, found.since_pass, since)

    def follow(self, row: Row) -> None:
        """Take note of a row."""
        stream = self.mapping.stream
        if stream is None:
            return
        part, team = self._part(row), self._column(row, "team")
        if part != self.where or meets(row, stream.lost):
            self._forget("")
            self.where = part
        if meets(row, stream.lost):
            return
        ours = meets(row, stream.possession) or meets(row, stream.passes)
        ours = ours or meets(row, stream.entries)
        if ours and team != self.team:
            self._forget(team)
        now = self.clock(row)
        if now is None:
            return
        spot = self._spot(row, stream.pass_x, stream.pass_y)
        if spot is None:
            return
        if meets(row, stream.passes):
            self.passed = (now, *spot)
        if meets(row, stream.entries) and spot[0] <= self.blue + ENTRY_REACH:
            self.entered = now

    def _forget(self, team: str) -> None:
        self.team, self.passed, self.entered = team, None, None

    def _part(self, row: Row) -> tuple[str, str]:
        return self._column(row, "game"), self._column(row, "period")

    def _column(self, row: Row, name: str) -> str:
        return row.cells.get(self.mapping.columns.get(name, ""), "")

    def _spot(self, row: Row, x: str, y: str) -> tuple[float, float] | None:
        try:
            found = number_in(row.cells.get(x, "")), number_in(row.cells.get(y, ""))
        except ValueError:
            return None
        return place(self.mapping, x=found[0], y=found[1], period=1)
