"""Is a made-up goaltender recovered from noisy times within the stated uncertainty?

Run: ``python studies/refit_recovery.py [runs]``. Each run draws a goaltender (every quality off her
level's default by a standard deviation of 12 % or 35 %), times each test of the sheet two or four
times with a scatter of 0.03 s (film) or 0.08 s (stopwatch), refits, and asks whether each 95 %
interval holds the truth. Seeded; prints one line per setting.
"""

from __future__ import annotations

import sys
from collections import defaultdict

import numpy as np

from tendline.base import Level
from tendline.motion import (
    TEST_SHEET,
    Quality,
    TimedTest,
    apply_factors,
    motion_parameters,
    predicted_time,
    refit,
)

SEED = 20261125
QUALITIES = tuple(one for one in Quality if one is not Quality.PUSH)


def study(*, runs: int, spread: float, scatter: float, repetitions: int) -> None:
    """Print the coverage and the median half width for one setting."""
    generator = np.random.default_rng(SEED)
    default = motion_parameters(Level.U15)
    held: dict[Quality, int] = defaultdict(int)
    widths: dict[Quality, list[float]] = defaultdict(list)
    for _ in range(runs):
        truth = {one: float(np.exp(generator.normal(0.0, spread))) for one in QUALITIES}
        hers = apply_factors(default, truth)
        tests = []
        for row in TEST_SHEET:
            exact = predicted_time(TimedTest(kind=row.kind, times=(1.0,)), hers)
            times = exact + generator.normal(0.0, scatter, repetitions)
            tests.append(TimedTest(kind=row.kind, times=tuple(np.round(times, 2))))
        for one in refit(tests, default).fitted:
            held[one.quality] += one.low <= truth[one.quality] <= one.high
            widths[one.quality].append(0.5 * (one.high - one.low) / one.factor)
    share = sum(held.values()) / (runs * len(QUALITIES))
    print(
        f"{runs} runs, spread {spread:.2f}, scatter {scatter:.2f} s, {repetitions} times each: "
        f"{100 * share:.1f} % of 95 % intervals hold the truth"
    )
    for one in QUALITIES:
        print(
            f"  {one.value:26s} {100 * held[one] / runs:5.1f} %   half width "
            f"{100 * float(np.median(widths[one])):4.0f} %"
        )


def main() -> None:
    """Run every setting."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    for spread in (0.12, 0.35):
        for scatter in (0.03, 0.08):
            for repetitions in (2, 4):
                study(runs=runs, spread=spread, scatter=scatter, repetitions=repetitions)


if __name__ == "__main__":
    main()
