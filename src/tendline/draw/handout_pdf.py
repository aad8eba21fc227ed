"""A handout of one or two situations side by side: where to stand, what each option costs."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from tendline.base import LengthUnit, metres_to, show_length
from tendline.draw.advice import (
    advice_words,
    band_words,
    flat_words,
    goals_words,
    is_flat,
    margin_short,
    where_words,
)
from tendline.draw.depth_curve import short_words
from tendline.draw.ice_picture import ROOM, SMALLEST_ALONG, Window, window_for
from tendline.draw.pdf import Typeset, first_that_fits, look, sentence, typeset
from tendline.draw.puck_eye import read_puck_eye_svg
from tendline.draw.situation_picture import shown_places, situation_svg
from tendline.draw.tokens import PRINT
from tendline.ice import on_angle_distance, width_to_cover
from tendline.play import OptionAnswer, OptionKind, Read, numbers_word, per_hundred

PX_PER_MM = 96.0 / 25.4
MOST_ROWS = 5
EYE_PX = 300.0
PICTURE_MM = 89.0
"""Width of each picture of the ice on paper [mm]."""
LAYOUTS = (
    (124.0, 70.0), (112.0, 70.0), (100.0, 66.0), (96.0, 60.0), (90.0, 54.0), (84.0, 48.0),
    (124.0, 0.0), (112.0, 0.0), (100.0, 0.0), (90.0, 0.0), (80.0, 0.0), (70.0, 0.0),
)  # fmt: skip
"""From roomy to tight: greatest height of the ice and width of the puck's eye (0: none) [mm]."""
LEGEND = (
    "circle attacker, triangle defender, dot puck, dashed arrow pass with the time to the shot, "
    "wavy arrow carry, thin lines from the puck to the posts, thick line to the middle of the "
    "goal, shaded band good depths, dashed outline where she goes, slanted ticks too late."
)
SHARED_BAND = 0.5
"""When two bands share at least so much [m], that is said beside the difference."""
FOOT = "Advice from a model, with the assumptions of your settings. The coach decides."


def play_handout_pdf(
    left: Read,
    right: Read | None = None,
    *,
    titles: tuple[str, str] = ("", ""),
    title: str = "Where to stand",
    paper: str = "A4",
    unit: LengthUnit = LengthUnit.METRES,
) -> bytes:
    """Return one or two reads on one side in black and white.

    Both pictures show the same part of the ice. Raises ``NotFoundError`` for an unknown paper.
    """
    return render_play_handout(left, right, titles=titles, title=title, paper=paper, unit=unit).pdf


def render_play_handout(
    left: Read,
    right: Read | None = None,
    *,
    titles: tuple[str, str] = ("", ""),
    title: str = "Where to stand",
    paper: str = "A4",
    unit: LengthUnit = LengthUnit.METRES,
) -> Typeset:
    """Return the typeset handout, its pages and warnings."""
    reads = [left] if right is None else [left, right]

    eyes = [_eye(one) for one in reads]

    def make(index: int) -> Typeset:
        height, eye = LAYOUTS[index]
        window = _shared_window(reads, aspect=PICTURE_MM / height)
        data = {
            "look": look(paper, size=11.0),
            "title": title,
            "sides": [
                _side(one, name, window, unit) for one, name in zip(reads, titles, strict=False)
            ],
            "eyes": [{**one, "width": eye} for one in eyes] if eye > 0.0 else [],
            "legend": LEGEND,
            "difference": _difference(reads, unit),
            "foot": FOOT,
        }
        return typeset("play_handout", data)

    return first_that_fits(len(LAYOUTS), make)[1]


def _shared_window(reads: Sequence[Read], *, aspect: float) -> Window:
    """Return one window for all pictures, so that they can be compared."""
    places = [place for one in reads for place in shown_places(one)]
    window = window_for(reads[0].situation.rink, places, aspect=aspect)
    needed = max(SMALLEST_ALONG, *(x + ROOM for x, _ in places))
    return replace(window, x_high=min(window.x_high, needed))


def _eye(read: Read) -> dict[str, str]:
    """Return what the puck sees, with the open share in words."""
    svg = read_puck_eye_svg(read, width=EYE_PX, palette=PRINT, labels=False)
    found = re.search(r'aria-label="([^"]*)"', svg)
    words = found[1] if found else ""
    return {"svg": svg, "alt": words, "words": sentence(words)}


def _side(read: Read, name: str, window: Window, unit: LengthUnit) -> dict[str, Any]:
    svg = situation_svg(read, window=window, width=PICTURE_MM * PX_PER_MM, unit=unit, palette=PRINT)
    return {
        "title": name or f"{numbers_word(read.situation).capitalize()}",
        "answer": where_words(read, unit),
        "flat": flat_words(read, unit),
        "picture": {"svg": svg, "alt": " ".join(advice_words(read, unit))},
        "rows": [_row(one, one is read.options[0]) for one in read.options[:MOST_ROWS]],
        "facts": _facts(read, unit),
    }


def _row(one: OptionAnswer, worst: bool) -> dict[str, Any]:
    goals, span = goals_words(one)
    return {
        "words": sentence(short_words(one.option)).rstrip("."),
        "release": f"{one.release_time:.1f} s" if one.release_time > 0.0 else "at once",
        "margin": margin_short(one),
        "goals": goals + (f" ({span})" if span else ""),
        "late": not one.is_set,
        "worst": worst,
    }


def _facts(read: Read, unit: LengthUnit) -> list[list[str]]:
    """Return the geometry that a coach can check with a rope: width to cover, way across."""
    puck = read.situation.puck_place
    half = read.situation.rink.goal.half_width
    width = float(width_to_cover(puck[0], puck[1], read.depth, half))
    found = [["Width to cover at her depth", f"{show_length(width, unit, 2)}."]]
    passes = [o for o in read.options if o.option.kind in (OptionKind.ONE_TIMER, OptionKind.SETTLE)]
    if passes:
        to = passes[0].release
        way = float(on_angle_distance(puck, to, read.depth))
        length = math.dist(puck, to)
        found.append(
            [
                f"If he passes to {passes[0].option.to}",
                f"the pass is {show_length(length, unit)} long, from line to line at her depth "
                f"she has {show_length(way, unit)}.",
            ]
        )
    if is_flat(read):
        return found
    found.append(
        [
            "Good depths",
            f"{band_words(read, unit)} out; anywhere there costs at most "
            f"{per_hundred(read.band.cost)} more.",
        ]
    )
    return found


def difference_words(
    left: Read, right: Read, unit: LengthUnit, *, second: str = "on the right"
) -> str:
    """Return how far apart two reads ask her to stand, as a sentence without its capital.

    ``second`` says what the second of them is.

    Where the bands share much, that is said too: there the difference costs next to nothing.
    """
    low, high = max(left.band.low, right.band.low), min(left.band.high, right.band.high)
    change = right.depth - left.depth
    if abs(change) < 0.05:
        return f"{second} she stands as far out."
    word = "further out" if change > 0.0 else "deeper"
    moved = f"{second} she stands {show_length(abs(change), unit)} {word}"
    if high - low >= SHARED_BAND:
        both = f"{metres_to(low, unit):.1f} to {show_length(high, unit)}"
        return f"{moved}, but {both} out serves both about as well."
    return f"{moved}."


def _difference(reads: Sequence[Read], unit: LengthUnit) -> str:
    return difference_words(reads[0], reads[1], unit) if len(reads) == 2 else ""
