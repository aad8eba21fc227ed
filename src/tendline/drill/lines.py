"""Script text to lines: size limits, indentation, comments kept apart from words."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass

from tendline.base import ScriptError
from tendline.drill import limits
from tendline.drill.types import NO_NOTE, Note


@dataclass(frozen=True, slots=True)
class Line:
    """One line that says something: number from 1, indentation, words, its comments."""

    number: int
    indent: int
    text: str
    note: Note = NO_NOTE


class DrillScriptError(ScriptError):
    """Everything that is wrong with a script; ``errors`` holds one error per fault."""

    def __init__(self, errors: tuple[ScriptError, ...]) -> None:
        self.errors = errors
        first = errors[0]
        asked = first.asked
        if len(errors) > 1:
            more = len(errors) - 1
            asked = f"{asked} (and {more} more fault{'s' if more > 1 else ''})"
        super().__init__(
            asked, line=first.line, came=first.came, allowed=first.allowed, hint=first.hint
        )


def refuse_if_too_big(text: str | bytes) -> str:
    """Return the text if it is of a size and kind that a script may have.

    Raises :class:`ScriptError` for anything over the limits, undecodable or with control
    characters; nothing in the text is ever run, opened or looked up.
    """
    size = len(text)
    if size > limits.MAX_BYTES:
        raise ScriptError(
            "the script is too long to be a drill",
            line=1,
            came=f"{size} characters",
            allowed=f"at most {limits.MAX_BYTES}",
        )
    if isinstance(text, bytes):
        try:
            text = text.decode("utf-8-sig")
        except UnicodeDecodeError as fault:
            raise ScriptError(
                "the script is not UTF-8 text",
                line=1,
                came=f"byte {fault.start}",
                hint="Save it as plain UTF-8 text.",
            ) from None
    return text.removeprefix("\ufeff")


def split_comment(text: str) -> tuple[str, str | None]:
    """Return words and comment of a line; a ``#`` inside double quotes is no comment."""
    quoted = False
    for place, letter in enumerate(text):
        if letter == '"':
            quoted = not quoted
        elif letter == "#" and not quoted and (place == 0 or text[place - 1] in " \t"):
            return text[:place].rstrip(), text[place + 1 :].strip()
    return text.rstrip(), None


def read_lines(text: str) -> tuple[list[Line], tuple[str, ...], list[ScriptError]]:
    """Return lines with words, the comments left at the end, and the faults found.

    Comment lines belong to the next line with words. Tabs count as two spaces.
    """
    lines: list[Line] = []
    faults: list[ScriptError] = []
    waiting: list[str] = []
    raw_lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if len(raw_lines) > limits.MAX_LINES:
        fault = ScriptError(
            "the script has too many lines",
            line=limits.MAX_LINES + 1,
            came=f"{len(raw_lines)}",
            allowed=f"at most {limits.MAX_LINES}",
        )
        return [], (), [fault]
    for number, raw in enumerate(raw_lines, start=1):
        expanded = raw.expandtabs(2)
        if len(expanded) > limits.MAX_LINE_LENGTH:
            faults.append(
                ScriptError(
                    "the line is too long",
                    line=number,
                    came=f"{len(expanded)} characters",
                    allowed=f"at most {limits.MAX_LINE_LENGTH}",
                    hint="Write it as two sentences on two lines.",
                )
            )
            continue
        strange = next((c for c in expanded if unicodedata.category(c) in _REFUSED), "")
        if strange:
            faults.append(
                ScriptError(
                    "the line holds a control character",
                    line=number,
                    came=f"U+{ord(strange):04X}",
                    allowed="printable text",
                )
            )
            continue
        words, comment = split_comment(expanded)
        body = words.strip()
        if not body:
            if comment is not None:
                waiting.append(comment)
            continue
        note = Note(tuple(waiting), comment or "") if waiting or comment else NO_NOTE
        waiting = []
        indent = len(words) - len(words.lstrip())
        lines.append(Line(number, indent, body, note))
    return lines, tuple(waiting), faults


_REFUSED = frozenset({"Cc", "Cf", "Cs", "Co", "Zl", "Zp"})
