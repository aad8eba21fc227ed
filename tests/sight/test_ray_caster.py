"""Coverage against an independent ray caster (trimesh with embree) on a mesh of the body.

Expected values: other tool. The mesh of each stance is built once in the body frame and the rays
are carried into that frame, so this also checks the placing of bodies.
"""

from functools import lru_cache

import numpy as np
import pytest
import trimesh

from tendline import body, ice
from tendline.base import Level, Side
from tendline.sight import cover, mouth_grid
from tendline.sight.cover import puck_depth_inside

GRID = mouth_grid(ice.goal())
TOLERANCE = 0.005  # half a percentage point of the mouth
PLACEMENTS = {body.Stance.READY: 60, body.Stance.BUTTERFLY: 60}
OTHER_PLACEMENTS = 6


@lru_cache(maxsize=4)
def mesh_of(stance: body.Stance, hand: Side) -> trimesh.Trimesh:
    parts = body.capsules(goaltender(hand), stance)
    pieces = []
    for start, end, radius in zip(parts.start, parts.end, parts.radius, strict=True):
        length = float(np.linalg.norm(end - start))
        piece = trimesh.creation.capsule(height=length, radius=float(radius), count=(48, 48))
        if length > 1e-9:
            piece.apply_transform(trimesh.geometry.align_vectors([0, 0, 1], (end - start) / length))
        piece.apply_translation((start + end) / 2)
        pieces.append(piece)
    return trimesh.util.concatenate(pieces)


def goaltender(hand: Side) -> body.Build:
    return body.build_goaltender(stature=1.78, catching_hand=hand, level=Level.ADULT)


def cast_share(stance: body.Stance, hand: Side, pose: body.Pose, puck: np.ndarray) -> float:
    """Return the share of grid lines that hit the mesh before the mouth."""
    cosine, sine = np.cos(pose.facing), np.sin(pose.facing)
    turn = np.array([[cosine, sine, 0.0], [-sine, cosine, 0.0], [0.0, 0.0, 1.0]])
    shift = np.array([pose.x, pose.y, 0.0])
    origin = turn @ (puck - shift)
    ends = (GRID.points - shift) @ turn.T
    ways = ends - origin
    lengths = np.linalg.norm(ways, axis=1)
    origins = np.broadcast_to(origin, ways.shape)
    mesh = mesh_of(stance, hand)
    places, rays, _ = mesh.ray.intersects_location(
        origins, ways / lengths[:, None], multiple_hits=False
    )
    near = np.linalg.norm(places - origin, axis=1) <= lengths[rays]
    return float(len(np.unique(rays[near])) / len(ways))


@pytest.mark.parametrize("hand", list(Side), ids=lambda hand: f"catches {hand}")
@pytest.mark.parametrize("stance", list(body.Stance), ids=str)
def test_coverage_equals_a_ray_caster(stance: body.Stance, hand: Side) -> None:
    assert mesh_of(stance, hand).ray.__class__.__module__.endswith("ray_pyembree")
    rng = np.random.default_rng([list(body.Stance).index(stance), list(Side).index(hand)])
    done = 0
    while done < PLACEMENTS.get(stance, OTHER_PLACEMENTS):
        puck = np.array([rng.uniform(0.3, 18.0), rng.uniform(-10.0, 10.0), 0.0127])
        pose = body.Pose(
            rng.uniform(0.0, 1.8), rng.uniform(-0.8, 0.8), rng.uniform(-1.2, 1.2), stance
        )
        placed = body.posed(goaltender(hand), pose)
        if puck_depth_inside(puck, placed) > -0.02:
            continue
        done += 1
        seen = cover(puck, placed, GRID)
        assert abs(seen.share - cast_share(stance, hand, pose, puck)) <= TOLERANCE
