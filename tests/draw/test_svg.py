"""The SVG writer escapes everything, paints by class and colour, and keeps numbers short."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.draw.hatching import hatch
from tendline.draw.labels import Box, Placer, spread
from tendline.draw.strokes import (
    arrow_head,
    at_length,
    beside,
    length_of,
    loops,
    resample,
    smooth,
    trim,
    wave,
)
from tendline.draw.svg import Picture, escape, number, path_data
from tendline.draw.tokens import Paint

from .svg_reading import assert_embeddable, parse, texts, with_class


@settings(deadline=None, max_examples=60)
@given(st.text())
def test_any_text_survives_as_text_and_never_as_markup(words: str) -> None:
    picture = Picture(width=10, height=10, title=words or "t", description=words)
    picture.text((1, 1), words, size=2)
    picture.add("circle", data_name=words, r=1)
    root = parse(picture.svg())
    kept = "".join(
        c
        for c in words
        if c in "\t\n\r" or ("\x20" <= c <= "\ud7ff") or ("\ue000" <= c <= "\ufffd") or c > "\uffff"
    )
    assert texts(root) == [kept.replace("\r\n", "\n").replace("\r", "\n")]
    assert len(list(root.iter())) <= 4


def test_each_painted_element_names_its_ink_twice() -> None:
    picture = Picture(width=10, height=10, title="t")
    picture.circle((1, 2), 3, fill=Paint.RISK, stroke=Paint.INK, width=1)
    circle = with_class(parse(picture.svg()), "tl-fill-risk")[0]
    assert circle.get("fill") == "#982C10"
    assert circle.get("stroke") == "#14212B"
    assert "tl-line-ink" in (circle.get("class") or "")
    assert_embeddable(picture.svg())


def test_numbers_are_short() -> None:
    # by hand
    assert [number(v) for v in (0.0, -0.0001, 1.0, 1.23456, 123.456, -2.5)] == [
        "0", "0", "1", "1.235", "123.5", "-2.5",
    ]  # fmt: skip


def test_paths_of_nothing_are_empty() -> None:
    assert path_data([]) == ""
    assert path_data([(1, 2)]) == "M1 2"
    assert escape("\x00a\x1b<") == "a&lt;"


def test_hatch_of_a_square_has_the_length_its_area_asks_for() -> None:
    square = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
    lines = hatch([square], spacing=0.25)
    # by hand: lines a distance d apart over an area A are A / d long together
    assert sum(math.dist(*one) for one in lines) == pytest.approx(100.0 / 0.25, rel=0.01)


def test_hatch_leaves_holes_free_and_stays_inside() -> None:
    outer = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
    hole = [(3.0, 3.0), (7.0, 3.0), (7.0, 7.0), (3.0, 7.0)]
    lines = hatch([outer, hole], spacing=0.25, angle_deg=-45.0)
    assert sum(math.dist(*one) for one in lines) == pytest.approx(84.0 / 0.25, rel=0.01)
    for (x0, y0), (x1, y1) in lines:
        x, y = 0.5 * (x0 + x1), 0.5 * (y0 + y1)
        assert 0.0 <= x <= 10.0
        assert 0.0 <= y <= 10.0
        assert not (3.0 < x < 7.0 and 3.0 < y < 7.0)
    assert hatch([], spacing=1.0) == []
    assert hatch([[(0, 0), (1, 1)]], spacing=1.0) == []


@settings(deadline=None, max_examples=80)
@given(
    st.lists(st.floats(-50, 150), min_size=1, max_size=9),
    st.floats(1.0, 20.0),
)
def test_end_labels_never_overlap_and_keep_their_order(wanted: list[float], gap: float) -> None:
    places = spread(wanted, gap=gap, low=0.0, high=100.0)
    step = min(gap, 100.0 / max(len(wanted) - 1, 1))
    ranked = sorted(places)
    assert all(b - a >= step - 1e-6 for a, b in pairwise(ranked))
    assert ranked[0] >= -1e-6
    assert ranked[-1] <= 100.0 + 1e-6
    for i, one in enumerate(wanted):
        for j, other in enumerate(wanted):
            if one < other:
                assert places[i] < places[j] + 1e-9


def test_end_labels_stay_where_there_is_room() -> None:
    assert spread([10.0, 60.0, 30.0], gap=5.0, low=0.0, high=100.0) == [10.0, 60.0, 30.0]
    assert spread([], gap=5.0, low=0.0, high=1.0) == []
    # by hand: two that want the same place share the distance
    assert spread([50.0, 50.0], gap=10.0, low=0.0, high=100.0) == [45.0, 55.0]


def test_a_word_goes_where_nothing_is() -> None:
    placer = Placer(Box(0, 0, 100, 100))
    placer.take(Box(40, 40, 60, 60))
    placer.take_line([(60, 50), (100, 50)], thickness=4)
    at = placer.best([(50, 50), (80, 50), (50, 80)], 8, 4)
    assert at == (50, 80)
    assert placer.best([(99, 99), (50, 80), (20, 20)], 8, 4) == (20, 20)


BENT = [(0.0, 0.0), (4.0, 1.0), (6.0, 5.0)]


def test_lines_pass_through_their_points() -> None:
    line = smooth(BENT)
    for point in BENT:
        assert min(math.dist(point, one) for one in line) < 1e-9
    assert smooth([(0, 0), (0, 0), (1, 1)]) == [(0, 0), (1, 1)]
    assert trim(BENT, start=20.0) == []
    assert length_of(trim(BENT, start=1.0, end=2.0)) == pytest.approx(length_of(BENT) - 3.0)


@pytest.mark.parametrize("style", ["wave", "loops"])
def test_wavy_and_looped_lines_follow_their_way(style: str) -> None:
    way = smooth(BENT)
    if style == "wave":
        line = wave(way, height=0.2, wavelength=0.8, calm=0.5)
    else:
        line = loops(way, radius=0.2, pitch=0.8, calm=0.5)
    assert line[-1] == pytest.approx(way[-1])
    assert math.dist(line[0], way[0]) < 0.05
    spots = [point for point, _ in resample(way, 0.05)]
    assert all(min(math.dist(one, spot) for spot in spots) < 0.45 for one in line)
    assert length_of(line) > 1.2 * length_of(way)


def test_a_parallel_line_keeps_its_distance_and_a_head_its_tip() -> None:
    way = [(0.0, 0.0), (5.0, 0.0)]
    assert beside(way, 0.3) == [(0.0, 0.3), (5.0, 0.3)]
    head = arrow_head(way, length=1.0, width=0.8)
    assert head[0] == (5.0, 0.0)
    assert {p[0] for p in head[1:]} == {4.0}
    assert at_length(way, 99.0) == ((5.0, 0.0), 0.0)
