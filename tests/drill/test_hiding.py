"""Until somebody chooses, every way through a drill shows the same."""

from __future__ import annotations

import math
from bisect import bisect_left
from itertools import combinations, pairwise

import pytest

from tendline.drill import library, simulate, tracks
from tendline.drill.hiding import BLEND, alike_until_chosen, parting

STEP = 0.08
NAMES = ("E08", "E01", "R03", "B02", "L08")


def ways(name: str):
    run = simulate(next(one for one in library() if one.id == name))
    return [tracks(run, one.key, STEP) for one in run.branches]


@pytest.mark.parametrize("name", NAMES)
def test_nothing_differs_until_the_ways_part(name: str) -> None:
    shown = alike_until_chosen(ways(name))
    assert len(shown) > 1
    for one, other in combinations(shown, 2):
        until = parting(one, other)
        count = bisect_left(one.time, until)
        for field in ("puck", "puck_state", "holder", "her", "stance", "is_set", "wanted"):
            assert getattr(one, field)[:count] == getattr(other, field)[:count], field
        assert [p[:count] for _, p in one.people] == [p[:count] for _, p in other.people]
        assert [w for w in one.words if w[0] < until] == [w for w in other.words if w[0] < until]


def test_without_it_they_do_differ() -> None:
    one, other = ways("E08")[:2]
    count = bisect_left(one.time, parting(one, other))
    assert one.people[0][1][:count] != other.people[0][1][:count]


@pytest.mark.parametrize("name", NAMES)
def test_every_way_ends_as_it_did_and_nobody_jumps(name: str) -> None:
    own = ways(name)
    for before, after in zip(own, alike_until_chosen(own), strict=True):
        late = bisect_left(after.time, max(time for _, time in after.choices) + BLEND + STEP)
        assert after.her[late:] == before.her[late:]
        assert len(after.shots) == len(before.shots)
        for (_, old), (_, new) in zip(before.people, after.people, strict=True):
            fastest = max((math.dist(a, b) for a, b in pairwise(old)), default=0.0)
            assert max(math.dist(a, b) for a, b in pairwise(new)) < fastest + 0.12
