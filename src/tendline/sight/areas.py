"""The open parts of the net, named as the trade names them.

Names follow from who stands on either side of an opening, as the puck sees it, never from fixed
places on the mouth: an opening with a leg on both sides is the five hole; one between a hand's
arm and the body or leg is *under the arm*; the rest is low or high on the side of the catching or
the blocker hand. The parts are disjoint and add up to the open share. Each part also says whether
it lies on the short side (between her and the post nearer the puck) or the far side.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike

from tendline.base import DEFAULT_SETTINGS, Settings
from tendline.body import Limb
from tendline.sight.constants import LOW_HIGH_SPLIT, NEAR_CENTRE, SMALLEST_AREA
from tendline.sight.cover import Bodies
from tendline.sight.exact import Shadows, shadows
from tendline.sight.grid import Mouth
from tendline.sight.shadow import Ring, rings_of

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

FIVE_HOLE = "five hole"
UNDER_CATCHING_ARM = "under the catching arm"
UNDER_BLOCKER_ARM = "under the blocker arm"
LOW_CATCHING = "low catching side"
HIGH_CATCHING = "high catching side"
LOW_BLOCKER = "low blocker side"
HIGH_BLOCKER = "high blocker side"
AREA_NAMES = (
    FIVE_HOLE, UNDER_CATCHING_ARM, UNDER_BLOCKER_ARM, LOW_CATCHING, HIGH_CATCHING, LOW_BLOCKER,
    HIGH_BLOCKER,
)  # fmt: skip
SLIVER = 1e-4  # m2: slits between two segments of one limb are counted but not drawn
SHORT_SIDE = "short side"
FAR_SIDE = "far side"


@dataclass(frozen=True, slots=True)
class OpenArea:
    """One open part: ``share`` of the whole mouth; rings of (y, z) in metres, even-odd rule.

    ``post`` is "short side", "far side", or empty (through her, or a puck straight in front).
    """

    name: str
    share: float
    rings: tuple[Ring, ...]
    post: str = ""


@dataclass(frozen=True, slots=True)
class SideShares:
    """Open share of the mouth between her and the post nearer to, and farther from, the puck."""

    short: float
    far: float
    through: float


def _swept(pieces: Sequence[BaseGeometry], by: float) -> BaseGeometry:
    """Return all that convex ``pieces`` pass over when moved sideways by ``by`` metres."""
    import shapely
    from shapely.affinity import translate

    return shapely.union_all(
        [one.union(translate(one, by)).convex_hull for one in pieces if not one.is_empty]
    )


def _between(
    right: Sequence[BaseGeometry], left: Sequence[BaseGeometry], width: float
) -> BaseGeometry:
    """Return the places with ``right`` somewhere to their right (-y) and ``left`` to their left."""
    return _swept(right, width).intersection(_swept(left, -width))


def _middle(seen: Shadows) -> float:
    """Return the y of her trunk's shadow on the mouth."""
    trunk = seen.limbs.get(Limb.TRUNK)
    if trunk is None or trunk.is_empty:
        return 0.0
    return float(trunk.centroid.x)


def _catching_sign(seen: Shadows) -> float:
    """Return +1 if the catching hand is on the +y side of the blocker hand, -1 otherwise."""
    catching, blocker = seen.limbs.get(Limb.CATCHING_HAND), seen.limbs.get(Limb.BLOCKER_HAND)
    if catching is None or blocker is None or catching.is_empty or blocker.is_empty:
        return 1.0
    return 1.0 if catching.centroid.x >= blocker.centroid.x else -1.0


def _through_her(seen: Shadows, sign: float) -> list[tuple[str, BaseGeometry]]:
    """Return the named regions inside her outline, before what is covered is taken off."""
    width = float(seen.mouth.bounds[2] - seen.mouth.bounds[0]) * 2.0
    limb = {one: seen.parts.get(one, ()) for one in Limb}
    core = limb[Limb.TRUNK] + limb[Limb.LEFT_LEG] + limb[Limb.RIGHT_LEG]
    five = _between(limb[Limb.RIGHT_LEG], limb[Limb.LEFT_LEG], width)
    regions = [(FIVE_HOLE, five)]
    for name, hand, side in (
        (UNDER_CATCHING_ARM, limb[Limb.CATCHING_HAND], sign),
        (UNDER_BLOCKER_ARM, limb[Limb.BLOCKER_HAND], -sign),
    ):
        pair = (core, hand) if side > 0 else (hand, core)
        regions.append((name, _between(*pair, width)))
    return regions


def open_areas(
    puck: ArrayLike, capsules: Bodies, goal: Mouth, *, settings: Settings = DEFAULT_SETTINGS
) -> tuple[OpenArea, ...]:
    """Return the open parts of the net as the puck sees them, the largest first.

    Parts smaller than the setting ``sight.smallest_area`` are left out. Raises
    :class:`InputError` for a puck that cannot be.
    """
    import shapely

    seen = shadows(puck, capsules, goal)
    left = seen.open
    whole = seen.mouth.area
    smallest = settings.value_of(SMALLEST_AREA) * whole
    sign, middle = _catching_sign(seen), _middle(seen)
    short = _short_sign(seen, settings)
    found = []
    for name, region in _through_her(seen, sign):
        part = left.intersection(region)
        left = left.difference(region)
        if part.area > smallest:
            found.append(OpenArea(name, float(part.area / whole), rings_of(part, smallest=SLIVER)))
    split = settings.value_of(LOW_HIGH_SPLIT) * goal.height
    wide, high = goal.width, goal.height
    for side, low_name, high_name in (
        (sign, LOW_CATCHING, HIGH_CATCHING),
        (-sign, LOW_BLOCKER, HIGH_BLOCKER),
    ):
        y0, y1 = (middle, middle + 2 * wide) if side > 0 else (middle - 2 * wide, middle)
        for name, z0, z1 in ((low_name, 0.0, split), (high_name, split, high)):
            part = left.intersection(shapely.box(y0, z0, y1, z1))
            if part.area > smallest:
                post = "" if short == 0.0 else (SHORT_SIDE if side == short else FAR_SIDE)
                found.append(
                    OpenArea(name, float(part.area / whole), rings_of(part, smallest=SLIVER), post)
                )
    return tuple(sorted(found, key=lambda one: -one.share))


def _short_sign(seen: Shadows, settings: Settings) -> float:
    """Return the sign of y of the post nearer the puck, 0 when it is straight in front."""
    angle = float(np.arctan2(seen.puck[1], seen.puck[0]))
    if abs(angle) <= settings.value_of(NEAR_CENTRE):
        return 0.0
    return 1.0 if angle > 0.0 else -1.0


def side_shares(
    puck: ArrayLike, capsules: Bodies, goal: Mouth, *, settings: Settings = DEFAULT_SETTINGS
) -> SideShares:
    """Return the open share on the short side, the far side, and through her.

    With the puck straight in front there is no short side: both sides count as far.
    """
    areas = open_areas(puck, capsules, goal, settings=settings)
    short = sum(one.share for one in areas if one.post == SHORT_SIDE)
    through = sum(
        one.share for one in areas if one.name in (FIVE_HOLE, UNDER_CATCHING_ARM, UNDER_BLOCKER_ARM)
    )
    return SideShares(short, sum(one.share for one in areas) - short - through, through)
