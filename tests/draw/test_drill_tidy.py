"""What makes a diagram readable: shared lines, letters written together, signs that keep apart."""

from __future__ import annotations

import math

from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.draw.drill_scene import Mark, Stroke, StrokeKind
from tendline.draw.drill_tidy import gathered_marks, shared_strokes, signs_apart


def shot(branch: str, x: float = 8.0) -> Stroke:
    return Stroke(
        kind=StrokeKind.SHOT, who="F1", points=((x, 0.0), (0.0, 0.0)), number=2, branch=branch
    )


def test_a_line_that_branches_share_is_drawn_once_with_all_their_letters() -> None:
    found = shared_strokes([shot("a"), shot("b"), shot("c", 9.0), shot("a")])
    assert [one.branch for one in found] == ["ab", "c"]
    nested = shared_strokes([shot("aa"), shot("b")])
    assert [one.branch for one in nested] == ["aa+b"]


def letter(words: str, x: float, who: str = "G") -> Mark:
    return Mark(kind="letter", who=who, at=(x, 0.0), number=1, letter=words)


def test_letters_at_one_place_are_written_together_once_and_in_order() -> None:
    marks = [
        letter("BF", 1.0),
        letter("R", 1.1),
        letter("set", 1.0),
        letter("BF", 1.0),
        letter("set", 3.0),
    ]
    assert [one.letter for one in gathered_marks(marks)] == ["BF, R, set", "set"]
    assert len(gathered_marks([letter("set", 1.0), letter("set", 1.0, "G2")])) == 2


@settings(deadline=None, max_examples=40)
@given(st.lists(st.tuples(st.floats(-6, 6), st.floats(-6, 6)), min_size=1, max_size=6))
def test_signs_keep_apart_and_the_goaltender_stays(places: list[tuple[float, float]]) -> None:
    signs = [(place, i == 0) for i, place in enumerate(places)]
    found = signs_apart(signs, least=1.0)
    assert found[0] == places[0]
    for i, one in enumerate(found):
        for other in found[:i]:
            assert math.dist(one, other) > 0.8


def test_a_goaltender_stays_wherever_she_stands_in_the_list() -> None:
    # by hand: only the other sign moves, away from her
    found = signs_apart([((0.4, 0.0), False), ((0.0, 0.0), True)], least=1.0)
    assert found == [(1.0, 0.0), (0.0, 0.0)]


def test_signs_that_are_apart_stay_where_they_are() -> None:
    signs = [((0.0, 0.0), False), ((3.0, 0.0), True)]
    assert signs_apart(signs, least=1.0) == [(0.0, 0.0), (3.0, 0.0)]
    # by hand: two on one spot share the distance along the first axis
    assert signs_apart([((0.0, 0.0), False), ((0.0, 0.0), False)], least=1.0) == [
        (-0.5, 0.0),
        (0.5, 0.0),
    ]
