"""When what happens: reaction, moves, set and release of each option on one rule of tenths."""

from __future__ import annotations

import math
from itertools import pairwise

from tendline.draw.advice import margin_short
from tendline.draw.chart import TEXT, widest
from tendline.draw.depth_curve import short_words
from tendline.draw.fontfiles import text_width
from tendline.draw.hatching import hatch
from tendline.draw.svg import Picture, path_data
from tendline.draw.tokens import PAPER, Paint, Palette
from tendline.motion import MoveKind
from tendline.motion.types import Step
from tendline.play import OptionAnswer, Read

ROW = 44.0
BAR = 18.0
MARK_ROOM = 8.0
LEGEND = 30.0
"""Height of a row, a bar and the legend, and room kept around a mark, in CSS pixels."""
MOVE_WORDS = {
    MoveKind.SHORT_SHUFFLE: "shuffle",
    MoveKind.STEP_SHUFFLE: "shuffle",
    MoveKind.FORWARD_PUSH: "push out",
    MoveKind.C_CUT_FORWARD: "C-cut out",
    MoveKind.C_CUT_BACK: "C-cut back",
    MoveKind.STANCE_CHANGE: "change",
    MoveKind.BUTTERFLY_SLIDE: "slide",
    MoveKind.BUTTERFLY_PUSH: "push, down",
    MoveKind.FULL_RECOVERY: "up",
    MoveKind.ON_ICE_RECOVERY: "turn, down",
}


def time_line_svg(
    read: Read, *, width: float = 560.0, most: int = 4, palette: Palette = PAPER
) -> str:
    """Return her time line for the costliest options as SVG, one row each.

    Each row: an open bar while she reacts, filled bars for her moves with the driving leg, a dot
    when she is set, a puck at the release. Too late is hatched between release and set.
    """
    shown = [one for one in read.options if one.release_time > 0.0][:most]
    height = 44.0 + ROW * max(len(shown), 1) + LEGEND
    picture = Picture(
        width=width, height=height, title="Her time line for each option", kind="tl-time-line",
        description=" ".join(_row_words(one) for one in shown) or "Nothing asks her to move.",
        palette=palette,
    )  # fmt: skip
    if not shown:
        picture.text((4.0, 40.0), "Nothing asks her to move.", size=TEXT)
        return picture.svg()
    last = max(max(one.release_time, one.reply.set_time) for one in shown)
    reach = math.ceil(last * 10.0 + 0.5) / 10.0
    rows = _Rows(picture, left=widest([short_words(one.option) for one in shown]) + 16.0,
                 right=width - widest(["just in time"], bold=True) - 14.0, reach=reach,
                 top=34.0)  # fmt: skip
    rows.rule(len(shown))
    for index, one in enumerate(shown):
        rows.row(index, one)
    rows.legend(height - 9.0)
    return picture.svg()


def _row_words(one: OptionAnswer) -> str:
    if one.set_margin >= 0.0:
        when = f"set {one.set_margin:.1f} s before"
    else:
        when = f"set {-one.set_margin:.1f} s too late"
    return f"{one.words}: release after {one.release_time:.1f} s, {when}."


