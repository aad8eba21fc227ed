"""Turn the engine's answer into what the page shows. Words and rounding only; no figure is made."""

from __future__ import annotations

from tendline.base import LengthUnit, metres_to, show_length
from tendline.draw import (
    Window,
    depth_curve_svg,
    read_goaltender_eye_svg,
    read_puck_eye_svg,
    situation_svg,
    time_line_svg,
    zone_window,
)
from tendline.draw.advice import (
    band_words,
    flat_words,
    goals_words,
    is_flat,
    margin_words,
    set_words,
    where_words,
)
from tendline.draw.depth_curve import has_curve
from tendline.draw.handout_pdf import LEGEND
from tendline.draw.svg import spoken_name
from tendline.ice import Rink, rink
from tendline.play import OptionAnswer, Read, Sensitivity, numbers_word, per_hundred
from tendline.web.reading.context import Assumption, OptionRow, ReadPage, Said
from tendline.web.reading.forms import CLOSE_X, CLOSE_Y, NEAR_X, NEAR_Y, ReadForm, View
from tendline.web.shell.urls import with_query

LARGEST_MOVES = 6
ICE_WIDTH, SIDE_WIDTH, EYE_WIDTH = 440.0, 420.0, 420.0
"""Nominal widths of the pictures in CSS pixels. They fill their column: words are 16 pixels at this
width, more on a wide screen, and not under 13 on a phone."""
CLOSE = Window(x_low=-1.9, x_high=CLOSE_X, y_low=-CLOSE_Y, y_high=CLOSE_Y)
NEAR = Window(x_low=-2.6, x_high=NEAR_X, y_low=-NEAR_Y, y_high=NEAR_Y)


def present(
    form: ReadForm,
    read: Read,
    *,
    eyes: bool = True,
    highest: float | None = None,
    shown: str | None = None,
) -> ReadPage:
    """Return the page for an answer; without ``eyes`` only what follows a finger is drawn: the two
    slower pictures are left out, and of the ice only what was computed.

    ``shown`` names the window that the page already shows ("close", "near" or "zone"); without it
    the nearest that holds everyone is chosen. ``highest`` is the top of the depth curve's scale in
    goals in 100, for two curves side by side.
    """
    the_rink = rink(form.rule_set)
    shown = shown or shown_window(form)
    window = window_of(shown, the_rink)
    unit = form.unit
    puck_eye = read_puck_eye_svg(read, width=EYE_WIDTH) if eyes else ""
    her_eye = read_goaltender_eye_svg(read, width=EYE_WIDTH) if eyes else ""
    return ReadPage(
        state=with_query("", form.pairs).removeprefix("?"),
        other_view=with_query("", form.turned().pairs).removeprefix("?"),
        kind_of_play=sentence(numbers_word(read.situation)),
        tall=tall_words(form.stature, unit),
        headline=where_words(read, unit),
        headline_figure="band" if is_flat(read) else "depth",
        sentences=_sentences(read, unit),
        ice=situation_svg(
            read, window=window, interactive=True, unit=unit, width=ICE_WIDTH, only_answer=not eyes
        ),
        puck_eye=puck_eye,
        puck_sees=spoken_name(puck_eye),
        her_eye=her_eye,
        she_sees=spoken_name(her_eye),
        curve=depth_curve_svg(read, unit=unit, width=SIDE_WIDTH, highest=highest),
        time_line=time_line_svg(read, width=ICE_WIDTH),
        band=_band(read, unit),
        shown=shown,
        signs=sentence(LEGEND),
        options=tuple(_option(one) for one in read.options),
        reasons=tuple((one.text, one.keys[0] if one.keys else "") for one in read.reasons),
        assumptions=_assumptions(read, unit),
        form=form,
        x_low=max(the_rink.x_min, window.x_low),
        x_high=window.x_high,
        y_low=max(-the_rink.half_width, window.y_low),
        y_high=min(the_rink.half_width, window.y_high),
    )


def tall_words(stature: float, unit: LengthUnit) -> str:
    """Return a height as people say it: ``'1.70 m'`` or ``'5 ft 7 in'``."""
    if unit is LengthUnit.METRES:
        return show_length(stature, unit, 2)
    inches = round(metres_to(stature, unit) * 12.0)
    return f"{inches // 12} ft {inches % 12} in"


def _sentences(read: Read, unit: LengthUnit) -> tuple[Said, ...]:
    worst = read.worst
    said = [
        Said(f"{flat_words(read, unit)} " if is_flat(read) else "", "depth"),
        Said(
            f"What costs most: {worst.words}, {per_hundred(worst.loss)}; ",
            f"loss:{worst.option.key}",
        ),
        Said(f"{set_words(worst)}.", f"margin:{worst.option.key}"),
    ]
    return tuple(one for one in said if one.text)


def shown_window(form: ReadForm) -> str:
    """Return the name of the piece of ice to draw: as near to the net as everyone allows."""
    return "close" if form.is_close else form.view.value


def window_of(shown: str, the_rink: Rink) -> Window:
    """Return the piece of ice of that name."""
    if shown == "close":
        return CLOSE
    return NEAR if shown == View.NEAR.value else zone_window(the_rink)


def _band(read: Read, unit: LengthUnit) -> str:
    if not has_curve(read):
        return ""
    return (
        f"Shaded: {band_words(read, unit)} out, all within {per_hundred(read.band.cost)} of the "
        "best. Thick line: all options together, with her standing a little off the spot, as "
        "people do."
    )


def _option(one: OptionAnswer) -> OptionRow:
    goals, span = goals_words(one)
    return OptionRow(
        he_may=sentence(one.option.words),
        she_answers=one.reply.words,
        in_time=margin_words(one),
        in_good_time=one.is_set,
        comes_off="" if one.comes_off >= 0.995 else f"{10 * one.comes_off:.0f} of 10",
        goals=goals,
        span=span,
        key=one.option.key,
    )


def sentence(words: str) -> str:
    """Return words with a capital first letter."""
    return words[:1].upper() + words[1:]


def _assumptions(read: Read, unit: LengthUnit) -> tuple[Assumption, ...]:
    moved = sorted(read.sensitivities, key=_reach, reverse=True)[:LARGEST_MOVES]
    return tuple(
        Assumption(
            key=one.key,
            label=one.label,
            moves=f"{metres_to(one.depth_low, unit):.1f} to "
            f"{show_length(one.depth_high, unit)} out",
        )
        for one in moved
    )


def _reach(one: Sensitivity) -> float:
    return abs(one.depth_high - one.depth_low) + abs(one.loss_high - one.loss_low)
