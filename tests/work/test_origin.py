"""Every number can be asked where it comes from, and how far the answer would move."""

from dataclasses import replace

import pytest

from tendline.base import (
    DEFAULT_SETTINGS,
    Level,
    NotFoundError,
    OriginKind,
    Settings,
    Side,
    constants_of,
)
from tendline.play import Attacker
from tendline.work.origin import (
    constant_figure,
    constant_origin,
    count_figure,
    groups,
    origin_line,
    read_figure,
    registry,
)
from tendline.work.reading import Question, ask
from tendline.work.registry import assumed_constants, clashes, parameter_classes

QUESTION = Question(
    attackers=(
        Attacker(name="F1", x=7.0, y=5.0),
        Attacker(name="F2", x=6.5, y=-4.5, hand=Side.RIGHT),
    ),
    level=Level.U15,
)


def test_every_parameter_class_is_in_the_registry():
    classes = parameter_classes()
    assert len(classes) > 10
    known = registry()
    for kind in classes:
        for constant in constants_of(kind):
            assert constant.key in known, f"{kind.__name__}.{constant.key}"
            assert known[constant.key].value == constant.value


def test_no_two_constants_share_a_key_with_different_words_or_ranges():
    assert clashes() == ()


def test_every_constant_says_where_it_comes_from():
    for one in registry().values():
        assert one.label, one.key
        assert one.low <= one.value <= one.high, one.key
        if one.kind in (OriginKind.PUBLISHED, OriginKind.PUBLISHED_WEAK):
            assert one.source, one.key


def test_all_that_is_assumed_can_be_listed():
    assumed = assumed_constants()
    assert assumed
    assert all(one.kind is OriginKind.ASSUMED for one in assumed)
    assert "practice.weight.need" in {one.key for one in assumed}


def test_groups_hold_every_constant_once():
    keys = [one.key for _, constants in groups() for one in constants]
    assert len(keys) == len(set(keys)) == len(registry())


def test_a_changed_value_is_shown_as_the_coachs_with_its_default():
    settings = Settings.of({"practice.idle_limit": 150.0})
    line = constant_origin("practice.idle_limit", settings)
    assert (line.value, line.kind, line.changed) == ("150", "set by the coach", True)
    assert "default 180 s" in line.note
    assert constant_origin("practice.idle_limit").kind == "common practice"


def test_an_unknown_key_names_the_nearest_ones_only():
    with pytest.raises(NotFoundError, match=r"practice\.idle_limit") as caught:
        constant_origin("practice.idle_limt")
    assert len(caught.value.message) < 400


@pytest.fixture(scope="module")
def figure():
    """The depth of one question, asked once: some twenty answers of the engine."""
    return read_figure(QUESTION, "depth")


def test_depth_says_which_setting_moves_it_and_how_far(figure):
    depth = ask(QUESTION).depth
    assert figure.value_text == f"{depth:.2f} m"
    assert any(one.swing > 0.05 for one in figure.lines)
    assert [one.swing for one in figure.lines] == sorted(
        (one.swing for one in figure.lines), reverse=True
    )
    for line in figure.lines:
        if line.moves:
            assert "Depth" in line.moves


def test_the_move_is_what_the_engine_answers_at_the_end_of_the_range():
    moved = [one for one in read_figure(QUESTION, "offset").lines if " now, " in one.moves]
    assert moved
    line = moved[0]
    constant = registry()[line.key]
    settings = DEFAULT_SETTINGS.with_value(line.key, constant.high)
    there = ask(replace(QUESTION, settings=settings), detail=False).offset
    assert line.moves.endswith(f"{there:.2f} m at {constant.high:.4g} {line.unit}".strip() + ".")


def test_the_figures_of_an_option_are_explained():
    key = ask(QUESTION, detail=False).options[-1].option.key
    figure = read_figure(QUESTION, f"margin:{key}")
    assert figure.value_text
    assert figure.how


@pytest.mark.parametrize("name", ["dept", "margin:nothing", "goals:", "colour:shoot now"])
def test_an_unknown_figure_is_refused(name):
    with pytest.raises(NotFoundError):
        read_figure(QUESTION, name)


def test_an_engine_constant_moves_the_example_and_a_practice_one_stays_silent():
    moved = constant_figure("play.pass_speed.U15").lines[0]
    assert "Depth in the example two-on-one" in moved.moves
    assert constant_figure("practice.idle_limit").lines[0].moves == ""


def test_a_fixed_figure_offers_no_change():
    line = constant_origin("goal.nhl.width_inner")
    assert not line.is_setting
    assert "setting" not in constant_figure("goal.nhl.width_inner").how


def test_counted_things_say_in_which_games():
    figure = count_figure("rebounds", count=4, of=11, from_games=("10 Oct", "17 Oct"))
    assert figure.value_text == "4 of 11"
    assert figure.how == "Counted in 2 logged games: 10 Oct, 17 Oct."


def test_the_shown_line_keeps_the_constants_words():
    constant = registry()["practice.idle_limit"]
    line = origin_line(constant)
    assert (line.label, line.value, line.unit) == (constant.label, "180", "s")
