"""What the columns page sends: the table's text, and what was picked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

from fastapi import Request
from starlette.datastructures import UploadFile

from tendline.base import InputError, ScoringSituation, ShotResult, ShotType, Side
from tendline.ice import RuleSet
from tendline.log import FIELDS, Ends, FileUnit, Origin, Readiness, Table, text_of
from tendline.log.guessing import result_word, shot_rows, shot_type_word, words_in
from tendline.work.mapping_desk import Picks

MOST_TEXT = 8_000_000
"""Bytes of a table that the page takes; a larger file needs only its first part for the picks."""
MOST_FIELDS = 400
NOT_SAID = ""
VOCABULARIES: Mapping[str, tuple[str, ...]] = {
    "result": tuple(one.value for one in ShotResult),
    "shot_type": (*(one.value for one in ShotType), NOT_SAID),
    "situation": (*(one.value for one in ScoringSituation), NOT_SAID),
    "readiness": (*(one.value for one in Readiness), NOT_SAID),
    "shooter_hand": (*(one.value for one in Side), NOT_SAID),
}
"""Fields whose words must be tendline's, and the words there are; '' leaves it unsaid."""
E = TypeVar("E", Origin, Ends, FileUnit, RuleSet)


@dataclass(frozen=True, slots=True)
class Sent:
    """What the page sent: the table's text, and the other fields by name, each with its values."""

    text: str
    fields: Mapping[str, tuple[str, ...]]

    def said(self, name: str) -> str:
        """Return the first value of a field without blanks round it; '' if there is none."""
        found = self.all(name)
        return found[0].strip() if found else ""

    def all(self, name: str) -> tuple[str, ...]:
        """Return every value of a field as it stands."""
        return self.fields.get(name, ())


async def sent_of(request: Request) -> Sent:
    """Return what the page sent: the text of the file if one was chosen, else what was pasted.

    Raises ``InputError`` for a table that is too large, and where there is none.
    """
    declared = request.headers.get("content-length", "")
    if declared.isdecimal() and int(declared) > 2 * MOST_TEXT:
        raise _too_large()
    most = MOST_TEXT + 1_000_000
    async with request.form(max_files=1, max_fields=MOST_FIELDS, max_part_size=most) as form:
        fields = {
            name: tuple(one for one in form.getlist(name) if isinstance(one, str)) for name in form
        }
        file = form.get("file")
        if isinstance(file, UploadFile) and file.size:
            content = await file.read(MOST_TEXT + 1)
            if len(content) > MOST_TEXT:
                raise _too_large()
            return Sent(text_of(content).replace("\r\n", "\n"), fields)
    text = "".join(fields.pop("text", ())[:1]).replace("\r\n", "\n")
    if text.strip():
        return Sent(text, fields)
    raise InputError(
        "there is no table to read", allowed="a CSV file, or the table itself pasted in",
        hint="Go back and choose a file.",
    )  # fmt: skip


def picks_in(sent: Sent, table: Table) -> Picks:
    """Return what was picked; columns that the table lacks count as not picked."""
    said = sent.said
    picked = {name: said(f"col.{name}") for name in FIELDS}
    columns = {name: one for name, one in picked.items() if one and one in table.columns}
    where_column = said("where_column") if said("where_column") in table.columns else ""
    where = _where(sent, table, where_column)
    return Picks(
        name=said("name"),
        base=said("base"),
        columns=columns,
        unit=_one(FileUnit, said("unit"), FileUnit.METRES),
        origin=_one(Origin, said("origin"), Origin.GOAL),
        ends=_one(Ends, said("ends"), Ends.SHOT_AT),
        x_out=said("x_out") != "no",
        y_left=said("y_left") != "no",
        near_end_first=said("near_end_first") != "no",
        rule_set=_one(RuleSet, said("rule_set"), RuleSet.NHL),
        period_length=60.0 * _minutes(said("period_minutes")),
        values=_values(sent, shot_rows(table, where), columns),
        where=where,
        where_column=where_column,
    )


def _values(sent: Sent, table: Table, columns: Mapping[str, str]) -> dict[str, dict[str, str]]:
    """Return the file's words for tendline's: as picked (other files' too), or guessed."""
    found: dict[str, dict[str, str]] = {}
    for name, column in columns.items():
        told = dict(zip(sent.all(f"raw.{name}"), sent.all(f"word.{name}"), strict=False))
        known = VOCABULARIES.get(name)
        if known is not None:
            for word, _ in words_in(table, column):
                told.setdefault(word, _guess(name, word))
            told = {word: says for word, says in told.items() if says in known}
        told = {word: says.strip() for word, says in told.items()}
        if any(word.lower() != says for word, says in told.items()):
            found[name] = told
    return found


def _guess(name: str, word: str) -> str:
    if name == "result":
        return result_word(word)
    if name == "shot_type":
        return shot_type_word(word)
    return word.lower() if word.lower() in VOCABULARIES[name] else NOT_SAID


def _where(sent: Sent, table: Table, column: str) -> dict[str, tuple[str, ...]]:
    """Return which rows are shots; nothing ticked, or everything, is no condition."""
    words = [word for word, _ in words_in(table, column)]
    ticked = set(sent.all("where"))
    kept = tuple(word for word in words if word in ticked)
    if kept and len(kept) < len(words):
        return {column: kept}
    return {}


def _one(kind: type[E], text: str, default: E) -> E:
    try:
        return kind(text)
    except ValueError:
        return default


def _minutes(text: str) -> float:
    try:
        found = float(text.replace(",", "."))
    except ValueError:
        return 20.0
    return found if 1.0 <= found <= 60.0 else 20.0


def _too_large() -> InputError:
    return InputError(
        "the table is too large for this page", came=f"more than {MOST_TEXT / 1e6:.0f} MB",
        allowed=f"up to {MOST_TEXT / 1e6:.0f} MB",
        hint="Pick the columns with its first part, keep them, and import the whole file then.",
    )  # fmt: skip
