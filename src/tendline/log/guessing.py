"""A first guess at a column mapping, from a table's own heading, words and numbers.

The guess is offered to a coach, who sees what it makes of the first rows and changes what is
wrong; nothing is imported through a guess alone. Left and right cannot be told from a table.
"""

from __future__ import annotations

import math
import re
import statistics
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from tendline.base import ShotResult, ShotType, assumed, fact
from tendline.ice import RuleSet
from tendline.log.columns import FIELDS, ColumnMapping, Ends, FileUnit, Origin
from tendline.log.names import FIELD_NAMES, RESULT_WORDS, SHOT_TYPE_WORDS, SHOTS, UNIT_NAMES
from tendline.log.placing import (
    BEHIND_MOST,
    FURTHEST_USUAL,
    NEAREST_USUAL,
    OFF_ICE_MOST,
    place,
    sheet_of,
)
from tendline.log.stream import meets
from tendline.log.table import Table, number_in

LOOKED_AT = 2000
"""So many rows are looked at."""
MOST_WORDS = 30
"""A column with more different words than this holds no closed vocabulary."""
ENOUGH = 12
"""With fewer shots than this, their spread to the sides says nothing."""
USUAL_DISTANCE = fact(
    "game.mean_shot_distance_5v5",
    "Distance at which a file's middle shot is looked for",
    key="log.usual_distance",
    low=5.0,
    high=20.0,
)
FAR_MOST = assumed(
    "log.far_most", "with more shots than this from beyond the red line both goals are shot at",
    0.10, "share", low=0.02, high=0.4,
)  # fmt: skip
_ORDERLY = 0.1
"""How much worse [log distance] a rarer frame may fit and still lose to a more usual one."""
_CAMEL = re.compile(r"(?<=[a-z0-9])(?=[A-Z])")
_CUT = re.compile(r"[^A-Za-z0-9]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Guess:
    """What a table seems to hold; ``sure`` names the parts that its contents bear out."""

    columns: Mapping[str, str]
    unit: FileUnit = FileUnit.METRES
    origin: Origin = Origin.GOAL
    ends: Ends = Ends.SHOT_AT
    x_out: bool = True
    values: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    where: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    sure: frozenset[str] = frozenset()


def words_in(table: Table, column: str, most: int = MOST_WORDS) -> tuple[tuple[str, int], ...]:
    """Return a column's different words with their counts, commonest first.

    Empty for a column that is not there or that holds more than ``most`` different words.
    """
    counts: Counter[str] = Counter()
    for row in table.rows:
        counts[row.cells.get(column, "")] += 1
        if len(counts) > most + 1:
            return ()
    counts.pop("", None)
    return tuple(counts.most_common())


def shot_rows(table: Table, where: Mapping[str, tuple[str, ...]]) -> Table:
    """Return the table with only the rows that a condition calls shots; all if there is none."""
    if not where:
        return table
    kept = tuple(row for row in table.rows if meets(row, where))
    return Table(table.columns, kept, table.separator)


def guess(table: Table, rule_set: RuleSet = RuleSet.NHL) -> Guess:
    """Return a first guess at what a table's columns hold; never raises."""
    columns = _columns(table)
    unit = next((found for name in ("x", "y") if (found := _unit(columns.get(name, "")))), None)
    where = _where(table, columns)
    values = _values(shot_rows(table, where), columns)
    frame = _frame(table, columns, unit, where, rule_set)
    sure = frozenset({"unit"} if unit else set()) | (frozenset({"frame"} if frame else set()))
    chosen = frame or (unit or FileUnit.METRES, Origin.GOAL, Ends.SHOT_AT, True)
    return Guess(
        columns=columns, unit=chosen[0], origin=chosen[1], ends=chosen[2], x_out=chosen[3],
        values=values, where=where, sure=sure,
    )  # fmt: skip


def result_word(word: str) -> str:
    """Return tendline's word for a file's word for what became of a shot; '' if it is no such."""
    return _word(word, RESULT_WORDS, [one.value for one in ShotResult])


def shot_type_word(word: str) -> str:
    """Return tendline's word for a file's word for how the puck was sent; '' if unknown."""
    return _word(word, SHOT_TYPE_WORDS, [one.value for one in ShotType])


def _word(word: str, known: Mapping[str, str], own: Iterable[str]) -> str:
    lowered = word.strip().lower()
    return lowered if lowered in own else known.get(_plain(word), "")


def _plain(text: str) -> str:
    return _CUT.sub("", text).lower()


def _parts(name: str) -> list[str]:
    """Return the parts of a heading: cut at signs and at capitals, lower case."""
    return [one.lower() for one in _CUT.split(_CAMEL.sub(" ", name)) if one]


def _unit(column: str) -> FileUnit | None:
    return next((UNIT_NAMES[one] for one in _parts(column)[1:] if one in UNIT_NAMES), None)


def _bare(column: str) -> str:
    """Return a heading without its unit, as one word."""
    parts = _parts(column)
    kept = [one for at, one in enumerate(parts) if at == 0 or one not in _MEASURES]
    return "".join(kept)


_MEASURES = {*UNIT_NAMES, "s", "sec", "secs", "seconds", "min"}


def _columns(table: Table) -> dict[str, str]:
    """Return field to column, each column once; x and y must hold numbers."""
    free = {one: {_plain(one), _bare(one)} for one in table.columns if one}
    found: dict[str, str] = {}
    for name in FIELDS:
        for wanted in (_plain(name), *FIELD_NAMES.get(name, ())):
            column = next((one for one, says in free.items() if wanted in says), None)
            if column is not None and _can_be(table, name, column):
                found[name] = column
                del free[column]
                break
    if "result" not in found:
        best = max(free, key=lambda one: _known_share(table, one), default="")
        if best and _known_share(table, best) >= 0.5:
            found["result"] = best
    return {name: found[name] for name in FIELDS if name in found}


def _known_share(table: Table, column: str) -> float:
    words = words_in(table, column)
    if not words or all(_is_number(word) for word, _ in words):
        return 0.0
    total = sum(count for _, count in words)
    return sum(count for word, count in words if result_word(word)) / total


_NUMBERS = frozenset({"x", "y", "pass_x", "pass_y", "target_y", "target_z", "goaltender_x",
                      "goaltender_y", "since_pass"})  # fmt: skip


def _can_be(table: Table, name: str, column: str) -> bool:
    cells = [row.cells.get(column, "") for row in table.rows[:LOOKED_AT]]
    said = [one for one in cells if one]
    if name in _NUMBERS:
        return sum(_is_number(one) for one in said) > 0.5 * len(said)
    if name == "result":
        return _known_share(table, column) > 0.0
    if name == "day":
        return bool(said) and re.match(r"\d{4}-\d\d-\d\d", said[0]) is not None
    return True


def _is_number(cell: str) -> bool:
    try:
        return math.isfinite(number_in(cell))
    except ValueError:
        return False


def _values(table: Table, columns: Mapping[str, str]) -> dict[str, dict[str, str]]:
    """Return the file's words for tendline's where they differ."""
    found: dict[str, dict[str, str]] = {}
    for name, known in (("result", result_word), ("shot_type", shot_type_word)):
        words = [word for word, _ in words_in(table, columns.get(name, ""))]
        told = {word: known(word) for word in words}
        if name == "result":
            told = {word: says for word, says in told.items() if says}
        if any(word.lower() != says for word, says in told.items()):
            found[name] = told
    periods = [word for word, _ in words_in(table, columns.get("period", ""))]
    odd = {word: _period(word) for word in periods if not _is_number(word)}
    if any(odd.values()):
        found["period"] = odd
    return found


def _period(word: str) -> str:
    plain = _plain(word)
    if plain in ("ot", "overtime", "ot1"):
        return "4"
    digits = re.search(r"\d+", plain)
    return digits[0] if digits else ""


def _where(table: Table, columns: Mapping[str, str]) -> dict[str, tuple[str, ...]]:
    """Return which rows are shots: by an event column, or by the words of the result itself."""
    used = set(columns.values())
    for column in table.columns:
        words = [word for word, _ in words_in(table, column)]
        shots = tuple(word for word in words if _plain(word) in SHOTS)
        if column not in used and shots and len(shots) < len(words):
            return {column: shots}
    column = columns.get("result", "")
    words = [word for word, _ in words_in(table, column)]
    known = tuple(word for word in words if result_word(word))
    return {column: known} if known and len(known) < len(words) else {}


def _frame(
    table: Table,
    columns: Mapping[str, str],
    unit: FileUnit | None,
    where: Mapping[str, tuple[str, ...]],
    rule_set: RuleSet,
) -> tuple[FileUnit, Origin, Ends, bool] | None:
    """Return the usual frame in which the places fit the ice best, or None if none fits."""
    places = _places(table, columns, where)
    if not places:
        return None
    best: tuple[float, tuple[FileUnit, Origin, Ends, bool]] | None = None
    units = (unit,) if unit else (FileUnit.METRES, FileUnit.FEET)
    order = 0
    for origin in Origin:
        ends = (Ends.SHOT_AT,) if origin is Origin.GOAL else (Ends.SHOT_AT, Ends.NEARER)
        for one_end in ends:
            for x_out in (True, False):
                for one_unit in units:
                    if one_end is Ends.NEARER and not x_out:
                        continue
                    order += 1
                    frame = (one_unit, origin, one_end, x_out)
                    off = _misfit(frame, places, rule_set)
                    if off is None:
                        continue
                    price = off + _ORDERLY * order / 4.0
                    if best is None or price < best[0]:
                        best = (price, frame)
    return None if best is None else best[1]


def _places(
    table: Table, columns: Mapping[str, str], where: Mapping[str, tuple[str, ...]]
) -> list[tuple[float, float]]:
    found = []
    for row in shot_rows(table, where).rows[:LOOKED_AT]:
        cells = row.cells
        x, y = cells.get(columns.get("x", ""), ""), cells.get(columns.get("y", ""), "")
        if _is_number(x) and _is_number(y):
            found.append((number_in(x), number_in(y)))
    return found


def _misfit(
    frame: tuple[FileUnit, Origin, Ends, bool],
    places: list[tuple[float, float]],
    rule_set: RuleSet,
) -> float | None:
    """Return how far a frame's middle shot is from the usual one [log distance]; None: no fit."""
    unit, origin, ends, x_out = frame
    mapping = ColumnMapping(
        name="guess", columns={"x": "x", "y": "y", "result": "r"}, unit=unit, origin=origin,
        ends=ends, x_out=x_out, rule_set=rule_set,
    )  # fmt: skip
    sheet = sheet_of(mapping)
    spots = [place(mapping, x=x, y=y, period=1) for x, y in places]
    off = sum(not sheet.contains(*one) for one in spots)
    if off > max(1.0, OFF_ICE_MOST.value * len(spots)) or off == len(spots):
        return None
    if sum(x < 0 for x, _ in spots) > BEHIND_MOST.value * len(spots):
        return None
    if sum(x > sheet.red_line_x for x, _ in spots) > max(1.0, FAR_MOST.value * len(spots)):
        return None
    left = sum(y > 0 for _, y in spots) / len(spots)
    if len(spots) >= ENOUGH and not 0.1 <= left <= 0.9:
        return None
    middle = statistics.median(math.hypot(*one) for one in spots)
    if len(spots) >= ENOUGH and not NEAREST_USUAL.value <= middle <= FURTHEST_USUAL.value:
        return None
    return abs(math.log(max(middle, 0.1) / USUAL_DISTANCE.value))
