"""Small pieces of the resolver: who holds the puck first, what lies loose, how somebody follows."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from tendline.drill.skating import Glide, Point
from tendline.drill.timeline import Attack, PuckEvent, PuckKind, Track
from tendline.drill.types import Action
from tendline.drill.vocabulary import TriggerKind, Verb


def pursuit(start: Point, other: Track, begin: float, until: float, speed: float) -> Glide:
    """Return the way of somebody who keeps a metre on the goal's side of another."""
    step, reach = 0.1, 1.0
    times, places = [0.0], [start]
    while begin + times[-1] < until - 1e-9:
        now = begin + times[-1]
        target = other.at(now)
        away = math.hypot(*target) or 1.0
        aim = (target[0] * (1 - reach / away), target[1] * (1 - reach / away))
        here = places[-1]
        gap = math.dist(here, aim)
        move = min(gap, speed * step)
        share = move / gap if gap > 1e-9 else 0.0
        places.append((here[0] + share * (aim[0] - here[0]), here[1] + share * (aim[1] - here[1])))
        times.append(times[-1] + step)
    x, y = np.array([p[0] for p in places]), np.array([p[1] for p in places])
    return Glide(np.array(times), x, y, np.zeros(len(times)))


Followers = Mapping[str, tuple[float, str, float]]
"""Who follows somebody: since when [s], whom, how fast [m/s]."""


def follow(who: str, until: float, attack: Attack, followers: Followers) -> None:
    """Give somebody who follows another his way up to a time: a metre on the goal's side."""
    begin, partner, speed = followers[who]
    if until > begin:
        mine, other = attack.tracks[who], attack.tracks[partner]
        mine.add(begin, pursuit(mine.at(begin), other, begin, until, speed))


def as_far(attack: Attack, followers: Followers) -> Attack:
    """Return the attack so far, with everyone who follows somebody on his way."""
    if not followers:
        return attack
    tracks = {
        name: replace(one, begins=[*one.begins], glides=[*one.glides], cuts=[*one.cuts])
        for name, one in attack.tracks.items()
    }
    made = replace(attack, tracks=tracks)
    for who in followers:
        follow(who, made.ends, made, followers)
    return made


def breaks_off(action: Action) -> bool:
    """Return whether a line stops what its person is doing instead of waiting for it."""
    return action.trigger.kind not in (TriggerKind.THEN, TriggerKind.MEANWHILE)


def rounded(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Return a path to the millimetre, so that equal ways are remembered."""
    return tuple((round(x, 3), round(y, 3)) for x, y in points)


def length(points: tuple[Point, ...]) -> float:
    """Return the length of a way through points [m]."""
    return sum(math.dist(a, b) for a, b in pairwise(points))


def loose_puck(attack: Attack, time: float) -> PuckEvent | None:
    """Return the passed puck that lies somewhere and that nobody has taken yet."""
    found: PuckEvent | None = None
    for event in attack.ordered:
        if event.time > time + 1e-9:
            break
        if event.kind is PuckKind.LOOSE:
            found = event
        elif event.kind is not PuckKind.CLEARED:
            found = None
    return found


def first_holder(events: list[PuckEvent], actions: Sequence[Action]) -> list[PuckEvent]:
    """Return the start events with the one who acts first on the puck last, so that he counts."""
    order = [one.who for one in actions if one.verb in (Verb.CARRY, Verb.PASS, Verb.SHOOT)]

    def rank(event: PuckEvent) -> int:
        return -order.index(event.who) if event.who in order else -len(order) - 1

    return sorted(events, key=rank)
