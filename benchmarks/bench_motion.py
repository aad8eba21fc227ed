"""How long moves take to plan: one chain, one instant, arrays of places, a refit.

Run: python benchmarks/bench_motion.py. Fixed seed; each figure is the median of seven runs after a
warm one. Prints times and ratios; the goal for a chain is under 0.2 ms.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from functools import partial

import numpy as np

from tendline.base import Level
from tendline.body import Pose, Stance
from tendline.motion import (
    TEST_SHEET,
    MotionParameters,
    TimedTest,
    arrival_times,
    covered_at,
    motion_parameters,
    predicted_time,
    quickest_chain,
    redirected,
    refit,
    state_at,
)

SEED = 20261125
RUNS = 7
CHAINS = 300
CHAIN_GOAL = 2e-4


def median_time(work: Callable[[], object], count: int = 1) -> float:
    """Return the median seconds of one of ``count`` pieces of ``work``."""
    work()
    found = []
    for _ in range(RUNS):
        begun = time.perf_counter()
        work()
        found.append((time.perf_counter() - begun) / count)
    return statistics.median(found)


def made_up_poses(count: int, stances: tuple[Stance, ...]) -> list[Pose]:
    """Return poses about the crease from a fixed seed."""
    draw = np.random.default_rng(SEED)
    rows = draw.uniform((0.0, -1.5, -1.0), (2.5, 1.5, 1.0), (count, 3))
    picks = draw.integers(0, len(stances), count)
    return [Pose(*map(float, row), stances[pick]) for row, pick in zip(rows, picks, strict=True)]


def say(name: str, seconds: float, ratio: str) -> None:
    """Print one line: microseconds of one piece, and what it is to something else."""
    print(f"{name:32s} {1e6 * seconds:10.2f} us   {ratio}")


def main() -> None:
    """Print every figure."""
    adult = motion_parameters(Level.ADULT)
    ready = made_up_poses(2 * CHAINS, (Stance.READY,))
    mixed = made_up_poses(2 * CHAINS, tuple(Stance))

    def chains(poses: list[Pose], deadline: float | None = None) -> list[object]:
        pairs = zip(poses[::2], poses[1::2], strict=True)
        return [quickest_chain(a, b, adult, deadline=deadline) for a, b in pairs]

    on_feet = median_time(lambda: chains(ready), CHAINS)
    any_stance = median_time(lambda: chains(mixed), CHAINS)
    bound = median_time(lambda: chains(ready, 0.6), CHAINS)
    say("one chain, feet to feet", on_feet, f"{CHAIN_GOAL / on_feet:.1f}x under the goal")
    say("one chain, any stances", any_stance, f"{CHAIN_GOAL / any_stance:.1f}x under the goal")
    say("one chain with a deadline", bound, f"{bound / on_feet:.1f} of one without")

    chain = quickest_chain(ready[0], ready[1], adult)
    instants = [float(one) for one in np.linspace(0.0, chain.set_time, 200)]
    state = median_time(lambda: [state_at(chain, one) for one in instants], len(instants))
    say("one instant of a chain", state, f"{state / on_feet:.2f} of a chain")
    changed = median_time(lambda: redirected(chain, ready[2], adult, time=0.3))
    say("one change of mind", changed, f"{changed / on_feet:.1f} of a chain")
    arrays(adult, on_feet)

    draw = np.random.default_rng(SEED)
    tests = []
    for row in TEST_SHEET:
        exact = predicted_time(TimedTest(kind=row.kind, times=(1.0,)), adult)
        times = tuple(map(float, exact + draw.normal(0.0, 0.05, 4)))
        tests.append(TimedTest(kind=row.kind, times=times))
    fitted = median_time(lambda: refit(tests, adult))
    say(f"one refit of {4 * len(tests)} times", fitted, f"{fitted / on_feet:.0f} chains")


def arrays(adult: MotionParameters, on_feet: float) -> None:
    """Print the time of one place among many, and how it grows with their number."""
    draw = np.random.default_rng(SEED)
    first = 0.0
    for count in (100, 1_000, 10_000, 100_000):
        distance = draw.uniform(0.0, 2.8, count)
        given = {
            "direction": draw.uniform(-np.pi, np.pi, count),
            "facing_change": draw.uniform(-1.0, 1.0, count),
        }
        each = median_time(partial(arrival_times, distance, adult, **given), count)
        first = first or each
        ratio = f"a chain is {on_feet / each:.0f}x; {each / first:.2f} of each at 100"
        say(f"{count} places, arrival", each, ratio)
    down = median_time(partial(arrival_times, distance, adult, down=True, **given), count)
    along = median_time(partial(covered_at, distance, 0.7, adult, **given), count)
    say(f"{count} places, down", down, f"{down / each:.1f} of arrival")
    say(f"{count} places, covered", along, f"{along / each:.1f} of arrival")


if __name__ == "__main__":
    main()
