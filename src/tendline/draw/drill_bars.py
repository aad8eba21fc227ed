"""A drill on the clock: one bar for each line of the script, what it waits for, and each shot.

Bars can be taken hold of: each is a group with ``data-row``; its start and its end are wide
transparent strips with ``data-edge``. The picture says how times become places
(``data-left``, ``data-scale`` in pixels a second), so that a page can turn a finger into seconds.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tendline.draw.drill_picture import fit
from tendline.draw.hatching import hatch
from tendline.draw.svg import Picture, path_data
from tendline.draw.tokens import PAPER, Paint, Palette

ROW, BAR, HER_BAR = 46.0, 16.0, 12.0
TOP, FOOT = 30.0, 10.0
NAME, SMALL, TICK = 16.0, 14.0, 13.0
GRIP, GRIP_LEAST = 44.0, 14.0
"""Heights of a row and of bars, room above and below, letter sizes, and the width of what a finger
takes hold of at a bar's start and end (less where the bar is short), in CSS pixels."""
WIDE, LABEL_SHARE, LABEL_MOST = 640.0, 0.36, 330.0
"""From this width on [px] the words stand beside the bars: share of the width, and at most."""
LEAST_SECONDS = 3.0
ROOM_SECONDS = 0.4


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One line on the clock. Times [s] from the whistle; ``source`` the row it waits for, or -1.

    ``kind`` is "skate", "pass", "shot", "hold", "hers" or "word"; ``ends`` whether its end may be
    dragged; ``at`` when what it waits for happens.
    """

    row: int
    words: str
    trigger: str
    kind: str
    begin: float
    end: float
    source: int = -1
    at: float = 0.0
    ends: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotMark:
    """One release: when, whether she is set, and that in a few words."""

    time: float
    is_set: bool
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """One way through the choices on the clock; ``still`` the spans in which she is set [s]."""

    bars: tuple[Bar, ...]
    shots: tuple[ShotMark, ...]
    still: tuple[tuple[float, float], ...]
    lasts: float


def drill_bars_svg(
    track: Track, *, width: float = 900.0, chosen: str = "", palette: Palette = PAPER
) -> str:
    """Return the time line of one way through a drill."""
    return _Bars(track, width, chosen, palette).svg()


class _Bars:
    def __init__(self, track: Track, width: float, chosen: str, palette: Palette) -> None:
        self.track = track
        self.chosen = chosen
        self.wide = width >= WIDE
        self.left = min(LABEL_MOST, LABEL_SHARE * width) if self.wide else 6.0
        self.right = width - 12.0
        ends = [one.end for one in track.bars] + [one.time for one in track.shots]
        last = max([LEAST_SECONDS, track.lasts, *ends]) + ROOM_SECONDS
        self.last = math.ceil(2.0 * last) / 2.0
        self.scale = (self.right - self.left) / self.last
        self.row = ROW if self.wide else ROW + 12.0
        self.top = TOP + self.row
        height = self.top + self.row * len(track.bars) + FOOT
        self.place = {one.row: k for k, one in enumerate(track.bars)}
        self.picture = Picture(
            width=width, height=height, title="The drill on the clock", kind="tl-bars",
            description="One bar for each line. Arrow keys move its start, with Shift its end.",
            palette=palette, interactive=True,
            data={"left": self.left, "scale": self.scale, "top": self.top, "row": self.row},
        )  # fmt: skip

    def at(self, time: float) -> float:
        return self.left + time * self.scale

    def middle(self, index: int) -> float:
        """Return the height of the middle of a row's bar."""
        return self.top + self.row * index + (self.row / 2.0 if self.wide else self.row - 16.0)

    def svg(self) -> str:
        self._rule()
        self._hers()
        for index, bar in enumerate(self.track.bars):
            self._link(index, bar)
        for index, bar in enumerate(self.track.bars):
            self._bar(index, bar)
        return self.picture.svg()

    def _rule(self) -> None:
        picture = self.picture
        bottom = picture.height - FOOT
        step = next(s for s in (0.5, 1.0, 2.0, 5.0, 10.0, 30.0) if s * self.scale >= 58.0)
        with picture.group(classes="tl-rule", aria_hidden="true"):
            for k in range(int(self.last / step) + 1):
                x = self.at(k * step)
                picture.line((x, TOP - 6.0), (x, bottom), paint=Paint.LINE, width=1.0)
                words = f"{k * step:g} s" if k == 0 else f"{k * step:g}"
                picture.text((x, TOP - 11.0), words, size=TICK, paint=Paint.INK_SOFT,
                             anchor="start" if k == 0 else "middle")  # fmt: skip

    def _hers(self) -> None:
        picture = self.picture
        y = TOP + self.row / 2.0
        if self.wide:
            picture.text((0.0, y + 5.0), "She is set", size=NAME, paint=Paint.ADVICE, bold=True)
        with picture.group(classes="tl-hers"):
            picture.line((self.at(0.0), y), (self.at(self.last), y), paint=Paint.LINE, width=1.0)
            for begin, end in self.track.still:
                low, high = self.at(begin), self.at(min(end, self.last))
                picture.add("rect", fill=Paint.ADVICE, x=low, y=y - HER_BAR / 2.0,
                            width=max(1.0, high - low), height=HER_BAR)  # fmt: skip
        with picture.group(classes="tl-shots"):
            for one in self.track.shots:
                self._shot(one, y)

    def _shot(self, one: ShotMark, y: float) -> None:
        picture = self.picture
        x = self.at(one.time)
        paint = Paint.ADVICE if one.is_set else Paint.RISK
        picture.line((x, y), (x, picture.height - FOOT), paint=paint, width=1.4, dash="2 4")
        if one.is_set:
            picture.circle((x, y), 8.0, fill=Paint.ADVICE, stroke=Paint.SHEET, width=2.0)
            picture.circle((x, y), 2.6, fill=Paint.SHEET)
        else:
            ring = [(x, y - 10.0), (x + 10.0, y), (x, y + 10.0), (x - 10.0, y)]
            picture.path(path_data(ring, closed=True), fill=Paint.RISK_WASH, stroke=Paint.RISK,
                         width=2.0)  # fmt: skip
            for start, end in hatch([ring], spacing=4.0, angle_deg=45.0):
                picture.line(start, end, paint=Paint.RISK, width=1.2)
        anchor, aside = ("end", -13.0) if x > self.right - 90.0 else ("start", 13.0)
        picture.text((x + aside, y - 9.0), one.words, size=TICK, paint=paint, anchor=anchor,
                     bold=True, halo=True)  # fmt: skip

    def _link(self, index: int, bar: Bar) -> None:
        """Draw from what a line waits for to its start; the wait itself stands on the line."""
        picture = self.picture
        y, x = self.middle(index), self.at(bar.begin)
        start = self.at(bar.at)
        from_row = self.place.get(bar.source)
        with picture.group(classes="tl-link", data_row=str(bar.row), aria_hidden="true"):
            if from_row is not None and from_row != index:
                picture.line((start, self.middle(from_row) + BAR / 2.0), (start, y),
                             paint=Paint.INK_SOFT, width=1.2)  # fmt: skip
                picture.circle((start, self.middle(from_row) + BAR / 2.0), 3.0,
                               fill=Paint.INK_SOFT)  # fmt: skip
            if x - start > 1.0:
                picture.line((start, y), (x, y), paint=Paint.INK_SOFT, width=1.2)
            wait = bar.begin - bar.at
            if wait >= 0.05 and x - start > 40.0:
                picture.text(((start + x) / 2.0, y - 5.0), f"+{wait:.1f} s", size=TICK,
                             paint=Paint.INK_SOFT, anchor="middle", halo=True)  # fmt: skip

    def _bar(self, index: int, bar: Bar) -> None:
        picture = self.picture
        y = self.middle(index)
        low, high = self.at(bar.begin), max(self.at(bar.end), self.at(bar.begin) + 6.0)
        pressed = "true" if self.chosen == f"row {bar.row}" else "false"
        label = f"{bar.words}, {bar.begin:.1f} to {bar.end:.1f} s; starts {bar.trigger}"
        with picture.group(
            classes=f"tl-bar tl-bar-{bar.kind}", data_row=str(bar.row), tabindex="0",
            role="button", aria_label=label, aria_pressed=pressed, data_begin=f"{bar.begin:.3f}",
            data_end=f"{bar.end:.3f}", data_base=f"{bar.at:.3f}",
        ):  # fmt: skip
            top = self.top + self.row * index
            picture.add(
                "rect", classes="tl-bar-ground", fill=Paint.PAPER, x=0.0, y=top, opacity=0.0,
                width=picture.width, height=self.row,
            )  # fmt: skip
            self._label(bar, top)
            self._shape(bar, low, high, y)
            self._edges(bar, low, high, top)

    def _label(self, bar: Bar, top: float) -> None:
        picture = self.picture
        if self.wide:
            room = self.left - 18.0
            picture.text((0.0, top + 19.0), fit(bar.words, NAME, room), size=NAME,
                         classes="tl-bar-words")  # fmt: skip
            picture.text((0.0, top + 37.0), fit(bar.trigger, SMALL, room), size=SMALL,
                         paint=Paint.INK_SOFT)  # fmt: skip
            return
        words = f"{bar.words} ({bar.trigger})"
        picture.text((self.left, top + 20.0), fit(words, SMALL, self.right - self.left),
                     size=SMALL, classes="tl-bar-words", halo=True)  # fmt: skip

    def _shape(self, bar: Bar, low: float, high: float, y: float) -> None:
        picture = self.picture
        fills = {"shot": Paint.INK, "hers": Paint.ADVICE_WASH, "skate": Paint.GEAR}
        dash = {"pass": "7 4", "word": "2 3"}.get(bar.kind)
        picture.add(
            "rect", classes="tl-bar-shape", fill=fills.get(bar.kind, Paint.SHEET),
            stroke=Paint.INK, stroke_width=1.4, stroke_dasharray=dash, x=low, y=y - BAR / 2.0,
            width=high - low, height=BAR,
        )  # fmt: skip
        picture.line((low, y - BAR / 2.0 - 4.0), (low, y + BAR / 2.0 + 4.0), paint=Paint.INK,
                     width=3.0, classes="tl-grip")  # fmt: skip
        if bar.ends:
            picture.line((high, y - BAR / 2.0 - 2.0), (high, y + BAR / 2.0 + 2.0),
                         paint=Paint.INK, width=3.0, classes="tl-grip")  # fmt: skip

    def _edges(self, bar: Bar, low: float, high: float, top: float) -> None:
        inner = min(GRIP / 2.0, max((high - low) / 2.0, 0.0)) if bar.ends else high - low
        start = max(self.left - GRIP / 2.0, low - GRIP / 2.0)
        self._edge("start", start, max(low + inner, start + GRIP_LEAST), top)
        if bar.ends:
            self._edge("end", max(high - inner, low + inner), high + GRIP / 2.0, top)

    def _edge(self, name: str, low: float, high: float, top: float) -> None:
        self.picture.add(
            "rect", classes="tl-edge", hollow=True, pointer_events="all", data_edge=name, x=low,
            y=top, width=high - low, height=self.row,
        )  # fmt: skip


def spans_of(flags: Sequence[bool], step: float) -> tuple[tuple[float, float], ...]:
    """Return the spans [s] in which a flag sampled every ``step`` is true."""
    found: list[tuple[float, float]] = []
    start: float | None = None
    for k, flag in enumerate((*flags, False)):
        if flag and start is None:
            start = k * step
        elif not flag and start is not None:
            found.append((start, min(k, len(flags) - 1) * step))
            start = None
    return tuple(one for one in found if one[1] > one[0])
