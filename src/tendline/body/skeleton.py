"""Joints of a posture: two-bone limbs, trunk, hands and stick. Body frame, metres.

Everything here is drawn for a goaltender who catches with her left hand; a right-handed catcher is
the mirror image of the mirrored stance.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from tendline.body.build import Build

Vector: TypeAlias = NDArray[np.float64]

UP = np.array([0.0, 0.0, 1.0])
AHEAD = np.array([1.0, 0.0, 0.0])
LEFTWARD = np.array([0.0, 1.0, 0.0])
TOE_SHARE = 0.72  # share of the foot ahead of the ankle; drawing only


def vector(x: float, y: float, z: float) -> Vector:
    """Return a point or direction."""
    return np.array([x, y, z], dtype=np.float64)


def unit(direction: Vector) -> Vector:
    """Return a direction of length one."""
    return direction / float(np.linalg.norm(direction))


def across(seed: Vector, axis: Vector) -> Vector:
    """Return the unit direction nearest ``seed`` at right angles to ``axis`` (a unit vector)."""
    return unit(seed - float(seed @ axis) * axis)


def bend(root: Vector, tip: Vector, upper: float, lower: float, pole: Vector) -> Vector:
    """Return the middle joint of a two-bone limb from ``root`` to ``tip``, bent toward ``pole``.

    If the tip is out of reach the limb is straight and points at it.
    """
    way = tip - root
    length = float(np.linalg.norm(way))
    axis = way / length
    if length >= upper + lower:
        return root + upper * axis
    along = (upper * upper - lower * lower + length * length) / (2.0 * length)
    aside = math.sqrt(max(upper * upper - along * along, 0.0))
    return root + along * axis + aside * across(pole, axis)


def within_reach(root: Vector, tip: Vector, reach: float) -> Vector:
    """Return ``tip``, or the point on the way to it that lies ``reach`` from ``root``."""
    way = tip - root
    length = float(np.linalg.norm(way))
    return tip if length <= reach else root + way * (reach / length)


@dataclass(frozen=True, slots=True, eq=False)
class Leg:
    """One leg: joints, where the toe points, and how the pad is turned.

    ``pad_across`` seeds the direction of the pad's width, ``pad_face`` that of its front; ``flat``
    says that the pad stands on its inner edge along the ice.
    """

    hip: Vector
    knee: Vector
    ankle: Vector
    toe: Vector
    pad_across: Vector
    pad_face: Vector
    flat: bool


@dataclass(frozen=True, slots=True, eq=False)
class Arm:
    """One arm: joints, the long axis of glove or blocker board, and the way its face looks."""

    shoulder: Vector
    elbow: Vector
    hand: Vector
    axis: Vector
    face: Vector


@dataclass(frozen=True, slots=True, eq=False)
class Stick:
    """The stick: heel and toe of the blade on the ice, and the hand at the top of the paddle."""

    heel: Vector
    toe: Vector
    hand: Vector


@dataclass(frozen=True, slots=True, eq=False)
class Skeleton:
    """All joints of one posture."""

    pelvis: Vector
    neck: Vector
    lateral: Vector
    head: Vector
    head_axis: Vector
    left_leg: Leg
    right_leg: Leg
    glove_arm: Arm
    blocker_arm: Arm
    stick: Stick


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Torso:
    """Where the pelvis is and how the trunk is held; metres and degrees."""

    pelvis: Vector
    forward: float
    left: float = 0.0

    @property
    def axis(self) -> Vector:
        """Return the direction from pelvis to neck."""
        pitch, lean = math.radians(self.forward), math.radians(self.left)
        return vector(
            math.sin(pitch) * math.cos(lean), math.sin(lean), math.cos(pitch) * math.cos(lean)
        )


def standing_leg(
    build: Build, pelvis: Vector, side: float, ankle: Vector, *, pole: Vector, toe_out: float
) -> Leg:
    """Return a leg whose skate is on the ice. ``side`` is +1 left, -1 right; degrees."""
    hip = pelvis + side * 0.5 * build.hip_breadth * LEFTWARD
    knee = bend(hip, ankle, build.thigh, build.shank, pole)
    angle = math.radians(toe_out) * side
    toe = vector(math.cos(angle), math.sin(angle), 0.0)
    return Leg(hip, knee, ankle, toe, LEFTWARD, AHEAD, False)


def kneeling_leg(build: Build, pelvis: Vector, side: float, knee: Vector, *, flare: float) -> Leg:
    """Return a leg whose knee is on the ice and whose shank lies along it.

    ``flare`` is 0 for a shank straight out to the side, 90 for one straight back (degrees).
    """
    hip = pelvis + side * 0.5 * build.hip_breadth * LEFTWARD
    angle = math.radians(flare)
    shank = vector(-math.sin(angle), side * math.cos(angle), 0.0)
    face = vector(math.cos(angle), side * math.sin(angle), 0.0)
    return Leg(hip, knee, knee + build.shank * shank, unit(shank + 0.05 * face), UP, face, True)


def closed_knee(build: Build, flare: float) -> float:
    """Return how far aside a knee lies when the pads close in the middle, ends overlapping (m)."""
    above = build.pad_length - build.skate_height - build.ankle_height - build.shank
    return above * math.cos(math.radians(flare)) - 0.25 * build.pad_thickness


def knee_on_ice(build: Build) -> float:
    """Return the height of the knee joint when the pad lies on the ice (m)."""
    return 0.5 * build.pad_width * 0.6


def kneeling_pelvis(build: Build, side: float, knee: Vector, *, x: float, y: float) -> Vector:
    """Return the pelvis at ``(x, y)`` at the height that the thigh of a kneeling leg gives."""
    dx = x - float(knee[0])
    dy = y + side * 0.5 * build.hip_breadth - float(knee[1])
    rise = math.sqrt(max(build.thigh**2 - dx * dx - dy * dy, 0.0))
    return vector(x, y, float(knee[2]) + rise)


def arm(
    build: Build, shoulder: Vector, hand: Vector, *, pole: Vector, axis: Vector, face: Vector
) -> Arm:
    """Return an arm whose hand centre is at ``hand``, or as near to it as it reaches."""
    lower = build.forearm + 0.4 * build.hand
    tip = within_reach(shoulder, hand, 0.995 * (build.upper_arm + lower))
    elbow = bend(shoulder, tip, build.upper_arm, lower, pole)
    long_axis = unit(axis)
    return Arm(shoulder, elbow, tip, long_axis, across(face, long_axis))


def shoulders(build: Build, torso: Torso) -> tuple[Vector, Vector, Vector, Vector]:
    """Return neck base, lateral axis, left and right shoulder joint."""
    axis = torso.axis
    neck = torso.pelvis + build.trunk * axis
    lateral = across(LEFTWARD, axis)
    half = 0.5 * build.shoulder_breadth * lateral
    return neck, lateral, neck + half, neck - half


def head_on(build: Build, torso: Torso, neck: Vector) -> tuple[Vector, Vector]:
    """Return centre and axis of the head: neck along the trunk, head held nearly upright."""
    axis = unit(torso.axis + 1.4 * UP)
    rise = unit(torso.axis + 0.5 * UP)
    return neck + (build.neck + 0.5 * build.head_height) * rise, axis


def stick_from(build: Build, heel: Vector, toward_hand: Vector, *, blade_toward: Vector) -> Stick:
    """Return a stick with its heel at a place, leaning toward the hand, the blade flat."""
    hand = heel + build.paddle * unit(toward_hand)
    flat = blade_toward - float(blade_toward @ UP) * UP
    return Stick(heel, heel + (build.blade - build.blade_width) * unit(flat), hand)


def assemble(
    build: Build,
    torso: Torso,
    left_leg: Leg,
    right_leg: Leg,
    stick: Stick,
    *,
    glove: Vector,
    glove_axis: Vector,
    glove_face: Vector = AHEAD,
    blocker_axis: Vector,
    blocker_face: Vector = AHEAD,
    glove_pole: Vector | None = None,
    blocker_pole: Vector | None = None,
) -> Skeleton:
    """Return the whole skeleton; the blocker hand holds the stick at the top of the paddle."""
    neck, lateral, left, right = shoulders(build, torso)
    head, head_axis = head_on(build, torso, neck)
    out_left = vector(-0.8, 0.35, -0.6) if glove_pole is None else glove_pole
    out_right = vector(-0.8, -0.35, -0.6) if blocker_pole is None else blocker_pole
    glove_arm = arm(build, left, glove, pole=out_left, axis=glove_axis, face=glove_face)
    blocker_arm = arm(
        build, right, stick.hand, pole=out_right, axis=blocker_axis, face=blocker_face
    )
    return Skeleton(
        torso.pelvis, neck, lateral, head, head_axis, left_leg, right_leg, glove_arm,
        blocker_arm, stick,
    )  # fmt: skip
