"""Figures of a goaltender: exact shadows, order from back to front, and a picture of each stance."""

import itertools
import math
import xml.etree.ElementTree as ET

import numpy as np
import pytest

from tendline.base import InputError, Side
from tendline.body import (
    Capsules,
    Limb,
    Part,
    Stance,
    build_goaltender,
    capsules,
    sealed_post,
)
from tendline.draw.figure import (
    View,
    camera_for,
    figure_shapes,
    figure_svg,
    goal_frame,
    outline_of,
    pieces_of,
)
from tendline.draw.figure_order import back_to_front, depths, picture_grid
from tendline.draw.puck_eye import inside_rings
from tendline.draw.tokens import PRINT, Paint
from tendline.ice import goal

ADULT = build_goaltender(1.75)
CHILD = build_goaltender(1.38, Side.RIGHT)


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
    assert len(front[Part.LEFT_PAD]) == 5  # three rolls at the knee, the boot, the outside
    assert side[Part.LEFT_PAD] == ()
    assert front[Part.MASK]


def test_a_puck_inside_her_reach_is_refused():
    with pytest.raises(InputError, match="clear of the goaltender"):
        figure_svg(build_goaltender(), Stance.READY, View.PUCK, distance=1.0)


def exact_outline(body, camera):
    from shapely import MultiPoint
    from shapely.ops import unary_union

    hulls = []
    for start, end, radius in zip(body.start, body.end, body.radius, strict=True):
        rim = np.vstack([camera.rim(one, float(radius)) for one in (start, end)])
        hulls.append(MultiPoint(camera.points(rim)).convex_hull)
    return unary_union(hulls)


@pytest.mark.parametrize("stance", list(Stance))
@pytest.mark.parametrize("her", [ADULT, CHILD], ids=["adult", "child"])
def test_the_drawn_outline_is_the_exact_one_but_for_filled_notches(stance, her):
    from shapely import Polygon
    from shapely.ops import unary_union

    for view in View:
        camera = camera_for(view)
        body = capsules(her, stance)
        exact = exact_outline(body, camera)
        shapes = figure_shapes(body, camera)
        drawn = unary_union([Polygon(ring).buffer(0.0) for s in shapes for ring in s.rings[:1]])
        assert exact.difference(drawn.buffer(0.002)).area < 1e-5  # corners are cut by 1 mm
        assert drawn.area < 1.01 * exact.area


@pytest.mark.parametrize("stance", list(Stance))
def test_nothing_floats_and_nothing_sinks_into_the_ice(stance):
    for her in (ADULT, CHILD):
        for glove_open in (True, False):
            body = capsules(her, stance, glove_open)
            shapes = figure_shapes(body, camera_for(View.FRONT))
            outer = outline_of(shapes)
            areas = [abs(shoelace(ring)) for ring in outer]
            # holes (between arm and body) are rings of their own; the body is one piece
            assert sum(inside_rings([outer[0]], *first_of(ring)).all() for ring in outer[1:]) == (
                len(outer) - 1
            )
            assert max(areas) == areas[0]
            lowest = max(y for ring in outer for _, y in ring)
            assert lowest == pytest.approx(0.0, abs=2e-3)


def shoelace(ring):
    x, y = np.array(ring).T
    return 0.5 * float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)))


def first_of(ring):
    return np.array([np.mean([p[0] for p in ring])]), np.array([np.mean([p[1] for p in ring])])


def test_a_line_of_sight_meets_a_ball_where_geometry_says():
    # by hand: ball of 0.2 m at 1 m out on the axis, eye 6 m out: met at 6 - 1 - 0.2 = 4.8 m
    camera = camera_for(View.PUCK, distance=6.0, puck_height=1.0)
    rays = camera.rays(np.array([[0.0, -1.0], [0.5, -1.0]]))
    found = depths(ball(1.0, 0.0, 1.0, 0.2), camera, rays)[0]
    assert found[0] == pytest.approx(4.8, abs=1e-9)
    assert np.isinf(found[1])


@pytest.mark.parametrize("stance", list(Stance))
def test_what_the_picture_shows_on_top_is_what_a_line_of_sight_meets_first(stance):
    for her in (ADULT, CHILD):
        for view in View:
            camera = camera_for(view)
            body = capsules(her, stance)
            shapes = figure_shapes(body, camera)
            corners = np.vstack([ring for shape in shapes for ring in shape.rings])
            points = picture_grid(corners.min(axis=0), corners.max(axis=0), 40)
            met = depths(body, camera, camera.rays(points))
            hit = np.isfinite(met).any(axis=0)
            nearest = body.part[met.argmin(axis=0)]
            top = np.full(len(points), -1)
            for shape in shapes:
                top[inside_rings(shape.rings, points[:, 0], points[:, 1])] = int(shape.part)
            assert (top == nearest)[hit].mean() > 0.87


@pytest.mark.parametrize(
    ("stance", "pad"),
    [(Stance.ONE_KNEE_LEFT, Part.LEFT_PAD), (Stance.ONE_KNEE_RIGHT, Part.RIGHT_PAD)],
)
def test_the_pad_that_is_down_lies_over_its_own_thigh(stance, pad):
    side = 1.0 if pad is Part.LEFT_PAD else -1.0
    shapes = figure_shapes(capsules(ADULT, stance), camera_for(View.FRONT))
    thighs = [
        rank
        for rank, shape in enumerate(shapes)
        if shape.part is Part.PANTS and side * np.mean([p[0] for p in shape.rings[0]]) > 0.0
    ]
    assert len(thighs) == 1
    assert next(r for r, shape in enumerate(shapes) if shape.part is pad) > thighs[0]


