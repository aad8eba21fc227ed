"""A drill's run as moving pictures: the ice is drawn once, people are pasted on it."""

from __future__ import annotations

import io
import math
from collections.abc import Iterator, Sequence
from functools import cache, cached_property
from typing import TYPE_CHECKING

from tendline.base import InputError
from tendline.body import Build, Pose
from tendline.draw.drill_picture import drill_window
from tendline.draw.drill_scene import scene_of
from tendline.draw.fontfiles import truetype_paths
from tendline.draw.from_above import figure_paint, pieces_above
from tendline.draw.ice_picture import IcePicture, Window
from tendline.draw.moments import Moment
from tendline.draw.notation import Pen
from tendline.draw.raster import svg_to_png
from tendline.draw.situation_picture import FIGURE_WIDTH
from tendline.draw.svg import Picture, rings_data
from tendline.draw.tokens import PAPER, Paint, Palette
from tendline.drill.types import Drill
from tendline.drill.vocabulary import Role
from tendline.ice import Rink
from tendline.ice import rink as make_rink

if TYPE_CHECKING:
    from PIL.Image import Image
    from PIL.ImageFont import FreeTypeFont

BAR_PX = 34
"""Height of the line under the ice that says time and state [pixels]."""
TURN_STEP_DEG = 5
"""Her figure is kept ready in turns of so many degrees."""
SMALLEST_FIGURE_PX = 46.0
WANTED_FROM = 0.2
"""Where she should be is ringed from this distance on [m]."""
HELD_PX = 16.0
"""Least width of her figure, and how far a held puck is drawn from its holder [pixels]."""


