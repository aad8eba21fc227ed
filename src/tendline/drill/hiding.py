"""The ways through a drill made alike until the choice, so that playing one does not tell which.

On the clock a skater brakes a little for what he does next, and the goaltender's reading follows
him, so two ways may differ before anybody has chosen. Whoever watches in order to read must not see
that. Until two ways part, both show what the earlier one shows; then each slides into its own run
within ``BLEND`` seconds.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar, cast

from tendline.drill.playback import DIGITS, Tracks

BLEND = 0.6
"""How long a way takes to slide into its own run after the choice [s]; for the eye."""

V = TypeVar("V")
P = TypeVar("P", bound=tuple[float, ...])


def alike_until_chosen(ways: Sequence[Tracks]) -> tuple[Tracks, ...]:
    """Return the ways in their order, each alike with those before it until their ways part."""
    found: list[Tracks] = []
    for way in ways:
        model, until = _nearest(way, found)
        found.append(way if model is None else _joined(model, way, until))
    return tuple(found)


def parting(one: Tracks, other: Tracks) -> float:
    """Return when two ways part: the earlier of the times of their first unlike choices [s]."""
    for a, b in zip(one.choices, other.choices, strict=False):
        if a[0] != b[0]:
            return min(a[1], b[1])
    return min(one.duration, other.duration)


def _nearest(way: Tracks, before: list[Tracks]) -> tuple[Tracks | None, float]:
    """Return the way before that parts from this one last, and when they part."""
    best: Tracks | None = None
    latest = 0.0
    for other in before:
        time = parting(other, way)
        if best is None or time > latest:
            best, latest = other, time
    return best, latest


def _joined(model: Tracks, way: Tracks, until: float) -> Tracks:
    count = min(bisect_left(way.time, until), len(way.time) - 1, len(model.time) - 1)
    fade = max(1, round(BLEND / way.step))

    def places(shown: Sequence[P], own: Sequence[P]) -> tuple[P, ...]:
        gap = [a - b for a, b in zip(shown[count], own[count], strict=True)]
        rest: list[P] = []
        for k in range(count, len(own)):
            left = max(0.0, 1.0 - (k - count) / fade)
            moved = (round(v + left * g, DIGITS) for v, g in zip(own[k], gap, strict=True))
            rest.append(cast("P", tuple(moved)))
        return (*shown[:count], *rest)

    def words(shown: Sequence[V], own: Sequence[V]) -> tuple[V, ...]:
        return (*shown[:count], *own[count:])

    others = dict(model.people)
    return replace(
        way,
        people=tuple((name, places(others.get(name, own), own)) for name, own in way.people),
        puck=places(model.puck, way.puck)
        if _puck_fades(model, way, count)
        else words(model.puck, way.puck),
        puck_state=words(model.puck_state, way.puck_state),
        holder=words(model.holder, way.holder),
        her=places(model.her, way.her),
        stance=words(model.stance, way.stance),
        is_set=words(model.is_set, way.is_set),
        wanted=words(model.wanted, way.wanted),
        words=(
            *(one for one in model.words if one[0] < until),
            *(one for one in way.words if one[0] >= until),
        ),
        shots=(
            *(one for one in model.shots if one.time < until),
            *(one for one in way.shots if one.time >= until),
        ),
    )


def _puck_fades(model: Tracks, way: Tracks, count: int) -> bool:
    """Return whether the puck is in the same hands on both ways, so that it may slide over."""
    return model.holder[count] == way.holder[count]
