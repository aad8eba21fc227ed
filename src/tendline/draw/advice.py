"""The answer in the words of pages and sheets, with no more precision than it has.

Where a wide band of depths costs the same, the band is said first and the single depth after it;
times under half a tenth of a second are "just" so. The engine's own sentences stay in
:mod:`tendline.play.words`; here they are shortened for reading at a glance.
"""

from __future__ import annotations

from tendline.base import LengthUnit, metres_to, show_length
from tendline.body import sealed_post
from tendline.play import Attack, DepthName, OptionAnswer, Read, per_hundred
from tendline.play.reply import Way
from tendline.play.words import stand_words

WIDE_BAND = 0.95
"""A band of depths at least so wide [m], about a metre as shown, is said instead of one depth."""
BESIDE_THE_LINE = 0.15
"""Nearer to the puck's line than this [m] is called on the line: half her pad's width."""
JUST = 0.05
"""A margin smaller than this [s] is called just so: it is below what is shown."""

PLACE = {
    DepthName.DEFENSIVE: "back by the goal line",
    DepthName.CONSERVATIVE: "inside the crease",
    DepthName.BASE: "at the top of the crease",
    DepthName.AGGRESSIVE: "beyond the crease",
}


def is_flat(read: Read) -> bool:
    """Return whether so many depths cost the same that a single one would say too much."""
    one_depth = sealed_post(read.stance) is None and read.attack is Attack.DIRECT
    return one_depth and read.band.high - read.band.low >= WIDE_BAND


def band_words(read: Read, unit: LengthUnit) -> str:
    """Return the band as ``'0.4 to 3.0 m'``."""
    return f"{metres_to(read.band.low, unit):.1f} to {show_length(read.band.high, unit)}"


def short_depth(read: Read, unit: LengthUnit) -> str:
    """Return how far out as few words: the post, a band where it is wide, else the depth."""
    post = sealed_post(read.stance)
    if post is not None:
        return f"on the {post.value} post"
    if read.attack is not Attack.DIRECT:
        return f"{show_length(read.spot.x, unit)} out"
    if is_flat(read):
        return f"{band_words(read, unit)} out"
    return f"{show_length(read.depth, unit)} out"


def line_words(read: Read, unit: LengthUnit) -> str:
    """Return where she is beside the puck's line."""
    if abs(read.offset) < BESIDE_THE_LINE:
        return "on the line"
    side = "left" if read.offset > 0.0 else "right"
    return f"{show_length(abs(read.offset), unit)} to her {side} of the line"


def where_words(read: Read, unit: LengthUnit = LengthUnit.METRES) -> str:
    """Return where to stand as one sentence, the band first where it is wide."""
    if is_flat(read):
        return f"Stand {line_words(read, unit)}, anywhere from {band_words(read, unit)} out."
    if sealed_post(read.stance) is not None or read.attack is not Attack.DIRECT:
        return stand_words(read, unit)
    depth = show_length(read.depth, unit)
    return f"Stand {depth} out, {line_words(read, unit)}, {PLACE[read.depth_name]}."


def flat_words(read: Read, unit: LengthUnit = LengthUnit.METRES) -> str:
    """Return what the wide band means, with the middle of it; empty for a narrow one."""
    if not is_flat(read):
        return ""
    return (
        f"Anywhere there costs the same within {per_hundred(read.band.cost)}; the middle is "
        f"{show_length(read.depth, unit)} out, {PLACE[read.depth_name]}."
    )


def margin_words(answer: OptionAnswer) -> str:
    """Return whether she is set in time, as few words as a column has room for."""
    if answer.release_time <= 0.0:
        return "set"
    margin = answer.set_margin
    if answer.reply.way is Way.REACH:
        if abs(margin) < JUST:
            return "just reaches"
        return f"reaches, {margin:.1f} s to spare" if margin > 0 else f"{-margin:.1f} s late"
    if margin >= JUST:
        return f"set, {margin:.1f} s to spare"
    if margin > -JUST:
        return "just set" if answer.is_set else "just late"
    return "stops short, set" if answer.is_set else f"not set, {-margin:.1f} s late"


def margin_short(answer: OptionAnswer) -> str:
    """Return by how much she is early or late, for a narrow column."""
    if answer.release_time <= 0.0:
        return "set"
    if abs(answer.set_margin) < JUST:
        return "just in time" if answer.is_set else "just late"
    if answer.is_set and answer.set_margin < 0.0:
        return "stops short"
    return f"{abs(answer.set_margin):.1f} s {'late' if answer.set_margin < 0.0 else 'early'}"


def set_words(answer: OptionAnswer) -> str:
    """Return whether she is set for an option, as the end of a sentence."""
    margin = answer.set_margin
    if answer.release_time <= 0.0:
        return "she is set for it"
    if answer.reply.way is Way.REACH:
        return (
            f"she has {margin:.1f} s to reach across" if margin >= JUST
            else "she can just reach across"
        )  # fmt: skip
    if margin >= JUST:
        return f"she is set {margin:.1f} s before the shot"
    if margin > -JUST:
        return "she is only just set" if answer.is_set else "she is just too late to be set"
    if answer.is_set:
        return f"she is {-margin:.1f} s short of the new line, so she stops and sets"
    return f"she is {-margin:.1f} s too late to be set"


def advice_words(read: Read, unit: LengthUnit = LengthUnit.METRES) -> tuple[str, ...]:
    """Return the answer in sentences: where to stand, how flat that is, what costs most."""
    worst = read.worst
    cost = f"What costs most: {worst.words}, {per_hundred(worst.loss)}; {set_words(worst)}."
    flat = flat_words(read, unit)
    return tuple(one for one in (where_words(read, unit), flat, cost) if one)


def goals_words(answer: OptionAnswer) -> tuple[str, str]:
    """Return goals in 100 tries, coming off or not, and the span as the assumptions move."""
    goals = 100.0 * answer.loss
    text = f"{goals:.0f}" if goals >= 0.95 or goals < 0.05 else f"{goals:.1f}"
    low, high = (
        f"{100.0 * answer.comes_off * one:.0f}" for one in (answer.chance_low, answer.chance_high)
    )
    moved = answer.chance_high > answer.chance_low + 1e-6
    return text, f"{low} to {high}" if moved and low != high else ""