class Painter:
    """Paints the moments of one drill's run; made once, then asked for each moment.

    ``build`` is the goaltender whose figure is drawn. ``width`` is that of the pictures in pixels;
    both sides are even, as video needs it.
    """

    def __init__(
        self,
        drill: Drill,
        build: Build,
        *,
        rink: Rink | None = None,
        window: Window | None = None,
        width: int = 640,
        palette: Palette = PAPER,
    ) -> None:
        if not 160 <= width <= 1920:
            raise InputError(
                "the film cannot be so wide", came=f"{width} pixels", allowed="160 to 1920 pixels"
            )
        self.drill = drill
        self.build = build
        self.rink = rink or make_rink()
        self.palette = palette
        scene = scene_of(drill, self.rink)
        self.window = window or drill_window(drill, scene, self.rink)
        self.width = width - width % 2
        self.scale = self.width / self.window.across
        ice = round(self.window.along * self.scale)
        self.height = ice + BAR_PX + (ice + BAR_PX) % 2
        self._things = scene.things
        self._sprites: dict[object, Image] = {}

    @cached_property
    def _ground(self) -> Image:
        from PIL import Image

        picture = IcePicture(
            self.rink, self.window, width=self.width, title=self.drill.title, palette=self.palette
        )
        picture.draw_ice()
        pen = Pen(picture)
        for thing in self._things:
            at = picture.at(*thing.at)
            facing = -math.pi / 2.0
            if thing.facing is not None:
                to = picture.at(*thing.facing)
                facing = math.atan2(to[1] - at[1], to[0] - at[0])
            pen.thing(thing.kind, at, count=thing.count, facing=facing)
        png = svg_to_png(picture.svg(), width=self.width, background=self.palette[Paint.PAPER])
        ground = Image.new("RGB", (self.width, self.height), self.palette[Paint.PAPER])
        ground.paste(Image.open(io.BytesIO(png)).convert("RGB"), (0, 0))
        return ground

    def _sprite(self, key: object, picture: Picture) -> Image:
        from PIL import Image

        if key not in self._sprites:
            png = svg_to_png(picture.svg(), width=round(picture.width), background=None)
            self._sprites[key] = Image.open(io.BytesIO(png)).convert("RGBA")
        return self._sprites[key]

    def _person(self, name: str) -> Image:
        size = 44.0
        picture = Picture(width=size, height=size, title=name, palette=self.palette,
                          view=(-size / 2, -size / 2, size, size))  # fmt: skip
        role = Role(name[0]) if name[:1] in {one.value for one in Role} else Role.FORWARD
        Pen(picture).person(role, name[:4], (0.0, 0.0))
        return self._sprite(("person", name), picture)

    def _puck(self) -> Image:
        picture = Picture(width=20.0, height=20.0, title="puck", palette=self.palette,
                          view=(-10.0, -10.0, 20.0, 20.0))  # fmt: skip
        picture.circle((0.0, 0.0), 5.0, fill=Paint.INK, stroke=Paint.SHEET, width=1.4)
        return self._sprite("puck", picture)

    def _ring(self) -> Image:
        picture = Picture(width=30.0, height=30.0, title="where she should be",
                          palette=self.palette, view=(-15.0, -15.0, 30.0, 30.0))  # fmt: skip
        picture.circle((0.0, 0.0), 11.0, stroke=Paint.ADVICE, width=2.0, dash="4 3")
        picture.circle((0.0, 0.0), 2.6, fill=Paint.ADVICE)
        return self._sprite("ring", picture)

    def _her(self, pose: Pose, is_set: bool) -> Image:
        turn = round(math.degrees(pose.facing) / TURN_STEP_DEG) * TURN_STEP_DEG % 360
        key = ("her", pose.stance, turn, is_set)
        if key in self._sprites:
            return self._sprites[key]
        grow = figure_growth(self.scale)
        reach = 1.25 * grow
        picture = Picture(
            width=max(2.0 * reach * self.scale, 24.0), height=max(2.0 * reach * self.scale, 24.0),
            view=(-reach, -reach, 2.0 * reach, 2.0 * reach), title="goaltender",
            palette=self.palette,
        )  # fmt: skip
        with picture.group(transform=f"rotate({-turn}) scale({grow:.4f})"):
            for part, rings in pieces_above(self.build, pose.stance):
                fill, stroke = figure_paint(part)
                picture.path(rings_data(rings), fill=fill, stroke=stroke,
                             width=picture.px(1.3) / grow)  # fmt: skip
        if is_set:
            picture.circle((0.0, 0.0), picture.px(4.4), fill=Paint.ADVICE, stroke=Paint.SHEET,
                           width=picture.px(1.5))  # fmt: skip
        return self._sprite(key, picture)

    def _paste(self, image: Image, sprite: Image, x: float, y: float) -> None:
        left = round((self.window.y_high - y) * self.scale - sprite.width / 2.0)
        top = round((self.window.x_high - x) * self.scale - sprite.height / 2.0)
        image.paste(sprite, (left, top), sprite)

    def paint(self, moment: Moment) -> Image:
        """Return one moment as an RGB image."""
        from PIL import ImageDraw

        image = self._ground.copy()
        if moment.wanted is not None and _apart(moment) > WANTED_FROM:
            self._paste(image, self._ring(), *moment.wanted)
        self._paste(image, self._her(moment.pose, moment.is_set), moment.pose.x, moment.pose.y)
        for name, (x, y) in moment.people:
            self._paste(image, self._person(name), x, y)
        px, py = shown_puck(moment, self.scale)
        self._paste(image, self._puck(), px, py)
        draw = ImageDraw.Draw(image)
        middle = self.height - BAR_PX / 2.0
        draw.rectangle((0, self.height - BAR_PX, self.width, self.height),
                       fill=self.palette[Paint.PAPER])  # fmt: skip
        ink = self.palette[Paint.INK]
        words = moment.words or self.drill.title
        draw.text((10, middle), words, fill=ink, font=_font(False), anchor="lm")
        state = "set" if moment.is_set else "moving"
        paint = self.palette[Paint.ADVICE if moment.is_set else Paint.RISK]
        clock = f"{moment.time:4.1f} s"
        draw.rectangle((self.width - 170, self.height - BAR_PX, self.width, self.height),
                       fill=self.palette[Paint.PAPER])  # fmt: skip
        draw.text((self.width - 84, middle), clock, fill=ink, font=_font(True), anchor="rm")
        draw.text((self.width - 10, middle), state, fill=paint, font=_font(True), anchor="rm")
        return image

    def images(self, moments: Sequence[Moment]) -> Iterator[Image]:
        """Return the moments one after the other."""
        for one in moments:
            yield self.paint(one)


def _apart(moment: Moment) -> float:
    """Return how far she is from where she should be [m]."""
    if moment.wanted is None:
        return 0.0
    return math.hypot(moment.wanted[0] - moment.pose.x, moment.wanted[1] - moment.pose.y)


def figure_growth(scale: float) -> float:
    """Return how many times larger than true she is drawn at ``scale`` pixels a metre."""
    return max(SMALLEST_FIGURE_PX / (FIGURE_WIDTH * scale), 1.0)


def shown_puck(moment: Moment, scale: float) -> tuple[float, float]:
    """Return where the puck is drawn [m]: a held one beside its holder's sign, toward the goal."""
    x, y = moment.puck
    distance, away = math.hypot(x, y), HELD_PX / scale
    if not moment.holder or distance <= away:
        return x, y
    share = 1.0 - away / distance
    return x * share, y * share


@cache
def _font(bold: bool) -> FreeTypeFont:
    from PIL import ImageFont

    return ImageFont.truetype(truetype_paths()[1 if bold else 0], size=16)
