"""What a shot on goal from a place costs in an ordinary game, when nothing else is known.

The goaltender is mostly set where tracked goaltenders stand, and for a share of shots she is met
off the spot: the pass, the rebound or the scramble before has moved the puck faster than her.
That share falls with distance and grows toward the goal line's sides. Its size and the few
numbers of the save itself are fitted on published tables (``studies/calibration``).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tendline.base import DEFAULT_SETTINGS, Level, Settings, Sex, ShotType, build, parameter
from tendline.body import Build, Stance, build_goaltender, capsules, post_pose, stature_at
from tendline.ice import Goal, goal
from tendline.shot import constants as known
from tendline.shot.chance import NEVER, goal_chance_many
from tendline.shot.parameters import ShotParameters, puck_speed, shot_parameters
from tendline.sight.grid import MouthGrid, mouth_grid

Floats = NDArray[np.float64]

PUCK_HEIGHT = known.PUCK_THICKNESS.value / 2
FRONT = (Stance.READY, Stance.BUTTERFLY)
POST = (Stance.VH_LEFT, Stance.REVERSE_VH_LEFT)
POST_ANGLE = math.radians(50.0)
POST_DISTANCE = 8.0
MAN, WOMAN, GROWN = 1.84, 1.68, 18.0


@dataclass(frozen=True, slots=True, kw_only=True)
class OrdinaryPlay:
    """Where she is met and how hard is shot in an ordinary game; metres, seconds, shares."""

    depth: float = parameter(known.ORDINARY_DEPTH)
    depth_slope: float = parameter(known.ORDINARY_DEPTH_SLOPE)
    depth_most: float = parameter(known.ORDINARY_DEPTH_MOST)
    depth_wide: float = parameter(known.ORDINARY_DEPTH_WIDE)
    room: float = parameter(known.ORDINARY_ROOM)
    off_line: float = parameter(known.ORDINARY_OFF_LINE)
    pace_near: float = parameter(known.PACE_NEAR)
    pace_full: float = parameter(known.PACE_FULL)
    pace_least: float = parameter(known.PACE_LEAST)
    off_spot_near: float = parameter(known.OFF_SPOT_NEAR)
    off_spot_far: float = parameter(known.OFF_SPOT_FAR)
    off_spot_scale: float = parameter(known.OFF_SPOT_SCALE)
    off_spot_sharp: float = parameter(known.OFF_SPOT_SHARP)
    off_spot_distance: float = parameter(known.OFF_SPOT_DISTANCE)
    off_spot_delay: float = parameter(known.OFF_SPOT_DELAY)

    def depth_at(self, distance: Floats, angle: Floats) -> Floats:
        """Return her ordinary depth (m) with the puck this far and this far round (rad)."""
        depth = np.minimum(self.depth + self.depth_slope * distance, self.depth_most)
        depth = depth * (1.0 - self.depth_wide * (np.abs(angle) / (math.pi / 2)) ** 2)
        return np.asarray(np.clip(depth, 0.0, np.maximum(distance - self.room, 0.1)))

    def off_spot_at(self, distance: Floats, angle: Floats) -> Floats:
        """Return the share of shots met off the spot."""
        share = self.off_spot_far + (self.off_spot_near - self.off_spot_far) * np.exp(
            -distance / self.off_spot_scale
        )
        sharp = self.off_spot_sharp * (np.abs(angle) / (math.pi / 2)) ** 2
        return np.asarray(np.clip(share + sharp, 0.0, 0.95))

    def pace_at(self, distance: Floats) -> Floats:
        """Return the speed of shots from this far over the level's usual speed."""
        part = np.minimum(distance / self.pace_full, 1.0)
        return np.asarray(self.pace_near + (1.0 - self.pace_near) * part)

    def speed_at(self, distance: Floats, usual: float) -> Floats:
        """Return the speed of shots from this far (m/s) where the ``usual`` speed is this."""
        return np.asarray(np.maximum(usual * self.pace_at(distance), min(self.pace_least, usual)))


@dataclass(frozen=True, slots=True)
class OrdinaryChance:
    """Goal chance of a shot on goal (m,): in all, when she is set, when she is met off the spot,
    and the share of shots met so; NaN behind the goal line."""

    chance: Floats
    set_chance: Floats
    off_spot_chance: Floats
    off_spot_share: Floats
    on_net: Floats


def usual_build(level: Level) -> Build:
    """Return the goaltender assumed at a level when none is named.

    Elite ones at the tracked game's usual stature, children at the middle stature of their age
    (girls and boys), grown ones as ``build_goaltender`` makes them.
    """
    if level is Level.MEN_ELITE:
        return build_goaltender(stature=MAN, level=level)
    if level is Level.WOMEN_ELITE:
        return build_goaltender(stature=WOMAN, level=level)
    age = known.AGE_OF_LEVEL[level]
    if age < GROWN:
        stature = (stature_at(age, Sex.FEMALE) + stature_at(age, Sex.MALE)) / 2
        return build_goaltender(stature=stature, level=level)
    return build_goaltender(level=level)


