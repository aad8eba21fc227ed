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
    """Return the segments of a posture: 3 trunk, 1 head, 6 a leg, 4 an arm, 3 stick."""
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
    top = bones.pelvis + 0.84 * (bones.neck - bones.pelvis)
    for side in (1.0, -1.0):
        low = bones.pelvis + side * 0.22 * build.hip_breadth * bones.lateral
        high = top + side * 0.36 * build.shoulder_breadth * bones.lateral
        rack.add(low, high, radius, Limb.TRUNK, Part.CHEST)
    hips = 0.3 * build.hip_breadth * bones.lateral
    rack.add(bones.pelvis - hips, bones.pelvis + hips, 0.95 * radius, Limb.TRUNK, Part.PANTS)
    half = 0.18 * build.mask_radius * bones.head_axis
    rack.add(bones.head - half, bones.head + half, build.mask_radius, Limb.HEAD, Part.MASK)


def _leg(rack: _Rack, build: Build, leg: Leg, limb: Limb, parts: tuple[Part, Part]) -> None:
    thigh_end = leg.hip + 0.72 * (leg.knee - leg.hip)
    rack.add(leg.hip, thigh_end, 0.5 * build.pants_width, limb, Part.PANTS)
    radius = 0.5 * build.pad_thickness
    along = unit(leg.knee - leg.ankle)
    width = across(leg.pad_across, along)
    face = across(leg.pad_face, along)
    below = build.ankle_height + build.skate_height - radius
    if not leg.flat:
        below = (float(leg.ankle[2]) - radius) / float(along[2])
    bottom = leg.ankle - below * along + (0.03 * build.stature + radius) * face
    if leg.flat:
        bottom = bottom + (0.5 * build.pad_width - float(bottom[2])) * width
    reach = (build.pad_length - 2.0 * radius) * along
    aside = 0.5 * build.pad_width - radius
    for share in (-1.0, 0.0, 1.0):
        foot = bottom + share * aside * width
        rack.add(foot, foot + reach, radius, limb, parts[0])
    heel = leg.ankle - (1.0 - TOE_SHARE) * build.foot * leg.toe
    toe = leg.ankle + TOE_SHARE * build.foot * leg.toe
    if not leg.flat:
        heel, toe = (np.array([p[0], p[1], build.skate_radius]) for p in (heel, toe))
    rack.add(heel, toe, build.skate_radius, limb, parts[1])


def _arm(rack: _Rack, build: Build, arm: Arm, limb: Limb, part: Part) -> None:
    rack.add(arm.shoulder, arm.elbow, build.arm_radius, limb, part)
    rack.add(arm.elbow, arm.hand, build.forearm_radius, limb, part)


def glove_shape(build: Build, glove_open: bool) -> tuple[float, float, float]:
    """Return radius, half spacing and length of the two segments of the catching glove (m).

    The outline of two parallel segments, spaced 2a, radius r, length s is a rounded rectangle of
    perimeter 2 pi r + 4 a + 2 s, set equal to the glove's allowed perimeter. A closed glove keeps
    its length and folds to the width of the hand.
    """
    radius = 0.5 * build.glove_thickness
    half = 0.8 * radius
    length = 0.5 * (build.glove_perimeter - 2.0 * math.pi * radius - 4.0 * half)
    return radius, half if glove_open else 0.15 * half, length


def _glove(rack: _Rack, build: Build, arm: Arm, glove_open: bool) -> None:
    radius, half, length = glove_shape(build, glove_open)
    width = np.cross(arm.face, arm.axis)
    heel = arm.hand - 0.2 * length * arm.axis
    for side in (1.0, -1.0):
        start = heel + side * half * width
        rack.add(start, start + length * arm.axis, radius, Limb.CATCHING_HAND, Part.GLOVE)


def _blocker(rack: _Rack, build: Build, arm: Arm) -> None:
    radius = 0.25 * build.blocker_width
    width = np.cross(arm.face, arm.axis)
    length = build.blocker_length - 2.0 * radius
    bottom = arm.hand - 0.3 * length * arm.axis + (build.forearm_radius + 0.4 * radius) * arm.face
    for side in (1.0, -1.0):
        start = bottom + side * radius * width
        rack.add(start, start + length * arm.axis, radius, Limb.BLOCKER_HAND, Part.BLOCKER)


def _stick(rack: _Rack, build: Build, bones: Skeleton) -> None:
    stick = bones.stick
    half = 0.5 * build.blade_width
    hand = bones.blocker_arm.hand
    up = unit(hand - stick.heel)
    rack.add(stick.heel, stick.toe, half, Limb.STICK, Part.BLADE)
    rack.add(stick.heel, hand, half, Limb.STICK, Part.SHAFT)
    rack.add(hand, hand + build.shaft * up, build.shaft_radius, Limb.STICK, Part.SHAFT)
