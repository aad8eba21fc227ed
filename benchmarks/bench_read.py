"""How long a read takes: the search while dragging, the whole answer, a batch, a map of the zone.

Run: python benchmarks/bench_read.py. Fixed seed. Every figure is CPU time of this process (other
programs on the machine do not count), median and 95th percentile over invented attacks, after a
warm-up; ratios are printed beside them. One core.
"""

from __future__ import annotations

import argparse
import math
import platform
import resource
import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial

import numpy as np

from tendline.base import InputError, Level, Side
from tendline.body import build_goaltender
from tendline.ice import rink
from tendline.motion import motion_parameters
from tendline.play import (
    Attacker,
    Defender,
    Goaltender,
    OptionKind,
    Situation,
    depth_map,
    evaluate_many,
    play_parameters,
    read,
)
from tendline.play.engine import COARSE, FINE
from tendline.play.read import place_losses, prepare
from tendline.play.search import lowest_place

SEED = 20251125
LEVEL = Level.MEN_ELITE
RINK = rink()
PARAMETERS = play_parameters(LEVEL)
HER = Goaltender(
    build=build_goaltender(stature=1.84, catching_hand=Side.LEFT, level=LEVEL),
    motion=motion_parameters(LEVEL),
)
FOUR = frozenset({OptionKind.SHOOT, OptionKind.ONE_TIMER, OptionKind.SETTLE, OptionKind.DEKE})
GOAL_MS = 16.0


def attack(random: np.random.Generator, mates: int, defenders: int) -> Situation:
    """Return an invented attack: a carrier in front, mates and defenders at random."""
    while True:
        try:
            return Situation(
                rink=RINK,
                carrier=Attacker(name="F1", x=random.uniform(4, 12), y=random.uniform(-6, 6),
                                 vx=-random.uniform(0, 6)),
                mates=tuple(
                    Attacker(name=f"F{n + 2}", x=random.uniform(3, 12), y=random.uniform(-6, 6))
                    for n in range(mates)
                ),
                defenders=tuple(
                    Defender(name=f"D{n + 1}", x=random.uniform(2, 9), y=random.uniform(-4, 4))
                    for n in range(defenders)
                ),
                level=LEVEL,
            )  # fmt: skip
        except InputError:
            continue


def dragged(moment: Situation, random: np.random.Generator) -> Situation:
    """Return the attack with the carrier moved by a finger's width."""
    carrier = moment.carrier
    while True:
        turn, way = random.uniform(0, math.tau), random.uniform(0.05, 0.25)
        try:
            moved = replace(
                carrier, x=carrier.x + way * math.cos(turn), y=carrier.y + way * math.sin(turn)
            )
            return replace(moment, carrier=moved)
        except InputError:
            continue


def timed(work: Callable[[], object]) -> float:
    """Return the CPU seconds of one call."""
    begun = time.process_time()
    work()
    return time.process_time() - begun


def spread(times: list[float]) -> str:
    """Return median and 95th percentile in milliseconds as text."""
    return f"{1e3 * np.median(times):6.1f} ms median, {1e3 * np.percentile(times, 95):6.1f} ms 95th"


def search(moment: Situation, options: frozenset[OptionKind] | None) -> None:
    """Do the placement search alone."""
    engine, weights = prepare(moment, HER, PARAMETERS, habits=None, options=options, fine=False)
    lowest_place(engine.line, place_losses(engine), weights)


def dragging(runs: int, options: frozenset[OptionKind] | None, mates: int) -> list[list[float]]:
    """Return times of the search and of a whole read over invented attacks."""
    random = np.random.default_rng(SEED)
    times: list[list[float]] = [[], []]
    quick = partial(read, goaltender=HER, parameters=PARAMETERS, options=options, detail=False)
    for _ in range(runs):
        moment = attack(random, mates, 2)
        times[0].append(timed(partial(search, dragged(moment, random), options)))
        times[1].append(timed(partial(quick, dragged(moment, random))))
    return times


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=40)
    parser.add_argument("--batch", type=int, default=200)
    runs, batch = parser.parse_args().runs, parser.parse_args().batch
    print(f"{platform.machine()}, Python {platform.python_version()}, one core, seed {SEED}")
    print(f"targets: search {COARSE[0]} x {COARSE[1]}, answer {FINE[0]} x {FINE[1]}")
    warm_up = attack(np.random.default_rng(1), 1, 1)
    read(warm_up, HER, PARAMETERS)

    print("\nfour options (shot, one-timer, settled pass, round her), the carrier dragged")
    names = ("search", "whole read")
    four = dragging(runs, FOUR, mates=1)
    for name, times in zip(names, four, strict=True):
        print(f"  {name:18} {spread(times)}   {GOAL_MS / (1e3 * np.median(times)):5.2f} x 16 ms")

    print("\ngrowth with options: every kind, by number of mates (search)")
    for mates in (0, 1, 2, 3):
        times = dragging(max(runs // 4, 5), None, mates)[0]
        print(f"  {mates} mates {spread(times)}   {np.median(times) / np.median(four[0]):5.2f} x")

    random = np.random.default_rng(SEED)
    full = [timed(lambda: read(attack(random, 1, 2), HER, PARAMETERS)) for _ in range(5)]
    print(f"\nfull answer with intervals and sensitivities  {spread(full)}")

    moments = [attack(random, 1, 2) for _ in range(batch)]
    spots = [read(one, HER, PARAMETERS, detail=False).spot for one in moments[:1]] * batch
    alone = timed(lambda: [evaluate_many([m], HER, PARAMETERS, [p])
                           for m, p in zip(moments[:20], spots, strict=False)]) / 20  # fmt: skip
    together = timed(lambda: evaluate_many(moments, HER, PARAMETERS, spots)) / batch
    print(f"\na place evaluated: {1e3 * alone:.1f} ms alone, {1e3 * together:.1f} ms in a batch "
          f"of {batch} ({alone / together:.2f} x)")  # fmt: skip

    begun = time.process_time()
    found = depth_map(attack(random, 1, 1), HER, PARAMETERS, step=3.0)
    cells = int(np.isfinite(found.depth).sum())
    took = time.process_time() - begun
    print(
        f"map of the zone, {cells} cells 3 m apart: {took:.1f} s, {1e3 * took / cells:.1f} ms each"
    )
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"peak memory {peak:.0f} MiB")


if __name__ == "__main__":
    main()
