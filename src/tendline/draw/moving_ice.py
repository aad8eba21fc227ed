"""The ice with everybody in a group of his own, for a script that moves them."""

from __future__ import annotations

import math
from collections.abc import Sequence

from tendline.base import InputError
from tendline.body import Build, Stance
from tendline.draw.animation import figure_growth
from tendline.draw.drill_picture import drill_window
from tendline.draw.drill_scene import scene_of
from tendline.draw.from_above import figure_paint, pieces_above
from tendline.draw.ice_picture import IcePicture, Window
from tendline.draw.moments import Moment
from tendline.draw.notation import Pen
from tendline.draw.svg import rings_data
from tendline.draw.tokens import PAPER, Paint, Palette
from tendline.drill.types import Drill
from tendline.drill.vocabulary import Role
from tendline.ice import Rink
from tendline.ice import rink as make_rink


def moving_ice_svg(
    drill: Drill,
    moments: Sequence[Moment],
    build: Build,
    *,
    rink: Rink | None = None,
    window: Window | None = None,
    width: float = 460.0,
    palette: Palette = PAPER,
) -> str:
    """Return the ice of a drill with everybody who takes part in any of ``moments``.

    All stand where the first moment has them. A script sets ``transform`` to
    ``translate(-y -x)`` of ``.tl-person[data-name]``, ``.tl-moving-puck`` and ``.tl-wanted`` (where
    she should be); of the figures ``.tl-her[data-stance]``, one for each stance, it shows one and
    sets ``translate(-y -x) rotate(-DEGREES)`` of her facing. Raises ``InputError`` for no moments.
    """
    if not moments:
        raise InputError("the ice needs at least one moment", item=drill.title)
    ground = rink or make_rink()
    scene = scene_of(drill, ground)
    picture = IcePicture(
        ground, window or drill_window(drill, scene, ground), width=width, palette=palette,
        title=f"Animation: {drill.title}", kind="tl-animation",
    )  # fmt: skip
    picture.draw_ice()
    pen = Pen(picture)
    for thing in scene.things:
        pen.thing(thing.kind, picture.at(*thing.at), count=thing.count, name=thing.name)
    first = moments[0]
    picture.circle(
        (0.0, 0.0), picture.px(11.0), stroke=Paint.ADVICE, width=picture.px(1.8),
        dash=f"{picture.px(4.0):.4g} {picture.px(3.0):.4g}", classes="tl-wanted",
        transform=_moved(picture, first.wanted or (first.pose.x, first.pose.y)),
    )  # fmt: skip
    for stance in sorted({moment.pose.stance for moment in moments}):
        _figure(picture, build, stance, first)
    starts = {name: place for moment in reversed(moments) for name, place in moment.people}
    starts.update(first.people)
    for name, place in sorted(starts.items()):
        with picture.group(
            classes="tl-person", data_name=name, transform=_moved(picture, place)
        ):  # fmt: skip
            known = {one.value for one in Role}
            pen.person(Role(name[0]) if name[:1] in known else Role.FORWARD, name[:4], (0.0, 0.0))
    with picture.group(classes="tl-moving-puck", transform=_moved(picture, first.puck)):
        pen.puck((0.0, 0.0))
    picture.draw_frame()
    return picture.svg()


def _moved(picture: IcePicture, place: tuple[float, float]) -> str:
    x, y = picture.at(*place)
    return f"translate({x:.3f} {y:.3f})"


def _figure(picture: IcePicture, build: Build, stance: Stance, first: Moment) -> None:
    pose = first.pose
    turn = -math.degrees(pose.facing)
    shown = stance is pose.stance
    grow = figure_growth(picture.width / picture.window.across)
    with picture.group(
        classes="tl-her", data_stance=stance.value, display="inline" if shown else "none",
        transform=f"{_moved(picture, (pose.x, pose.y))} rotate({turn:.1f})",
    ):  # fmt: skip
        with picture.group(transform=f"scale({grow:.3f})"):
            for part, rings in pieces_above(build, stance):
                fill, stroke = figure_paint(part)
                picture.path(rings_data(rings), fill=fill, stroke=stroke,
                             width=picture.px(1.3) / grow)  # fmt: skip
        picture.circle((0.0, 0.0), picture.px(4.0), fill=Paint.ADVICE, stroke=Paint.SHEET,
                       width=picture.px(1.4), classes="tl-set-dot")  # fmt: skip
