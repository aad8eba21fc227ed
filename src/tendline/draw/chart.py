"""What charts share: a plot area, few gridlines, ticks, and direct labels that never overlap."""

from __future__ import annotations

import math
from collections.abc import Sequence

from tendline.draw.fontfiles import text_width
from tendline.draw.labels import spread
from tendline.draw.svg import Picture, Point
from tendline.draw.tokens import PICTURE_TEXT_PX, Paint

TEXT = PICTURE_TEXT_PX
DASHES: tuple[str | None, ...] = (None, "9 5", "2 4", "12 4 2 4", "5 3", "1 6")
"""Line patterns, so that lines are told apart without colour."""


def nice_step(span: float, *, most: int) -> float:
    """Return the smallest of 1, 2, 2.5 and 5 times a power of ten that divides ``span`` enough."""
    if span <= 0.0:
        return 1.0
    power = 10.0 ** math.floor(math.log10(span / most))
    for factor in (1.0, 2.0, 2.5, 5.0, 10.0):
        if span / (factor * power) <= most:
            return factor * power
    return 10.0 * power


def tick_words(value: float, step: float) -> str:
    """Return a tick's value with the digits that its step needs."""
    digits = max(0, -math.floor(math.log10(step) + 1e-9))
    if abs(step * 10**digits - round(step * 10**digits)) > 1e-6:
        digits += 1
    return f"{value:.{digits}f}"


class Plot:
    """A plot area inside a picture whose unit is the CSS pixel."""

    def __init__(
        self, picture: Picture, *, left: float, top: float, right: float, bottom: float,
        x: tuple[float, float], y: tuple[float, float],
    ) -> None:  # fmt: skip
        self.picture = picture
        self.left, self.top, self.right, self.bottom = left, top, right, bottom
        self.x_range, self.y_range = x, y

    def at(self, x: float, y: float) -> Point:
        """Return the picture point of a value pair."""
        low, high = self.x_range
        across = (x - low) / (high - low)
        low, high = self.y_range
        up = (y - low) / (high - low)
        return (
            self.left + across * (self.right - self.left),
            self.bottom - up * (self.bottom - self.top),
        )

    def axis_x(self) -> None:
        """Draw the horizontal axis."""
        self.picture.line((self.left, self.bottom), (self.right, self.bottom), paint=Paint.INK,
                          width=1.5, classes="tl-axis")  # fmt: skip

    def gridlines(self, step: float, *, words: str = "") -> None:
        """Draw horizontal gridlines every ``step`` with their values to the left."""
        value = math.ceil(self.y_range[0] / step) * step
        while value <= self.y_range[1] + 1e-9:
            _, y = self.at(self.x_range[0], value)
            if value > self.y_range[0]:
                self.picture.line((self.left, y), (self.right, y), paint=Paint.LINE, width=1.0,
                                  classes="tl-grid")  # fmt: skip
            text = tick_words(value, step) + words
            self.picture.text((self.left - 8.0, y + 0.34 * TEXT), text, size=TEXT,
                              paint=Paint.INK_SOFT, anchor="end")  # fmt: skip
            value += step

    def tick_x(self, value: float, words: str, *, row: int = 0, length: float = 6.0) -> None:
        """Draw a tick on the horizontal axis with words below it."""
        x, _ = self.at(value, self.y_range[0])
        self.picture.line((x, self.bottom), (x, self.bottom + length), paint=Paint.INK, width=1.5)
        y = self.bottom + length + 0.95 * TEXT + row * 1.2 * TEXT
        self.picture.text((x, y), words, size=TEXT, paint=Paint.INK_SOFT, anchor="middle")

    def end_labels(
        self, ends: Sequence[tuple[Point, str, Paint, bool]], *, x: float, gap: float = 1.25 * TEXT
    ) -> None:
        """Write a label for each line's end point at ``x``, apart from each other, with leaders."""
        wanted = [point[1] for point, _, _, _ in ends]
        places = spread(wanted, gap=gap, low=self.top + 0.3 * TEXT, high=self.bottom - 0.3 * TEXT)
        for (point, words, paint, bold), y in zip(ends, places, strict=True):
            self.picture.line((point[0] + 2.0, point[1]), (x - 5.0, y), paint=Paint.LINE, width=1.0)
            self.picture.text((x, y + 0.34 * TEXT), words, size=TEXT, paint=paint, bold=bold,
                              classes="tl-line-label")  # fmt: skip


def widest(words: Sequence[str], *, bold: bool = False) -> float:
    """Return the width of the widest of some labels, in CSS pixels."""
    return max((text_width(one, size=TEXT, bold=bold) for one in words), default=0.0)
