"""Drills by what a coach has: every answer fits, nothing that fits is left out, and why not."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import Level, NotFoundError, ScoringSituation
from tendline.drill import drill_by_id, library
from tendline.drill.vocabulary import Family, IceUse, Theme
from tendline.ice import rink
from tendline.store import Store, open_store
from tendline.work.drill_search import Wish, find_drills, in_turns, needs_of, rooms

BLANK = Wish()
ROOMS = ("", *rooms(rink()))
WISHES = st.builds(
    Wish,
    words=st.sampled_from(["", "post", "wrap around", "nothing says this"]),
    goaltenders=st.none() | st.integers(0, 6),
    skaters=st.none() | st.integers(0, 16),
    helpers=st.none() | st.integers(0, 3),
    room=st.sampled_from(ROOMS),
    nets=st.none() | st.integers(0, 2),
    minutes=st.none() | st.integers(1, 12),
    level=st.none() | st.sampled_from(list(Level)),
    theme=st.none() | st.sampled_from(list(Theme)),
    situation=st.none() | st.sampled_from(list(ScoringSituation)),
    family=st.none() | st.sampled_from(list(Family)),
)


@pytest.fixture(scope="module")
def store(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    with open_store(tmp_path_factory.mktemp("club") / "club.db") as opened:
        yield opened


def ids(store: Store, wish: Wish) -> set[str]:
    return {one.id for one in find_drills(store, wish).drills}


def test_nothing_asked_gives_every_drill(store: Store):
    found = find_drills(store, BLANK)
    assert len(found.drills) == found.total == len(library())
    assert BLANK.asked == ()


@given(wish=WISHES)
@settings(deadline=None, max_examples=60)
def test_all_conditions_together_are_each_one_alone(store: Store, wish: Wish):
    each = [ids(store, BLANK.without(*BLANK.asked))]
    for name in wish.asked:
        others = [one for one in wish.asked if one != name]
        each.append(ids(store, wish.without(*others)))
    assert ids(store, wish) == set.intersection(*each)


@given(wish=WISHES)
@settings(deadline=None, max_examples=60)
def test_what_to_loosen_gives_what_it_says(store: Store, wish: Wish):
    found = find_drills(store, wish)
    assert bool(found.loosen) <= (not found.drills)
    for one in found.loosen:
        assert one.count == len(find_drills(store, wish.without(*one.names)).drills) > 0
    counts = [one.count for one in found.loosen]
    assert counts == sorted(counts, reverse=True)
    if any(len(one.names) == 2 for one in found.loosen):
        assert not any(ids(store, wish.without(name)) for name in wish.asked)


@given(wish=WISHES, name=st.sampled_from(["goaltenders", "skaters", "helpers", "nets", "minutes"]))
@settings(deadline=None, max_examples=60)
def test_more_of_anything_never_takes_a_drill_away(store: Store, wish: Wish, name: str):
    value = getattr(wish, name)
    if value is None:
        return
    more = {one: getattr(wish, one) for one in wish.asked} | {name: value + 1}
    assert ids(store, wish) <= ids(store, Wish(**more))


def test_more_ice_never_takes_a_drill_away(store: Store):
    # By hand: full ice holds half ice, which holds a third across and an end zone, each a patch.
    room = {name: ids(store, Wish(room=name)) for name in ROOMS if name}
    assert room["a patch of ice"] < room["one end zone"] <= room["half ice"] <= room["full ice"]
    assert room["a patch of ice"] < room["cross ice"] <= room["half ice"]


def test_off_the_ice_needs_no_ice_and_ice_is_not_off_it(store: Store):
    # By hand: the library's five drills with 'ice: off the ice'.
    off = {one.id for one in library() if one.ice.use is IceUse.OFF_ICE}
    assert ids(store, Wish(room="off the ice")) == off
    assert len(off) >= 1
    assert not off & ids(store, Wish(room="full ice"))


def test_without_a_net_only_drills_without_one(store: Store):
    # By hand: 21 drills of the library have no net.
    none = {one.id for one in library() if one.nets == 0}
    assert ids(store, Wish(nets=0)) == none
    assert 0 < len(none) < len(library())


def test_an_unknown_piece_of_ice_is_named_with_those_there_are(store: Store):
    with pytest.raises(NotFoundError, match="half ice"):
        find_drills(store, Wish(room="half an ice"))


def test_a_drill_says_what_it_needs_and_who_waits():
    # By hand: the head of L01's script.
    drill = drill_by_id("L01")
    assert needs_of(drill) == "1 to 2 goaltenders, 2 to 6 skaters; end zone, 1 net"
    assert in_turns(drill, 2) == "" == in_turns(drill, None)
    assert in_turns(drill, 3) == "2 at a time, 1 in turn"


@pytest.mark.parametrize(
    ("wish", "name", "words"),
    [
        (Wish(goaltenders=1), "goaltenders", "1 goaltender"),
        (Wish(skaters=0), "skaters", "no skater"),
        (Wish(helpers=2), "helpers", "2 people to serve"),
        (Wish(nets=0), "nets", "no net"),
        (Wish(minutes=5), "minutes", "5 minutes"),
        (Wish(words="low glove"), "words", "the words 'low glove'"),
        (Wish(level=Level.U11), "level", "age U11"),
        (Wish(theme=Theme.LATERAL), "theme", "training lateral"),
        (Wish(room="half ice"), "room", "half ice"),
    ],
)
def test_each_condition_reads_as_a_coach_says_it(wish: Wish, name: str, words: str):
    assert wish.asked == (name,)
    assert wish.says(name) == words