def _best_hold(
    pucks: Floats, poses: Floats, stances: tuple[Stance, ...], her: Build, grid: MouthGrid,
    parameters: ShotParameters, *, speed: Floats, delay: float, drop: float, threads: int,
) -> tuple[Floats, Floats]:  # fmt: skip
    """Return the goal chance of a shot on goal in the best stance to be met in, and on net."""
    bodies = tuple(capsules(her, one) for one in stances)
    change = np.full((len(stances), len(stances)), NEVER)
    np.fill_diagonal(change, 0.0)
    if stances == FRONT:
        change[0, 1] = drop
    found, hit = [], []
    for held in range(len(stances)):
        one = goal_chance_many(
            pucks, poses, bodies, grid, parameters, speed=speed, delay=delay, held=held,
            change=change, threads=threads,
        )  # fmt: skip
        found.append(one.chance / one.on_net)
        hit.append(one.on_net)
    best = np.fmin.reduce(np.stack(found))
    return best, np.fmax.reduce(np.stack(hit))


def ordinary_chance(
    x: ArrayLike,
    y: ArrayLike,
    *,
    level: Level = Level.MEN_ELITE,
    her: Build | None = None,
    play: OrdinaryPlay | None = None,
    parameters: ShotParameters | None = None,
    grid: MouthGrid | None = None,
    mouth: Goal | None = None,
    settings: Settings = DEFAULT_SETTINGS,
    shot_type: ShotType = ShotType.WRIST,
    drop: float = known.DROP_TIME.value,
    threads: int = 1,
) -> OrdinaryChance:
    """Return the goal chance of shots on goal from places ``x``, ``y`` (m,) in ordinary play.

    Places on or behind the goal line, and places that are not finite, give NaN. Both sides of the
    ice and both hands count alike.
    """
    her = usual_build(level) if her is None else her
    play = build(OrdinaryPlay, settings) if play is None else play
    parameters = shot_parameters(level, settings) if parameters is None else parameters
    mouth = goal() if mouth is None else mouth
    grid = mouth_grid(mouth) if grid is None else grid
    px, py = np.broadcast_arrays(np.asarray(x, float), np.asarray(y, float))
    shape = px.shape
    px, py = px.ravel(), np.abs(py.ravel())
    count = len(px)
    distance, angle = np.hypot(px, py), np.arctan2(py, px)
    depth = play.depth_at(distance, angle)
    speed = play.speed_at(distance, puck_speed(level, shot_type, settings))
    base = np.stack([depth * np.cos(angle), depth * np.sin(angle)], axis=1)
    across = np.stack([-np.sin(angle), np.cos(angle)], axis=1)

    def met(off: float, delay: float, sides: tuple[float, ...]) -> tuple[Floats, Floats]:
        total, hits = np.zeros(count), np.zeros(count)
        for mirror in (1.0, -1.0):  # the shot from the other side of the ice
            pucks = np.stack([px, mirror * py, np.full(count, PUCK_HEIGHT)], axis=1)
            for side in sides:
                place = base + side * off * across
                poses = np.stack([place[:, 0], mirror * place[:, 1], mirror * angle], axis=1)
                poses[:, 0] = np.maximum(poses[:, 0], 0.05)
                chance, hit = _best_hold(
                    pucks, poses, FRONT, her, grid, parameters, speed=speed, delay=delay,
                    drop=drop, threads=threads,
                )  # fmt: skip
                total += chance
                hits += hit
        return total / (2 * len(sides)), hits / (2 * len(sides))

    set_chance, on_net = met(play.off_line, 0.0, (-1.0, 1.0))
    set_chance = np.fmin(set_chance, _on_post(px, py, her, mouth, grid, parameters, speed, drop))
    off_chance, _ = met(play.off_spot_distance, play.off_spot_delay, (-1.0, 1.0))
    share = play.off_spot_at(distance, angle)
    chance = (1.0 - share) * set_chance + share * np.fmax(off_chance, set_chance)
    nowhere = ~(np.isfinite(chance) & (px > 0.0))
    for one in (chance, set_chance, off_chance, on_net):
        one[nowhere] = np.nan
    return OrdinaryChance(
        *(one.reshape(shape) for one in (chance, set_chance, off_chance, share, on_net))
    )


def _on_post(
    px: Floats, py: Floats, her: Build, mouth: Goal, grid: MouthGrid, parameters: ShotParameters,
    speed: Floats, drop: float,
) -> Floats:  # fmt: skip
    """Return the goal chance of sharp-angle shots when she seals the near post, else infinity."""
    best = np.full(len(px), np.inf)
    sharp = (np.arctan2(py, px) > POST_ANGLE) & (np.hypot(px, py) < POST_DISTANCE)
    if not sharp.any():
        return best
    for left in POST:
        sums = np.zeros(int(sharp.sum()))
        for mirror, stance in ((1.0, left), (-1.0, left.mirrored)):
            pose = post_pose(her, stance, mouth)
            pucks = np.stack(
                [px[sharp], mirror * py[sharp], np.full(len(sums), PUCK_HEIGHT)], axis=1
            )
            chance, _ = _best_hold(
                pucks, np.array([pose.x, pose.y, pose.facing]), (stance,), her, grid, parameters,
                speed=speed[sharp], delay=0.0, drop=drop, threads=1,
            )  # fmt: skip
            sums += chance / 2
        best[sharp] = np.fmin(best[sharp], sums)
    return best
