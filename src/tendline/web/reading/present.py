"""Turn the engine's answer into what the page shows. Words and rounding only; no figure is made."""

from __future__ import annotations

from tendline.base import LengthUnit, show_length
from tendline.draw import (
    Window,
    depth_curve_svg,
    read_goaltender_eye_svg,
    read_puck_eye_svg,
    situation_svg,
    time_line_svg,
    zone_window,
)
from tendline.ice import Rink, rink
from tendline.play import OptionAnswer, Read, Sensitivity, answer_words
from tendline.web.reading.context import Assumption, OptionRow, ReadPage
from tendline.web.reading.forms import NEAR_X, NEAR_Y, ReadForm, View
from tendline.web.shell.urls import with_query

LARGEST_MOVES = 6
ICE_WIDTH, SIDE_WIDTH, EYE_WIDTH = 470.0, 380.0, 520.0
"""Nominal widths of the pictures in CSS pixels, so that words in them stay as large as text."""
NEAR = Window(x_low=-2.6, x_high=NEAR_X, y_low=-NEAR_Y, y_high=NEAR_Y)


def present(form: ReadForm, read: Read, *, eyes: bool = True) -> ReadPage:
    """Return the page for an answer; without ``eyes`` the two slower pictures are left out."""
    the_rink = rink(form.rule_set)
    window = window_of(form, the_rink)
    unit = form.unit
    first, *rest = answer_words(read, unit)
    return ReadPage(
        state=with_query("", form.pairs).removeprefix("?"),
        other_view=with_query("", form.turned().pairs).removeprefix("?"),
        depth=show_length(read.depth, unit),
        headline=first,
        sentences=tuple(rest),
        ice=situation_svg(read, window=window, interactive=True, unit=unit, width=ICE_WIDTH),
        puck_eye=read_puck_eye_svg(read, width=EYE_WIDTH) if eyes else "",
        her_eye=read_goaltender_eye_svg(read, width=ICE_WIDTH) if eyes else "",
        curve=depth_curve_svg(read, unit=unit, width=SIDE_WIDTH),
        time_line=time_line_svg(read, width=ICE_WIDTH),
        band=_band(read, unit),
        options=tuple(_option(one) for one in read.options),
        reasons=tuple((one.text, one.keys[0] if one.keys else "") for one in read.reasons),
        assumptions=_assumptions(read, unit),
        form=form,
        x_low=max(the_rink.x_min, window.x_low),
        x_high=window.x_high,
        y_low=max(-the_rink.half_width, window.y_low),
        y_high=min(the_rink.half_width, window.y_high),
    )


def window_of(form: ReadForm, the_rink: Rink) -> Window:
    """Return the piece of ice to draw: near the net while everyone is there, else the zone."""
    return NEAR if form.view is View.NEAR else zone_window(the_rink)


def _band(read: Read, unit: LengthUnit) -> str:
    low, high = show_length(read.band.low, unit), show_length(read.band.high, unit)
    return f"Good enough: {low} to {high}, all within {100 * read.band.cost:g} goal in 100."


def _option(one: OptionAnswer) -> OptionRow:
    margin = abs(one.set_margin)
    in_time = f"set, {margin:.1f} s to spare" if one.is_set else f"not set, {margin:.1f} s late"
    certain = one.comes_off >= 0.995
    return OptionRow(
        he_may=sentence(one.option.words),
        she_answers=one.reply.words,
        in_time=in_time,
        is_set=one.is_set,
        comes_off="-" if certain else f"{10 * one.comes_off:.0f} of 10",
        goals=f"{100 * one.goal_chance:.0f}",
        span=f"{100 * one.chance_low:.0f} to {100 * one.chance_high:.0f}",
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
            moves=f"{show_length(one.depth_low, unit)} to {show_length(one.depth_high, unit)} out",
        )
        for one in moved
    )


def _reach(one: Sensitivity) -> float:
    return abs(one.depth_high - one.depth_low) + abs(one.loss_high - one.loss_low)
