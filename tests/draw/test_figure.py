"""Figures of a goaltender: exact shadows, order from back to front, and a picture of each stance."""

import math
import xml.etree.ElementTree as ET

import numpy as np
import pytest

from tendline.base import InputError, Side
from tendline.body import Capsules, Limb, Part, Stance, build_goaltender, capsules
from tendline.draw.figure import View, camera_for, figure_shapes, figure_svg


def ball(x: float, y: float, z: float, radius: float) -> Capsules:
    return Capsules.of([[x, y, z]], [[x, y, z]], [radius], [int(Limb.HEAD)], [int(Part.BLADE)])


def extent(body: Capsules, camera) -> np.ndarray:
    rings = [np.array(r) for shape in figure_shapes(body, camera) for r in shape.rings]
    every = np.vstack(rings)
    return np.concatenate([every.min(axis=0), every.max(axis=0)])


def test_the_shadow_of_a_ball_seen_straight_on_is_its_circle():
    seen = extent(ball(0.3, 0.4, 1.0, 0.2), camera_for(View.FRONT))
    assert seen == pytest.approx([0.2, -1.2, 0.6, -0.8], abs=2e-3)


def test_the_shadow_of_a_ball_seen_from_the_puck_is_that_of_its_tangent_lines():
    # by hand: eye 6 m out, ball of 0.5 m at 2 m out on the axis at eye height: distance 4 m, the
    # tangent lines leave at asin(0.5 / 4), and meet the plane at 6 tan of it = 0.7559 m
    seen = extent(ball(2.0, 0.0, 1.0, 0.5), camera_for(View.PUCK, distance=6.0, puck_height=1.0))
    half = 6.0 * math.tan(math.asin(0.5 / 4.0))
    assert half == pytest.approx(0.7559, abs=1e-4)
    assert seen == pytest.approx([-half, -1.0 - half, half, -1.0 + half], abs=4e-3)


@pytest.mark.parametrize("stance", list(Stance))
@pytest.mark.parametrize("view", list(View))
def test_every_stance_draws_from_every_side(stance, view):
    text = figure_svg(build_goaltender(1.75), stance, view)
    root = ET.fromstring(text)
    assert root.attrib["aria-label"] == f"Goaltender, {stance.value}, seen from the {view.value}"
    drawn = {e.attrib.get("class", "") for e in root.iter()}
    for part in Part:
        name = f"tl-gear-{part.name.lower().replace('_', '-')}"
        assert any(name in classes for classes in drawn), name
    assert "style" not in text
    assert "nan" not in text


def test_what_is_nearer_is_drawn_later():
    order = [s.part for s in figure_shapes(capsules(build_goaltender()), camera_for(View.FRONT))]
    assert order.index(Part.CHEST) < order.index(Part.LEFT_PAD) < order.index(Part.BLADE)
    pairs = ((Part.GLOVE, Part.CATCHING_ARM), (Part.BLOCKER, Part.BLOCKER_ARM),
             (Part.LEFT_PAD, Part.LEFT_SKATE), (Part.RIGHT_PAD, Part.RIGHT_SKATE))  # fmt: skip
    for stance in Stance:
        body = capsules(build_goaltender(), stance)
        order = [s.part for s in figure_shapes(body, camera_for(View.FRONT))]
        for over, under in pairs:
            assert order.index(under) < order.index(over)


def test_from_the_front_the_catching_glove_is_on_her_side_of_the_picture():
    for hand, sign in ((Side.LEFT, 1.0), (Side.RIGHT, -1.0)):
        body = capsules(build_goaltender(1.75, hand))
        shapes = figure_shapes(body, camera_for(View.FRONT))
        glove = next(s for s in shapes if s.part is Part.GLOVE)
        assert sign * np.mean([p[0] for p in glove.rings[0]]) > 0.3


def test_seams_and_bars_are_drawn_only_where_they_face_the_viewer():
    body = capsules(build_goaltender())
    front = {s.part: s.lines for s in figure_shapes(body, camera_for(View.FRONT))}
    side = {s.part: s.lines for s in figure_shapes(body, camera_for(View.SIDE))}
    assert len(front[Part.LEFT_PAD]) == 4
    assert side[Part.LEFT_PAD] == ()
    assert front[Part.MASK]


def test_a_puck_inside_her_reach_is_refused():
    with pytest.raises(InputError, match="clear of the goaltender"):
        figure_svg(build_goaltender(), Stance.READY, View.PUCK, distance=1.0)
