"""Clear sight over time: how long before the release she has seen the puck without a break."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from tendline.base import DEFAULT_SETTINGS, InputError, Settings
from tendline.body import Capsules
from tendline.sight.constants import CLEAR_SHARE, PUCK_DIAMETER, PUCK_THICKNESS
from tendline.sight.grid import Floats

# Points of the puck that are looked at: its middle and six on the rim (shares of the radius).
_RIM = np.arange(6) * np.pi / 3
SPOTS = np.vstack([[0.0, 0.0], np.column_stack([np.cos(_RIM), np.sin(_RIM)])])


@dataclass(frozen=True, slots=True)
class ClearSight:
    """``seconds`` of unbroken sight up to the release; ``hidden`` (t,) the share of the puck that
    is hidden at each time; ``by_whom`` the share of the time each body hides the puck."""

    seconds: float
    hidden: Floats
    by_whom: dict[str, float]

    @property
    def hidden_at_release(self) -> float:
        """Return the share of the puck that is hidden at the last time."""
        return float(self.hidden[-1])


def lines_hidden(eye: Floats, spots: Floats, body: Capsules, at: Floats) -> NDArray[np.bool_]:
    """Return which lines meet an upright body that stands at ``at``: (t, k).

    ``eye`` (t, 3); ``spots`` (t, k, 3); ``at`` (t, 2) where the body stands (it does not turn:
    a skater hides about the same from all sides).
    """
    d = spots - eye[:, None, :]
    base = np.concatenate([at, np.zeros((len(at), 1))], axis=1)
    a = (d * d).sum(-1)
    met = np.zeros(a.shape, bool)
    for n in range(len(body)):
        e = body.end[n] - body.start[n]
        r = (eye - base - body.start[n])[:, None, :]
        b, c = d @ e, (d * r).sum(-1)
        f, g = r @ e, float(e @ e)
        s = np.clip((b * f - c * g) / np.maximum(a * g - b * b, 1e-18), 0.0, 1.0)
        t = np.clip((b * s + f) / max(g, 1e-18), 0.0, 1.0)
        s = np.clip((b * t - c) / a, 0.0, 1.0)
        apart = r + s[..., None] * d - t[..., None] * e
        met |= (apart * apart).sum(-1) <= body.radius[n] ** 2
    return met


def clear_sight(
    times: ArrayLike,
    eye: ArrayLike,
    puck: ArrayLike,
    screeners: Mapping[str, tuple[Capsules, ArrayLike]],
    *,
    settings: Settings = DEFAULT_SETTINGS,
) -> ClearSight:
    """Return how long she has seen the puck when it is released at the last of ``times``.

    ``times`` (t,) rising seconds; ``eye`` (3,) or (t, 3); ``puck`` (3,) or (t, 3);
    ``screeners`` name -> (body at the origin, such as ``skater_body()``; where it stands, (2,) or
    (t, 2)). A puck counts as seen when at most ``sight.clear_share`` of seven lines to it are
    hidden. Raises :class:`InputError` for times that do not rise or values that are not finite.
    """
    clock = np.asarray(times, float)
    if (
        clock.ndim != 1
        or not len(clock)
        or not (np.isfinite(clock).all() and (np.diff(clock) > 0.0).all())
    ):
        raise InputError("times must rise", came=f"{clock}", item="times")
    count = len(clock)
    looks = _per_time("eye", eye, count, 3)
    path = _per_time("puck", puck, count, 3)
    radius = PUCK_DIAMETER.value / 2
    spots = np.repeat(path[:, None, :], len(SPOTS), axis=1)
    spots[:, :, :2] += radius * SPOTS
    spots[:, :, 2] += PUCK_THICKNESS.value / 2
    met = np.zeros((count, len(SPOTS)), bool)
    by_whom: dict[str, float] = {}
    for name, (body, where) in screeners.items():
        hides = lines_hidden(looks, spots, body, _per_time(name, where, count, 2))
        by_whom[name] = float(np.mean(hides.mean(axis=1) > settings.value_of(CLEAR_SHARE)))
        met |= hides
    hidden = met.mean(axis=1)
    unseen = np.flatnonzero(hidden > settings.value_of(CLEAR_SHARE))
    if not unseen.size:
        seconds = float(clock[-1] - clock[0])
    elif unseen[-1] == count - 1:
        seconds = 0.0
    else:
        seconds = float(clock[-1] - clock[unseen[-1] + 1])
    return ClearSight(seconds, hidden, by_whom)


def _per_time(item: str, value: ArrayLike, count: int, size: int) -> Floats:
    given = np.asarray(value, float)
    if given.shape not in ((size,), (count, size)) or not np.isfinite(given).all():
        raise InputError(
            "a place for all times or one for each", came=f"shape {given.shape}",
            allowed=f"({size},) or ({count}, {size}) finite numbers", item=item,
        )  # fmt: skip
    return np.array(np.broadcast_to(given, (count, size)))
