"""How long it takes to see and to score a placement, against a ray caster, and how that grows.

Run: python benchmarks/bench_cover.py. Fixed seed; each figure is the least of fifteen runs after a
warm one (the machine may be shared: its load is printed), on one core unless it says otherwise. The
body has all its segments, the grid 37 x 25 targets. Prints times, ratios, memory, and the
arithmetic reached against the measured peak.
"""

from __future__ import annotations

import argparse
import gc
import os
import platform
import resource
import time
import tracemalloc
from collections.abc import Callable

import numba
import numpy as np
import trimesh

from tendline import body, ice
from tendline.base import Level
from tendline.body import Pose, Stance
from tendline.shot import NEVER, goal_chance, goal_chance_many, puck_speed, shot_parameters
from tendline.shot.reference import goal_chance_reference
from tendline.sight import cover, cover_many, cover_reference, exact_cover, mouth_grid, open_areas
from tendline.sight.cover import axes_of
from tendline.sight.kernel import gaps_into
from tendline.sight.reference import LIMBS

SEED = 20251125
RUNS = 15
BATCH = 10_000
GRID = mouth_grid(ice.goal())
HER = body.build_goaltender(stature=1.84, level=Level.MEN_ELITE)
STANCES = (body.capsules(HER, Stance.READY), body.capsules(HER, Stance.BUTTERFLY))
MEN = shot_parameters(Level.MEN_ELITE)
SPEED = puck_speed(Level.MEN_ELITE)
PUCK = np.array([8.0, 1.0, 0.0127])
POSE = Pose(1.1, 0.1, 0.1)
DROP = np.array([[0.0, 0.284], [NEVER, 0.0]])
# Additions, multiplications, comparisons, divisions and roots in the inner loop, counted by hand:
# 4 differences, 14 for a b c f, 7 + 1 for the first share, 6 for the second, 5 for the third,
# 12 for the nearest points, 7 for the distance, 3 for the smaller one.
OPERATIONS = 59


def least_time(work: Callable[[], object], count: int = 1, runs: int = RUNS) -> float:
    """Return the least seconds of one of ``count`` pieces of ``work``."""
    work()
    times = []
    for _ in range(runs):
        gc.collect()
        begun = time.perf_counter()
        work()
        times.append((time.perf_counter() - begun) / count)
    return min(times)


def repeated(work: Callable[[], object], times: int) -> Callable[[], object]:
    """Return ``work`` done ``times`` over."""

    def again() -> None:
        for _ in range(times):
            work()

    return again


def placements(count: int) -> tuple[np.ndarray, np.ndarray]:
    """Return pucks and poses (count, 3) in front of the goal, her between puck and net."""
    rng = np.random.default_rng(SEED)
    pucks = np.column_stack(
        [rng.uniform(4, 15, count), rng.uniform(-6, 6, count), np.full(count, 0.0127)]
    )
    angle = np.arctan2(pucks[:, 1], pucks[:, 0])
    depth, off = rng.uniform(0.4, 1.4, count), rng.uniform(-0.3, 0.3, count)
    x = np.maximum(depth * np.cos(angle) - off * np.sin(angle), 0.1)
    return pucks, np.column_stack([x, depth * np.sin(angle) + off * np.cos(angle), angle])


def line(words: str, seconds: float, note: str = "") -> None:
    """Print one figure."""
    print(f"  {words:58s} {seconds * 1e6:10.1f} us  {note}", flush=True)


def mesh_of(capsules: body.Capsules, sides: int = 24) -> trimesh.Trimesh:
    """Return the body as triangles, as a ray caster needs it."""
    pieces = []
    for start, end, radius in zip(capsules.start, capsules.end, capsules.radius, strict=True):
        length = float(np.linalg.norm(end - start))
        piece = trimesh.creation.capsule(height=length, radius=float(radius), count=(sides, sides))
        if length > 1e-9:
            piece.apply_transform(trimesh.geometry.align_vectors([0, 0, 1], (end - start) / length))
        piece.apply_translation((start + end) / 2)
        pieces.append(piece)
    return trimesh.util.concatenate(pieces)


