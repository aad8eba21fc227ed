"""Covered and open areas of the goal mouth without grid error, and the open ones by trade name.

Everything is worked on the mouth's plane as the puck sees it: the shadow of each limb, the union
of shadows, and what is left. Coordinates are (y, z) in metres: y to the goaltender's left.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike

from tendline.body import Limb
from tendline.sight.cover import Bodies, require_puck
from tendline.sight.grid import Floats, Mouth
from tendline.sight.shadow import Ring, camera_on_mouth, capsule_shadow, rings_of

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


@dataclass(frozen=True, slots=True)
class ExactCover:
    """``share`` of the mouth covered; ``outlines`` the shadow of each limb inside the mouth and
    ``open_rings`` what is left, as rings of (y, z) filled by the even-odd rule."""

    share: float
    outlines: dict[Limb, tuple[Ring, ...]]
    open_rings: tuple[Ring, ...]


@dataclass(frozen=True, slots=True)
class Shadows:
    """The mouth, the shadow of each segment by limb (convex ``parts``) and of each whole limb
    (``limbs``) on its plane, as shapely shapes in (y, z)."""

    mouth: BaseGeometry
    parts: dict[Limb, tuple[BaseGeometry, ...]]
    limbs: dict[Limb, BaseGeometry]
    puck: Floats

    @property
    def open(self) -> BaseGeometry:
        """Return what no limb covers."""
        import shapely

        return self.mouth.difference(shapely.union_all(list(self.limbs.values())))


def shadows(puck: ArrayLike, capsules: Bodies, goal: Mouth) -> Shadows:
    """Return every limb's shadow on the plane of the mouth, not cut to the mouth."""
    import shapely
    from shapely.affinity import translate

    place = require_puck(puck, capsules)
    camera = camera_on_mouth(place)
    parts: dict[Limb, tuple[BaseGeometry, ...]] = {}
    for limb in np.unique(capsules.limb):
        parts[Limb(int(limb))] = tuple(
            translate(
                capsule_shadow(
                    camera,
                    np.asarray(capsules.start[n], float),
                    np.asarray(capsules.end[n], float),
                    float(capsules.radius[n]),
                ),
                place[1],
                place[2],
            )
            for n in np.flatnonzero(capsules.limb == limb)
        )
    limbs = {limb: shapely.union_all(list(pieces)) for limb, pieces in parts.items()}
    half = goal.width / 2
    return Shadows(shapely.box(-half, 0.0, half, goal.height), parts, limbs, place)


def exact_cover(puck: ArrayLike, capsules: Bodies, goal: Mouth) -> ExactCover:
    """Return the covered share of the mouth as the puck sees it, exact to about 0.0001.

    Raises :class:`InputError` for a puck that cannot be (see ``require_puck``).
    """
    seen = shadows(puck, capsules, goal)
    left = seen.open
    outlines = {
        limb: rings_of(shape.intersection(seen.mouth)) for limb, shape in seen.limbs.items()
    }
    return ExactCover(float(1.0 - left.area / seen.mouth.area), outlines, rings_of(left))