def test_pieces_in_a_circle_are_still_all_drawn_once():
    body = Capsules.of(
        [[0.0, -1.0, 0.0], [0.5, 1.0, 0.0], [-0.5, 0.0, -1.0]],
        [[0.6, 1.0, 0.0], [0.0, 0.0, 1.0], [0.8, 0.0, 1.0]],
        [0.2, 0.2, 0.2], [0, 1, 2],
    )  # fmt: skip
    camera = camera_for(View.FRONT)
    points = picture_grid(np.array([-2.0, -2.0]), np.array([2.0, 2.0]))
    order = back_to_front(body, camera, [(0,), (1,), (2,)], points)
    assert sorted(order) == [0, 1, 2]


@pytest.mark.parametrize("stance", [one for one in Stance if sealed_post(one)])
@pytest.mark.parametrize("small", [False, True])
def test_a_sealed_post_is_drawn_on_its_side_and_touches_the_pad(stance, small):
    for her in (ADULT, CHILD):
        frame = goal_frame(her, stance, goal(her.rule_set, small))
        side = 1.0 if "left" in stance.value else -1.0
        assert side * frame.start[0, 1] > 0.0
        body = capsules(her, stance)
        pad = body.part == int(Part.LEFT_PAD if side > 0.0 else Part.RIGHT_PAD)
        ends = np.concatenate([body.start[pad], body.end[pad]])
        radius = np.concatenate([body.radius[pad], body.radius[pad]])
        gap = np.linalg.norm(ends[:, :2] - frame.start[0, :2], axis=1) - radius - frame.radius[0]
        assert -0.03 < gap.min() < 0.12  # metres; it touches the plane of the post's inside
        text = figure_svg(her, stance, View.FRONT, small_goal=small)
        assert text.count("tl-goal-frame") == 2


def test_other_stances_show_no_post():
    assert "tl-goal-frame" not in figure_svg(ADULT, Stance.BUTTERFLY)


def test_a_right_handed_catcher_is_the_mirror_image():
    for stance in (Stance.READY, Stance.VH_LEFT, Stance.PADDLE_DOWN):
        left = capsules(build_goaltender(1.75, Side.LEFT), stance)
        right = capsules(build_goaltender(1.75, Side.RIGHT), stance.mirrored)
        one, other = (
            np.array(outline_of(figure_shapes(body, camera_for(View.FRONT)))[0])
            for body in (left, right)
        )
        low, high = one.min(axis=0), one.max(axis=0)
        assert other.min(axis=0) == pytest.approx([-high[0], low[1]], abs=2e-3)
        assert other.max(axis=0) == pytest.approx([-low[0], high[1]], abs=2e-3)


def test_each_thigh_and_each_half_of_the_stick_is_drawn_by_itself():
    pieces = pieces_of(capsules(ADULT))
    assert sum(len(piece) for piece in pieces) == len(capsules(ADULT))
    assert len(pieces) == len(Part) + 2


@pytest.mark.parametrize("stance", [Stance.BUTTERFLY, Stance.ONE_KNEE_LEFT, Stance.VH_LEFT])
def test_the_shaft_passes_before_her_arm_where_it_does(stance):
    # seen from her right the shaft, held out to the right, is nearer than the arm that holds it
    shapes = figure_shapes(capsules(ADULT, stance), camera_for(View.SIDE))
    order = [shape.part for shape in shapes]
    assert len(order) - 1 - order[::-1].index(Part.SHAFT) > order.index(Part.BLOCKER_ARM)


def test_sleeves_have_no_seam_at_the_shoulder():
    shapes = figure_shapes(capsules(ADULT), camera_for(View.FRONT))
    whole = next(s for s in shapes if s.part is Part.GLOVE)
    sleeve = next(s for s in shapes if s.part is Part.CATCHING_ARM)
    assert whole.edges is None
    assert sleeve.edges is not None
    drawn = sum(math.dist(*pair) for edge in sleeve.edges for pair in itertools.pairwise(edge))
    ring = sleeve.rings[0]
    around = sum(math.dist(*pair) for pair in itertools.pairwise(ring))
    assert 0.5 * around < drawn < 0.9 * around


def test_a_picture_of_twenty_millimetres_keeps_bold_lines_only_and_a_dark_mask():
    # 20 mm at 96 CSS pixels an inch
    small = figure_svg(ADULT, width=20.0 / 25.4 * 96.0, palette=PRINT)
    large = figure_svg(ADULT, palette=PRINT)
    assert small.count("<path") < 0.75 * large.count("<path")
    root = ET.fromstring(small)
    view = float(root.attrib["viewBox"].split()[2])
    widths = [float(e.attrib["stroke-width"]) for e in root.iter() if "stroke-width" in e.attrib]
    assert min(widths) * 20.0 / view > 0.12  # millimetres on paper
    assert PRINT[Paint.INK_SOFT] in small