def kernel_call() -> Callable[[], object]:
    """Return the bare kernel on one placed body: gap and share of the way for every limb."""
    axes, limb = axes_of(body.posed(HER, POSE))
    gap = np.empty((LIMBS, len(GRID.flat_y)), np.float32)
    along = np.empty_like(gap)
    level = np.zeros(len(GRID.flat_y), np.float32)
    puck = PUCK.astype(np.float32)
    return lambda: gaps_into(puck, GRID.flat_y, GRID.flat_z, level, axes, limb, gap, along)


def one_placement() -> tuple[float, float]:
    """Print what one placement costs; return kernel and batch seconds."""
    print(f"One placement, {len(STANCES[0])} segments, {GRID.columns} x {GRID.rows} targets")
    bare = least_time(repeated(kernel_call(), 200), 200)
    line("kernel: gap and way to every limb", bare)
    pucks, poses = placements(2000)
    moved = least_time(lambda: cover_many(pucks, poses, STANCES[0], GRID), 2000)
    line("moved and covered, in a batch", moved)
    reach = least_time(
        lambda: goal_chance_many(pucks, poses, STANCES[:1], GRID, MEN, speed=SPEED), 2000
    )
    line("moved, covered, reach, save, aim: goal chance", reach, "goal for cover and reach: 30 us")
    both = least_time(
        lambda: goal_chance_many(pucks, poses, STANCES, GRID, MEN, speed=SPEED, change=DROP), 2000
    )
    line("the same with a second stance within reach", both)
    placed = body.posed(HER, POSE)
    line(
        "cover() with all its maps", least_time(repeated(lambda: cover(PUCK, placed, GRID), 50), 50)
    )
    line("goal_chance() with all its maps", least_time(
        repeated(lambda: goal_chance(PUCK, placed, GRID, MEN, speed=SPEED), 50), 50))  # fmt: skip
    line("exact_cover()", least_time(lambda: exact_cover(PUCK, placed, ice.goal())))
    line("open_areas()", least_time(lambda: open_areas(PUCK, placed, ice.goal())))
    return bare, moved


def against_others(bare: float, moved: float) -> None:
    """Print the ratios to the numpy twin and to a ray caster on the same body."""
    print("Against other ways")
    placed = body.posed(HER, POSE)
    twin = least_time(lambda: cover_reference(PUCK, placed, GRID))
    line("numpy twin of cover", twin, f"{twin / bare:.0f} x the kernel")
    whole = least_time(lambda: goal_chance_reference(PUCK, placed, GRID, MEN, speed=SPEED))
    line("numpy twin of the goal chance", whole)
    mesh = mesh_of(placed)
    ways = GRID.points - PUCK
    origins = np.ascontiguousarray(np.broadcast_to(PUCK, ways.shape))
    caster = mesh.ray
    cast = least_time(lambda: caster.intersects_any(origins, ways))
    line(f"embree, same rays, {len(mesh.faces)} triangles, yes or no only", cast,
         f"{cast / bare:.1f} x the kernel, which also gives gaps")  # fmt: skip

    def rebuilt() -> object:
        fresh = mesh_of(placed)
        return fresh.ray.intersects_any(origins, ways)

    line("embree after she has changed stance (new mesh and scene)", least_time(rebuilt, runs=3),
         "")  # fmt: skip

    def shifted() -> object:
        copy = trimesh.Trimesh(mesh.vertices + 0.01, mesh.faces, process=False)
        return copy.ray.intersects_any(origins, ways)

    again = least_time(shifted, runs=5)
    line("embree after she has moved (same mesh, new scene)", again,
         f"{again / moved:.0f} x ours, moving included")  # fmt: skip