class _Rows:
    def __init__(
        self, picture: Picture, *, left: float, right: float, reach: float, top: float
    ) -> None:
        self.picture = picture
        self.left, self.right, self.top, self.reach = left, right, top, reach

    def at(self, time: float) -> float:
        return self.left + time / self.reach * (self.right - self.left)

    def rule(self, count: int) -> None:
        bottom = self.top + ROW * count
        self.picture.text((4.0, TEXT), "Seconds", size=TEXT, paint=Paint.INK_SOFT)
        for tenth in range(round(self.reach * 10.0) + 1):
            x = self.at(tenth / 10.0)
            whole = tenth % 5 == 0
            self.picture.line(
                (x, self.top - (8.0 if whole else 4.0)), (x, bottom if whole else self.top),
                paint=Paint.LINE if whole else Paint.INK_SOFT, width=1.0, classes="tl-tenth",
            )  # fmt: skip
            if whole:
                self.picture.text((x, self.top - 14.0), f"{tenth / 10.0:.1f}", size=TEXT,
                                  paint=Paint.INK_SOFT, anchor="middle")  # fmt: skip
        self.picture.line((self.left, self.top), (self.right, self.top), paint=Paint.INK,
                          width=1.5)  # fmt: skip

    def legend(self, baseline: float) -> None:
        """Say under the rows what bars and marks stand for."""
        middle, x = baseline - 0.34 * TEXT, 4.0
        for words in ("she reads", "she moves", "set", "he shoots"):
            if words in ("she reads", "she moves"):
                fill = Paint.SHEET if words == "she reads" else Paint.GEAR
                self.picture.add("rect", fill=fill, stroke=Paint.INK, stroke_width=1.4, x=x,
                                 y=middle - 6.0, width=20.0, height=12.0)  # fmt: skip
                x += 26.0
            elif words == "set":
                self.picture.line((x + 5.5, middle - 9.0), (x + 5.5, middle + 9.0),
                                  paint=Paint.ADVICE, width=2.0)  # fmt: skip
                self.picture.circle((x + 5.5, middle), 5.5, fill=Paint.ADVICE)
                x += 17.0
            else:
                self.picture.line((x + 4.6, middle - 10.0), (x + 4.6, middle + 5.0),
                                  paint=Paint.INK, width=2.6)  # fmt: skip
                self.picture.circle((x + 4.6, middle + 5.0), 4.6, fill=Paint.INK)
                x += 15.0
            self.picture.text((x, baseline), words, size=TEXT, paint=Paint.INK_SOFT)
            x += text_width(words, size=TEXT) + 15.0

    def row(self, index: int, one: OptionAnswer) -> None:
        middle = self.top + ROW * (index + 0.5) - 2.0
        late = not one.is_set
        words = short_words(one.option)
        with self.picture.group(classes="tl-row", data_option=one.option.key):
            self.picture.text((4.0, middle + 0.34 * TEXT), words, size=TEXT,
                              paint=Paint.RISK if late else Paint.INK, bold=late)  # fmt: skip
            self._reaction(one, middle)
            for step in one.reply.chain.steps:
                self._step(one, step, middle)
            if late:
                self._late(one, middle)
            self._set(one, middle, late)
            self._release(one, middle)

    def _box(self, begin: float, finish: float, middle: float, fill: Paint, classes: str) -> None:
        x0, x1 = self.at(begin), self.at(min(finish, self.reach))
        self.picture.add(
            "rect", classes=classes, fill=fill, stroke=Paint.INK, stroke_width=1.4, x=x0,
            y=middle - BAR / 2, width=max(x1 - x0, 1.5), height=BAR,
        )  # fmt: skip

    def _reaction(self, one: OptionAnswer, middle: float) -> None:
        chain = one.reply.chain
        until = chain.steps[0].begin if chain.steps else min(chain.reaction, one.release_time)
        self._box(0.0, until, middle, Paint.SHEET, "tl-reaction")
        self._inside(("reads",), 0.0, until, middle, self._marks(one))

    def _marks(self, one: OptionAnswer) -> list[float]:
        """Return the x of the marks that words in a bar must keep clear of."""
        times = [one.release_time]
        if one.reply.set_time > 0.0:
            times.append(one.reply.set_time)
        return [self.at(min(time, self.reach)) for time in times]

    def _step(self, one: OptionAnswer, step: Step, middle: float) -> None:
        self._box(step.begin, step.finish, middle, Paint.GEAR, "tl-move")
        words = MOVE_WORDS.get(step.move, step.move.value)
        choices = (f"{words}, {step.drive_leg.value} leg", words) if step.drive_leg else (words,)
        self._inside(choices, step.begin, step.finish, middle, self._marks(one))

    def _inside(
        self, choices: tuple[str, ...], begin: float, finish: float, middle: float,
        marks: list[float],
    ) -> None:  # fmt: skip
        """Write the longest of ``choices`` that fits between the marks inside a bar."""
        left, right = self.at(begin) + 4.0, self.at(min(finish, self.reach)) - 4.0
        cuts = sorted([left, right, *(x for x in marks if left < x < right)])
        low, high = max(pairwise(cuts), key=lambda pair: pair[1] - pair[0])
        low += MARK_ROOM if low > left else 0.0
        high -= MARK_ROOM if high < right else 0.0
        for words in choices:
            if text_width(words, size=14.0) <= high - low:
                at = (0.5 * (low + high), middle + 4.8)
                self.picture.text(at, words, size=14.0, anchor="middle")
                return

    def _late(self, one: OptionAnswer, middle: float) -> None:
        x0, x1 = self.at(one.release_time), self.at(min(one.reply.set_time, self.reach))
        ring = [(x0, middle - BAR), (x1, middle - BAR), (x1, middle + BAR), (x0, middle + BAR)]
        lines = "".join(path_data([a, b]) for a, b in hatch([ring], spacing=5.0))
        self.picture.path(lines, stroke=Paint.RISK, width=1.2, classes="tl-late")

    def _set(self, one: OptionAnswer, middle: float, late: bool) -> None:
        if not one.reply.chain.steps or one.reply.set_time <= 0.0:
            return
        x = self.at(min(one.reply.set_time, self.reach))
        paint = Paint.RISK if late else Paint.ADVICE
        self.picture.line((x, middle - BAR * 0.8), (x, middle + BAR * 0.8), paint=paint, width=2.0)
        self.picture.circle((x, middle), 5.5, fill=paint, stroke=Paint.SHEET, width=1.5,
                            classes="tl-set")  # fmt: skip

    def _release(self, one: OptionAnswer, middle: float) -> None:
        x = self.at(one.release_time)
        self.picture.line((x, middle - BAR), (x, middle + BAR), paint=Paint.INK, width=2.6,
                          classes="tl-release")  # fmt: skip
        self.picture.circle((x, middle + BAR), 4.6, fill=Paint.INK, classes="tl-puck")
        after = max(x, self.at(min(one.reply.set_time, self.reach)))
        moves = [self.at(step.finish) for step in one.reply.chain.steps]
        self.picture.text(
            (max([after, *moves]) + 9.0, middle + 0.34 * TEXT), margin_short(one), size=TEXT,
            bold=True, paint=Paint.ADVICE if one.is_set else Paint.RISK,
        )  # fmt: skip
