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
    palette: Palette = PAPER,
) -> str:
    """Return the depth curve as SVG: goals in 100 by depth, for each option and all together.

    The shaded band holds the depths that are nearly as good; the dot marks the recommended one.
    At most five options are drawn, those that cost most somewhere; the text equivalent names them.
    """
    curve = read.curve
    depth = np.asarray(curve.depth, float)
    loss = 100.0 * np.asarray(curve.loss, float)
    combined = 100.0 * np.asarray(curve.combined, float)
    order = _order(read, loss)
    by_key = {one.option.key: one.option for one in read.options}
    words = {i: _label(by_key, curve.names[i]) for i in order}
    title = f"What each option costs by depth; best {show_length(read.depth, unit)} out"
    picture = Picture(
        width=width, height=height, title=title, kind="tl-depth-curve", palette=palette,
        description=_describe(read, unit, [words[i] for i in order]),
    )  # fmt: skip
    room = widest([*words.values()]) + 14.0
    high = float(np.nanmax([np.nanmax(combined), *(np.nanmax(loss[i]) for i in order)]))
    step = nice_step(max(high, 4.0), most=4)
    top = math.ceil(max(high, 4.0) / step) * step
    reach = float(depth[np.isfinite(combined)].max())
    plot = Plot(
        picture, left=44.0, top=30.0, right=width - room - 16.0, bottom=height - 74.0,
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
    free_until = math.inf
    for share, words in ((1.0, "crease edge"), (0.5, "mid-crease")):
        if share * edge > plot.x_range[1]:
            continue
        x, _ = plot.at(share * edge, 0.0)
        plot.picture.line((x, plot.bottom - 10.0), (x, plot.bottom), paint=Paint.RINK_RED,
                          width=3.0, classes="tl-crease-mark")  # fmt: skip
        half = text_width(words, size=TEXT) / 2.0
        if x + half > free_until or x - half < 2.0:
            continue
        plot.picture.text((x, row), words, size=TEXT, paint=Paint.INK_SOFT, anchor="middle")
        free_until = x - half - 10.0


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
