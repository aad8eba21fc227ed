"""Typesetting: a template of ``sheets/`` and plain data become one PDF.

Data reach the template only as JSON through ``sys_inputs``, so names with ``#`` or ``$`` stay
words. Fonts come from the package alone, and the time stamp is given, so that the same sheet is
the same file on every machine.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from functools import cache
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any

from tendline.base import unknown_name
from tendline.draw.fontfiles import font_folder
from tendline.draw.tokens import FONT_FAMILY, PRINT, SHEET_BODY_PT, SHEET_LARGE_PT, Paint

FALLBACK_FAMILIES = ("Libertinus Serif", "DejaVu Sans Mono", "New Computer Modern Math")
"""For letters that the sheet's own font lacks (Cyrillic, Greek): families inside the typesetter."""

PAPERS = ("A4", "Letter", "A5", "A6")


@dataclass(frozen=True, slots=True)
class Typeset:
    """A finished sheet: the file, the number of its pages, and what the typesetter warned of."""

    pdf: bytes
    pages: int
    warnings: tuple[str, ...]


def look(
    paper: str, *, size: float = SHEET_BODY_PT, large_print: bool = False, lang: str = "en"
) -> dict[str, Any]:
    """Return the look of a sheet as data; raises ``NotFoundError`` for an unknown paper."""
    if paper not in PAPERS:
        raise unknown_name("paper", paper, PAPERS)
    return {
        "paper": paper,
        "size": SHEET_LARGE_PT if large_print else size,
        "ink": PRINT[Paint.INK],
        "soft": PRINT[Paint.INK_SOFT],
        "line": PRINT[Paint.LINE],
        "wash": PRINT[Paint.ADVICE_WASH],
        "families": [FONT_FAMILY, *FALLBACK_FAMILIES],
        "lang": lang,
    }


@cache
def _sheets() -> Path:
    with as_file(files("tendline.draw").joinpath("sheets")) as folder:
        return Path(folder)


def typeset(template: str, data: Mapping[str, Any], *, day: date | None = None) -> Typeset:
    """Return ``sheets/TEMPLATE.typ`` filled with ``data``; ``day`` dates the file.

    A letter that none of the package's fonts has (in a name, say) is looked for in the fonts of
    the machine; if nobody has it, the sheet is still made, with an empty box for the letter, but
    then without the accessibility standard that forbids it. Either is noted in the warnings.
    """
    import typst

    stamp = datetime.combine(day or date(2000, 1, 1), time(), tzinfo=UTC)
    inputs = {"data": json.dumps(breakable(data), ensure_ascii=False)}
    noticed: list[str] = []
    for own_fonts_only, accessible in ((True, True), (False, True), (False, False)):
        compiler = typst.Compiler(
            str(_sheets() / f"{template}.typ"), root=str(_sheets()),
            font_paths=[str(font_folder())], ignore_system_fonts=own_fonts_only,
            sys_inputs=inputs,
        )  # fmt: skip
        try:
            made, warnings = compiler.compile_with_warnings(
                format="pdf", timestamp=stamp, pdf_standards="ua-1" if accessible else None
            )
        except typst.TypstError as error:
            if "could not be displayed" not in str(error) or not accessible:
                raise
            noticed = [f"letters that the sheet's fonts lack: {error}"]
            continue
        assert isinstance(made, bytes)
        return Typeset(made, page_count(made), (*noticed, *(str(one.message) for one in warnings)))
    raise AssertionError("the last way of typesetting either returns or raises")


LONGEST_WORD = 24


def breakable(data: Any) -> Any:
    """Return the data with a possible line break inside every overlong word of its texts.

    Pictures (values of ``svg``) are left as they are.
    """
    if isinstance(data, str):
        return _OVERLONG.sub(lambda match: f"{match[0]}\u200b", data)
    if isinstance(data, Mapping):
        return {k: v if k == "svg" else breakable(v) for k, v in data.items()}
    if isinstance(data, list | tuple):
        return [breakable(one) for one in data]
    return data


_OVERLONG = re.compile(rf"\S{{{LONGEST_WORD}}}(?=\S)")


def first_that_fits(
    count: int, make: Callable[[int], Typeset], *, allowed: int = 1
) -> tuple[int, Typeset]:
    """Return the first of ``count`` layouts, roomy to tight, with at most ``allowed`` pages.

    Layouts are taken to get tighter one by one, so the range is halved each time. If none fits,
    the tightest is returned.
    """
    low, high = 0, count - 1
    made = make(high)
    while low < high:
        middle = (low + high) // 2
        tried = make(middle)
        if tried.pages <= allowed:
            high, made = middle, tried
        else:
            low = middle + 1
    return high, made


def page_count(pdf: bytes) -> int:
    """Return the number of pages that a typeset PDF says it has."""
    return max(int(one) for one in re.findall(rb"/Type\s*/Pages.*?/Count\s+(\d+)", pdf, re.S))


def sentence(words: str) -> str:
    """Return words as a sentence: a capital first and a full stop last."""
    text = words.strip()
    if not text:
        return ""
    text = text[0].upper() + text[1:]
    return text if text[-1] in ".!?:" else f"{text}."


def sentences(lines: Iterable[str]) -> list[str]:
    """Return every line as a sentence; empty ones are left out."""
    return [text for line in lines if (text := sentence(line))]
