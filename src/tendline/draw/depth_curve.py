"""What each option costs by how far out she stands: one line per option, the good band shaded."""

from __future__ import annotations

import math

import numpy as np

from tendline.base import LengthUnit, metres_to, show_length
from tendline.draw.chart import DASHES, TEXT, Plot, nice_step, tick_words, widest
from tendline.draw.fontfiles import text_width
from tendline.draw.svg import Picture, Point, path_data
from tendline.draw.tokens import PAPER, Paint, Palette
from tendline.play import Option, Read
from tendline.play.recognise import crease_edge

FOOT = 92.0
"""Room under the axis for its figures, the crease's marks and its name, in CSS pixels."""
MOST_LINES = 5
LONGEST_LABEL = 22


def short_words(option: Option) -> str:
    """Return an option in as few words as a label has room for."""
    words = option.short
    return words if len(words) <= LONGEST_LABEL else f"{words[: LONGEST_LABEL - 1]}…"


def depth_curve_svg(
    read: Read,
    *,
    width: float = 520.0,
    height: float = 340.0,
    unit: LengthUnit = LengthUnit.METRES,
    highest: float | None = None,
    palette: Palette = PAPER,
) -> str:
    """Return the depth curve as SVG: goals in 100 by depth, for each option and all together.

    The shaded band holds the depths that are nearly as good; the dot marks the recommended one.
    ``highest`` [goals in 100] widens the scale, so that two curves can be compared.
    At most five options are drawn, those that cost most somewhere; the text equivalent names them.
    """
    curve = read.curve
    depth = np.asarray(curve.depth, float)
    loss = 100.0 * np.asarray(curve.loss, float)
    combined = 100.0 * np.asarray(curve.combined, float)
    if not has_curve(read):
        return _no_curve(width, palette)
    order = _order(read, loss)
    by_key = {one.option.key: one.option for one in read.options}
    words = {i: _label(by_key, curve.names[i]) for i in order}
    title = f"What each option costs by depth; advised {show_length(read.depth, unit)} out"
    picture = Picture(
        width=width, height=height, title=title, kind="tl-depth-curve", palette=palette,
        description=_describe(read, unit, [words[i] for i in order]),
    )  # fmt: skip
    room = widest([*words.values()]) + 14.0
    high = max(curve_top(read), highest or 0.0)
    step = nice_step(max(high, 4.0), most=4)
    top = math.ceil(max(high, 4.0) / step) * step
    reach = max(float(depth[np.isfinite(combined)].max()), read.depth)
    plot = Plot(
        picture, left=44.0, top=30.0, right=width - room - 16.0, bottom=height - FOOT,
        x=(0.0, reach), y=(0.0, top),
    )  # fmt: skip
    picture.text((4.0, TEXT), "Goals in 100", size=TEXT, paint=Paint.INK_SOFT)
    _band(plot, read)
    plot.gridlines(step)
    plot.axis_x()
    _ticks(plot, read, unit, height)
    ends: list[tuple[Point, str, Paint, bool]] = []
    together = _curve(plot, depth, combined, Paint.ADVICE, None, 7.0, opacity=0.38)
    worst = read.worst.option.key
    for rank, i in enumerate(order):
        is_worst = _matches(curve.names[i], worst, by_key)
        paint = Paint.RISK if is_worst else Paint.INK
        end = _curve(plot, depth, loss[i], paint, DASHES[rank % len(DASHES)], 2.2)
        if end is not None:
            ends.append((end, words[i], paint, is_worst))
    if together is not None:
        ends.append((together, "all together", Paint.ADVICE, True))
    plot.end_labels(ends, x=plot.right + 16.0)
    _chosen(plot, read, depth, combined, unit)
    return picture.svg()


def has_curve(read: Read) -> bool:
    """Return whether there is more than one depth to compare; not with the puck behind the goal."""
    return int(np.isfinite(np.asarray(read.curve.combined, float)).sum()) >= 2


def _no_curve(width: float, palette: Palette) -> str:
    words = "No depths to compare: the puck is not in front of the goal"
    picture = Picture(width=width, height=40.0, title=words, kind="tl-depth-curve", palette=palette)
    picture.text((4.0, 26.0), "No depths to compare from there.", size=TEXT, paint=Paint.INK_SOFT)
    return picture.svg()


def curve_top(read: Read) -> float:
    """Return the highest cost drawn, in goals in 100."""
    if not has_curve(read):
        return 0.0
    loss = 100.0 * np.asarray(read.curve.loss, float)
    combined = 100.0 * np.asarray(read.curve.combined, float)
    return float(
        np.nanmax([np.nanmax(combined), *(np.nanmax(loss[i]) for i in _order(read, loss))])
    )


def _matches(name: str, key: str, by_key: dict[str, Option]) -> bool:
    return name == key or (key in by_key and by_key[key].words == name)


