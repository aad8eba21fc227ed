"""Her own figures from her own timed tests."""

import numpy as np
import pytest

from tendline.base import InputError, Level, NoConvergenceError
from tendline.motion import (
    CAUTIONS,
    TEST_SHEET,
    Quality,
    TimedTest,
    TimedTestKind,
    apply_factors,
    arrival_times,
    motion_parameters,
    predicted_time,
    refit,
    sheet_for,
)
from tendline.motion.refit import CONFIDENCE

DEFAULT = motion_parameters(Level.U15)
TRUE = {
    Quality.SHUFFLE: 0.9, Quality.PUSH_START: 1.15, Quality.PUSH_SPEED: 0.85, Quality.OUT: 1.1,
    Quality.BACK: 0.8, Quality.FORWARD_PUSH: 1.05, Quality.SLIDE: 0.95, Quality.KNEES: 1.2,
    Quality.RECOVERY: 0.85,
}  # fmt: skip


def timed(parameters, generator=None, repetitions=4, scatter=0.0):
    tests = []
    for row in TEST_SHEET:
        exact = predicted_time(TimedTest(kind=row.kind, times=(1.0,)), parameters)
        noise = generator.normal(0.0, scatter, repetitions) if generator else np.zeros(repetitions)
        tests.append(TimedTest(kind=row.kind, times=tuple(float(exact + n) for n in noise)))
    return tests


def test_predicted_times_by_hand():
    adult = motion_parameters(Level.ADULT)
    push = TimedTest(kind=TimedTestKind.PUSH, times=(1.8,))
    # By hand: two ways of 0.9 s (facts: common practice) less the first start delay of 0.05 s.
    assert predicted_time(push, adult) == pytest.approx(1.75, abs=0.01)
    down = TimedTest(kind=TimedTestKind.RECOVERY, times=(2.6,))
    assert down.way == 0.0
    assert predicted_time(down, adult) == pytest.approx(3 * (0.284 + 0.6))


def test_exact_times_give_the_true_goaltender_back():
    found = refit(timed(apply_factors(DEFAULT, TRUE)), DEFAULT)
    assert {one.quality: one.factor for one in found.fitted} == pytest.approx(TRUE, rel=5e-3)
    assert found.scatter == 0.02  # by hand: never below one picture of a film
    assert found.untested == ()
    truth = apply_factors(DEFAULT, TRUE)
    distances = np.linspace(0.1, 3.0, 30)
    assert arrival_times(distances, found.parameters).set_time == pytest.approx(
        arrival_times(distances, truth).set_time, abs=5e-3
    )


def test_a_made_up_goaltender_is_found_within_the_stated_interval():
    # Simulation: 40 goaltenders here (200 in studies/refit_recovery.py); stopwatch scatter 0.08 s.
    generator = np.random.default_rng(20261125)
    held = total = 0
    for _ in range(40):
        factors = {one: float(np.exp(generator.normal(0.0, 0.12))) for one in TRUE}
        found = refit(timed(apply_factors(DEFAULT, factors), generator, 4, 0.08), DEFAULT)
        for one in found.fitted:
            held += one.low <= factors[one.quality] <= one.high
            total += 1
        assert found.scatter == pytest.approx(0.08, abs=0.04)
    assert total == 40 * len(TRUE)
    assert held / total == pytest.approx(CONFIDENCE, abs=0.035)


def test_what_was_not_tested_follows_its_kin_and_is_said():
    pushes = TimedTest(kind=TimedTestKind.PUSH, times=(2.2, 2.3, 2.25, 2.28))
    found = refit([pushes], DEFAULT)
    assert [one.quality for one in found.fitted] == [Quality.PUSH]
    factor = found.fitted[0].factor
    assert found.parameters.butterfly_slide.top_speed == pytest.approx(
        DEFAULT.butterfly_slide.top_speed * factor
    )
    assert found.parameters.step_shuffle == DEFAULT.step_shuffle
    assert Quality.SHUFFLE in found.untested
    assert "% of the level's default" in found.fitted[0].words


def test_start_and_top_speed_come_apart_only_with_two_distances():
    both = refit(timed(DEFAULT), DEFAULT)
    names = [one.quality for one in both.fitted]
    assert Quality.PUSH_START in names
    assert Quality.PUSH not in names
    assert Quality.PUSH not in both.untested


def test_one_single_time_gives_a_wide_interval_and_stays_near_the_default():
    once = refit([TimedTest(kind=TimedTestKind.OUT, times=(1.3,))], DEFAULT).fitted[0]
    often = refit(
        [TimedTest(kind=TimedTestKind.OUT, times=(1.3, 1.31, 1.29, 1.3))], DEFAULT
    ).fitted[0]
    assert once.high / once.low > often.high / often.low
    assert abs(once.factor - 1.0) < abs(often.factor - 1.0)


def test_a_measured_distance_counts():
    near = TimedTest(kind=TimedTestKind.OUT, times=(1.3, 1.31, 1.29), distance=1.5)
    far = TimedTest(kind=TimedTestKind.OUT, times=(1.3, 1.31, 1.29), distance=2.0)
    assert refit([far], DEFAULT).fitted[0].factor > refit([near], DEFAULT).fitted[0].factor


def test_an_odd_result_is_flagged():
    slow = TimedTest(kind=TimedTestKind.SHUFFLE, times=(9.0, 9.1, 9.05, 9.0))
    assert any("far from the default" in one for one in refit([slow], DEFAULT).warnings)
    wild = TimedTest(kind=TimedTestKind.OUT, times=(0.5, 4.5, 1.2))
    assert any("time it again" in one for one in refit([wild], DEFAULT).warnings)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: TimedTest(kind=TimedTestKind.OUT, times=()), "at least one time"),
        (lambda: TimedTest(kind=TimedTestKind.OUT, times=(-1.0,)), "a time is out of range"),
        (lambda: TimedTest(kind=TimedTestKind.OUT, times=(float("nan"),)), "out of range"),
        (lambda: TimedTest(kind=TimedTestKind.OUT, times=(1.0,), distance=40.0), "distance is out"),
        (lambda: TimedTest(kind=TimedTestKind.RECOVERY, times=(1.0,), distance=1.0), "no distance"),
        (lambda: refit([], DEFAULT), "no timed tests"),
    ],
)
def test_tests_that_cannot_be_used_are_refused_in_words(make, words):
    with pytest.raises(InputError, match=words):
        make()


def test_times_in_the_wrong_unit_do_not_converge_quietly():
    minutes = TimedTest(kind=TimedTestKind.OUT, times=(60.0, 59.0, 60.0))
    with pytest.raises(NoConvergenceError, match="believable goaltender"):
        refit([minutes], DEFAULT)


def test_the_sheet_is_whole_and_careful():
    assert {row.kind for row in TEST_SHEET} == set(TimedTestKind)
    for row in TEST_SHEET:
        assert row.set_up
        assert row.name == row.kind.value
        assert row.how_to_time
        assert row.repetitions >= 3
    text = " ".join(CAUTIONS).lower()
    for word in ("warm up", "stop", "hurts", "ranking"):
        assert word in text
    young = {row.kind for row in sheet_for(8.0)}
    assert TimedTestKind.RECOVERY not in young  # usually taught from about 10 (common practice)
    assert TimedTestKind.SHUFFLE in young
    assert sheet_for(14.0) == TEST_SHEET
