"""Messages say what was asked, what came, what is allowed and what to do next."""

import pytest

from tendline.base import (
    InputError,
    PlanError,
    RowError,
    ScriptError,
    StoreError,
    TendlineError,
    require_number,
    unknown_name,
)


@pytest.mark.parametrize(
    ("error", "built_in"),
    [
        (InputError("x"), ValueError),
        (RowError("x"), ValueError),
        (ScriptError("x", line=3), ValueError),
        (PlanError("x"), ValueError),
        (StoreError("x"), OSError),
        (unknown_name("spot", "x", ["y"]), LookupError),
    ],
)
def test_every_error_is_ours_and_the_closest_built_in(error, built_in):
    assert isinstance(error, TendlineError)
    assert isinstance(error, built_in)


def test_the_message_holds_all_parts_in_order():
    error = InputError(
        "puck is off the ice",
        came="x = 70 m",
        allowed="-3.35 to 57.6 m",
        hint="Check the unit.",
        item="row 7",
    )
    assert str(error) == (
        "row 7: puck is off the ice; got x = 70 m; allowed: -3.35 to 57.6 m. Check the unit."
    )


def test_a_script_error_carries_its_line():
    error = ScriptError("no such action", line=12, came="'slide'")
    assert error.line == 12
    assert str(error) == "line 12: no such action; got 'slide'."


def test_an_unknown_name_offers_the_nearest():
    assert "Did you mean 'left dot'?" in str(
        unknown_name("spot", "left dott", ["left dot", "crease top"])
    )


def test_require_number_returns_what_is_good():
    assert require_number("stature", 1.7, low=1.0, high=2.2, unit="m") == 1.7


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), 0.5, 3.0, "tall", None])
def test_require_number_refuses_the_rest(bad):
    with pytest.raises(InputError, match="stature"):
        require_number("stature", bad, low=1.0, high=2.2, unit="m", item="A. Person")
