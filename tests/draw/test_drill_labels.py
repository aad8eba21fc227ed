"""Labels of a diagram keep off each other and off signs, down to the smallest card."""

from __future__ import annotations

import pytest

from tendline import ice
from tendline.draw import PRINT, drill_svg
from tendline.draw.card_pdf import FITS, PX_PER_MM
from tendline.draw.drill_board import drill_board_svg
from tendline.draw.drill_labels import Room, Wish, along_a_line, round_a_sign
from tendline.draw.drill_picture import drill_window
from tendline.draw.drill_scene import scene_of
from tendline.draw.labels import Box
from tendline.drill import Drill, library, mirror_drill
from tendline.drill.editing.rows import rows_of
from tendline.drill.types import Action

from .crowding import crowding, seen
from .plays import library_drill

RINK = ice.rink()
PRINTS = {
    f"{name} {k}": (fits[k].wide, fits[k].tall, fits[k].scale)
    for name, fits in FITS.items() for k in (0, len(fits) // 2, -3)
} | {"sheet's back": (60.0, 45.0, 0.9), "beside its drill": (40.0, 60.0, 0.6)}  # fmt: skip
"""Width, height [mm] and scale of signs of the prints, roomy and tight."""
BOUNDS = Box(0.0, 0.0, 100.0, 100.0)


def printed(drill: Drill, name: str) -> str:
    """Return the diagram as a print draws it."""
    most, tall, scale = PRINTS[name]
    window = drill_window(drill, scene_of(drill, RINK), RINK)
    wide = min(most, tall * window.across / window.along)
    return drill_svg(drill, rink=RINK, width=wide * PX_PER_MM, scale=scale, window=window,
                     legend=False, palette=PRINT)  # fmt: skip


@pytest.mark.parametrize("name", list(PRINTS))
def test_in_no_print_of_the_library_does_a_label_stand_on_another_or_on_a_sign(name: str) -> None:
    found = {one.id: crowding(printed(one, name)) for one in library()}
    assert {key: faults for key, faults in found.items() if faults} == {}


def test_on_the_screen_none_does_either_nor_in_the_mirror() -> None:
    for drill in library():
        assert crowding(drill_svg(drill, legend=False)) == [], drill.id
        assert crowding(drill_svg(mirror_drill(drill), legend=False)) == [], drill.id


def test_in_the_editor_labels_keep_off_each_other() -> None:
    for drill in library()[::6]:
        rows = [one.number for one in rows_of(drill.play) if isinstance(one.holds, Action)]
        found = crowding(drill_board_svg(drill, rink=RINK, rows=rows))
        assert not [one for one in found if "on tl-number" in one or "on tl-branch" in one], found


def test_every_label_is_still_there() -> None:
    # by hand from the script: three branches, one choice, one cone; numbers on every other line
    labels, signs, _ = seen(printed(library_drill("E08"), "A6 0"))
    kinds = [one.kind for one in labels]
    assert kinds.count("tl-choice") == 1
    assert [one.words for one in labels if one.kind == "tl-thing-name"] == ["A"]
    assert kinds.count("tl-branch-tag") >= 6
    assert [one.kind for one in signs].count("tl-sign") == len(library_drill("E08").people)


def test_the_measure_sees_what_overlaps() -> None:
    plain = drill_svg(library_drill("E08"), legend=False)
    (choice,) = [one for one in seen(plain)[0] if one.kind == "tl-choice"]
    sign = next(one for one in seen(plain)[1] if one.kind == "tl-sign")
    assert crowding(plain) == []
    left, top = _drawing(plain, sign.box)
    right, bottom = _drawing(plain, Box(sign.box.right, sign.box.bottom, 0.0, 0.0))
    over = f'<path class="tl-choice" d="M{left} {top}L{right} {top}L{right} {bottom}Z"/></svg>'
    found = crowding(plain.replace("</svg>", over))
    assert any("on tl-sign" in one for one in found)
    assert choice.box.area > 0.0


def _drawing(svg: str, box: Box) -> tuple[float, float]:
    """Return a box's first corner in the picture's own unit."""
    frame = seen(svg)[2]
    view = drill_window(library_drill("E08"), scene_of(library_drill("E08"), RINK), RINK)
    unit = (frame.right - frame.left) / view.across
    return box.left / unit, box.top / unit


def wish(*spots: tuple[float, float], half: float = 5.0) -> Wish:
    """Return a square label that may stand at some places, the first the dearest."""
    return Wish(tuple((at, 0.1 * k) for k, at in enumerate(spots)), half, half)


def test_a_label_takes_its_dearest_free_place() -> None:
    room = Room(BOUNDS, solid=[Box.around((20.0, 20.0), 4.0, 4.0)])
    assert room.settle([wish((50.0, 50.0), (80.0, 80.0))]) == [(50.0, 50.0)]
    assert room.settle([wish((20.0, 20.0), (2.0, 50.0), (40.0, 20.0))]) == [(40.0, 20.0)]
    assert room.settle([]) == []


def test_lines_are_left_free_if_that_costs_little() -> None:
    room = Room(BOUNDS)
    room.take_line([(0.0, 50.0), (100.0, 50.0)], thickness=4.0)
    assert room.settle([wish((50.0, 50.0), (50.0, 60.0))]) == [(50.0, 60.0)]
    assert room.settle([wish((50.0, 50.0), (80.0, 50.0))]) == [(50.0, 50.0)]
    room.take_line([(5.0, 5.0)], thickness=4.0)  # no line at all


def test_who_has_no_other_place_gets_it_and_the_first_moves_on() -> None:
    a, b, c, d = (20.0, 20.0), (50.0, 20.0), (80.0, 20.0), (50.0, 60.0)
    # by hand: the third finds both its places taken; only if the first moves on has each its own
    assert Room(BOUNDS).settle([wish(a, b), wish(c, b), wish(a, c)]) in ([b, c, a], [a, b, c])
    # by hand: a ring of three for two places each, the last has one only
    found = Room(BOUNDS).settle([wish(a, b), wish(b, c), wish(c, d), wish(a)])
    assert found == [b, c, d, a]


def test_where_there_is_no_room_the_least_is_covered() -> None:
    room = Room(BOUNDS, solid=[Box(0.0, 0.0, 100.0, 49.0)])
    here, there = (50.0, 50.0), (50.0, 30.0)
    assert room.settle([wish(there, here)]) == [here]
    assert room.settle([wish(here), wish(here)]) == [here, here]


def test_places_beside_a_line_and_round_a_sign_keep_their_distance() -> None:
    half = (6.0, 3.0)
    for (x, y), _ in along_a_line([(0.0, 0.0), (60.0, 0.0)], start=20.0, step=9.0,
                                  gaps=(4.0, 9.0), half=half):  # fmt: skip
        assert abs(y) >= 3.0 + 4.0 - 1e-9
        assert 0.0 <= x <= 60.0
    spots = round_a_sign((10.0, 10.0), least=14.0, most=30.0, half=half)
    assert spots[0][0] == pytest.approx((10.0, 10.0 - 17.0))  # above, nearest
    assert [far for _, far in spots] == sorted(far for _, far in spots)
