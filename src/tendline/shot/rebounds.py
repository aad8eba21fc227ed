"""Rebounds: which surface meets the puck, where it goes, and what a second shot then costs.

For every target that is saved, the capsule nearest to the line meets the puck. A line that meets
her bounces off the curved surface it hits; one that a limb reaches meets a surface set square to
the puck and steered outward. A share is held, the rest bounces with the surface's restitution and
slides to a stop on the ice. Attackers reach a loose puck the more often the nearer to the goal it
lies; their shot meets her down, still moving, and as far across as the time lets her get. Surfaces,
steering and who gets there first are assumptions; the totals are checked against published rates.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tendline.base import DEFAULT_SETTINGS, Level, Settings, ShotType
from tendline.body import Build, Pose, Stance, capsules, posed
from tendline.shot import constants as known
from tendline.shot.chance import GoalChance, goal_chance, goal_chance_many
from tendline.shot.parameters import ShotParameters, puck_speed
from tendline.shot.reference import blur_matrices
from tendline.sight.cover import Bodies
from tendline.sight.grid import Floats, MouthGrid
from tendline.sight.reference import nearest_points

LEAST = 1e-9


@dataclass(frozen=True, slots=True)
class SurfaceShare:
    """Share of shots on goal that one surface meets, and of those the share held."""

    surface: str
    met: float
    held: float


@dataclass(frozen=True, slots=True)
class Rebounds:
    """What follows a shot on goal.

    ``goal``, ``held`` and ``loose`` share it out (sum 1); ``surfaces`` say who met it, the largest
    first; ``places`` (n, 2) where loose pucks lie at the time of a second shot, with ``weights``
    (n,) summing to ``loose``; ``second_shot`` the share of shots on goal that attackers shoot
    again; ``second_chance`` the goal chance of such a second shot on goal, (n,) by place and in
    the mean ``second_goal``.
    """

    goal: float
    held: float
    loose: float
    surfaces: tuple[SurfaceShare, ...]
    places: Floats
    weights: Floats
    second_shot: float
    second_goal: float
    second_chance: Floats


def rebounds(
    puck: ArrayLike,
    her: Build,
    pose: Pose,
    grid: MouthGrid,
    parameters: ShotParameters,
    *,
    speed: float,
    delay: float = 0.0,
    others: tuple[tuple[Bodies, float], ...] = (),
    level: Level | None = None,
    settings: Settings = DEFAULT_SETTINGS,
) -> Rebounds:
    """Return where the puck goes after a shot at a goaltender in ``pose``, and what follows.

    ``others`` are stances she may change into, as in ``goal_chance``. ``level`` decides how hard
    the second shot is; by default the level of ``parameters``. Raises as ``goal_chance`` does.
    """
    placed = posed(her, pose)
    place = np.asarray(puck, float)
    first = goal_chance(place, placed, grid, parameters, speed=speed, delay=delay, others=others)
    landing = landing_share(place, first, grid, parameters)
    saved = (landing * (1.0 - first.by_target)).ravel()
    contact = contacts(place, placed, grid)
    surface = np.array([known.SURFACES[limb] for limb in contact.limb])
    held_share = np.array([settings.value_of(known.HELD[name]) for name in surface])
    loose = saved * (1.0 - held_share)
    ends = resting_places(place, contact, surface, speed, pose, settings)
    second, chances = _second_shots(
        ends, loose, her, pose, grid, parameters, level or parameters.level, settings
    )
    total = float(second.sum())
    return Rebounds(
        goal=float(1.0 - saved.sum()),
        held=float((saved * held_share).sum()),
        loose=float(loose.sum()),
        surfaces=_by_surface(surface, saved, held_share),
        places=ends,
        weights=loose,
        second_shot=total,
        second_goal=float(np.nansum(second * chances) / total) if total > LEAST else math.nan,
        second_chance=chances,
    )


def landing_share(
    puck: Floats, first: GoalChance, grid: MouthGrid, parameters: ShotParameters
) -> Floats:
    """Return the share (rows, columns) of shots on goal that go to each target."""
    across, up = blur_matrices(puck, grid, parameters)
    share = up.T @ np.asarray(first.aim, float) @ across
    return np.asarray(share / share.sum())


@dataclass(frozen=True, slots=True)
class Contacts:
    """Where each line meets her: ``limb`` (m,), ``point`` and surface ``normal`` (m, 3), and
    whether the line met her as she stood (``met``) or a limb had to reach."""

    limb: NDArray[np.intp]
    point: Floats
    normal: Floats
    met: NDArray[np.bool_]


def contacts(puck: Floats, placed: Bodies, grid: MouthGrid) -> Contacts:
    """Return the contact of every line with its nearest capsule."""
    start, end = np.asarray(placed.start, float), np.asarray(placed.end, float)
    radius, limb = np.asarray(placed.radius, float), np.asarray(placed.limb, np.intp)
    targets = grid.points
    near = nearest_points(puck, targets, start, end)
    best = np.argmin(near.distance - radius, axis=1)
    rows = np.arange(len(targets))
    apart, along = near.distance[rows, best], near.along[rows, best]
    way = targets - puck
    unit = way / np.linalg.norm(way, axis=1, keepdims=True)
    axis = end[best] - start[best]
    length = np.maximum(np.linalg.norm(axis, axis=1, keepdims=True), LEAST)
    slant = np.sqrt(np.maximum(1.0 - ((axis / length) * unit).sum(1) ** 2, 0.05))
    back = np.sqrt(np.maximum(radius[best] ** 2 - apart**2, 0.0)) / slant
    point = puck + along[:, None] * way - back[:, None] * unit
    share = np.clip(((point - start[best]) * axis).sum(1) / length[:, 0] ** 2, 0.0, 1.0)
    normal = point - (start[best] + share[:, None] * axis)
    normal /= np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), LEAST)
    met = apart <= radius[best]
    return Contacts(limb[best], point, np.where(met[:, None], normal, -unit), met)


def resting_places(
    puck: Floats,
    contact: Contacts,
    surface: NDArray[np.str_],
    speed: float,
    pose: Pose,
    settings: Settings = DEFAULT_SETTINGS,
) -> Floats:
    """Return where a loose puck lies (m, 2) when a second shot could come.

    The speed into the surface comes back with its restitution, that along it is kept in part; the
    normal is steered outward from her middle on the ice plane. Then friction, until
    ``shot.second_time`` has passed or the puck has stopped.
    """
    of = settings.value_of
    bounce = np.array([of(known.RESTITUTION[name]) for name in surface])
    steer = np.array([of(known.STEERING[name]) for name in surface])
    way = contact.point - puck
    unit = way / np.linalg.norm(way, axis=1, keepdims=True)
    left = np.array([-math.sin(pose.facing), math.cos(pose.facing)])
    side = np.sign((contact.point[:, :2] - [pose.x, pose.y]) @ left)
    turn = steer * side
    normal = contact.normal.copy()
    cosine, sine = np.cos(turn), np.sin(turn)
    normal[:, 0] = cosine * contact.normal[:, 0] - sine * contact.normal[:, 1]
    normal[:, 1] = sine * contact.normal[:, 0] + cosine * contact.normal[:, 1]
    into = np.minimum((unit * normal).sum(1), 0.0)[:, None] * normal
    out = speed * (of(known.GLANCE) * (unit - into) - bounce[:, None] * into)[:, :2]
    pace = np.linalg.norm(out, axis=1)
    slowing = of(known.FRICTION) * of(known.GRAVITY)
    time = np.minimum(of(known.SECOND_TIME), pace / slowing)
    travel = pace * time - 0.5 * slowing * time**2
    return np.asarray(contact.point[:, :2] + out * (travel / np.maximum(pace, LEAST))[:, None])


def _by_surface(surface: NDArray[np.str_], saved: Floats, held: Floats) -> tuple[SurfaceShare, ...]:
    found = []
    for name in dict.fromkeys(known.SURFACES):
        rows = surface == name
        met = float(saved[rows].sum())
        if met > LEAST:
            found.append(SurfaceShare(name, met, float((saved * held)[rows].sum() / met)))
    return tuple(sorted(found, key=lambda one: -one.met))


def _second_shots(
    ends: Floats,
    loose: Floats,
    her: Build,
    pose: Pose,
    grid: MouthGrid,
    parameters: ShotParameters,
    level: Level,
    settings: Settings,
) -> tuple[Floats, Floats]:
    """Return the share of first shots shot again from each place, and the goal chance there."""
    of = settings.value_of
    away = np.hypot(ends[:, 0], ends[:, 1])
    reached = of(known.SECOND_REACH) * np.exp(-away / of(known.SECOND_SCALE))
    in_front = ends[:, 0] > 0.1
    second = np.where(in_front, loose * reached, 0.0)
    down = (capsules(her, Stance.BUTTERFLY),)
    poses = _across(ends, pose, parameters, settings)
    pucks = np.column_stack([ends, np.full(len(ends), known.PUCK_THICKNESS.value / 2)])
    found = goal_chance_many(
        pucks, poses, down, grid, parameters,
        speed=puck_speed(level, ShotType.SNAP, settings) * of(known.SECOND_PACE),
        delay=of(known.SECOND_DELAY),
    )  # fmt: skip
    chances = found.chance / found.on_net
    known_chance = np.isfinite(chances)
    return np.where(known_chance, second, 0.0), np.where(known_chance, chances, np.nan)


def _across(ends: Floats, pose: Pose, parameters: ShotParameters, settings: Settings) -> Floats:
    """Return her poses (n, 3) at the second shot: as far toward the new line as time lets her."""
    spare = max(settings.value_of(known.SECOND_TIME) - 2.0 * parameters.reaction, 0.0)
    most = parameters.body_speed * spare / 2.0  # from rest: half the top speed on the way
    away = np.maximum(np.hypot(ends[:, 0], ends[:, 1]), LEAST)
    foot = (ends @ np.array([pose.x, pose.y])) / away
    keep = np.clip(foot, 0.0, 0.5 * away)
    wanted = ends * (keep / away)[:, None]
    step = wanted - [pose.x, pose.y]
    size = np.maximum(np.linalg.norm(step, axis=1), LEAST)
    moved = np.array([pose.x, pose.y]) + step * np.minimum(most / size, 1.0)[:, None]
    look = np.arctan2(ends[:, 1] - moved[:, 1], ends[:, 0] - moved[:, 0])
    turn = look - pose.facing
    turn -= 2.0 * math.pi * np.round(turn / (2.0 * math.pi))  # the short way round
    swing = np.clip(turn, -0.6, 0.6)  # on her knees she turns only so far
    return np.column_stack([np.maximum(moved[:, 0], 0.05), moved[:, 1], pose.facing + swing])
