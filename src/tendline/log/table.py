"""A table from text: any common separator, comma or point decimals, row numbers as in the file."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass

from tendline.base import InputError

MOST_BYTES = 64 * 1024 * 1024
MOST_ROWS = 500_000
SEPARATORS = (",", ";", "\t", "|")


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its line number in the file (the heading is line 1) and its cells by column."""

    line: int
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Table:
    """A table's columns and rows."""

    columns: tuple[str, ...]
    rows: tuple[Row, ...]
    separator: str


def text_of(data: bytes) -> str:
    """Return a file's text: UTF-8 (with or without a mark) or, failing that, Windows Latin.

    Raises ``InputError`` for what is no text at all and for files that are too large.
    """
    if len(data) > MOST_BYTES:
        raise InputError(
            "the file is too large", came=f"{len(data) / 1e6:.0f} MB",
            allowed=f"up to {MOST_BYTES / 1e6:.0f} MB", hint="Split it by season.",
        )  # fmt: skip
    if b"\x00" in data[:4096]:
        raise InputError(
            "this is not a text table", allowed="a CSV file",
            hint="Save the sheet as CSV (comma separated) and import that.",
        )  # fmt: skip
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def read_table(text: str) -> Table:
    """Return the table in a CSV text; raises ``InputError`` if there is none.

    Rows with too few or too many cells are kept as they are (missing cells are empty, surplus
    ones dropped); lines that are empty are left out.
    """
    heading = next((line for line in text.splitlines() if line.strip()), "")
    if not heading:
        raise InputError("the file is empty", allowed="a heading and one row for each shot")
    separator = max(SEPARATORS, key=heading.count)
    reader = csv.reader(io.StringIO(text), delimiter=separator)
    columns: tuple[str, ...] = ()
    rows: list[Row] = []
    try:
        for cells in reader:
            if not any(one.strip() for one in cells):
                continue
            if not columns:
                columns = tuple(one.strip() for one in cells)
                continue
            rows.append(
                Row(reader.line_num, dict(zip(columns, _padded(cells, columns), strict=False)))
            )
            if len(rows) > MOST_ROWS:
                raise InputError(
                    "the file has too many rows", allowed=f"up to {MOST_ROWS:,}",
                    hint="Split it by season.",
                )  # fmt: skip
    except csv.Error as error:
        raise InputError(
            "the file cannot be read as a table", came=f"line {reader.line_num}: {error}",
            allowed="a CSV file", hint="Save the sheet as CSV again and import that.",
        ) from error  # fmt: skip
    twice = sorted({one for one in columns if one and columns.count(one) > 1})
    if twice:
        raise InputError(
            "two columns share a name", came=", ".join(twice), allowed="every name once",
            hint="Rename one of them in the heading.",
        )  # fmt: skip
    return Table(columns, tuple(rows), separator)


def _padded(cells: list[str], columns: tuple[str, ...]) -> list[str]:
    return [one.strip() for one in cells] + [""] * (len(columns) - len(cells))


def number_in(cell: str) -> float:
    """Return the number in a cell, with a point or a comma; raises ``ValueError``."""
    text = cell.strip()
    if "," in text and "." not in text:
        text = text.replace(",", ".")
    return float(text)
