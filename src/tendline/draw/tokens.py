"""The inks, type sizes and spaces that pages, pictures and printed sheets share.

Two accents only: *risk* (always hatched too) and *advice* (always solid with a dot), so that a
picture keeps its meaning in grey and for colour-blind readers. Text inks reach a contrast of 7 to 1
(WCAG 2.2, AAA) on paper and on white; ``tests/draw/test_tokens.py`` measures it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

FONT_FAMILY = "Atkinson Hyperlegible Next"
FONT_STACK = f"{FONT_FAMILY}, system-ui, sans-serif"


class Paint(StrEnum):
    """What an ink is for; the value is also the name of its CSS custom property."""

    PAPER = "paper"
    SHEET = "sheet"
    INK = "ink"
    INK_SOFT = "ink-soft"
    LINE = "line"
    RISK = "risk"
    RISK_WASH = "risk-wash"
    ADVICE = "advice"
    ADVICE_WASH = "advice-wash"
    ICE = "ice"
    CREASE = "crease"
    RINK_RED = "rink-red"
    RINK_BLUE = "rink-blue"
    GEAR = "gear"


@dataclass(frozen=True, slots=True)
class Palette:
    """One set of inks; ``inks`` maps every :class:`Paint` to a colour ``#RRGGBB``."""

    name: str
    inks: Mapping[Paint, str]

    def __getitem__(self, paint: Paint) -> str:
        return self.inks[paint]


PAPER = Palette(
    "paper",
    {
        Paint.PAPER: "#FAF8F3",
        Paint.SHEET: "#FFFFFF",
        Paint.INK: "#14212B",
        Paint.INK_SOFT: "#485359",
        Paint.LINE: "#C6CBCD",
        Paint.RISK: "#982C10",
        Paint.RISK_WASH: "#F8E9E2",
        Paint.ADVICE: "#065B52",
        Paint.ADVICE_WASH: "#D5E8E2",
        Paint.ICE: "#FFFFFF",
        Paint.CREASE: "#E9F1F4",
        Paint.RINK_RED: "#D3A096",
        Paint.RINK_BLUE: "#93ADC7",
        Paint.GEAR: "#DCE4E6",
    },
)
"""Paper and ink: the default."""

DARK = Palette(
    "dark",
    {
        Paint.PAPER: "#0D1317",
        Paint.SHEET: "#141C22",
        Paint.INK: "#F6F3EC",
        Paint.INK_SOFT: "#C4CBD0",
        Paint.LINE: "#4A565F",
        Paint.RISK: "#FF9474",
        Paint.RISK_WASH: "#3A1E16",
        Paint.ADVICE: "#4FD8B9",
        Paint.ADVICE_WASH: "#12382F",
        Paint.ICE: "#182128",
        Paint.CREASE: "#22323B",
        Paint.RINK_RED: "#8A554B",
        Paint.RINK_BLUE: "#4C6A88",
        Paint.GEAR: "#34414A",
    },
)
"""High contrast for a dim rink."""

PRINT = Palette(
    "print",
    {
        Paint.PAPER: "#FFFFFF",
        Paint.SHEET: "#FFFFFF",
        Paint.INK: "#000000",
        Paint.INK_SOFT: "#3A3A3A",
        Paint.LINE: "#B4B4B4",
        Paint.RISK: "#000000",
        Paint.RISK_WASH: "#F4F4F4",
        Paint.ADVICE: "#000000",
        Paint.ADVICE_WASH: "#E2E2E2",
        Paint.ICE: "#FFFFFF",
        Paint.CREASE: "#F0F0F0",
        Paint.RINK_RED: "#A8A8A8",
        Paint.RINK_BLUE: "#A8A8A8",
        Paint.GEAR: "#E0E0E0",
    },
)
"""Black and white, for paper that will be photocopied."""

SIZES_REM = {"small": 1.0, "body": 1.125, "lead": 1.3125, "heading": 1.5, "answer": 2.125}
"""Type scale on screen, in units of 16 px; nothing is smaller than 16 px."""

SPACES_REM = (0.25, 0.5, 0.75, 1.25, 2.0, 3.5)
"""Spacing scale on screen, in units of 16 px."""

TARGET_MM = 15.0
TARGET_GAP_MM = 3.0

SHEET_BODY_PT = 10.5
SHEET_LARGE_PT = 16.0
"""Body size of printed sheets, normal and large print, in points."""

PICTURE_TEXT_PX = 16.0
"""Size of the words in a picture shown at its nominal width, in CSS pixels."""


def _variables(palette: Palette) -> str:
    return "".join(f"--{paint.value}:{palette[paint]};" for paint in Paint)


def css_tokens() -> str:
    """Return the style sheet of custom properties, font faces and the classes of pictures.

    Addresses of fonts are relative (``fonts/NAME.woff2``). ``[data-theme="dark"]`` on any element
    turns the inks below it; pictures follow because each painted element carries the class
    ``tl-fill-PAINT`` or ``tl-line-PAINT``.
    """
    faces = "".join(
        f"@font-face{{font-family:'{FONT_FAMILY}';font-weight:{weight};font-style:normal;"
        f"font-display:swap;src:url(fonts/AtkinsonHyperlegibleNext-{name}.woff2) "
        "format('woff2')}\n"
        for name, weight in (("Regular", 400), ("Bold", 700))
    )
    sizes = "".join(f"--size-{name}:{rem}rem;" for name, rem in SIZES_REM.items())
    spaces = "".join(f"--space-{i}:{rem}rem;" for i, rem in enumerate(SPACES_REM, start=1))
    targets = f"--target:{TARGET_MM:g}mm;--target-gap:{TARGET_GAP_MM:g}mm;"
    paints = "".join(
        f".tl-fill-{paint.value}{{fill:var(--{paint.value})}}"
        f".tl-line-{paint.value}{{stroke:var(--{paint.value})}}\n"
        for paint in Paint
    )
    return (
        f"{faces}:root{{--font:'{FONT_FAMILY}',system-ui,sans-serif;{sizes}{spaces}{targets}"
        f"{_variables(PAPER)}color-scheme:light}}\n"
        f'[data-theme="dark"]{{{_variables(DARK)}color-scheme:dark}}\n'
        f"{paints}"
        ".tl-picture text{font-family:var(--font);font-variant-numeric:tabular-nums}\n"
        f"@media print{{:root,[data-theme]{{{_variables(PRINT)}color-scheme:light}}}}\n"
    )
