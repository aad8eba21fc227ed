"""Gear hung on a skeleton: the sphere-swept segments of a goaltender in pads."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from tendline.body.build import Build
from tendline.body.skeleton import TOE_SHARE, Arm, Leg, Skeleton, Vector, across, unit
from tendline.body.types import Capsules, Limb, Part


@dataclass(slots=True)
class _Rack:
    """Segments collected one by one."""

    start: list[Vector] = field(default_factory=list)
    end: list[Vector] = field(default_factory=list)
    radius: list[float] = field(default_factory=list)
    limb: list[Limb] = field(default_factory=list)
    part: list[Part] = field(default_factory=list)

    def add(self, start: Vector, end: Vector, radius: float, limb: Limb, part: Part) -> None:
        """Add a segment; an end that would dip below the ice is raised onto it."""
        ends = [np.array([p[0], p[1], max(float(p[2]), radius)]) for p in (start, end)]
        self.start.append(ends[0])
        self.end.append(ends[1])
        self.radius.append(radius)
        self.limb.append(limb)
        self.part.append(part)

    def capsules(self) -> Capsules:
        """Return what was collected."""
        return Capsules.of(self.start, self.end, self.radius, self.limb, self.part)


def dressed(build: Build, bones: Skeleton, *, glove_open: bool = True) -> Capsules:
    """Return the segments of a posture: 2 trunk, 1 head, 5 a leg, 4 and 5 an arm, 3 stick."""
    rack = _Rack()
    _trunk(rack, build, bones)
    _leg(rack, build, bones.left_leg, Limb.LEFT_LEG, (Part.LEFT_PAD, Part.LEFT_SKATE))
    _leg(rack, build, bones.right_leg, Limb.RIGHT_LEG, (Part.RIGHT_PAD, Part.RIGHT_SKATE))
    _arm(rack, build, bones.glove_arm, Limb.CATCHING_HAND, Part.CATCHING_ARM)
    _arm(rack, build, bones.blocker_arm, Limb.BLOCKER_HAND, Part.BLOCKER_ARM)
    _glove(rack, build, bones.glove_arm, glove_open)
    _blocker(rack, build, bones.blocker_arm)
    _stick(rack, build, bones)
    return rack.capsules()


def _trunk(rack: _Rack, build: Build, bones: Skeleton) -> None:
    radius = build.chest_half_depth
    spine = bones.neck - bones.pelvis
    hem, top = bones.pelvis - 0.1 * spine, bones.pelvis + 0.9 * spine
    for side in (1.0, -1.0):
        low = hem + side * 0.3 * build.hip_breadth * bones.lateral
        high = top + side * 0.3 * build.shoulder_breadth * bones.lateral
        rack.add(low, high, radius, Limb.TRUNK, Part.CHEST)
    half = 0.35 * build.mask_radius * bones.head_axis
    rack.add(bones.head - half, bones.head + half, build.mask_radius, Limb.HEAD, Part.MASK)


def _leg(rack: _Rack, build: Build, leg: Leg, limb: Limb, parts: tuple[Part, Part]) -> None:
    thigh_end = leg.hip + 0.8 * (leg.knee - leg.hip)
    rack.add(leg.hip, thigh_end, 0.5 * build.pants_width, limb, Part.PANTS)
    radius = 0.5 * build.pad_thickness
    along = unit(leg.knee - leg.ankle)
    width = across(leg.pad_across, along)
    face = across(leg.pad_face, along)
    below = build.ankle_height + build.skate_height - radius
    if not leg.flat:
        below = (float(leg.ankle[2]) - radius) / float(along[2])
    bottom = leg.ankle - below * along + 0.45 * radius * face + 0.02 * build.stature * face
    if leg.flat:
        bottom = bottom + (0.5 * build.pad_width - float(bottom[2])) * width
    top = bottom + (build.pad_length - 2.0 * radius) * along
    aside = (0.5 * build.pad_width - radius) * width
    rack.add(bottom - aside, top - aside, radius, limb, parts[0])
    rack.add(bottom + aside, top + aside, radius, limb, parts[0])
    rack.add(top - aside, top + aside, radius, limb, parts[0])
    heel = leg.ankle - (1.0 - TOE_SHARE) * build.foot * leg.toe
    toe = leg.ankle + TOE_SHARE * build.foot * leg.toe
    if not leg.flat:
        heel, toe = (np.array([p[0], p[1], build.skate_radius]) for p in (heel, toe))
    rack.add(heel, toe, build.skate_radius, limb, parts[1])


def _arm(rack: _Rack, build: Build, arm: Arm, limb: Limb, part: Part) -> None:
    rack.add(arm.shoulder, arm.elbow, build.arm_radius, limb, part)
    rack.add(arm.elbow, arm.hand, build.forearm_radius, limb, part)


@dataclass(frozen=True, slots=True, kw_only=True)
class GloveShape:
    """The catching glove: a finger and a thumb segment from one heel; metres and radians."""

    radius: float
    thumb_radius: float
    length: float
    thumb_length: float
    spread: float


def hull_perimeter(circles: list[tuple[float, float, float]]) -> float:
    """Return the perimeter of the convex hull of circles (x, y, radius), by Cauchy's formula.

    The perimeter of a convex outline is the integral of its support function over all directions.
    """
    angle = np.linspace(0.0, 2.0 * math.pi, 720, endpoint=False)
    support = np.max(
        [x * np.cos(angle) + y * np.sin(angle) + radius for x, y, radius in circles], axis=0
    )
    return float(support.mean() * 2.0 * math.pi)


def glove_shape(build: Build, glove_open: bool = True) -> GloveShape:
    """Return the glove whose open outline has the allowed perimeter (convex hull of its segments).

    A closed glove has the same segments, with the thumb folded onto the fingers.
    """
    spread, thumb, narrow = 0.6, 0.8, 0.9
    radius = 0.5 * build.glove_thickness

    def perimeter(length: float) -> float:
        tip = thumb * length
        return hull_perimeter([
            (0.0, 0.0, radius), (length, 0.0, radius),
            (tip * math.cos(spread), tip * math.sin(spread), narrow * radius),
        ])  # fmt: skip

    low, high = 0.0, build.glove_perimeter
    for _ in range(50):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if perimeter(middle) < build.glove_perimeter else (low, middle)
    return GloveShape(
        radius=radius, thumb_radius=narrow * radius, length=low, thumb_length=thumb * low,
        spread=spread if glove_open else 0.2 * spread,
    )  # fmt: skip


def _glove(rack: _Rack, build: Build, arm: Arm, glove_open: bool) -> None:
    shape = glove_shape(build, glove_open)
    inward = np.cross(arm.face, arm.axis)
    half = 0.5 * shape.spread
    fingers = math.cos(half) * arm.axis - math.sin(half) * inward
    thumb = math.cos(half) * arm.axis + math.sin(half) * inward
    heel = arm.hand - 0.25 * shape.length * arm.axis + 0.3 * shape.radius * arm.face
    limb = Limb.CATCHING_HAND
    rack.add(heel, heel + shape.length * fingers, shape.radius, limb, Part.GLOVE)
    rack.add(heel, heel + shape.thumb_length * thumb, shape.thumb_radius, limb, Part.GLOVE)


def _blocker(rack: _Rack, build: Build, arm: Arm) -> None:
    radius = 0.2 * build.blocker_width
    width = np.cross(arm.face, arm.axis)
    length = build.blocker_length - 2.0 * radius
    bottom = arm.hand - 0.25 * length * arm.axis + build.forearm_radius * arm.face
    for share in (-1.0, 0.0, 1.0):
        start = bottom + share * (0.5 * build.blocker_width - radius) * width
        rack.add(start, start + length * arm.axis, radius, Limb.BLOCKER_HAND, Part.BLOCKER)


def _stick(rack: _Rack, build: Build, bones: Skeleton) -> None:
    stick = bones.stick
    half = 0.5 * build.blade_width
    hand = bones.blocker_arm.hand
    up = unit(hand - stick.heel)
    rack.add(stick.heel, stick.toe, half, Limb.STICK, Part.BLADE)
    rack.add(stick.heel, hand, half, Limb.STICK, Part.SHAFT)
    rack.add(hand, hand + build.shaft * up, build.shaft_radius, Limb.STICK, Part.SHAFT)