def batches() -> None:
    """Print a batch of 10,000 placements on one core and on both."""
    print(f"A batch of {BATCH} placements, two stances")
    pucks, poses = placements(BATCH)

    def work(threads: int) -> tuple[float, float]:
        begun, busy = time.perf_counter(), time.process_time()
        goal_chance_many(
            pucks, poses, STANCES, GRID, MEN, speed=SPEED, change=DROP, threads=threads
        )
        return time.perf_counter() - begun, time.process_time() - busy

    times: dict[int, list[tuple[float, float]]] = {1: [], 2: []}
    for _ in range(RUNS):  # in turn, so that a busy moment meets both
        for threads in times:
            times[threads].append(work(threads))
    wall = {threads: min(one for one, _ in some) for threads, some in times.items()}
    busy = {threads: min(one for _, one in some) for threads, some in times.items()}
    for threads in times:
        note = (
            f"{wall[threads]:.3f} s in all, {wall[1] / wall[threads]:.2f} x one thread, "
            f"processor time {busy[threads]:.3f} s"
        )
        line(f"goal chance, {threads} thread(s), each", wall[threads] / BATCH, note)


def growth() -> None:
    """Print how the goal chance grows with the grid and with the number of segments."""
    print("Growth, one stance, in a batch of 500")
    pucks, poses = placements(500)
    for columns, rows in ((13, 9), (19, 13), (37, 25), (73, 49)):
        grid = mouth_grid(ice.goal(), columns, rows)
        seconds = least_time(
            lambda grid=grid: goal_chance_many(pucks, poses, STANCES[:1], grid, MEN, speed=SPEED),
            500,
        )
        line(f"{columns} x {rows} targets", seconds, f"{seconds / grid.size * 1e9:.0f} ns a target")
    full = STANCES[0]
    for count in (6, 12, len(full)):
        part = body.Capsules.of(
            full.start[:count], full.end[:count], full.radius[:count], full.limb[:count]
        )
        seconds = least_time(lambda part=part: cover_many(pucks, poses, part, GRID), 500)
        line(f"{count} segments (cover only)", seconds)


def memory() -> None:
    """Print what the largest batch keeps in memory."""
    pucks, poses = placements(BATCH)
    tracemalloc.start()
    goal_chance_many(pucks, poses, STANCES, GRID, MEN, speed=SPEED, change=DROP)
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    whole = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print("Memory")
    print(f"  arrays of a batch of {BATCH}: {most / 2**20:.1f} MiB; whole process {whole:.0f} MiB")


@numba.njit(fastmath=True, nogil=True)
def peak_kernel(x: np.ndarray, out: np.ndarray, rounds: int) -> None:
    """Multiply and add in four independent chains on data that stays in the nearest cache."""
    for _ in range(rounds):
        for i in range(x.shape[0]):
            v = x[i]
            a = v
            b = v + np.float32(1.0)
            c = v + np.float32(2.0)
            d = v + np.float32(3.0)
            for _ in range(16):
                a = a * v + b
                b = b * v + c
                c = c * v + d
                d = d * v + a
            out[i] = out[i] + a + b + c + d


def arithmetic(bare: float) -> None:
    """Print the operations a second against the peak of this machine, measured the same way."""
    x = np.linspace(0.0, 0.5, 1024).astype(np.float32)
    out = np.zeros(1024, np.float32)
    peak = 1024 * 16 * 8 * 100 / least_time(lambda: peak_kernel(x, out, 100))
    done = OPERATIONS * GRID.size * len(STANCES[0]) / bare
    print("Arithmetic limit")
    print(f"  kernel: {OPERATIONS} operations a target and segment, {done / 1e9:.0f} Gop/s")
    print(f"  multiply-add peak of one core, measured: {peak / 1e9:.0f} Gop/s "
          f"-> {done / peak:.0%} of it")  # fmt: skip
    print("  (a division and a root in each step take several times a multiply-add)")


def main() -> None:
    """Print every figure."""
    argparse.ArgumentParser(description=__doc__.splitlines()[0]).parse_args()
    print(f"{platform.machine()}, Python {platform.python_version()}, numba {numba.__version__}")
    if hasattr(os, "getloadavg"):
        print(f"load {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
    bare, moved = one_placement()
    against_others(bare, moved)
    batches()
    growth()
    memory()
    arithmetic(bare)


if __name__ == "__main__":
    main()
