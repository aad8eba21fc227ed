"""The play from above: who is where, where she should stand, and what she does about each option.

Two groups follow each other: ``tl-answer`` holds all that was computed, ``tl-people`` the people,
so that a page can move people and exchange the answer.
"""

from __future__ import annotations

import math

from tendline.base import LengthUnit, Side, show_length
from tendline.body import Part, Pose
from tendline.draw.advice import short_depth
from tendline.draw.drill_scene import StrokeKind
from tendline.draw.fontfiles import text_width
from tendline.draw.from_above import figure_paint, pieces_above, placed, silhouette_above
from tendline.draw.ice_picture import IcePicture, Window, window_for
from tendline.draw.labels import Box, Placer, around
from tendline.draw.notation import Pen
from tendline.draw.strokes import at_length, length_of
from tendline.draw.svg import Point, path_data, rings_data
from tendline.draw.tokens import PAPER, PICTURE_TEXT_PX, Paint, Palette
from tendline.play import COMING_IN, Attacker, Defender, OptionAnswer, OptionKind, Read
from tendline.play.situation import Situation

PERSON_PX = 15.0
PERSON_LABEL_PX = 16.0
BODY_OFF = 0.75
"""A skater is drawn this far from his blade [m]."""
HIT_RADIUS = 0.9
"""Reach of the finger around a person who can be dragged [m]."""
BAND_HALF = 0.42
"""Half the width of the shaded band of depths [m]."""
MOVES_ENOUGH = 0.2
"""Replies shorter than this [m] are not outlined."""
SMALLEST_FIGURE_PX = 44.0
LARGEST_GROWTH = 1.8
"""She is drawn larger than true where she would be too small to see, up to so many times."""
FIGURE_WIDTH = 1.05
"""How wide she is from glove to blocker, roughly [m]."""
SPEED_SECONDS = 0.5
"""A skater's movement is drawn as the way of this long [s]."""

RANKS_DRAWN = 3
"""Carries and dekes are drawn only while they rank among so many threats."""

DEKE_SHOWN = 2.5
"""Only the last part of the way round her is drawn [m]."""


def situation_window(read: Read) -> Window:
    """Return a window that shows the play with the net as large as it allows."""
    return window_for(read.situation.rink, shown_places(read))


def shown_places(read: Read) -> list[tuple[float, float]]:
    """Return every place that a picture of the play must show [m]."""
    situation = read.situation
    places = [(one.x, one.y) for one in situation.people]
    places += [body_place(one) for one in situation.attackers]
    return [*places, situation.puck_place, (read.spot.x, read.spot.y)]


def situation_svg(
    read: Read,
    *,
    window: Window | None = None,
    width: float = 520.0,
    interactive: bool = False,
    unit: LengthUnit = LengthUnit.METRES,
    palette: Palette = PAPER,
    answer: bool = True,
    only_answer: bool = False,
) -> str:
    """Return the play with her recommended place as SVG.

    ``interactive`` makes every person a focusable element with a wide reach. With ``answer=False``
    only the people are drawn (an exercise before its solution); with ``only_answer`` only what was
    computed is, for a page that already shows the rest.
    """
    shown = window or situation_window(read)
    picture = IcePicture(
        read.situation.rink, shown, width=width, kind="tl-situation", palette=palette,
        interactive=interactive,
        title=" ".join(read.answer) if answer else "Where should she stand?",
        description=_describe(read, unit) if answer else _people_words(read.situation, unit),
    )  # fmt: skip
    drawing = _Situation(picture, read, unit, interactive)
    if only_answer:
        with picture.group(classes="tl-answer"):
            drawing.answer()
        return picture.svg()
    picture.draw_ice()
    with picture.group(classes="tl-answer"):
        if answer:
            drawing.answer()
    with picture.group(classes="tl-people"):
        drawing.people()
    picture.draw_frame()
    return picture.svg()


