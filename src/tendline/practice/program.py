"""A choice written down for a solver: yes-or-no variables, linear rows, each with its rule.

A row without a penalty must hold; a row with one may be broken at ``penalty`` points for each
unit by which it is broken. Keeping the rule's name on every row is what lets a failed plan say
which rule forbids it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Protocol


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """``low <= sum(coefficient * variable) <= high``, owned by a rule."""

    rule: str
    terms: tuple[tuple[int, int], ...]
    low: int | None = None
    high: int | None = None
    penalty: int | None = None
    note: str = ""

    def broken_by(self, chosen: frozenset[int]) -> int:
        """Return by how many units the chosen variables break the row (0 = kept)."""
        total = sum(coefficient for index, coefficient in self.terms if index in chosen)
        under = self.low - total if self.low is not None else 0
        over = total - self.high if self.high is not None else 0
        return max(0, under, over)


@dataclass(frozen=True, slots=True, kw_only=True)
class Program:
    """A choice problem: ``gain[i]`` points for choosing variable ``i``, and the rows."""

    gain: tuple[int, ...]
    rows: tuple[Row, ...]

    @property
    def size(self) -> int:
        """Return the number of variables."""
        return len(self.gain)

    def without(self, rules: Iterable[str]) -> Program:
        """Return the program with every row of some rules left out."""
        left_out = frozenset(rules)
        return replace(self, rows=tuple(row for row in self.rows if row.rule not in left_out))

    def value_of(self, chosen: frozenset[int]) -> int:
        """Return gains less penalties of a choice."""
        gains = sum(self.gain[index] for index in chosen)
        return gains - sum(
            row.penalty * row.broken_by(chosen) for row in self.rows if row.penalty is not None
        )

    def is_kept_by(self, chosen: frozenset[int]) -> bool:
        """Return whether a choice keeps every row that must hold."""
        return all(row.penalty is not None or row.broken_by(chosen) == 0 for row in self.rows)


class Status(StrEnum):
    """How a search ended; only the first two carry a choice."""

    BEST = "best, proved"
    GOOD = "good, not proved best"
    IMPOSSIBLE = "impossible, proved"
    UNKNOWN = "no answer within the limit"


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """The outcome of a search: the chosen variables and what they are worth."""

    status: Status
    chosen: frozenset[int] = frozenset()
    value: int = 0

    @property
    def is_usable(self) -> bool:
        """Return whether there is a choice to use."""
        return self.status in (Status.BEST, Status.GOOD)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """The least amount by which the rows of one rule must give way for a choice to exist."""

    status: Status
    amount: int = 0
    chosen: frozenset[int] = frozenset()


class Solver(Protocol):
    """What practice asks of a solver; the real one and its small twin both fulfil it."""

    def choose(self, program: Program) -> Choice:
        """Return the best choice that keeps every row that must hold."""
        ...

    def stretch(self, program: Program, rules: frozenset[str]) -> Stretch:
        """Return the choice that breaks the rows of ``rules`` least and keeps all the others."""
        ...


@dataclass(slots=True)
class Builder:
    """Collects variables and rows; ``names`` lets the caller find its variables again."""

    gain: list[int] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)

    def variable(self, gain: int = 0) -> int:
        """Add a yes-or-no variable and return its index."""
        self.gain.append(gain)
        return len(self.gain) - 1

    def row(
        self,
        rule: str,
        terms: Iterable[tuple[int, int]],
        *,
        low: int | None = None,
        high: int | None = None,
        penalty: int | None = None,
        note: str = "",
    ) -> None:
        """Add a row; terms with coefficient 0 are left out."""
        kept = tuple((index, coefficient) for index, coefficient in terms if coefficient)
        self.rows.append(Row(rule=rule, terms=kept, low=low, high=high, penalty=penalty, note=note))

    def program(self) -> Program:
        """Return the finished program."""
        return Program(gain=tuple(self.gain), rows=tuple(self.rows))
