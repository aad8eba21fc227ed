"""The catalogue of moves and the figures of every level."""

import dataclasses

import pytest

from tendline.base import InputError, Level, NotFoundError, OriginKind, Settings, by_key
from tendline.body import Pose, Stance
from tendline.motion import (
    CATALOGUE,
    MOTION_CONSTANTS,
    MoveKind,
    arrival_times,
    chain_by,
    load_of,
    motion_parameters,
    move,
    quickest_chain,
    usually_later_than,
    usually_taught_at,
)


def test_every_kind_has_one_row_with_origins():
    assert {row.kind for row in CATALOGUE} == set(MoveKind)
    assert len(CATALOGUE) == len(MoveKind)
    for row in CATALOGUE:
        assert row.meaning
        assert row.constants
        assert row.age.source
        assert all(one.source or one.kind is OriginKind.ASSUMED for one in row.constants)


def test_every_figure_has_its_own_key_and_is_listed():
    table = by_key(MOTION_CONSTANTS)
    assert all(key.startswith("motion.") for key in table)
    for row in CATALOGUE:
        assert all(one.key in table for one in row.constants)


def test_a_move_is_found_by_its_words_and_a_slip_gets_a_hint():
    assert move("T-push").kind is MoveKind.T_PUSH
    with pytest.raises(NotFoundError, match="Did you mean 'T-push'"):
        move("T-pusch")


def test_the_butterfly_usually_comes_from_ten():
    # Common practice, no source: usually from about 10 or 11.
    later = {row.kind for row in usually_later_than(8.0)}
    assert MoveKind.DROP in later
    assert MoveKind.T_PUSH not in later
    assert not usually_later_than(11.0)
    assert MoveKind.DROP in {row.kind for row in usually_taught_at(10.0)}
    assert MoveKind.DROP not in {row.kind for row in usually_taught_at(9.5)}
    order = [row.teaching for row in usually_taught_at(12.0)]
    assert order == sorted(order, key=lambda one: list(type(one)).index(one))


def test_younger_is_slower_and_reacts_later():
    levels = [Level.U9, Level.U11, Level.U13, Level.U15, Level.U18, Level.ADULT]
    times = [float(arrival_times(1.2, motion_parameters(one)).set_time) for one in levels]
    assert times == sorted(times, reverse=True)
    reactions = [motion_parameters(one).reaction for one in levels]
    assert reactions == sorted(reactions, reverse=True)


def test_reaction_follows_the_published_line():
    # Published: RT(a) = 0.465 (a/5)^-0.815 to age 16 (SART84), so age 8 over age 16 is
    # 2^0.815 = 1.759; adults 0.213 s (WOODS15). By hand 0.213 * 1.759 = 0.375 s.
    assert motion_parameters(Level.U9).reaction == pytest.approx(0.375, abs=0.001)
    assert motion_parameters(Level.ADULT).reaction == pytest.approx(0.213)


def test_gravity_is_the_same_for_all():
    assert {motion_parameters(one).drop for one in Level} == {0.284}


def test_common_practice_rows_are_met():
    # Common practice, no source (facts.md part E): adult figures the laws were laid on.
    adult = motion_parameters(Level.ADULT)
    assert adult.recovery == pytest.approx(0.6)
    step = adult.step_shuffle
    assert 0.4 / step.top_speed == pytest.approx(0.3, abs=0.01)  # one step of a run
    slide = adult.butterfly_slide
    assert 2.0 / slide.duration(2.0) == pytest.approx(2.0, rel=0.1)  # mean speed over 2 m


def test_no_push_beats_the_highest_acceleration_published():
    # Published: highest peak acceleration in the literature 5.89 m/s2 (STASTNY23), all levels
    # up to adult; the elite share lies above it on purpose (assumed).
    adult = motion_parameters(Level.ADULT)
    for law in (adult.t_push, adult.butterfly_slide, adult.step_shuffle, adult.forward_push):
        assert law.acceleration <= 5.895


def test_a_setting_moves_the_answer():
    slower = motion_parameters(Level.ADULT, Settings.of({"motion.t_push.top_speed": 1.5}))
    usual = motion_parameters(Level.ADULT)
    assert arrival_times(2.5, slower).set_time > arrival_times(2.5, usual).set_time


