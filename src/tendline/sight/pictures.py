"""Pictures as exact outlines: the goal past her as the puck sees it, the puck as she sees it.

Plane coordinates are tangents of angles from the view axis: the first to the viewer's right, the
second up. Outlines come farthest first, so that drawing them in order hides what is hidden.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import ArrayLike

from tendline.base import InputError
from tendline.body import Limb
from tendline.sight.constants import PUCK_DIAMETER, PUCK_THICKNESS
from tendline.sight.cover import Bodies, require_puck
from tendline.sight.grid import Floats, Mouth
from tendline.sight.shadow import Camera, Ring, camera_towards, capsule_shadow, rings_of

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

POST_RADIUS = 0.03


@dataclass(frozen=True, slots=True)
class Outline:
    """One piece seen from a point: who or what, which limb and part (-1 if none), how far (m)."""

    name: str
    limb: int
    part: int
    distance: float
    rings: tuple[Ring, ...]


@dataclass(frozen=True, slots=True)
class PuckEye:
    """What the puck sees: the mouth as a ring, posts and crossbar, and her pieces, far ones first.

    ``width`` and ``height`` are the extent of the mouth in plane coordinates.
    """

    mouth: Ring
    frame: tuple[Outline, ...]
    outlines: tuple[Outline, ...]
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class View:
    """What she sees of a puck: the share of it hidden, by whom, and the outlines.

    ``by_whom`` gives for each body the share of the puck that it alone would hide; their sum may
    pass ``hidden_share`` where bodies overlap.
    """

    hidden_share: float
    by_whom: dict[str, float]
    puck: tuple[Ring, ...]
    outlines: tuple[Outline, ...]
    distance: float


def _pieces(camera: Camera, name: str, capsules: Bodies) -> list[Outline]:
    """Return one outline per part of a body (or per limb, if parts are not told apart)."""
    import shapely

    parts = np.asarray(getattr(capsules, "part", capsules.limb))
    made = []
    for part in np.unique(parts):
        members = np.flatnonzero(parts == part)
        shapes = [_one(camera, capsules, n) for n in members]
        middle = (capsules.start[members] + capsules.end[members]) / 2
        rings = rings_of(shapely.union_all(shapes))
        if rings:
            away = float(np.linalg.norm(middle - camera.eye, axis=1).mean())
            made.append(Outline(name, int(capsules.limb[members[0]]), int(part), away, rings))
    return made


def _one(camera: Camera, capsules: Bodies, n: Any) -> BaseGeometry:
    return capsule_shadow(
        camera,
        np.asarray(capsules.start[n], float),
        np.asarray(capsules.end[n], float),
        float(capsules.radius[n]),
    )


def goal_frame(goal: Mouth) -> tuple[tuple[str, Floats, Floats, float], ...]:
    """Return posts and crossbar as (name, start, end, radius), outside the opening."""
    radius = float(getattr(goal, "post_diameter", 2 * POST_RADIUS)) / 2
    side, top = goal.width / 2 + radius, goal.height + radius
    left, right = np.array([0.0, side, top]), np.array([0.0, -side, top])
    ground = np.array([1.0, 1.0, 0.0])
    return (
        ("left post", left * ground, left, radius),
        ("right post", right * ground, right, radius),
        ("crossbar", right, left, radius),
    )


def puck_eye(puck: ArrayLike, capsules: Bodies, goal: Mouth) -> PuckEye:
    """Return the goal and the goaltender as the puck sees them, looking at the goal's middle.

    Her left (+y) is on the viewer's right. Raises :class:`InputError` for a puck that cannot be.
    """
    place = require_puck(puck, capsules)
    camera = camera_towards(place, np.array([0.0, 0.0, goal.height / 2]))
    half = goal.width / 2
    corners = np.array(
        [[0, -half, 0], [0, half, 0], [0, half, goal.height], [0, -half, goal.height]], float
    )
    flat = camera.flat(corners)
    frame = tuple(
        Outline(name, -1, -1, float(np.linalg.norm((a + b) / 2 - place)),
                rings_of(capsule_shadow(camera, a, b, radius)))
        for name, a, b, radius in goal_frame(goal)
    )  # fmt: skip
    pieces = sorted(_pieces(camera, "goaltender", capsules), key=lambda one: -one.distance)
    low, high = flat.min(axis=0), flat.max(axis=0)
    return PuckEye(
        tuple((float(a), float(b)) for a, b in flat), frame, tuple(pieces),
        float(high[0] - low[0]), float(high[1] - low[1]),
    )  # fmt: skip


def eye_of(capsules: Bodies) -> Floats:
    """Return where a placed goaltender looks from: the middle of her head (3,).

    Raises :class:`InputError` if the body has no head.
    """
    members = np.flatnonzero(np.asarray(capsules.limb) == int(Limb.HEAD))
    if not members.size:
        raise InputError("a body without a head sees nothing", came="no capsule of the head")
    middle = (capsules.start[members] + capsules.end[members]) / 2
    return np.asarray(middle.mean(axis=0), float)


def puck_rims(puck: Floats) -> Floats:
    """Return points (k, 3) on the upper and lower rim of a flat puck centred at ``puck``."""
    turn = 2.0 * np.pi * np.arange(48) / 48
    radius, half = PUCK_DIAMETER.value / 2, PUCK_THICKNESS.value / 2
    ring = np.column_stack([radius * np.cos(turn), radius * np.sin(turn), np.zeros(48)])
    lift = np.array([0.0, 0.0, half])
    return np.concatenate([puck + ring + lift, puck + ring - lift])


def goaltender_eye(eye: ArrayLike, puck: ArrayLike, bodies: Mapping[str, Bodies]) -> View:
    """Return what is hidden of the puck, seen from ``eye`` (3,), by the named placed ``bodies``.

    Only bodies nearer than the puck count. Raises :class:`InputError` when eye and puck coincide,
    are not finite, or the eye lies inside one of the bodies.
    """
    import shapely
    from shapely.geometry import MultiPoint

    place, spot = _sight_line(eye, puck)
    away = float(np.linalg.norm(spot - place))
    camera = camera_towards(place, spot)
    disc = MultiPoint(camera.flat(puck_rims(spot))).convex_hull
    pieces: list[Outline] = []
    shapes: dict[str, BaseGeometry] = {}
    for name, capsules in bodies.items():
        _require_eye_outside(place, name, capsules)
        pieces.extend(_pieces(camera, name, capsules))
        nearer = [n for n in range(len(capsules.radius)) if _before(place, spot, away, capsules, n)]
        shapes[name] = shapely.union_all([_one(camera, capsules, n) for n in nearer])
    whole = disc.area
    by_whom = {name: float(disc.intersection(shape).area / whole) for name, shape in shapes.items()}
    hidden = disc.intersection(shapely.union_all(list(shapes.values()))).area / whole
    pieces.sort(key=lambda one: -one.distance)
    return View(min(float(hidden), 1.0), by_whom, rings_of(disc), tuple(pieces), away)


def _before(place: Floats, spot: Floats, away: float, capsules: Bodies, n: int) -> bool:
    """Return whether a segment's middle is nearer along the view than the puck."""
    middle = (np.asarray(capsules.start[n]) + np.asarray(capsules.end[n])) / 2
    return bool((middle - place) @ (spot - place) / away < away)


def _sight_line(eye: ArrayLike, puck: ArrayLike) -> tuple[Floats, Floats]:
    place, spot = np.asarray(eye, float), np.asarray(puck, float)
    for item, value in (("eye", place), ("puck", spot)):
        if value.shape != (3,) or not np.isfinite(value).all():
            raise InputError(
                "a line of sight needs three finite coordinates at both ends",
                came=np.array2string(value, precision=3), item=item,
            )  # fmt: skip
    if float(np.linalg.norm(spot - place)) < PUCK_DIAMETER.value:
        raise InputError("eye and puck are at the same place", came=f"{spot}", item="eye")
    return place, spot


def _require_eye_outside(place: Floats, name: str, capsules: Bodies) -> None:
    from tendline.sight.cover import puck_depth_inside

    if len(capsules.radius) and puck_depth_inside(place, capsules) > 0.0:
        raise InputError(
            "her eyes lie inside another body", came=f"{name}",
            hint="Leave her own body out and keep skaters apart from her.", item=name,
        )  # fmt: skip
