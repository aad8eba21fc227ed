"""The play from above, the two eyes, the depth curve and the time line of one read."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from shapely import Polygon

from tendline import ice
from tendline.base import LengthUnit, Level, ShotType, Side
from tendline.body import Pose, Stance, build_goaltender, place, posed
from tendline.draw import (
    DARK,
    MapShows,
    close_window,
    depth_curve_svg,
    figure_svg,
    goaltender_eye_svg,
    interval_svg,
    openings_of,
    puck_eye_svg,
    read_goaltender_eye_svg,
    read_puck_eye_svg,
    situation_svg,
    time_line_svg,
    zone_map_svg,
    zone_window,
)
from tendline.draw.chart import nice_step, tick_words
from tendline.draw.depth_curve import curve_top
from tendline.draw.figure import View, camera_for, figure_shapes
from tendline.draw.fontfiles import text_width
from tendline.draw.from_above import pieces_above, placed
from tendline.draw.ice_picture import boards_outline
from tendline.draw.puck_eye import camera_at, inside_rings
from tendline.draw.situation_picture import body_place, place_words
from tendline.draw.tokens import PAPER, PRINT, Paint
from tendline.draw.zone_map import TINTS, rounded_depth, step_of
from tendline.play import Attacker, DepthBand, DepthMap
from tendline.shot import puck_speed, shot_parameters
from tendline.sight import exact_cover, eye_of, goaltender_eye, skater_body

from .colour import contrast
from .plays import behind_the_net, lone_carrier, two_on_one
from .svg_reading import assert_embeddable, numbers_of, parse, texts, view_box, with_class


def test_pictures_of_a_read_may_stand_in_a_page() -> None:
    for read in (two_on_one(), lone_carrier()):
        for svg in (
            situation_svg(read),
            situation_svg(read, interactive=True, palette=DARK, unit=LengthUnit.FEET),
            read_puck_eye_svg(read),
            read_goaltender_eye_svg(read),
            depth_curve_svg(read),
            time_line_svg(read),
        ):
            assert_embeddable(svg)
            assert len(svg) < 60_000


def test_people_stand_where_the_situation_says_and_can_be_moved() -> None:
    read = two_on_one()
    root = parse(situation_svg(read, interactive=True))
    people = with_class(root, "tl-person")
    assert [one.get("data-name") for one in people] == ["D1", "F2", "F1"]
    for one, person in zip(
        people, (read.situation.defenders[0], *reversed(read.situation.attackers)), strict=True
    ):
        found = re.fullmatch(r"translate\((-?[\d.]+) (-?[\d.]+)\)", one.get("transform") or "")
        assert found
        assert float(found[1]) == pytest.approx(-person.y, abs=0.001)
        assert float(found[2]) == pytest.approx(-person.x, abs=0.001)
        assert one.get("tabindex") == "0"
        assert one.get("aria-label", "").startswith(person.name)
        hit = with_class(one, "tl-hit")[0]
        assert float(hit.get("r") or 0) >= 0.9
    groups = [one.get("class") for one in root if one.get("class")]
    assert groups.index("tl-answer") < groups.index("tl-people")


def test_the_advice_spot_is_hers_and_the_line_runs_from_puck_to_goal() -> None:
    read = two_on_one()
    root = parse(situation_svg(read))
    spot = with_class(root, "tl-advice-spot")[0]
    assert numbers_of(spot, "cx", "cy") == pytest.approx((-read.spot.y, -read.spot.x), abs=0.001)
    line = with_class(root, "tl-puck-line")[0]
    x, y = read.situation.puck_place
    assert numbers_of(line, "x1", "y1", "x2", "y2") == pytest.approx((-y, -x, 0, 0), abs=0.001)
    assert f"{read.depth:.1f} m out" in texts(root)
    assert f"{read.depth / 0.3048:.1f} ft out" in texts(
        parse(situation_svg(read, unit=LengthUnit.FEET))
    )


def test_an_exercise_shows_no_answer() -> None:
    root = parse(situation_svg(two_on_one(), answer=False))
    assert len(with_class(root, "tl-answer")[0]) == 0
    assert "out" not in (root.get("aria-label") or "")
    assert len(with_class(root, "tl-person")) == 3


def test_the_view_does_not_jump_when_a_window_is_given() -> None:
    rink = ice.rink()
    for window in (zone_window(rink), close_window(rink)):
        boxes = {
            view_box(parse(situation_svg(r, window=window))) for r in (two_on_one(), lone_carrier())
        }
        assert len(boxes) == 1


def test_late_options_are_told_without_colour() -> None:
    read = two_on_one()
    svg = situation_svg(read)
    first = next(one for one in read.options if one.option.kind.is_pass)
    late = [one for one in (first,) if not one.is_set]
    ticks = with_class(parse(svg), "tl-risk-tick")
    assert bool(ticks) == bool(late)


def test_names_of_people_stay_words() -> None:
    svg = situation_svg(two_on_one(name='<b>&"x'), interactive=True)
    assert_embeddable(svg)
    assert "<b>" not in svg


def test_places_in_words() -> None:
    assert place_words(6.1, -2.0) == "6.1 m out, 2.0 m to her right"
    assert place_words(-1.5, 0.0) == "1.5 m behind the goal line, in the middle"
    assert place_words(3.048, 3.048, LengthUnit.FEET) == "10.0 ft out, 10.0 ft to her left"


def test_a_left_shot_stands_to_the_right_of_his_blade_as_he_sees_it() -> None:
    left = body_place(Attacker(name="F", x=6.0, y=0.0, hand=Side.LEFT))
    right = body_place(Attacker(name="F", x=6.0, y=0.0, hand=Side.RIGHT))
    # by hand: facing the net along -x, his right is +y
    assert left[1] > 0.1
    assert right[1] == pytest.approx(-left[1])
    assert left[0] > 6.0


def test_the_open_share_in_the_puck_eye_title_is_the_exact_one() -> None:
    goal = ice.goal()
    body = posed(build_goaltender(1.75), Pose(1.2, 0.0, 0.0))
    shot = shot_parameters(Level.ADULT)
    found = openings_of((8.0, 0.0), body, goal, shot, speed=puck_speed(Level.ADULT, ShotType.WRIST))
    exact = 1.0 - exact_cover(np.array([8.0, 0.0, 0.0127]), body, goal).share
    assert sum(one.area.share for one in found) == pytest.approx(exact, abs=0.01)
    assert all(0.0 <= one.danger <= 1.0 for one in found)
    root = parse(puck_eye_svg((8.0, 0.0), body, goal, found))
    assert f"{100 * exact:.0f} %" in (root.get("aria-label") or "")
    assert {one.get("data-name") for one in with_class(root, "tl-opening")} == {
        o.area.name for o in found
    }


def test_a_narrow_picture_numbers_its_openings_and_names_them_below() -> None:
    goal = ice.goal()
    body = posed(build_goaltender(1.75), Pose(1.2, 0.0, 0.0))
    found = openings_of((8.0, 0.0), body, goal, shot_parameters(Level.ADULT), speed=30.0)
    words = texts(parse(puck_eye_svg((8.0, 0.0), body, goal, found, width=380.0)))
    for number, one in enumerate(found, start=1):
        assert words.count(str(number)) == 2
        assert any(w.startswith(f"{one.area.name}, ") and w.endswith("%") for w in words)
    assert texts(parse(puck_eye_svg((8.0, 0.0), body, goal, found, labels=False))) == []


def test_the_more_dangerous_an_opening_the_closer_its_hatch() -> None:
    goal = ice.goal()
    body = posed(build_goaltender(1.75), Pose(1.2, 0.0, 0.0))
    shot = shot_parameters(Level.ADULT)
    found = openings_of((8.0, 0.0), body, goal, shot, speed=30.0)
    calm = [type(o)(area=o.area, danger=0.0) for o in found]
    wild = [type(o)(area=o.area, danger=1.0) for o in found]

    def strokes(openings: object) -> int:
        svg = puck_eye_svg((8.0, 0.0), body, goal, openings)  # type: ignore[arg-type]
        return sum((one.get("d") or "").count("M") for one in with_class(parse(svg), "tl-hatch"))

    assert strokes(wild) > 2 * strokes(calm)


def test_the_puck_looks_from_the_ice_with_her_left_on_its_right() -> None:
    camera = camera_at((5.0, 3.0))
    flat = camera.points(np.array([[0.0, 0.9, 0.0], [0.0, -0.9, 0.0], [0.0, 0.0, 1.2]]))
    assert flat[0][0] > flat[1][0]
    assert flat[2][1] < flat[0][1]
    assert math.isclose(float(camera.toward @ camera.right), 0.0, abs_tol=1e-12)


def test_the_curve_marks_the_recommended_depth_and_shades_the_band() -> None:
    read = two_on_one()
    root = parse(depth_curve_svg(read))
    band = with_class(root, "tl-band")[0]
    left, width = numbers_of(band, "x", "width")
    spot = with_class(root, "tl-advice-spot")[0]
    (x,) = numbers_of(spot, "cx")
    assert left - 0.5 <= x <= left + width + 0.5
    words = texts(root)
    assert "Goals in 100" in words
    assert "How far out, metres" in words
    assert "all together" in words
    assert "How far out, feet" in texts(parse(depth_curve_svg(read, unit=LengthUnit.FEET)))


def test_curve_labels_never_overlap() -> None:
    for read in (two_on_one(), lone_carrier()):
        labels = with_class(parse(depth_curve_svg(read)), "tl-line-label")
        heights = sorted(numbers_of(one, "y")[0] for one in labels)
        assert all(b - a >= 16.0 for a, b in pairwise(heights))


def test_the_time_line_has_a_row_an_option_and_says_the_margin() -> None:
    read = two_on_one()
    shown = [one for one in read.options if one.release_time > 0.0][:4]
    root = parse(time_line_svg(read))
    rows = with_class(root, "tl-row")
    assert [one.get("data-option") for one in rows] == [one.option.key for one in shown]
    for row, one in zip(rows, shown, strict=True):
        assert bool(with_class(row, "tl-late")) == (not one.is_set)
        assert with_class(row, "tl-release")


def test_too_late_is_hatched_and_said() -> None:
    read = two_on_one()
    late = tuple(
        replace(one, set_margin=-0.3, is_set=False) if one.release_time > 0.0 else one
        for one in read.options
    )
    root = parse(time_line_svg(replace(read, options=late)))
    rows = with_class(root, "tl-row")
    assert rows
    assert all(with_class(row, "tl-late") for row in rows)
    assert texts(root).count("0.3 s late") == len(rows)
    lanes = parse(situation_svg(replace(read, options=late)))
    assert with_class(lanes, "tl-risk-tick")
    assert any("late by 0.3 s" in words for words in texts(lanes))


def test_a_span_shows_low_middle_and_high_in_order() -> None:
    root = parse(interval_svg(0.1, 0.36, 0.65, marks=(0.25,), words="4 of 11"))
    span = with_class(root, "tl-span")[0]
    low, high = numbers_of(span, "x1", "x2")
    (middle,) = numbers_of(with_class(root, "tl-middle")[0], "cx")
    assert low < middle < high
    assert root.get("aria-label") == "4 of 11"
    assert_embeddable(interval_svg(-1.0, 2.0, 3.0))


def test_ticks_are_round_numbers() -> None:
    # by hand
    assert nice_step(63.0, most=4) == 20.0
    assert nice_step(3.2, most=5) == 1.0
    assert nice_step(1.9, most=5) == 0.5
    assert tick_words(2.5, 2.5) == "2.5"
    assert tick_words(20.0, 20.0) == "20"
    assert nice_step(0.0, most=5) == 1.0


def test_figures_may_stand_in_a_page() -> None:
    assert_embeddable(figure_svg(build_goaltender(1.60)))


def a_map(depth: np.ndarray) -> DepthMap:
    return DepthMap(
        x=np.array([3.0, 6.0]), y=np.array([-3.0, 0.0, 3.0]), depth=depth,
        offset=np.zeros((2, 3)), loss=depth / 10.0, worst=np.full((2, 3), "shot"),
    )  # fmt: skip


def test_a_map_tints_every_place_with_an_answer_in_steps() -> None:
    read = two_on_one()
    found = a_map(np.array([[0.4, np.nan, 1.2], [0.8, 1.6, 2.6]]))
    for shows in MapShows:
        svg = zone_map_svg(found, read.situation, shows=shows)
        assert_embeddable(svg)
        assert len(with_class(parse(svg), "tl-cell")) == 5
    root = parse(zone_map_svg(found, read.situation))
    cells = with_class(root, "tl-cell")
    tints = [float(path.get("opacity") or 1.0) for cell in cells for path in cell]
    # by hand, steps of half a metre: under 0.5, 1 to 1.5, 0.5 to 1, 1.5 to 2, over 2
    assert [sorted(tints).index(one) for one in tints] == [0, 2, 1, 3, 4]
    # every other cell has its depth, to half a metre
    assert [one.text for one in with_class(root, "tl-cell-figure")] == ["0.5", "1", "1.5"]
    empty = a_map(np.full((2, 3), np.nan))
    assert "No place" in zone_map_svg(empty, read.situation)


def test_threat_is_hatched_and_written_only_where_it_is_five_in_a_hundred_or_more() -> None:
    found = a_map(np.array([[0.2, 0.49, 0.5], [1.0, 1.5, 2.6]]))
    root = parse(zone_map_svg(found, two_on_one().situation, shows=MapShows.THREAT))
    cells = with_class(root, "tl-cell")
    lines = [len((cell[0].get("d") or "").split("M")) if len(cell) else 0 for cell in cells]
    assert lines[:2] == [0, 0]
    assert 0 < lines[2] < lines[3] < lines[4]
    assert abs(lines[4] - lines[5]) <= 1
    assert [one.text for one in with_class(root, "tl-cell-figure")] == ["5", "10", "15", "26"]


def test_a_map_has_a_legend_in_the_units_shown() -> None:
    found = a_map(np.ones((2, 3)))
    for unit, last in ((LengthUnit.METRES, "over 2 m"), (LengthUnit.FEET, "over 6.5 ft")):
        root = parse(zone_map_svg(found, two_on_one().situation, unit=unit))
        words = [one.text for one in with_class(root, "tl-legend")]
        assert len(words) == 5
        assert words[-1] == last
    # by hand: 1 m is 3.28 ft, to half a foot 3.5
    assert rounded_depth(1.0, LengthUnit.FEET) == "3.5"
    assert step_of(1.0, (0.5, 1.0, 1.5)) == 2


def test_figures_stay_readable_on_every_tint_of_the_map() -> None:
    # WCAG 2.2: 4.5 to 1 for text; steps stay apart in grey
    for palette in (PAPER, DARK, PRINT):
        grounds = []
        for tint in TINTS:
            over, under = (palette[one] for one in (Paint.ADVICE, Paint.ICE))
            mixed = [
                round(tint * int(over[i : i + 2], 16) + (1.0 - tint) * int(under[i : i + 2], 16))
                for i in (1, 3, 5)
            ]
            grounds.append("#" + "".join(f"{one:02X}" for one in mixed))
        assert all(contrast(palette[Paint.INK], ground) >= 4.5 for ground in grounds)
        assert all(contrast(a, b) > 1.1 for a, b in pairwise(grounds))


def test_no_tint_lies_outside_the_boards() -> None:
    rink = ice.rink()
    found = DepthMap(
        x=np.array([rink.x_min + 0.2, rink.x_min + 1.7]), y=np.array([-5.0, 0.0, 5.0]),
        depth=np.ones((2, 3)), offset=np.zeros((2, 3)), loss=np.ones((2, 3)),
        worst=np.full((2, 3), "shot"),
    )  # fmt: skip
    boards = Polygon([(-y, -x) for x, y in boards_outline(rink)]).buffer(0.01)
    for cell in with_class(parse(zone_map_svg(found, two_on_one().situation)), "tl-cell"):
        for path in cell:
            corners = re.findall(r"(-?[\d.]+) (-?[\d.]+)", path.get("d") or "")
            assert boards.contains(Polygon([(float(x), float(y)) for x, y in corners]))


def test_a_puck_behind_the_line_shows_the_costliest_shot_in_front() -> None:
    read = behind_the_net()
    threat = next(one for one in read.options if one.release[0] > 0.1)
    name = parse(read_puck_eye_svg(read, width=420.0)).get("aria-label") or ""
    assert threat.words in name
    assert "of the net open" in name
    nothing = parse(read_puck_eye_svg(replace(read, options=())))
    assert "none of the net" in (nothing.get("aria-label") or "")
    nowhere = replace(read.curve, combined=np.full_like(read.curve.combined, np.nan))
    blank = parse(depth_curve_svg(replace(read, curve=nowhere)))
    assert "No depths" in (blank.get("aria-label") or "")


def test_two_curves_can_have_one_scale() -> None:
    read = two_on_one()
    top = curve_top(read)
    low = texts(parse(depth_curve_svg(read)))
    high = texts(parse(depth_curve_svg(read, highest=2.0 * top)))
    assert max(float(w) for w in high if w.isdigit()) >= 2.0 * top
    assert max(float(w) for w in low if w.isdigit()) < 2.0 * top


def test_the_time_line_says_what_its_marks_are() -> None:
    words = texts(parse(time_line_svg(two_on_one())))
    assert {"she reads", "she moves", "set", "he shoots"} <= set(words)


def test_the_depth_on_the_ice_keeps_clear_of_her() -> None:
    for read in (two_on_one(), lone_carrier()):
        root = parse(situation_svg(read, width=440.0))
        label = with_class(root, "tl-depth-label")[0]
        x, y, size = numbers_of(label, "x", "y", "font-size")
        half = 0.5 * text_width(label.text or "", size=size, bold=True)
        assert abs(x + read.spot.y) > half + 0.6 or abs(y + read.spot.x) > 0.7


def test_no_words_lie_on_the_net() -> None:
    goal = ice.rink().goal
    wide = DepthBand(low=0.3, high=1.3, cost=0.005)
    for depth in (0.3, 0.5, 0.8, 1.1, 1.5):
        for read in (two_on_one(), two_on_one(mirror=True), lone_carrier()):
            out = math.hypot(*read.situation.puck_place)
            x, y = (depth / out * one for one in read.situation.puck_place)
            there = replace(read, depth=depth, band=wide, spot=replace(read.spot, x=x, y=y))
            for width in (260.0, 336.0, 440.0):
                root = parse(situation_svg(there, width=width))
                label = with_class(root, "tl-depth-label")[0]
                at, down, size = numbers_of(label, "x", "y", "font-size")
                half = 0.5 * text_width(label.text or "", size=size, bold=True)
                aside = abs(at) > goal.half_width + half - 0.05
                assert aside or not -0.05 < down < goal.depth + 0.5 * size


@pytest.mark.parametrize("width", [420.0, 700.0])
def test_her_mask_stays_in_the_picture_however_far_out_she_stands(width: float) -> None:
    read = two_on_one()
    for depth in (0.5, 1.5, 2.6):
        out = math.hypot(*read.situation.puck_place)
        x, y = (depth / out * one for one in read.situation.puck_place)
        spot = replace(read.spot, x=x, y=y)
        root = parse(read_puck_eye_svg(replace(read, spot=spot), width=width))
        mask = with_class(root, "tl-gear-mask")[0]
        heights = [float(v) for v in re.findall(r"[ML][-\d.]+ (-?[\d.]+)", mask.get("d") or "")]
        assert min(heights) > 0.0
        assert max(heights) < view_box(root)[3]


def test_a_screen_close_to_her_keeps_his_head_in_the_picture() -> None:
    her = posed(build_goaltender(1.75), Pose(1.2, 0.0, 0.0))
    puck = np.array([9.0, 0.0, 0.0127])
    for away in (2.6, 4.0, 7.0):
        body = place(skater_body(), x=away, y=0.1, facing=0.0)
        seen = goaltender_eye(eye_of(her), puck, {"F2": body})
        root = parse(goaltender_eye_svg(seen))
        ys = [
            float(v)
            for one in with_class(root, "tl-body")
            for v in re.findall(r"[ML][-\d.]+ (-?[\d.]+)", one.get("d") or "")
        ]
        assert min(ys) > 0.0


def test_the_recommended_depth_lies_on_its_axis() -> None:
    read = two_on_one()
    beyond = replace(read, depth=float(read.curve.depth.max()) + 0.2)
    root = parse(depth_curve_svg(beyond))
    (x,) = numbers_of(with_class(root, "tl-advice-spot")[0], "cx")
    _, right = numbers_of(with_class(root, "tl-axis")[0], "x1", "x2")
    assert x <= right + 0.5


def test_points_inside_rings_with_a_hole() -> None:
    square = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]
    hole = [(1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0)]
    x, y = np.array([0.5, 2.0, 3.5, 5.0]), np.array([0.5, 2.0, 2.0, 2.0])
    # by hand
    assert inside_rings([square, hole], x, y).tolist() == [True, False, True, False]


@pytest.mark.parametrize("facing", [0.0, 0.7, -2.1])
def test_the_figure_from_above_is_the_placed_body(facing: float) -> None:
    build = build_goaltender(1.65)
    pose = Pose(1.4, -0.6, facing, Stance.BUTTERFLY)
    direct = figure_shapes(posed(build, pose), camera_for(View.ABOVE))
    for part, rings in pieces_above(build, pose.stance):
        same = [Polygon(shape.rings[0]) for shape in direct if shape.part is part]
        drawn = Polygon(placed(rings[0], pose))
        wanted = min(same, key=lambda one: one.symmetric_difference(drawn).area)
        # hulls of the same spheres, sampled at other angles; which of two pieces that do not
        # overlap comes first may change with the turn
        assert drawn.symmetric_difference(wanted).area < 0.03 * wanted.area


def test_a_body_before_the_puck_is_named_and_the_lens_hatched() -> None:
    her = posed(build_goaltender(1.75), Pose(1.2, 0.0, 0.0))
    puck = np.array([9.0, 0.0, 0.0127])
    body = place(skater_body(), x=4.0, y=0.15, facing=0.0)
    seen = goaltender_eye(eye_of(her), puck, {"F2": body})
    assert seen.hidden_share > 0.2
    root = parse(goaltender_eye_svg(seen))
    assert "hidden by F2" in (root.get("aria-label") or "")
    assert "F2" in texts(root)
    assert with_class(root, "tl-hatch")
    clear = parse(goaltender_eye_svg(goaltender_eye(eye_of(her), puck, {})))
    assert not with_class(clear, "tl-hatch")