def test_post_moves_push_into_and_off_the_post():
    adult = motion_parameters(Level.ADULT)
    seal = Pose(0.1, 0.75, 0.9, Stance.REVERSE_VH_LEFT)
    out = Pose(0.9, -0.3, 0.0)
    into = quickest_chain(Pose(0.3, 0.35, 0.5), seal, adult)
    assert [step.move for step in into.steps] == [MoveKind.POST_ENTRY]
    off = quickest_chain(seal, out, adult)
    assert off.steps[0].move is MoveKind.POST_EXIT
    assert load_of(off.steps).recoveries == 1
    assert off.end == out


def test_load_counts_drops_stops_recoveries_and_legs():
    adult = motion_parameters(Level.ADULT)
    low = Pose(0.4, -0.7, 0.0, Stance.BUTTERFLY)
    there = quickest_chain(Pose(0.4, 0.7, 0.0), low, adult)
    back = quickest_chain(low, Pose(0.4, 0.7, 0.0), adult)
    load = load_of(there.steps) + load_of(back.steps)
    # By hand: slide to her right (left leg), up with the right leg first, T-push left.
    assert (load.drops, load.recoveries, load.hard_stops) == (1, 1, 1)
    assert (load.pushes_left, load.pushes_right) == (1, 1)
    assert load.metres == pytest.approx(2.8)


def test_turning_on_the_knees_is_an_on_ice_recovery_with_the_far_leg():
    adult = motion_parameters(Level.ADULT)
    chain = quickest_chain(
        Pose(0.4, 0.0, 0.0, Stance.BUTTERFLY), Pose(0.4, 0.0, 0.8, Stance.BUTTERFLY), adult
    )
    assert [step.move for step in chain.steps] == [MoveKind.ON_ICE_RECOVERY]
    assert chain.legs[0].value == "right"  # by hand: turning to her left, the right leg is far


def test_every_step_of_a_shuffle_run_is_a_push():
    adult = motion_parameters(Level.ADULT)
    run = chain_by((MoveKind.STEP_SHUFFLE,), Pose(0.4, 0.6, 0.0), Pose(0.4, -0.6, 0.0), adult)
    assert load_of(run.steps).pushes_left == 3  # by hand: 1.2 m in steps of 0.4 m


def test_a_row_knows_its_range_and_what_is_assumed():
    shuffle = move(MoveKind.SHORT_SHUFFLE)
    assert shuffle.usual_from < 0.20 < shuffle.longest  # about 0.20 m
    assert move(MoveKind.DROP).longest is None
    assert move(MoveKind.DROP).usual_from is None
    keys = [one.key for one in move(MoveKind.T_PUSH).assumed]
    assert "motion.t_push.braking" in keys
    assert "motion.t_push.top_speed" not in keys  # common practice


def test_a_move_without_a_law_says_so():
    adult = motion_parameters(Level.ADULT)
    with pytest.raises(InputError, match="a time, not a law"):
        adult.law(MoveKind.DROP)
    assert adult.with_reaction(0.3).reaction == 0.3


@pytest.mark.parametrize("level", [Level.U13, Level.ADULT], ids=str)
def test_every_setting_of_a_level_changes_its_parameters_and_no_other_field(level):
    base = motion_parameters(level)
    fields = {one.name for one in dataclasses.fields(base)}
    touched = set()
    for constant in MOTION_CONSTANTS:
        if not constant.is_setting:
            continue
        other = constant.low if constant.value != constant.low else constant.high
        changed = motion_parameters(level, Settings.of({constant.key: other}))
        differs = {name for name in fields if getattr(changed, name) != getattr(base, name)}
        if len(differs) == 1:
            touched |= differs
        if constant.key in ("motion.post_exit.time", "motion.post_entry.time"):
            assert differs == {constant.key.removeprefix("motion.").removesuffix(".time")}
    # each plain time and reach answers to a figure of its own
    assert {"post_entry", "post_exit", "on_ice_recovery", "stance_change", "down_change", "drop",
            "re_aim_turn", "post_reach", "slide_reach", "shuffle_step"} <= touched  # fmt: skip
