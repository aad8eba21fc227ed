"""One row's cells as words and numbers of the log; every fault names row and column."""

from __future__ import annotations

import re
from datetime import date
from enum import Enum
from typing import TypeVar

from tendline.base import RowError, ScoringSituation, ShotResult, ShotType, Side, nearest_name
from tendline.log.columns import ColumnMapping
from tendline.log.events import Context
from tendline.log.stream import Before
from tendline.log.table import Row, number_in
from tendline.log.vocabulary import Readiness, Strength

Word = TypeVar("Word", bound=Enum)
YES = frozenset({"1", "true", "yes", "y", "x", "ja", "oui", "t"})
NO = frozenset({"", "0", "false", "no", "n", "nein", "non", "f"})


class Cells:
    """One row seen through a mapping."""

    def __init__(self, mapping: ColumnMapping, row: Row) -> None:
        self.mapping = mapping
        self.row = row

    def text(self, name: str) -> str:
        """Return the cell of a field as it stands (empty when there is no such column)."""
        return self.row.cells.get(self.mapping.columns.get(name, ""), "")

    def fault(self, name: str, *, allowed: str, hint: str = "") -> RowError:
        """Return the error for a field's cell."""
        column = self.mapping.columns.get(name, name)
        return RowError(
            f"column '{column}' cannot be read as {name.replace('_', ' ')}",
            came=f"'{self.text(name)}'",
            allowed=allowed,
            hint=hint or "Mend the cell, or add its word to the mapping.",
            item=f"line {self.row.line}",
        )

    def number(self, name: str, *, needed: bool = False) -> float | None:
        """Return a field's number, less its ``minus`` column; None for an empty cell."""
        cell = self.text(name)
        if not cell:
            if needed:
                raise self.fault(name, allowed="a number")
            return None
        try:
            found = number_in(cell)
            minus = self.row.cells.get(self.mapping.minus.get(name, ""), "")
            found -= number_in(minus) if minus else 0.0
        except ValueError:
            raise self.fault(name, allowed="a number") from None
        if found != found or abs(found) == float("inf"):
            raise self.fault(name, allowed="a number")
        return found

    def whole(self, name: str, default: int | None = None) -> int | None:
        """Return a field's whole number, through its value map if it has one."""
        cell = self._mapped(name)
        if not cell:
            return default
        try:
            return int(float(cell))
        except ValueError:
            raise self.fault(name, allowed="a whole number") from None

    def word(self, name: str, kind: type[Word], *, needed: bool = False) -> Word | None:
        """Return a field's word of a closed vocabulary, through its value map if it has one."""
        cell = self._mapped(name)
        if not cell:
            if needed:
                raise self.fault(name, allowed=self._words(name, kind))
            return None
        for one in kind:
            if one.value == cell.lower():
                return one
        known = [str(one.value) for one in kind]
        raise self.fault(name, allowed=self._words(name, kind), hint=nearest_name(cell, known))

    def yes(self, name: str) -> bool | None:
        """Return a field's yes or no; None when the file has no such column or an empty cell."""
        if name not in self.mapping.columns:
            return None
        cell = self._mapped(name).lower()
        if not cell and not self.mapping.values.get(name):
            return None
        if cell in YES:
            return True
        if cell in NO:
            return False
        if name in self.mapping.values:
            return False
        try:
            return float(cell) > 0
        except ValueError:
            raise self.fault(name, allowed="yes or no, 1 or 0") from None

    def day(self) -> date | None:
        """Return the row's day, None if the file does not say."""
        cell = self.text("day")
        if not cell:
            return None
        try:
            return date.fromisoformat(cell[:10])
        except ValueError:
            raise self.fault("day", allowed="a date such as 2026-11-25") from None

    def period(self) -> int:
        """Return the period, 1 if the file does not say."""
        found = self.whole("period", 1) or 1
        if not 1 <= found <= 20:
            raise self.fault("period", allowed="1 to 20")
        return found

    def elapsed(self) -> float | None:
        """Return seconds into the period, counted up or down as the file has it."""
        gone = self._clock("elapsed")
        if gone is not None:
            return gone
        left = self._clock("clock_left")
        return None if left is None else max(self.mapping.period_length - left, 0.0)

    def context(self, before: Before, goaltender: tuple[float, float] | None) -> Context:
        """Return the play around the shot, from the row and the rows before it."""
        strength = None
        ours, theirs = self.whole("skaters_defending"), self.whole("skaters_shooting")
        if ours is not None and theirs is not None:
            strength = (
                Strength.EVEN if ours == theirs
                else Strength.SHORT_HANDED if ours < theirs else Strength.POWER_PLAY
            )  # fmt: skip
        pass_x, pass_y = before.pass_x, before.pass_y
        return Context(
            readiness=self.word("readiness", Readiness),
            screened=self.yes("screened"),
            one_timer=self.yes("one_timer"),
            crossed_middle=self.yes("crossed_middle"),
            off_rush=self.yes("off_rush"),
            pass_x=pass_x,
            pass_y=pass_y,
            since_pass=self.number("since_pass")
            if before.since_pass is None
            else before.since_pass,
            since_entry=before.since_entry,
            attackers=self.whole("attackers"),
            defenders=self.whole("defenders"),
            goaltender_x=None if goaltender is None else goaltender[0],
            goaltender_y=None if goaltender is None else goaltender[1],
            shooter=self.text("shooter")[:40],
            shooter_hand=self.word("shooter_hand", Side),
            strength=strength,
            empty_net=bool(self.yes("empty_net")),
            penalty_shot=bool(self.yes("penalty_shot")),
        )

    def result(self) -> ShotResult:
        """Return what became of the shot."""
        found = self.word("result", ShotResult, needed=True)
        assert found is not None
        return found

    def shot_type(self) -> ShotType | None:
        """Return how the puck was sent."""
        return self.word("shot_type", ShotType)

    def situation(self) -> ScoringSituation | None:
        """Return the scoring situation if the file says it."""
        return self.word("situation", ScoringSituation)

    def _clock(self, name: str) -> float | None:
        cell = self.text(name)
        if ":" not in cell:
            found = self.number(name)
            if found is not None and not 0 <= found <= 7200:
                raise self.fault(name, allowed="0 to 7200 s, or minutes:seconds")
            return found
        match = re.fullmatch(r"(\d{1,3}):([0-5]?\d)", cell)
        if match is None:
            raise self.fault(name, allowed="seconds, or minutes:seconds")
        return 60.0 * int(match[1]) + int(match[2])

    def _mapped(self, name: str) -> str:
        cell = self.text(name)
        words = self.mapping.values.get(name)
        if not words:
            return cell
        lowered = {key.lower(): value for key, value in words.items()}
        return lowered.get(cell.lower(), cell)

    def _words(self, name: str, kind: type[Enum]) -> str:
        known = self.mapping.values.get(name)
        return ", ".join(known) if known else ", ".join(str(one.value) for one in kind)
