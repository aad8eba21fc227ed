"""The chance of a goal from a shot: one placement with its maps, or thousands in one call."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tendline.base import InputError, Level, require_number
from tendline.body import Capsules
from tendline.ice import goal
from tendline.shot.constants import PUCK_THICKNESS
from tendline.shot.parameters import ShotParameters, shot_parameters
from tendline.sight.cover import (
    Bodies,
    axes_of,
    cover,
    cover_many,
    pair_rows,
    require_puck,
    run_blocks,
    usable_rows,
)
from tendline.sight.grid import MouthGrid, Singles, mouth_grid
from tendline.sight.reference import LIMBS

NEVER = 99.0
SLOWEST, FASTEST = 0.1, 100.0
LONGEST = 3600.0
BINS = 128


@dataclass(frozen=True, slots=True)
class GoalChance:
    """One shot. ``chance`` of a goal from a released shot, ``on_net`` the share of such shots
    that hit the mouth or her, ``by_target`` (rows, columns) the chance that a puck to that target
    goes in, ``aim`` (rows, columns) where the shooter aims (sums to 1)."""

    chance: float
    on_net: float
    by_target: Singles
    aim: Singles

    @property
    def chance_on_goal(self) -> float:
        """Return the chance of a goal from a shot on goal."""
        return self.chance / self.on_net if self.on_net > 0.0 else 0.0


@dataclass(frozen=True, slots=True)
class GoalChances:
    """Many shots: ``chance`` and ``on_net`` (m,); NaN where a placement has no answer."""

    chance: NDArray[np.float64]
    on_net: NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class _Room:
    """Working arrays of one thread."""

    flat: Singles
    gaps: Singles
    maps: Singles
    axes: Singles
    tables: Singles
    wide: Singles
    high: Singles

    @classmethod
    def of(cls, grid: MouthGrid, most: int) -> _Room:
        cells = len(grid.flat_y)
        longest = max(grid.columns, 2 * grid.rows, BINS)
        return cls(
            np.empty((5, cells), np.float32),
            np.empty((2, LIMBS, cells), np.float32),
            np.empty((4, grid.rows, grid.columns), np.float32),
            np.empty((most, 7), np.float32),
            np.empty((5, longest), np.float32),
            np.empty((grid.columns, grid.columns), np.float32),
            np.empty((grid.rows, grid.rows), np.float32),
        )


def aim_weights(aimed: NDArray[Any], reachable: NDArray[Any], looks: float) -> Singles:
    """Return how likely each aim (rows, columns) is when the best of ``looks`` places is taken.

    ``reachable`` says how far each aim counts among the places. Aims that are equally good share
    their weight.
    """
    values = aimed.ravel().astype(float)
    counts = np.asarray(reachable[: values.size], float)
    order = np.argsort(values, kind="stable")
    ranked, below = values[order], np.concatenate([[0.0], np.cumsum(counts[order])])
    upper = below[np.searchsorted(ranked, ranked, side="right")] / below[-1]
    lower = below[np.searchsorted(ranked, ranked, side="left")] / below[-1]
    part = counts[order] / (below[-1] * np.maximum(upper - lower, 1e-12))
    weights = np.zeros(values.size)
    weights[order] = (upper**looks - lower**looks) * part
    return weights.reshape(aimed.shape).astype(np.float32)


def plain_numbers(parameters: ShotParameters, grid: MouthGrid) -> Singles:
    """Return the vector of numbers that the kernel shares between placements."""
    plain = np.zeros(16, np.float32)
    plain[:15] = (
        parameters.reaction, parameters.reaction_spread, parameters.hidden, parameters.leak,
        parameters.clearance, parameters.body_speed, parameters.drag, parameters.gravity,
        parameters.aim_error, parameters.aim_floor, parameters.aim_looks, PUCK_THICKNESS.value,
        grid.width / grid.columns, grid.height / grid.rows, parameters.arc_most,
    )  # fmt: skip
    return plain


def _packed(bodies: tuple[Bodies, ...]) -> tuple[Singles, NDArray[Any], NDArray[Any]]:
    most = max(len(one.radius) for one in bodies)
    axes = np.zeros((len(bodies), most, 7), np.float32)
    limb = np.zeros((len(bodies), most), np.int64)
    counts = np.array([len(one.radius) for one in bodies], np.int64)
    for row, one in enumerate(bodies):
        own_axes, own_limb = axes_of(one)
        axes[row, : counts[row]] = own_axes
        limb[row, : counts[row]] = own_limb
    return axes, limb, counts


def _per_shot(name: str, value: ArrayLike, count: int, low: float, high: float = np.inf) -> Singles:
    given = np.asarray(value, dtype=np.float32)
    if given.shape not in ((), (count,)):
        raise InputError(
            f"{name} must be one number or one per placement",
            came=f"shape {given.shape}",
            allowed=f"() or ({count},)",
        )
    wrong = given[(given < low) | (given > high)]
    if wrong.size:
        raise InputError(
            f"{name} is out of range", came=f"{wrong.flat[0]:g}", allowed=f"{low:g} to {high:g}"
        )
    return np.ascontiguousarray(np.broadcast_to(given, (count,)))


def goal_chance(
    puck: ArrayLike,
    capsules: Bodies,
    grid: MouthGrid,
    parameters: ShotParameters,
    *,
    speed: float,
    delay: float = 0.0,
    hidden: float = 0.0,
    others: tuple[tuple[Bodies, float], ...] = (),
) -> GoalChance:
    """Return the goal chance of one shot, with the maps behind it.

    ``puck`` (3,) at release; ``capsules`` the goaltender as placed on the ice in the stance she
    holds; ``others`` further stances on the same place with the seconds that changing into each
    takes; ``speed`` of the puck (m/s); ``delay`` seconds added to her reaction (not set, late
    sight); ``hidden`` the share of such shots that she does not see at all. Raises ``InputError``
    for a puck that cannot be (see ``sight.cover``: on or behind the goal line, inside her) and for
    a speed, delay or share that is no number or out of range.
    """
    place = require_puck(puck, capsules)
    speed = require_number("puck speed", speed, low=SLOWEST, high=FASTEST, unit="m/s")
    delay = require_number("delay", delay, low=0.0, high=LONGEST, unit="s")
    hidden = require_number("hidden share", hidden, low=0.0, high=1.0, unit="")
    for _, wait in others:
        require_number("time to change stance", wait, low=0.0, high=LONGEST, unit="s")
    bodies = (capsules, *(one for one, _ in others))
    change = np.array([[0.0, *(wait for _, wait in others)]])
    room, chance, on_net = _run(
        place[None, :], np.zeros((1, 3)), bodies, grid, parameters, change=change,
        speed=speed, delay=delay, hidden=hidden, held=np.zeros(1, np.int64), threads=1,
    )  # fmt: skip
    by_target = room.maps[0].copy()
    aim = aim_weights(room.maps[2], room.flat[2], parameters.aim_looks)
    for array in (by_target, aim):
        array.flags.writeable = False
    return GoalChance(float(chance[0]), float(on_net[0]), by_target, aim)


def goal_chance_many(
    pucks: ArrayLike,
    poses: ArrayLike,
    bodies: tuple[Bodies, ...],
    grid: MouthGrid,
    parameters: ShotParameters,
    *,
    speed: ArrayLike,
    delay: ArrayLike = 0.0,
    hidden: ArrayLike = 0.0,
    held: ArrayLike = 0,
    change: ArrayLike | None = None,
    threads: int = 1,
) -> GoalChances:
    """Return the goal chance of many shots at once: the same formula, batched.

    ``pucks`` (m, 3) or (3,); ``poses`` (m, 3) or (3,) x, y, facing; ``bodies`` the stances in the
    body frame; ``held`` (m,) or one number: the stance she holds at release; ``change``
    (stances, stances) seconds from one stance into another (by default she stays in the one she
    holds; ``NEVER`` or more: not possible). ``speed``, ``delay``, ``hidden`` one number or (m,).

    One placement without an answer gives NaN in its own place and leaves the others alone: a NaN or
    infinity in it, a puck on or behind the goal line or below the ice, or a puck whose centre lies
    inside a segment of the stance she holds. The last happens with a puck released right beside
    her, as when a carrier skates up to her pad: she has it, or she must stand elsewhere. A puck
    that lies inside a stance she could only change into has an answer: she closes on it. Speeds,
    delays and shares out of range raise ``InputError``, as do shapes that do not fit.
    """
    shots, places = pair_rows(pucks, poses)
    count = len(shots)
    table = _change_table(change, len(bodies))
    holds = _held(held, count, len(bodies))
    _, chance, on_net = _run(
        shots, places, bodies, grid, parameters, change=table, speed=speed, delay=delay,
        hidden=hidden, held=holds, threads=threads,
    )  # fmt: skip
    return GoalChances(chance, on_net)


def _held(held: ArrayLike, count: int, stances: int) -> NDArray[np.int64]:
    """Return the stance that she holds in each placement (m,)."""
    given = np.asarray(held, dtype=float)
    right = np.isfinite(given) & (given == np.floor(given)) & (given >= 0) & (given < stances)
    if given.shape not in ((), (count,)) or not right.all():
        wrong = given[~right]
        raise InputError(
            "the stance she holds must be one of the bodies",
            came=f"{wrong.flat[0]:g}" if wrong.size else f"shape {given.shape}",
            allowed=f"whole numbers 0 to {stances - 1}, one or one per placement",
        )
    return np.ascontiguousarray(np.broadcast_to(given.astype(np.int64), (count,)))


def _change_table(change: ArrayLike | None, stances: int) -> NDArray[np.float64]:
    """Return the times between stances; by default she keeps the stance she holds."""
    if change is None:
        table = np.full((stances, stances), NEVER)
        np.fill_diagonal(table, 0.0)
        return table
    table = np.asarray(change, dtype=float)
    if table.shape != (stances, stances) or not (table >= 0.0).all():
        raise InputError(
            "change times need one row and column per stance, none negative",
            came=f"shape {table.shape}",
            allowed=f"({stances}, {stances}) seconds",
        )
    return table


def _run(
    pucks: NDArray[np.float64],
    poses: NDArray[np.float64],
    bodies: tuple[Bodies, ...],
    grid: MouthGrid,
    parameters: ShotParameters,
    *,
    change: NDArray[np.float64],
    speed: ArrayLike,
    delay: ArrayLike,
    hidden: ArrayLike,
    held: NDArray[np.int64],
    threads: int,
) -> tuple[_Room, NDArray[np.float64], NDArray[np.float64]]:
    from tendline.shot.kernel import goals_into

    count = len(pucks)
    axes, limb, counts = _packed(bodies)
    velocity = _per_shot("puck speed", speed, count, SLOWEST)
    late = _per_shot("delay", delay, count, 0.0)
    unseen = _per_shot("hidden share", hidden, count, 0.0, 1.0)
    usable = usable_rows(pucks, poses) & np.isfinite(velocity + late + unseen)
    shots = np.where(usable[:, None], pucks, 1.0).astype(np.float32)
    places = np.where(usable[:, None], poses, 0.0).astype(np.float32)
    velocity = np.where(usable, velocity, 1.0).astype(np.float32)
    late = np.where(usable, late, 0.0).astype(np.float32)
    unseen = np.where(usable, unseen, 0.0).astype(np.float32)
    chance = np.empty(count, np.float32)
    on_net = np.empty(count, np.float32)
    plain = plain_numbers(parameters, grid)
    table = np.ascontiguousarray(change, np.float32)

    rooms = []

    def work(first: int, last: int) -> None:
        room = _Room.of(grid, axes.shape[1])
        goals_into(
            first, last, shots, places, velocity, late, unseen, held, axes, limb, counts, table,
            parameters.limbs, plain, grid.flat_y, grid.flat_z, chance, on_net, room.flat,
            room.gaps, room.maps, room.axes, room.tables, room.wide, room.high,
        )  # fmt: skip
        rooms.append(room)

    run_blocks(work, count, threads)
    room = rooms[0]
    missing = np.where(usable, 0.0, np.nan)
    return room, chance.astype(np.float64) + missing, on_net.astype(np.float64) + missing


def warm_up() -> float:
    """Load the compiled kernels, compiling them on a fresh machine, and return the seconds it took.

    An app calls this in a thread at its start, so that the first question is as quick as the rest:
    about half a second from the cache, a few seconds the first time.
    """
    begun = time.perf_counter()
    ball = Capsules.of([[0.0, 0.0, 0.5]], [[0.0, 0.0, 0.6]], [0.2], [0])
    grid = mouth_grid(goal(), 4, 4)
    parameters = shot_parameters(Level.ADULT)
    goal_chance_many([5.0, 0.0, 0.01], [1.0, 0.0, 0.0], (ball,), grid, parameters, speed=20.0)
    cover([5.0, 0.0, 0.01], ball, grid)
    cover_many([5.0, 0.0, 0.01], [1.0, 0.0, 0.0], ball, grid)
    return time.perf_counter() - begun
