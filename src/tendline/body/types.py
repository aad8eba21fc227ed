"""Limbs, parts, stances, poses, and a body as sphere-swept segments."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import IntEnum, StrEnum

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tendline.base import InputError, unknown_name

LIMB_COUNT = 7


class Limb(IntEnum):
    """The limb that a segment belongs to: what moves together to reach a puck."""

    TRUNK = 0
    HEAD = 1
    LEFT_LEG = 2
    RIGHT_LEG = 3
    CATCHING_HAND = 4
    BLOCKER_HAND = 5
    STICK = 6


class Part(IntEnum):
    """The piece of gear that a segment stands for; what a picture outlines together."""

    CHEST = 0
    PANTS = 1
    MASK = 2
    LEFT_PAD = 3
    RIGHT_PAD = 4
    LEFT_SKATE = 5
    RIGHT_SKATE = 6
    CATCHING_ARM = 7
    BLOCKER_ARM = 8
    GLOVE = 9
    BLOCKER = 10
    BLADE = 11
    SHAFT = 12


class Stance(StrEnum):
    """What she does with her body. Left and right are hers; in a half butterfly, one-knee or post
    stance they name the pad that is down, the knee that is down, or the post that is sealed."""

    READY = "ready"
    NARROW = "narrow"
    BUTTERFLY = "butterfly"
    HALF_BUTTERFLY_LEFT = "half butterfly left"
    HALF_BUTTERFLY_RIGHT = "half butterfly right"
    ONE_KNEE_LEFT = "one knee left"
    ONE_KNEE_RIGHT = "one knee right"
    POST_STAND_LEFT = "standing on the left post"
    POST_STAND_RIGHT = "standing on the right post"
    VH_LEFT = "VH on the left post"
    VH_RIGHT = "VH on the right post"
    REVERSE_VH_LEFT = "reverse VH on the left post"
    REVERSE_VH_RIGHT = "reverse VH on the right post"
    PADDLE_DOWN = "paddle down"

    @property
    def mirrored(self) -> Stance:
        """Return the stance with left and right exchanged."""
        words = {"left": "right", "right": "left"}
        return Stance(" ".join(words.get(word, word) for word in self.value.split(" ")))

    @property
    def is_down(self) -> bool:
        """Return whether at least one knee is on the ice."""
        upright = (
            Stance.READY, Stance.NARROW, Stance.POST_STAND_LEFT, Stance.POST_STAND_RIGHT,
        )  # fmt: skip
        return self not in upright


def stance_named(name: Stance | str) -> Stance:
    """Return the stance of that name; raises ``NotFoundError`` with the nearest one."""
    try:
        return Stance(name)
    except ValueError:
        raise unknown_name("stance", str(name), [one.value for one in Stance]) from None


@dataclass(frozen=True, slots=True)
class Pose:
    """Where she stands and how: metres, radians (0 looks along +x, counter-clockwise), a stance."""

    x: float
    y: float
    facing: float
    stance: Stance = Stance.READY

    def __post_init__(self) -> None:
        if type(self.stance) is not Stance:  # a plain word is as good as its name
            object.__setattr__(self, "stance", stance_named(self.stance))
        if not all(map(math.isfinite, (self.x, self.y, self.facing))):
            raise InputError(
                "a pose needs a place and a facing",
                came=f"({self.x}, {self.y}) facing {self.facing}",
                allowed="numbers, in metres and radians",
            )


def _read_only(values: ArrayLike, shape: tuple[int, ...]) -> NDArray[np.float64]:
    made = np.array(values, dtype=np.float64).reshape(shape)
    made.flags.writeable = False
    return made


@dataclass(frozen=True, slots=True, eq=False)
class Capsules:
    """Sphere-swept segments: ``start``, ``end`` (n, 3) and ``radius`` (n,) in metres.

    ``limb`` (n,) holds :class:`Limb` numbers and ``part`` (n,) :class:`Part` numbers. All arrays
    are read-only; a moved body is a new value. The frame is that of whoever made it: the body's
    own from :func:`tendline.body.capsules`, the rink's from :func:`tendline.body.posed`.
    """

    start: NDArray[np.float64]
    end: NDArray[np.float64]
    radius: NDArray[np.float64]
    limb: NDArray[np.int64]
    part: NDArray[np.int64]

    @classmethod
    def of(
        cls,
        start: ArrayLike,
        end: ArrayLike,
        radius: ArrayLike,
        limb: ArrayLike,
        part: ArrayLike | None = None,
    ) -> Capsules:
        """Return capsules from array-likes.

        Raises ``InputError`` if a number is missing or a radius is negative.
        """
        count = int(np.size(radius))
        limbs = np.array(limb, dtype=np.int64).reshape(count)
        parts = np.array(limbs if part is None else part, dtype=np.int64).reshape(count)
        limbs.flags.writeable = parts.flags.writeable = False
        made = cls(
            _read_only(start, (count, 3)), _read_only(end, (count, 3)),
            _read_only(radius, (count,)), limbs, parts,
        )  # fmt: skip
        if not (np.isfinite(made.start).all() and np.isfinite(made.end).all()):
            raise InputError("every end of a segment needs three numbers", came="NaN or infinity")
        if not (np.isfinite(made.radius).all() and (made.radius >= 0.0).all()):
            raise InputError(
                "every segment needs a radius", came=f"{made.radius.min():g} m",
                allowed="0 m or more",
            )  # fmt: skip
        return made

    def __len__(self) -> int:
        return int(self.radius.size)

    @property
    def lowest(self) -> float:
        """Return the height of the lowest point above the ice (m)."""
        return float((np.minimum(self.start[:, 2], self.end[:, 2]) - self.radius).min())

    @property
    def highest(self) -> float:
        """Return the height of the highest point above the ice (m)."""
        return float((np.maximum(self.start[:, 2], self.end[:, 2]) + self.radius).max())

    def only(self, *limbs: Limb) -> Capsules:
        """Return the capsules of some limbs."""
        keep = np.isin(self.limb, [int(one) for one in limbs])
        return Capsules.of(
            self.start[keep], self.end[keep], self.radius[keep], self.limb[keep], self.part[keep]
        )

    def mirrored(self) -> Capsules:
        """Return the mirror image in the plane y = 0; left and right legs change names."""
        flip = np.array([1.0, -1.0, 1.0])
        limb_swap = {Limb.LEFT_LEG: Limb.RIGHT_LEG, Limb.RIGHT_LEG: Limb.LEFT_LEG}
        part_swap = {
            Part.LEFT_PAD: Part.RIGHT_PAD, Part.RIGHT_PAD: Part.LEFT_PAD,
            Part.LEFT_SKATE: Part.RIGHT_SKATE, Part.RIGHT_SKATE: Part.LEFT_SKATE,
        }  # fmt: skip
        return Capsules.of(
            self.start * flip, self.end * flip, self.radius,
            [limb_swap.get(Limb(one), Limb(one)) for one in self.limb],
            [part_swap.get(Part(one), Part(one)) for one in self.part],
        )  # fmt: skip