def place_words(x: float, y: float, unit: LengthUnit = LengthUnit.METRES) -> str:
    """Return a place in words, as a coach would say it."""
    out = f"{show_length(abs(x), unit)} {'out' if x >= 0.0 else 'behind the goal line'}"
    if abs(y) < 0.05:
        return f"{out}, in the middle"
    return f"{out}, {show_length(abs(y), unit)} to her {'left' if y > 0.0 else 'right'}"


def _people_words(situation: Situation, unit: LengthUnit) -> str:
    parts = [f"{one.name}: {place_words(one.x, one.y, unit)}." for one in situation.people]
    return f"{situation.carrier.name} has the puck. {' '.join(parts)}"


def _describe(read: Read, unit: LengthUnit) -> str:
    options = " ".join(
        f"{one.words}: {100.0 * one.loss:.0f} goals in 100, "
        f"{'set in time' if one.is_set else 'not set in time'}."
        for one in read.options
    )
    return f"{_people_words(read.situation, unit)} {options}"


def body_place(one: Attacker) -> tuple[float, float]:
    """Return where an attacker's body is drawn: behind his blade, toward his other hand."""
    distance = math.hypot(one.x, one.y) or 1.0
    away = (one.x / distance, one.y / distance)
    if one.x < 0.0:
        away = (0.0, math.copysign(1.0, one.y or 1.0))
    # He faces the net; his left is then along (away_y, -away_x).
    left = (away[1], -away[0])
    turn = -0.45 if one.hand is Side.LEFT else 0.45
    dx = math.cos(turn) * away[0] + math.sin(turn) * left[0]
    dy = math.cos(turn) * away[1] + math.sin(turn) * left[1]
    return one.x + BODY_OFF * dx, one.y + BODY_OFF * dy


