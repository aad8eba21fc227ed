"""Numbers that know their origin."""

from dataclasses import dataclass

import pytest

from tendline.base import (
    InputError,
    NotFoundError,
    OriginKind,
    Settings,
    assumed,
    build,
    by_key,
    constants_of,
    fact,
    fact_table,
    parameter,
)
from tendline.base.constant import facts

PUSH_SPEED = assumed("test.push_speed", "push speed", 2.0, "m/s", low=1.0, high=4.0)
GOAL_WIDTH = fact("goal.nhl.width_inner", "goal width")


@dataclass(frozen=True, slots=True)
class Push:
    speed: float = parameter(PUSH_SPEED)
    width: float = parameter(GOAL_WIDTH)


def test_published_figure_names_its_source():
    # Published: goal width 6 ft = 1.8288 m (general pages restating NHL dimensions).
    assert GOAL_WIDTH.value == 1.8288
    assert GOAL_WIDTH.kind is OriginKind.PUBLISHED
    assert "NHL" in GOAL_WIDTH.source
    assert not GOAL_WIDTH.is_setting


def test_every_fact_row_can_become_a_constant():
    rows = 0

    def walk(node, path):
        nonlocal rows
        for key, value in node.items():
            if isinstance(value, dict) and {"v", "unit", "src", "how"} <= set(value):
                if isinstance(value["v"], (int, float)):
                    one = fact(f"{path}{key}", key)
                    assert one.source
                    rows += 1
            elif isinstance(value, dict):
                walk(value, f"{path}{key}.")

    walk({k: v for k, v in facts().items() if k not in ("meta", "sources")}, "")
    assert rows > 250  # by hand: facts.md holds well over 250 single figures


def test_settings_change_a_parameter_and_keep_the_rest():
    changed = build(Push, Settings.of({"test.push_speed": 3.0}))
    assert changed.speed == 3.0
    assert changed.width == 1.8288
    assert build(Push).speed == 2.0


def test_a_setting_out_of_range_says_what_is_allowed():
    with pytest.raises(InputError) as caught:
        build(Push, Settings.of({"test.push_speed": 40.0}))
    assert "push speed is out of range" in str(caught.value)
    assert "1 to 4 m/s" in str(caught.value)
    assert caught.value.item == "test.push_speed"


def test_a_setting_that_is_not_a_number_is_refused():
    with pytest.raises(InputError, match="out of range"):
        build(Push, Settings.of({"test.push_speed": float("nan")}))


def test_constants_of_a_parameter_class_come_in_field_order():
    assert constants_of(Push) == (PUSH_SPEED, GOAL_WIDTH)


def test_two_different_constants_may_not_share_a_key():
    other = assumed("test.push_speed", "push speed", 9.0, "m/s", low=1.0, high=10.0)
    assert by_key([PUSH_SPEED, PUSH_SPEED]) == {"test.push_speed": PUSH_SPEED}
    with pytest.raises(ValueError, match=r"test\.push_speed"):
        by_key([PUSH_SPEED, other])


def test_an_unknown_fact_is_named():
    with pytest.raises(NotFoundError, match=r"goal\.nhl\.widht"):
        fact_table("goal.nhl.widht")
