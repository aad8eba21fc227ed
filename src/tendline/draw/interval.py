"""Counts before percentages, and the span that so few of them leave open, as a small drawing."""

from __future__ import annotations

from tendline.draw.svg import Picture
from tendline.draw.tokens import PAPER, Paint, Palette


def interval_svg(
    low: float,
    middle: float,
    high: float,
    *,
    scale: tuple[float, float] = (0.0, 1.0),
    marks: tuple[float, ...] = (),
    words: str = "",
    width: float = 160.0,
    height: float = 22.0,
    palette: Palette = PAPER,
) -> str:
    """Return a span from ``low`` to ``high`` with a dot at ``middle`` on a rule over ``scale``.

    ``marks`` are values to compare with (drawn as ticks); ``words`` is the text equivalent. Values
    outside the scale are drawn at its end, with an open end of the span.
    """
    picture = Picture(
        width=width, height=height, title=words or f"{middle:.2f}, from {low:.2f} to {high:.2f}",
        kind="tl-interval", palette=palette,
    )  # fmt: skip
    left, right, y = 6.0, width - 6.0, height / 2.0

    def at(value: float) -> float:
        share = (value - scale[0]) / (scale[1] - scale[0])
        return left + min(max(share, 0.0), 1.0) * (right - left)

    picture.line((left, y), (right, y), paint=Paint.LINE, width=1.0, classes="tl-rule")
    for end in (left, right):
        picture.line((end, y - 4.0), (end, y + 4.0), paint=Paint.LINE, width=1.0)
    for mark in marks:
        picture.line((at(mark), y - 8.0), (at(mark), y + 8.0), paint=Paint.INK_SOFT, width=1.4,
                     dash="2 2", classes="tl-mark")  # fmt: skip
    picture.line((at(low), y), (at(high), y), paint=Paint.INK, width=4.0, cap="butt",
                 classes="tl-span")  # fmt: skip
    for value in (low, high):
        if scale[0] <= value <= scale[1]:
            picture.line((at(value), y - 5.0), (at(value), y + 5.0), paint=Paint.INK, width=1.6)
    picture.circle((at(middle), y), 5.0, fill=Paint.INK, stroke=Paint.SHEET, width=1.6,
                   classes="tl-middle")  # fmt: skip
    return picture.svg()
