"""How long drills take: scripts, one drill, the whole library on one and two cores, repairs.

Run: python benchmarks/bench_drills.py. Fixed seeds; prints seconds and ratios. Also compares the
coarse depths that the simulation asks for with the full search of the engine.
"""

from __future__ import annotations

import math
import random
import statistics
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from multiprocessing import get_context
from pathlib import Path

from tendline.base import Level
from tendline.drill import (
    check_drill,
    drill_by_id,
    format_drill,
    library,
    parse_drill,
    repairs,
    simulate,
    tracks,
)
from tendline.drill.advice import Mover, _band, advised
from tendline.drill.simulate import _simulate
from tendline.drill.types import Place
from tendline.drill.world import world_of
from tendline.play import Attacker, Situation, evaluate_place, read

SEED = 7
WORKED = Path(__file__).parents[1] / "examples" / "three_shots.drill"


def timed(work: Callable[[], object], rounds: int = 1) -> float:
    """Return the median seconds of some rounds."""
    found = []
    for _ in range(rounds):
        begun = time.perf_counter()
        work()
        found.append(time.perf_counter() - begun)
    return statistics.median(found)


def forget() -> None:
    """Empty what is remembered, so that a run starts cold."""
    _simulate.cache_clear()
    _band.cache_clear()


def run_share(ids: list[str]) -> int:
    """Simulate and check some drills; for the process pool."""
    for name in ids:
        drill = drill_by_id(name)
        check_drill(drill, simulate(drill))
    return len(ids)


def scripts() -> None:
    texts = [format_drill(one) for one in library()]
    count = len(texts)
    reading = timed(lambda: [parse_drill(one) for one in texts], 3)
    writing = timed(lambda: [format_drill(one) for one in library()], 3)
    print(f"read {count} scripts {reading:.3f} s, write them {writing:.3f} s")


def whole_library() -> None:
    ids = [one.id for one in library()]
    simulate(drill_by_id("L01"))  # loads the compiled kernels
    forget()
    busy = time.process_time()
    alone = timed(lambda: run_share(ids))
    busy = time.process_time() - busy
    warm = timed(lambda: run_share(ids))
    print(
        f"library of {len(ids)}, run and checked: {alone:.2f} s cold on one core "
        f"({busy:.2f} s of its time), {warm:.2f} s warm"
    )
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        list(pool.map(run_share, [["L01"], ["L02"]]))  # start both, load the kernels
        pair = timed(lambda: list(pool.map(run_share, [ids[k::8] for k in range(8)])))
    print(f"the same on two cores: {pair:.2f} s, {alone / pair:.2f} times as fast")


def dragging() -> None:
    draw = random.Random(SEED)
    drill = drill_by_id("E08")
    found = []
    for _ in range(25):
        people = tuple(
            replace(one, at=Place("", 12 + draw.random(), -6 + draw.random()))
            if one.name == "D1" else one
            for one in drill.people
        )  # fmt: skip
        moved = replace(drill, people=people)
        found.append(timed(lambda moved=moved: tracks(simulate(moved))))
    found.sort()
    print(
        f"E08 (three branches) simulated while dragging: median {1000 * found[12]:.0f} ms, "
        f"95 % {1000 * found[23]:.0f} ms"
    )


def repairing() -> None:
    drill = parse_drill(WORKED.read_text("utf-8"))
    forget()
    print(f"repairs of the three-shot drill: {timed(lambda: repairs(drill)):.2f} s cold")
    noisy = drill_by_id("B04")
    forget()
    print(f"spread of 20 noisy repetitions, B04: {timed(lambda: simulate(noisy, spread=20)):.2f} s")


def against_full_search() -> None:
    draw = random.Random(SEED)
    world = world_of(Level.U15)
    gaps, costs = [], []
    for _ in range(40):
        place = (draw.uniform(3, 16), draw.uniform(-9, 9))
        mates = tuple(
            Mover(f"F{k + 2}", (draw.uniform(2, 12), draw.uniform(-8, 8)))
            for k in range(draw.randint(0, 2))
        )
        pose = advised(world, Mover("F1", place), mates, ())
        situation = Situation(
            rink=world.rink, carrier=Attacker(name="F1", x=place[0], y=place[1]),
            mates=tuple(Attacker(name=m.name, x=m.place[0], y=m.place[1]) for m in mates),
            level=world.level,
        )  # fmt: skip
        answer = read(situation, world.goaltender, world.play, detail=False)
        depth = math.hypot(pose.x, pose.y)
        gaps.append(abs(depth - answer.depth))
        there = evaluate_place(situation, world.goaltender, world.play, pose)
        costs.append(there.loss - answer.loss)
    gaps.sort()
    costs.sort()
    print(
        f"coarse depth against full search, 40 situations: median {gaps[20]:.2f} m, 90 % within "
        f"{gaps[36]:.2f} m, most {gaps[-1]:.2f} m; cost in goal chance: median "
        f"{costs[20]:.4f}, 90 % within {costs[36]:.4f}, most {costs[-1]:.4f}"
    )


if __name__ == "__main__":
    scripts()
    whole_library()
    dragging()
    repairing()
    against_full_search()
