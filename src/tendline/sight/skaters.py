"""A skater as a few sphere-swept segments: enough to hide a puck, not to score for looks."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from tendline.base import DEFAULT_SETTINGS, Settings, require_number
from tendline.body import Capsules, Limb
from tendline.sight import constants as known


@lru_cache(maxsize=64)
def skater_body(stature: float | None = None, settings: Settings = DEFAULT_SETTINGS) -> Capsules:
    """Return a standing skater (two legs, trunk, shoulders, head) at the origin, facing +x.

    ``stature`` in metres (0.9 to 2.3; by default the setting ``sight.skater_stature``). Breadths
    and heights are shares of stature with gear added; sticks and arms are left out. Raises
    :class:`InputError` for a stature out of range.
    """
    of = settings.value_of
    tall = of(known.SKATER_STATURE) if stature is None else stature
    tall = require_number("stature", tall, low=0.9, high=2.3, unit="m", item="skater")
    tall *= of(known.SKATER_STOOP)
    pad = of(known.SKATER_PADDING)
    hip, shoulder = of(known.HIP_HEIGHT) * tall, of(known.SHOULDER_HEIGHT) * tall
    across, breadth = of(known.HIP_BREADTH) * tall / 2, of(known.SHOULDER_BREADTH) * tall / 2
    leg = across / 2 + pad
    chest = breadth / 2 + pad
    head = (tall - shoulder) / 3
    chin = shoulder - chest
    rows = [
        (Limb.LEFT_LEG, (0, across, leg), (0, across / 2, hip), leg),
        (Limb.RIGHT_LEG, (0, -across, leg), (0, -across / 2, hip), leg),
        (Limb.TRUNK, (0, 0, hip), (0, 0, chin), chest),
        (Limb.TRUNK, (0, -breadth / 2, chin), (0, breadth / 2, chin), chest),
        (Limb.HEAD, (0, 0, shoulder + head), (0, 0, tall - head), head),
    ]  # fmt: skip
    return Capsules.of(
        np.array([one[1] for one in rows], float),
        np.array([one[2] for one in rows], float),
        [one[3] for one in rows],
        [int(one[0]) for one in rows],
    )
