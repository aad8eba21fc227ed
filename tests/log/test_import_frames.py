"""Where the origin is, which way the axes point, which end is meant: all frames of a file."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.ice import rink
from tendline.log import (
    ColumnMapping,
    Ends,
    FileUnit,
    Origin,
)
from tendline.log.placing import place
from tests.log.samples import FAR_NET

CENTRED = {"origin": Origin.CENTRE, "ends": Ends.NEARER}


@pytest.mark.parametrize(
    ("frame", "given_place"),
    [
        # by hand, for a shot 6 m out and 2 m to her left; L = 54.25 m, width 25.91 m, boards 3.35 m
        ({}, (6.0, 2.0)),
        ({"x_out": False}, (-6.0, 2.0)),
        ({"y_left": False}, (6.0, -2.0)),
        ({"unit": FileUnit.FEET}, (6.0 / 0.3048, 2.0 / 0.3048)),
        ({"unit": FileUnit.YARDS}, (6.0 / 0.9144, 2.0 / 0.9144)),
        (CENTRED, (6.0 - FAR_NET / 2, 2.0)),
        (CENTRED, (FAR_NET / 2 - 6.0, -2.0)),
        ({**CENTRED, "y_left": False}, (6.0 - FAR_NET / 2, -2.0)),
        ({"origin": Origin.CORNER, "ends": Ends.NEARER}, (6.0 + 3.353, 2.0 + 25.908 / 2)),
        ({"origin": Origin.CORNER, "ends": Ends.NEARER, "y_left": False}, (6.0 + 3.353, 25.908 / 2 - 2.0)),
    ],
)  # fmt: skip
def test_every_frame_of_a_file_leads_to_the_same_place(frame, given_place):
    mapping = ColumnMapping(name="f", columns={"x": "x", "y": "y", "result": "r"}, **frame)
    found = place(mapping, x=given_place[0], y=given_place[1], period=1)
    assert found == pytest.approx((6.0, 2.0), abs=0.01)


def test_ends_switched_by_period_in_the_file_are_turned_back():
    mapping = ColumnMapping(
        name="f",
        columns={"x": "x", "y": "y", "result": "r"},
        origin=Origin.CENTRE,
        ends=Ends.BY_PERIOD,
    )
    low = (6.0 - FAR_NET / 2, 2.0)
    high = (FAR_NET / 2 - 6.0, -2.0)
    for period, (x, y) in ((1, low), (2, high), (3, low)):
        assert place(mapping, x=x, y=y, period=period) == pytest.approx((6.0, 2.0), abs=0.01)


@settings(deadline=None, max_examples=40)
@given(
    st.floats(1, 20), st.floats(-10, 10), st.integers(1, 4), st.sampled_from(FileUnit),
    st.booleans(), st.booleans(), st.booleans(), st.sampled_from((Origin.CENTRE, Origin.CORNER)),
)  # fmt: skip
def test_a_place_written_in_any_frame_comes_back(x, y, period, unit, x_out, y_left, near, origin):
    """Writes a place the way such a file would, by its own formula, and reads it back."""
    sheet = rink()
    at_low_end = near == (period % 2 == 1)
    wx, wy = (x, y) if at_low_end else (sheet.far_net_x - x, -y)
    wx, wy = (
        (wx - sheet.red_line_x, wy)
        if origin is Origin.CENTRE
        else (wx + sheet.goal_line_to_boards, wy)
    )
    if not y_left:
        wy = -wy
    if origin is Origin.CORNER:
        wy += sheet.width / 2
    if not x_out:
        wx = -wx
    mapping = ColumnMapping(
        name="f", columns={"x": "x", "y": "y", "result": "r"}, unit=unit, x_out=x_out,
        y_left=y_left, origin=origin, ends=Ends.BY_PERIOD, near_end_first=near,
    )  # fmt: skip
    found = place(mapping, x=wx / unit.metres, y=wy / unit.metres, period=period)
    assert found == pytest.approx((x, y), abs=1e-6)
