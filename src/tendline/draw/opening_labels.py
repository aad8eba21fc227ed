"""Names of the open parts of the net: beside the picture with leaders, or numbered in a list."""

from __future__ import annotations

from collections.abc import Sequence

from tendline.draw.chart import TEXT
from tendline.draw.drill_tidy import signs_apart
from tendline.draw.fontfiles import text_width
from tendline.draw.labels import spread
from tendline.draw.svg import Picture, Point
from tendline.draw.tokens import Paint

ROW = 1.5 * TEXT
DISC = 10.5
"""Height of a row of the list, and radius of a number's disc, in CSS pixels."""

Named = tuple[str, float]
"""Name of an opening and its share of the net."""


def percent(share: float) -> str:
    """Return a share in whole hundredths."""
    return f"{100.0 * share:.0f} %" if share >= 0.01 else "under 1 %"


def label_below(
    picture: Picture, openings: Sequence[Named], tips: Sequence[Point], *, top: float
) -> None:
    """Number the openings at ``tips`` and name them in a list that begins at ``top``."""
    places = signs_apart([(tip, False) for tip in tips], least=2.0 * DISC + 1.0)
    for index, ((name, share), tip, at) in enumerate(
        zip(openings, tips, places, strict=True), start=1
    ):
        if at != tip:
            picture.line(tip, at, paint=Paint.INK, width=1.0, classes="tl-leader")
        _number(picture, index, at)
        y = top + ROW * (index - 0.5)
        _number(picture, index, (DISC + 4.0, y))
        picture.text((2.0 * DISC + 16.0, y + 0.34 * TEXT), f"{name}, {percent(share)}", size=TEXT,
                     classes="tl-opening-label")  # fmt: skip


def _number(picture: Picture, number: int, at: Point) -> None:
    picture.circle(at, DISC, fill=Paint.SHEET, stroke=Paint.INK, width=1.4)
    picture.text((at[0], at[1] + 0.34 * TEXT), str(number), size=TEXT, anchor="middle", bold=True)


def label_beside(
    picture: Picture, openings: Sequence[Named], tips: Sequence[Point], *, column: float,
    ground: float,
) -> None:  # fmt: skip
    """Name the openings in columns left and right, the five hole below the ``ground`` line."""
    columns: dict[str, list[int]] = {"start": [], "end": [], "below": []}
    for index, ((name, _), tip) in enumerate(zip(openings, tips, strict=True)):
        if name == "five hole":
            columns["below"].append(index)
        else:
            columns["end" if tip[0] < picture.width / 2.0 else "start"].append(index)
    for anchor, x in (("end", column - 12.0), ("start", picture.width - column + 12.0)):
        members = columns[anchor]
        heights = spread([tips[i][1] for i in members], gap=2.5 * TEXT, low=1.4 * TEXT,
                         high=ground - 0.8 * TEXT)  # fmt: skip
        for index, y in zip(members, heights, strict=True):
            _two_lines_at(picture, openings[index], tips[index], (x, y), anchor)
    for index in columns["below"]:
        x, y = tips[index]
        name, share = openings[index]
        picture.line((x, y), (x, ground + 10.0), paint=Paint.INK, width=1.0, classes="tl-leader")
        picture.circle((x, y), 2.6, fill=Paint.INK)
        picture.text((x, ground + 14.0 + TEXT), f"{name}, {percent(share)}", size=TEXT,
                     anchor="middle", classes="tl-opening-label")  # fmt: skip


def _two_lines_at(picture: Picture, named: Named, tip: Point, at: Point, anchor: str) -> None:
    first, second = _two_lines(named[0])
    x, y = at
    near = x + (6.0 if anchor == "end" else -6.0)
    picture.line((near, y), tip, paint=Paint.INK, width=1.0, classes="tl-leader")
    picture.circle(tip, 2.6, fill=Paint.INK)
    second = f"{second}, {percent(named[1])}"
    for words, line in ((first, y - 0.25 * TEXT), (second, y + 0.9 * TEXT)):
        picture.text((x, line), words, size=TEXT, anchor=anchor, halo=True,
                     classes="tl-opening-label")  # fmt: skip


def _two_lines(name: str) -> tuple[str, str]:
    """Return a name broken where its halves are most alike in width."""
    words = name.split(" ")
    if len(words) < 2:
        return name, ""
    breaks = [(" ".join(words[:i]), " ".join(words[i:])) for i in range(1, len(words))]
    return min(breaks, key=lambda two: max(text_width(two[0], size=1.0), _with_share(two[1])))


def _with_share(words: str) -> float:
    return text_width(f"{words}, 00 %", size=1.0)
