"""Turn the engine's answer into what the page shows. Words and rounding only; no figure is made."""

from __future__ import annotations

from tendline.base import LengthUnit, show_length
from tendline.draw import (
    depth_curve_svg,
    puck_eye_svg,
    situation_svg,
    time_line_svg,
    zone_window,
)
from tendline.ice import rink
from tendline.play import OptionAnswer, Read, Sensitivity
from tendline.web.reading.context import Assumption, OptionRow, ReadPage
from tendline.web.reading.forms import ReadForm
from tendline.web.shell.urls import with_query

LARGEST_MOVES = 6


def present(form: ReadForm, read: Read, *, unit: LengthUnit = LengthUnit.METRES) -> ReadPage:
    """Return the page for an answer."""
    the_rink = rink(form.rule_set)
    window = zone_window(the_rink)
    first, *rest = read.answer
    return ReadPage(
        state=with_query("", form.pairs).removeprefix("?"),
        depth=show_length(read.depth, unit),
        headline=first,
        sentences=tuple(rest),
        ice=situation_svg(read, window=window, interactive=True, unit=unit),
        puck_eye=puck_eye_svg(read),
        curve=depth_curve_svg(read, unit=unit),
        time_line=time_line_svg(read),
        band=_band(read, unit),
        options=tuple(_option(one) for one in read.options),
        reasons=tuple((one.text, one.keys[0] if one.keys else "") for one in read.reasons),
        assumptions=_assumptions(read, unit),
        form=form,
        x_low=the_rink.x_min,
        x_high=window.x_high,
        y_low=-the_rink.half_width,
        y_high=the_rink.half_width,
    )


def _band(read: Read, unit: LengthUnit) -> str:
    low, high = show_length(read.band.low, unit), show_length(read.band.high, unit)
    return f"Good enough: {low} to {high}, all within {100 * read.band.cost:g} goal in 100."


def _option(one: OptionAnswer) -> OptionRow:
    margin = abs(one.set_margin)
    if one.is_set:
        in_time = f"set, {margin:.1f} s to spare"
    else:
        in_time = f"not set, {margin:.1f} s late"
    certain = one.comes_off >= 0.995
    return OptionRow(
        he_may=one.option.words,
        she_answers=one.words,
        in_time=in_time,
        is_set=one.is_set,
        comes_off="-" if certain else f"{10 * one.comes_off:.0f} of 10",
        goals=f"{100 * one.goal_chance:.0f}",
        span=f"{100 * one.chance_low:.0f} to {100 * one.chance_high:.0f}",
        key=one.option.key,
    )


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
