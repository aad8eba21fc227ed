"""The exact questions for many placements in one call: the same answers, NaN where there is none.

The grid kernel (``cover_many``) is what a search asks; these serve reports and maps. Each row is
the single question itself, so there is no second formula; about 10 ms a row.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from tendline.base import DEFAULT_SETTINGS, InputError, Settings
from tendline.body import Capsules, place
from tendline.sight.areas import AREA_NAMES, open_areas
from tendline.sight.cover import Bodies, pair_rows
from tendline.sight.exact import exact_cover
from tendline.sight.grid import Floats, Mouth
from tendline.sight.pictures import goaltender_eye


def exact_cover_many(pucks: ArrayLike, poses: ArrayLike, capsules: Capsules, goal: Mouth) -> Floats:
    """Return the exactly covered share of the mouth (m,) for placements of one body.

    ``pucks`` (m, 3) or (3,); ``poses`` (m, 3) or (3,): x, y, facing of ``capsules``, which are in
    the body frame. The shares of :func:`exact_cover`; NaN where it has no answer. Raises
    :class:`InputError` for shapes that do not fit.
    """
    return _rows(pucks, poses, capsules, lambda puck, body: exact_cover(puck, body, goal).share)


def open_areas_many(
    pucks: ArrayLike,
    poses: ArrayLike,
    capsules: Capsules,
    goal: Mouth,
    *,
    settings: Settings = DEFAULT_SETTINGS,
) -> dict[str, Floats]:
    """Return the open share of the mouth by trade name, each (m,), for placements of one body.

    Arguments as in :func:`exact_cover_many`, shares as in :func:`open_areas`: 0 where an area is
    closed (or too small to name), NaN where there is no answer.
    """

    def shares(puck: Floats, body: Capsules) -> list[float]:
        found = {one.name: one.share for one in open_areas(puck, body, goal, settings=settings)}
        return [found.get(name, 0.0) for name in AREA_NAMES]

    table = _rows(pucks, poses, capsules, shares, width=len(AREA_NAMES))
    return {name: table[:, n] for n, name in enumerate(AREA_NAMES)}


def hidden_many(eyes: ArrayLike, pucks: ArrayLike, bodies: Mapping[str, Bodies]) -> Floats:
    """Return the share of the puck hidden from each eye (m,) by placed ``bodies``.

    ``eyes`` and ``pucks`` (m, 3) or (3,). The shares of :func:`goaltender_eye`; NaN where it has no
    answer. Raises :class:`InputError` for shapes that do not fit.
    """
    places, spots = pair_rows(eyes, pucks)
    shares = np.full(len(places), np.nan)
    for row, (eye, puck) in enumerate(zip(places, spots, strict=True)):
        try:
            shares[row] = goaltender_eye(eye, puck, bodies).hidden_share
        except InputError:
            continue
    return shares


def _rows(
    pucks: ArrayLike,
    poses: ArrayLike,
    capsules: Capsules,
    ask: Callable[[Floats, Capsules], Any],
    *,
    width: int = 0,
) -> Floats:
    """Return ``ask`` for each row, (m,) or (m, width); NaN where the question has no answer."""
    shots, places = pair_rows(pucks, poses)
    made = np.full((len(shots), width) if width else len(shots), np.nan)
    for row, (puck, (x, y, facing)) in enumerate(zip(shots, places, strict=True)):
        try:
            made[row] = ask(puck, place(capsules, x=x, y=y, facing=facing))
        except InputError:
            continue
    return made