def _label(by_key: dict[str, Option], name: str) -> str:
    for key, option in by_key.items():
        if name in (key, option.words):
            return short_words(option)
    return name


def _order(read: Read, loss: np.typing.NDArray[np.float64]) -> list[int]:
    peaks = [float(np.nanmax(row)) if np.isfinite(row).any() else -1.0 for row in loss]
    ranked = sorted(range(len(peaks)), key=lambda i: -peaks[i])
    return sorted(i for i in ranked[:MOST_LINES] if peaks[i] >= 0.0)


def _band(plot: Plot, read: Read) -> None:
    low = max(read.band.low, plot.x_range[0])
    high = min(read.band.high, plot.x_range[1])
    x0, _ = plot.at(low, 0.0)
    x1, _ = plot.at(max(high, low), 0.0)
    plot.picture.add(
        "rect", classes="tl-band", fill=Paint.ADVICE_WASH, x=x0, y=plot.top,
        width=max(x1 - x0, 3.0), height=plot.bottom - plot.top,
    )  # fmt: skip
    for x in (x0, x1):
        plot.picture.line((x, plot.top), (x, plot.bottom), paint=Paint.ADVICE, width=1.0,
                          dash="2 4")  # fmt: skip


def _ticks(plot: Plot, read: Read, unit: LengthUnit, height: float) -> None:
    reach = metres_to(plot.x_range[1], unit)
    step = nice_step(reach, most=5)
    value = 0.0
    while value <= reach + 1e-9:
        plot.tick_x(value * plot.x_range[1] / reach, tick_words(value, step))
        value += step
    _crease_marks(plot, read)
    name = "metres" if unit is LengthUnit.METRES else "feet"
    plot.picture.text((plot.right, height - 8.0), f"How far out, {name}", size=TEXT, anchor="end")


def _crease_marks(plot: Plot, read: Read) -> None:
    """Mark the edge and the middle of the crease on the axis, with words below its figures."""
    bearing = math.atan2(read.spot.y, read.spot.x)
    edge = crease_edge(read.situation.rink.crease, bearing)
    row = plot.bottom + 6.0 + 2.1 * TEXT
    free_from = -math.inf
    for share, words in ((0.5, "mid-crease"), (1.0, "crease edge")):
        if share * edge > plot.x_range[1]:
            continue
        x, _ = plot.at(share * edge, 0.0)
        plot.picture.line((x, plot.bottom - 10.0), (x, plot.bottom), paint=Paint.RINK_RED,
                          width=3.0, classes="tl-crease-mark")  # fmt: skip
        half = text_width(words, size=TEXT) / 2.0
        down = 1.15 * TEXT if x - half < free_from else 0.0
        at = max(x, half + 2.0)
        plot.picture.line((x, row - 0.85 * TEXT + down), (x, row - TEXT), paint=Paint.RINK_RED,
                          width=1.5)  # fmt: skip
        plot.picture.text((at, row + down), words, size=TEXT, paint=Paint.INK_SOFT, anchor="middle")
        free_from = x + half + 10.0


def _curve(
    plot: Plot,
    depth: np.typing.NDArray[np.float64],
    values: np.typing.NDArray[np.float64],
    paint: Paint,
    dash: str | None,
    width: float,
    opacity: float | None = None,
) -> Point | None:
    """Draw a line, broken where there is no answer; return its last point."""
    runs: list[list[Point]] = [[]]
    for x, y in zip(depth, values, strict=True):
        if math.isfinite(y) and x <= plot.x_range[1] + 1e-9:
            runs[-1].append(plot.at(float(x), float(y)))
        elif runs[-1]:
            runs.append([])
    drawn = [run for run in runs if len(run) > 1]
    if not drawn:
        return None
    plot.picture.path(
        "".join(path_data(run) for run in drawn), stroke=paint, width=width, dash=dash,
        classes="tl-curve", cap="round" if dash is None else "butt", opacity=opacity,
    )  # fmt: skip
    return drawn[-1][-1]


def _chosen(
    plot: Plot,
    read: Read,
    depth: np.typing.NDArray[np.float64],
    combined: np.typing.NDArray[np.float64],
    unit: LengthUnit,
) -> None:
    known = np.isfinite(combined)
    value = float(np.interp(read.depth, depth[known], combined[known]))
    at = plot.at(read.depth, value)
    plot.picture.line((at[0], plot.bottom), at, paint=Paint.ADVICE, width=1.6)
    plot.picture.circle(at, 6.0, fill=Paint.ADVICE, stroke=Paint.SHEET, width=1.8,
                        classes="tl-advice-spot")  # fmt: skip


def _describe(read: Read, unit: LengthUnit, names: list[str]) -> str:
    low, high = show_length(read.band.low, unit), show_length(read.band.high, unit)
    return (
        f"Best {show_length(read.depth, unit)} out; from {low} to {high} costs at most "
        f"{100.0 * read.band.cost:.0f} goals in 100 more. Lines: {', '.join(names)}, all together."
    )
