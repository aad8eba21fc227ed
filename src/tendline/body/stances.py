"""The stances, each as joints of a posture. Body frame; left-handed catcher; metres, degrees.

Places are given as shares of stature, from the ice upward; what no page publishes (how wide, how
far back) is chosen so that published angles hold and the picture reads as a goaltender in gear.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from tendline.body.build import Build
from tendline.body.skeleton import (
    AHEAD,
    LEFTWARD,
    TOE_SHARE,
    Skeleton,
    Stick,
    Torso,
    Vector,
    assemble,
    closed_knee,
    knee_on_ice,
    kneeling_leg,
    kneeling_pelvis,
    standing_leg,
    stick_from,
    vector,
)
from tendline.body.types import Stance


@dataclass(frozen=True, slots=True, kw_only=True)
class Upright:
    """A posture on both skates: half width in metres, places in shares of stature, degrees."""

    half_width: float
    pelvis_back: float
    knee_flexion: float
    trunk_forward: float
    toe_out: float
    stick_back: float = 0.0
    stick_lean: tuple[float, float, float] = (-0.06, -0.46, 0.88)


def _at(build: Build, x: float, y: float, z: float) -> Vector:
    """Return a place given in shares of stature above the skates."""
    return vector(x * build.stature, y * build.stature, z * build.stature + build.skate_height)


def _ankle(build: Build, x: float, y: float) -> Vector:
    return vector(x * build.stature, y * build.stature, build.ankle_height + build.skate_height)


def _blade_x(build: Build, toe_out: float) -> float:
    """Return how far out the blade lies: the published distance ahead of the skates."""
    toe = TOE_SHARE * build.foot * math.cos(math.radians(toe_out)) + build.skate_radius
    return toe + build.stick_ahead + 0.5 * build.blade_width


def _front_stick(build: Build, x: float, *, lean: Vector, heel_y: float) -> Stick:
    heel = vector(x, heel_y * build.blade, 0.5 * build.blade_width)
    return stick_from(build, heel, lean, blade_toward=LEFTWARD)


def _upright_pelvis(build: Build, shape: Upright) -> Vector:
    """Return the pelvis whose height gives the wanted knee flexion (law of cosines)."""
    inside = math.pi - math.radians(shape.knee_flexion)
    reach = math.sqrt(
        build.thigh**2 + build.shank**2 - 2.0 * build.thigh * build.shank * math.cos(inside)
    )
    back = shape.pelvis_back * build.stature
    aside = shape.half_width - 0.5 * build.hip_breadth
    rise = math.sqrt(reach**2 - back**2 - aside**2)
    return vector(-back, 0.0, build.ankle_height + build.skate_height + rise)


def _ready(build: Build) -> Skeleton:
    shape = Upright(
        half_width=build.half_width, pelvis_back=0.10, knee_flexion=build.knee_flexion,
        trunk_forward=build.trunk_flexion, toe_out=12.0,
    )  # fmt: skip
    return _on_skates(build, shape)


def _narrow(build: Build) -> Skeleton:
    shape = Upright(
        half_width=build.narrow_half_width, pelvis_back=0.08, knee_flexion=0.7 * build.knee_flexion,
        trunk_forward=0.8 * build.trunk_flexion, toe_out=6.0, stick_back=0.12,
        stick_lean=(-0.02, -0.36, 0.93),
    )  # fmt: skip
    return _on_skates(build, shape)


def _on_skates(build: Build, shape: Upright, lean: float = 0.0) -> Skeleton:
    pelvis = _upright_pelvis(build, shape)
    torso = Torso(pelvis=pelvis, forward=shape.trunk_forward, left=lean)
    legs = [
        standing_leg(
            build, pelvis, side, _ankle(build, 0.0, side * shape.half_width / build.stature),
            pole=vector(1.0, -0.12 * side, 0.1), toe_out=shape.toe_out,
        )
        for side in (1.0, -1.0)
    ]  # fmt: skip
    stick = _front_stick(
        build, _blade_x(build, shape.toe_out) - shape.stick_back * build.stature,
        lean=vector(*shape.stick_lean), heel_y=-0.38,
    )  # fmt: skip
    hand_z = float(stick.hand[2])
    glove = vector(float(stick.hand[0]) - 0.01, build.hands_out, hand_z + 0.02)
    return assemble(
        build, torso, legs[0], legs[1], stick, glove=glove,
        glove_axis=vector(0.15, 0.55, 0.83), blocker_axis=vector(-0.1, -0.35, 0.93),
    )  # fmt: skip


def _butterfly(build: Build) -> Skeleton:
    return _kneeling(build, forward=build.butterfly_trunk)


def _kneeling(
    build: Build, *, forward: float, lean: float = 0.0, stick: Stick | None = None
) -> Skeleton:
    flare = build.butterfly_flare
    aside = closed_knee(build, flare)
    knees = [vector(0.0, side * aside, knee_on_ice(build)) for side in (1.0, -1.0)]
    pelvis = kneeling_pelvis(build, 1.0, knees[0], x=-0.09 * build.stature, y=0.0)
    torso = Torso(pelvis=pelvis, forward=forward, left=lean)
    left = kneeling_leg(build, pelvis, 1.0, knees[0], flare=flare)
    right = kneeling_leg(build, pelvis, -1.0, knees[1], flare=flare)
    held = stick or _front_stick(
        build, 0.27 * build.stature, lean=vector(-0.42, -0.46, 0.78), heel_y=-0.38
    )
    hand_z = max(float(held.hand[2]), 0.27 * build.stature)
    glove = vector(0.15 * build.stature, 0.95 * build.hands_out, hand_z)
    return assemble(
        build, torso, left, right, held, glove=glove, glove_axis=vector(0.1, 0.55, 0.83),
        blocker_axis=vector(-0.1, -0.45, 0.88),
    )  # fmt: skip


def _paddle_down(build: Build) -> Skeleton:
    size = build.stature
    hand = vector(0.19 * size, -0.25 * size, 0.06 * size)
    heel = vector(float(hand[0]) + 0.02 * size, float(hand[1]) + build.paddle, 0.0)
    heel[2] = 0.5 * build.blade_width
    stick = stick_from(build, heel, hand - heel, blade_toward=AHEAD + 0.8 * LEFTWARD)
    return _kneeling(build, forward=52.0, lean=-18.0, stick=stick)


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """A posture with one knee down (``side`` +1 left, -1 right); shares of stature and degrees.

    ``knee`` and ``foot`` are mirrored with the side: their second number is the distance out to
    that leg's own side. ``lean`` is toward the knee that is down.
    """

    side: float
    knee: tuple[float, float]
    flare: float
    pelvis: tuple[float, float]
    foot: tuple[float, float]
    pole_out: float
    toe_out: float
    forward: float
    lean: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Hands:
    """Where the glove is (shares of stature above the skates) and how glove and stick lean."""

    glove: tuple[float, float, float]
    glove_axis: tuple[float, float, float] = (0.1, 0.55, 0.83)
    stick_x: float = 0.26
    stick_heel_y: float = -0.38
    stick_lean: tuple[float, float, float] = (-0.36, -0.48, 0.8)
    blocker_axis: tuple[float, float, float] = (-0.1, -0.4, 0.9)
    glove_pole: tuple[float, float, float] = (-0.8, 0.35, -0.6)
    blocker_pole: tuple[float, float, float] = (-0.8, -0.35, -0.6)


def _split(build: Build, shape: Split, hands: Hands) -> Skeleton:
    side, size = shape.side, build.stature
    knee = vector(shape.knee[0] * size, side * shape.knee[1] * size, knee_on_ice(build))
    pelvis = kneeling_pelvis(
        build, side, knee, x=shape.pelvis[0] * size, y=side * shape.pelvis[1] * size
    )
    torso = Torso(pelvis=pelvis, forward=shape.forward, left=side * shape.lean)
    down = kneeling_leg(build, pelvis, side, knee, flare=shape.flare)
    up = standing_leg(
        build, pelvis, -side, _ankle(build, shape.foot[0], -side * shape.foot[1]),
        pole=vector(1.0, -side * shape.pole_out, 0.5), toe_out=shape.toe_out,
    )  # fmt: skip
    stick = _front_stick(
        build, hands.stick_x * size, lean=vector(*hands.stick_lean), heel_y=hands.stick_heel_y
    )
    left, right = (down, up) if side > 0.0 else (up, down)
    return assemble(
        build, torso, left, right, stick, glove=_at(build, *hands.glove),
        glove_axis=vector(*hands.glove_axis), blocker_axis=vector(*hands.blocker_axis),
        glove_pole=vector(*hands.glove_pole), blocker_pole=vector(*hands.blocker_pole),
    )  # fmt: skip


_OPEN_HANDS = Hands(glove=(0.18, 0.262, 0.3))


def _half_butterfly(build: Build, side: float) -> Skeleton:
    shape = Split(
        side=side, knee=(0.0, 0.12), flare=10.0, pelvis=(-0.06, -0.01), foot=(0.02, 0.22),
        pole_out=-0.35, toe_out=18.0, forward=26.0, lean=0.0,
    )  # fmt: skip
    return _split(build, shape, _OPEN_HANDS)


def _one_knee(build: Build, side: float) -> Skeleton:
    shape = Split(
        side=side, knee=(-0.04, 0.08), flare=62.0, pelvis=(-0.08, 0.0), foot=(0.08, 0.13),
        pole_out=0.1, toe_out=12.0, forward=28.0, lean=0.0,
    )  # fmt: skip
    return _split(build, shape, _OPEN_HANDS)


def _vh(build: Build, side: float) -> Skeleton:
    """One post sealed by an upright pad (``side``), the other pad flat along the goal line."""
    shape = Split(
        side=-side, knee=(-0.06, 0.07), flare=30.0, pelvis=(-0.09, 0.0), foot=(0.07, 0.13),
        pole_out=0.0, toe_out=4.0, forward=22.0, lean=-4.0,
    )  # fmt: skip
    glove_post = Hands(
        glove=(0.17, 0.2, 0.36), glove_axis=(0.15, 0.3, 0.94),
        glove_pole=(0.1, 0.3, -1.0),
    )  # fmt: skip
    stick_post = Hands(
        glove=(0.2, 0.26, 0.3), stick_lean=(-0.1, -0.42, 0.9), stick_heel_y=-0.1,
        blocker_pole=(0.1, -0.3, -1.0),
    )  # fmt: skip
    return _split(build, shape, glove_post if side > 0.0 else stick_post)


def _reverse_vh(build: Build, side: float) -> Skeleton:
    """One post sealed by a flat pad (``side``), the body leaning on it, the other leg up."""
    shape = Split(
        side=side, knee=(0.0, 0.03), flare=-10.0, pelvis=(-0.05, 0.02), foot=(0.05, 0.2),
        pole_out=0.15, toe_out=20.0, forward=24.0, lean=14.0,
    )  # fmt: skip
    glove_post = Hands(
        glove=(0.14, 0.3, 0.34), glove_axis=(0.1, 0.35, 0.93),
        glove_pole=(0.1, 0.3, -1.0),
    )  # fmt: skip
    stick_post = Hands(
        glove=(0.2, 0.22, 0.32), stick_lean=(-0.12, -0.55, 0.82), stick_heel_y=-0.2,
        blocker_pole=(0.1, -0.3, -1.0),
    )  # fmt: skip
    return _split(build, shape, glove_post if side > 0.0 else stick_post)


def _post_stand(build: Build, side: float) -> Skeleton:
    shape = Upright(
        half_width=1.1 * build.narrow_half_width, pelvis_back=0.09,
        knee_flexion=0.75 * build.knee_flexion, trunk_forward=0.9 * build.trunk_flexion,
        toe_out=8.0, stick_back=0.09, stick_lean=(-0.02, -0.36, 0.93),
    )  # fmt: skip
    return _on_skates(build, shape, lean=3.0 * side)


_SHAPES: dict[Stance, Callable[[Build], Skeleton]] = {
    Stance.READY: _ready,
    Stance.NARROW: _narrow,
    Stance.BUTTERFLY: _butterfly,
    Stance.HALF_BUTTERFLY_LEFT: lambda build: _half_butterfly(build, 1.0),
    Stance.HALF_BUTTERFLY_RIGHT: lambda build: _half_butterfly(build, -1.0),
    Stance.ONE_KNEE_LEFT: lambda build: _one_knee(build, 1.0),
    Stance.ONE_KNEE_RIGHT: lambda build: _one_knee(build, -1.0),
    Stance.POST_STAND_LEFT: lambda build: _post_stand(build, 1.0),
    Stance.POST_STAND_RIGHT: lambda build: _post_stand(build, -1.0),
    Stance.VH_LEFT: lambda build: _vh(build, 1.0),
    Stance.VH_RIGHT: lambda build: _vh(build, -1.0),
    Stance.REVERSE_VH_LEFT: lambda build: _reverse_vh(build, 1.0),
    Stance.REVERSE_VH_RIGHT: lambda build: _reverse_vh(build, -1.0),
    Stance.PADDLE_DOWN: _paddle_down,
}


def skeleton(build: Build, stance: Stance) -> Skeleton:
    """Return the joints of a stance, drawn for a left-handed catcher."""
    return _SHAPES[stance](build)
