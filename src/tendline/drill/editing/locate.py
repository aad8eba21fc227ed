"""On which line of a script each person, thing, header line and line of the play stands."""

from __future__ import annotations

from dataclasses import dataclass, field

from tendline.base import ScriptError
from tendline.drill.lines import read_lines, refuse_if_too_big


@dataclass(frozen=True, slots=True)
class Located:
    """Line numbers from 1. ``rows`` in the order of the play's rows; ``marks`` by first words."""

    rows: tuple[int, ...] = ()
    marks: dict[str, int] = field(default_factory=dict)

    def of(self, chosen: str) -> int:
        """Return the line of a person, a thing or ``row N``; 0 if it stands on none."""
        if chosen.startswith("row "):
            number = int(chosen[4:]) if chosen[4:].isdigit() else -1
            return self.rows[number] if 0 <= number < len(self.rows) else 0
        return self.marks.get(chosen, 0)

    def row_at(self, line: int) -> int:
        """Return the number of the row on a line, or -1."""
        return self.rows.index(line) if line in self.rows else -1

    def chosen_at(self, line: int) -> str:
        """Return what stands on a line: a person, a thing, ``row N``, or nothing."""
        row = self.row_at(line)
        if row >= 0:
            return f"row {row}"
        return next((name for name, number in self.marks.items() if number == line), "")


def locate(text: str) -> Located:
    """Return where everything stands, as far as the text can be read at all."""
    try:
        lines, _, _ = read_lines(refuse_if_too_big(text))
    except ScriptError:
        return Located()
    section = "head"
    rows: list[int] = []
    marks: dict[str, int] = {}
    for line in lines:
        word = line.text.lower().rstrip(":").strip()
        if line.indent == 0:
            section = word if word in ("people", "play") else "head"
        elif section == "play":
            rows.append(line.number)
        elif section == "people":
            marks.setdefault(_mark(line.text), line.number)
    return Located(tuple(rows), marks)


def _mark(text: str) -> str:
    """Return the name of who or what a line under ``people`` is about."""
    words = text.split(" at ", 1)[0].split()
    counted = len(words) == 2 and words[1].isdigit() and words[0] in ("pucks", "line")
    return words[0] if counted else " ".join(words)