class _Situation:
    def __init__(
        self, picture: IcePicture, read: Read, unit: LengthUnit, interactive: bool
    ) -> None:
        self.picture = picture
        self.read = read
        self.unit = unit
        self.interactive = interactive
        self.pen = Pen(picture)
        left, top, across, along = picture.view
        self.placer = Placer(Box(left, top, left + across, top + along))
        self.puck = picture.at(*read.situation.puck_place)
        self.size = picture.px(PICTURE_TEXT_PX)

    # ---- what was computed -------------------------------------------------------------------

    def answer(self) -> None:
        self._take_people()
        self._funnel()
        self._band()
        self._replies()
        self._lanes()
        self._her()
        self._labels()

    def _take_people(self) -> None:
        reach = self.picture.px(PERSON_PX + 6.0)
        for person in self.read.situation.people:
            end = (person.x + SPEED_SECONDS * person.vx, person.y + SPEED_SECONDS * person.vy)
            way = [self.picture.at(person.x, person.y), self.picture.at(*end)]
            self.placer.take_line(way, thickness=self.picture.px(10.0))
        for attacker in self.read.situation.attackers:
            at = self.picture.at(attacker.x, attacker.y)
            self.placer.take(Box.around(at, reach / 2, reach / 2))
            self.placer.take(Box.around(self.picture.at(*body_place(attacker)), reach, reach))
        for defender in self.read.situation.defenders:
            at = self.picture.at(defender.x, defender.y)
            self.placer.take(Box.around(at, reach, reach))
        goal = self.read.situation.rink.goal
        net = self.picture.at(-0.5 * goal.depth, 0.0)
        self.placer.take(Box.around(net, goal.half_width, 0.5 * goal.depth))
        spot = self.picture.at(self.read.spot.x, self.read.spot.y)
        reach = 0.5 * FIGURE_WIDTH * self.growth
        self.placer.take(Box.around(spot, reach, reach))

    def _funnel(self) -> None:
        half = self.read.situation.rink.goal.half_width
        thin = self.picture.px(0.9)
        for side in (half, -half):
            self.picture.line(self.puck, self.picture.at(0.0, side), paint=Paint.INK_SOFT,
                              width=thin, classes="tl-post-line")  # fmt: skip
        goal = self.picture.at(0.0, 0.0)
        self.picture.line(self.puck, goal, paint=Paint.INK, width=self.picture.px(1.6),
                          classes="tl-puck-line")  # fmt: skip
        self.placer.take_line([self.puck, goal], thickness=self.picture.px(6.0))

    def _band(self) -> None:
        low, high = self.read.band.low, self.read.band.high
        bearing = math.atan2(self.read.spot.y, self.read.spot.x)
        steps = 10

        def edge(depth: float, flip: bool) -> list[tuple[float, float]]:
            turn = min(BAND_HALF / max(depth, BAND_HALF), 1.0)
            angles = [bearing + turn * (2.0 * i / steps - 1.0) for i in range(steps + 1)]
            if flip:
                angles.reverse()
            return [(depth * math.cos(a), depth * math.sin(a)) for a in angles]

        ring = [*edge(low, False), *edge(high, True)]
        self.picture.path(self.picture.ice_path(ring, closed=True), fill=Paint.ADVICE_WASH,
                          stroke=Paint.ADVICE, width=self.picture.px(0.9), classes="tl-band",
                          dash=self._dash(1.5, 2.5))  # fmt: skip

    def _dash(self, on: float, off: float) -> str:
        return f"{self.picture.px(on):.4g} {self.picture.px(off):.4g}"

    def _shown_reply(self) -> OptionAnswer | None:
        """Return the costliest option that asks her to go somewhere."""
        spot = self.read.spot
        for one in self.read.options:
            target = one.reply.target
            if math.hypot(target.x - spot.x, target.y - spot.y) >= MOVES_ENOUGH:
                return one
        return None

    def _replies(self) -> None:
        one = self._shown_reply()
        if one is None:
            return
        paint = Paint.ADVICE if one.is_set else Paint.RISK
        with self.picture.group(classes="tl-reply", data_option=one.option.key):
            self.picture.path(
                rings_data(self._silhouette(one.reply.target)), stroke=paint,
                width=self.picture.px(1.2), dash=self._dash(4.0, 3.0), classes="tl-ghost",
            )  # fmt: skip
            start = self.picture.at(self.read.spot.x, self.read.spot.y)
            end = self.picture.at(one.reply.target.x, one.reply.target.y)
            self.placer.take(Box.around(end, 0.45 * self.growth, 0.45 * self.growth))
            self.pen.stroke(StrokeKind.MOVE, [start, end], paint=paint,
                            start_gap=self.picture.px(10.0))  # fmt: skip

    @property
    def growth(self) -> float:
        """Return how many times larger than true she is drawn."""
        true = self.picture.width / self.picture.window.across * FIGURE_WIDTH
        return min(max(SMALLEST_FIGURE_PX / true, 1.0), LARGEST_GROWTH)

    def _shapes(self, pose: Pose) -> list[tuple[Part, list[list[Point]]]]:
        """Return the pieces of her gear from above, grown about her place where that is small."""
        build = self.read.goaltender.build
        return [
            (part, [placed(ring, pose, growth=self.growth) for ring in rings])
            for part, rings in pieces_above(build, pose.stance)
        ]

    def _silhouette(self, pose: Pose) -> list[list[Point]]:
        rings = silhouette_above(self.read.goaltender.build, pose.stance)
        return [placed(ring, pose, growth=self.growth) for ring in rings]

    def _her(self) -> None:
        spot = self.read.spot
        with self.picture.group(classes="tl-her"):
            self.picture.path(
                rings_data(self._silhouette(spot)), fill=Paint.SHEET, stroke=Paint.SHEET,
                width=self.picture.px(4.0), classes="tl-her-ground",
            )  # fmt: skip
            for part, rings in self._shapes(spot):
                fill, stroke = figure_paint(part)
                self.picture.path(
                    rings_data(rings), fill=fill, stroke=stroke,
                    width=self.picture.px(1.0 if fill is Paint.ADVICE else 1.7),
                    classes=f"tl-gear-{part.name.lower().replace('_', '-')}",
                )  # fmt: skip
        at = self.picture.at(spot.x, spot.y)
        self.picture.circle(at, self.picture.px(4.6), fill=Paint.ADVICE, stroke=Paint.SHEET,
                            width=self.picture.px(1.6), classes="tl-advice-spot")  # fmt: skip

    def _lanes(self) -> None:
        """Draw each option's way of the puck: pass dashed, carry wavy, both with its time."""
        seen: set[tuple[OptionKind, str]] = set()
        for rank, one in enumerate(self.read.options):
            kind, to = one.option.kind, one.option.to
            if kind is OptionKind.SHOOT:
                continue
            if not kind.is_pass and rank >= RANKS_DRAWN:
                continue
            key = (OptionKind.ONE_TIMER if kind.is_pass else kind, to)
            if key in seen:
                continue
            seen.add(key)
            self._lane(one, kind.is_pass)

    def _lane(self, one: OptionAnswer, is_pass: bool) -> None:
        end = self.picture.at(*one.release)
        start = self.puck
        if one.option.kind in COMING_IN and math.dist(start, end) > DEKE_SHOWN:
            share = DEKE_SHOWN / math.dist(start, end)
            start = (end[0] + share * (start[0] - end[0]), end[1] + share * (start[1] - end[1]))
        paint = Paint.INK if one.is_set else Paint.RISK
        stroke = StrokeKind.PASS if is_pass else StrokeKind.CARRY
        with self.picture.group(classes="tl-option", data_option=one.option.key):
            line = self.pen.stroke(stroke, [start, end], paint=paint,
                                   start_gap=self.picture.px(9.0),
                                   end_gap=self.picture.px(6.0 if is_pass else 0.0))  # fmt: skip
            if not line:
                return
            self.placer.take_line(line, thickness=self.picture.px(6.0))
            if not one.is_set:
                self._risk_ticks(line)
            if not is_pass:
                return
            words = f"{one.release_time:.1f} s"
            if not one.is_set and one.set_margin < 0.0:
                late = -one.set_margin
                words += f", late by {late:.1f} s" if late >= 0.05 else ", just late"
            self._lane_label(line, words, paint)

    def _risk_ticks(self, line: list[Point]) -> None:
        """Hatch a risky line with short slanted ticks, so that it is told apart in grey."""
        total = length_of(line)
        reach = self.picture.px(4.5)
        for share in (0.42, 0.46, 0.5, 0.54, 0.58):
            (x, y), _ = at_length(line, share * total)
            self.picture.line((x - reach, y + reach), (x + reach, y - reach), paint=Paint.RISK,
                              width=self.picture.px(1.3), classes="tl-risk-tick")  # fmt: skip

    def _lane_label(self, line: list[Point], words: str, paint: Paint) -> None:
        half = text_width(words, size=self.size, bold=True) / 2.0
        spots = []
        for away in (13.0, 24.0):
            for share in (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82):
                (x, y), turn = at_length(line, share * length_of(line))
                for side in (-1.0, 1.0):
                    dx, dy = -side * math.sin(turn), side * math.cos(turn)
                    reach = self.picture.px(away) + abs(dx) * half
                    spots.append((x + reach * dx, y + reach * dy))
        at = self.placer.best(spots, half, self.size * 0.55)
        self.pen.words(at, words, size=PICTURE_TEXT_PX, paint=paint, halo=True,
                       classes="tl-lane-label")  # fmt: skip

    def _labels(self) -> None:
        spot = self.picture.at(self.read.spot.x, self.read.spot.y)
        words = short_depth(self.read, self.unit)
        half = text_width(words, size=self.size * 1.1, bold=True) / 2.0
        grown = self.growth
        spots = [
            p for reach in (1.1, 1.45, 1.9)
            for p in around(spot, across=reach * grown + half, down=reach * grown + self.size * 0.4)
        ]  # fmt: skip
        at = self.placer.best(spots, half, self.size * 0.6)
        self.pen.words(at, words, size=PICTURE_TEXT_PX * 1.1, paint=Paint.ADVICE, halo=True,
                       classes="tl-depth-label")  # fmt: skip

    # ---- people ------------------------------------------------------------------------------

    def people(self) -> None:
        for defender in self.read.situation.defenders:
            self._person(defender)
        for attacker in reversed(self.read.situation.attackers):
            self._person(attacker)

    def _person(self, one: Attacker | Defender) -> None:
        x, y = self.picture.at(one.x, one.y)
        attacks = isinstance(one, Attacker)
        label = f"{one.name}, {place_words(one.x, one.y, self.unit)}"
        with self.picture.group(
            classes=f"tl-person {'tl-attacker' if attacks else 'tl-defender'}",
            data_name=one.name, transform=f"translate({x:.3f} {y:.3f})", aria_label=label,
            role="img" if self.interactive else None,
            tabindex="0" if self.interactive else None,
        ):  # fmt: skip
            if self.interactive:
                self.picture.add("circle", classes="tl-hit", hollow=True, r=HIT_RADIUS,
                                 pointer_events="all")  # fmt: skip
            self._speed(one)
            if isinstance(one, Attacker):
                self._attacker(one)
            else:
                self._defender(one)

    def _speed(self, one: Attacker | Defender) -> None:
        speed = math.hypot(one.vx, one.vy)
        if speed < 0.5:
            return
        end = (-one.vy * SPEED_SECONDS, -one.vx * SPEED_SECONDS)
        gap = self.picture.px(PERSON_PX + 1.0 if isinstance(one, Defender) else 6.0)
        room = math.hypot(*end) + gap
        end = (end[0] * room / math.hypot(*end), end[1] * room / math.hypot(*end))
        self.pen.stroke(StrokeKind.SKATE, [(0.0, 0.0), end], start_gap=gap, paint=Paint.INK_SOFT)

    def _attacker(self, one: Attacker) -> None:
        bx, by = body_place(one)
        dx, dy = -(by - one.y), -(bx - one.x)
        reach = math.hypot(dx, dy)
        least = self.picture.px(PERSON_PX + 9.0)
        scale = max(1.0, least / reach) if reach > 0.0 else 1.0
        centre = (dx * scale, dy * scale)
        self.picture.line(centre, (0.0, 0.0), paint=Paint.INK, width=self.picture.px(1.8),
                          cap="round", classes="tl-stick")  # fmt: skip
        has_puck = one.name == self.read.situation.carrier.name
        self.picture.circle(
            centre, self.picture.px(PERSON_PX), fill=Paint.SHEET, stroke=Paint.INK,
            width=self.picture.px(2.6 if has_puck else 1.8), classes="tl-body",
        )  # fmt: skip
        self._name(one.name, centre, 1.0)
        if has_puck and self.read.situation.puck is None:
            self.picture.circle((0.0, 0.0), self.picture.px(5.2), fill=Paint.INK, classes="tl-puck")
        else:
            self.picture.circle((0.0, 0.0), self.picture.px(2.0), fill=Paint.INK)

    def _name(self, name: str, at: Point, scale: float) -> None:
        size = PERSON_LABEL_PX * scale * (1.0 if len(name) <= 2 else 0.8 if len(name) == 3 else 0.6)
        self.pen.words(at, name if len(name) <= 5 else f"{name[:4]}…", size=size)

    def _defender(self, one: Defender) -> None:
        radius = self.picture.px(PERSON_PX * 1.36)
        corners = [
            (radius * math.cos(math.radians(a)), radius * math.sin(math.radians(a)))
            for a in (-90.0, 30.0, 150.0)
        ]
        self.picture.path(path_data(corners, closed=True), fill=Paint.SHEET, stroke=Paint.INK_SOFT,
                          width=self.picture.px(1.8), classes="tl-body")  # fmt: skip
        self._name(one.name, (0.0, radius * 0.17), 0.82)


__all__ = ["body_place", "place_words", "situation_svg", "situation_window"]
