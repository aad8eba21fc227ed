"""Who and what the lines of a drill refer to: renaming it everywhere, or taking it out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tendline.drill.types import Action, Choice, Drill, Item, Place, Thing, Trigger


def renamed(drill: Drill, old: str, new: str) -> Drill:
    """Return the drill where a person or a thing has another name, in every line."""

    def name(one: str) -> str:
        return new if one == old else one

    def at(place: Place | None) -> Place | None:
        return None if place is None else _spot(place)

    def _spot(place: Place) -> Place:
        return Place(new) if place.name == old else place

    def trigger(one: Trigger) -> Trigger:
        return replace(one, who=name(one.who), place=at(one.place))

    def item(one: Item) -> Item:
        if isinstance(one, Action):
            return replace(
                one, who=name(one.who), partner=name(one.partner), to=at(one.to),
                via=tuple(_spot(p) for p in one.via), facing=at(one.facing),
                trigger=trigger(one.trigger),
            )  # fmt: skip
        branches = tuple(replace(b, items=tuple(item(x) for x in b.items)) for b in one.branches)
        return replace(one, who=name(one.who), branches=branches)

    return replace(drill,
        people=tuple(
            replace(one, name=name(one.name), at=_spot(one.at), facing=at(one.facing))
            for one in drill.people
        ),
        things=tuple(
            replace(
                one, at=_spot(one.at), facing=at(one.facing),
                name=new.partition(" ")[2] if one.label == old else one.name,
            )
            for one in drill.things
        ),
        play=tuple(item(one) for one in drill.play),
        next_rep=trigger(drill.next_rep),
    )  # fmt: skip


def without_thing(drill: Drill, thing: Thing) -> Drill:
    """Return the drill without a thing; what referred to it keeps the place where it lay."""
    label = thing.label

    def at(place: Place | None) -> Place | None:
        return None if place is None else _spot(place)

    def _spot(place: Place) -> Place:
        return thing.at if place.name == label else place

    def trigger(one: Trigger) -> Trigger:
        return replace(one, place=at(one.place))

    def item(one: Item) -> Item:
        if isinstance(one, Action):
            return replace(
                one, to=at(one.to), via=tuple(_spot(p) for p in one.via), facing=at(one.facing),
                trigger=trigger(one.trigger),
            )  # fmt: skip
        branches = tuple(replace(b, items=tuple(item(x) for x in b.items)) for b in one.branches)
        return replace(one, branches=branches)

    return replace(
        drill,
        things=tuple(
            replace(one, at=_spot(one.at), facing=at(one.facing))
            for one in drill.things
            if one.label != label
        ),
        people=tuple(replace(one, at=_spot(one.at), facing=at(one.facing)) for one in drill.people),
        play=tuple(item(one) for one in drill.play),
        next_rep=trigger(drill.next_rep),
    )


def without_person(drill: Drill, name: str) -> tuple[Drill, int]:
    """Return the drill without a person, and how many lines went with him.

    His own lines and choices go, and lines that need him (a pass to him). Lines that only waited
    for him stay and start when the line above is finished.
    """
    gone = 0

    def trigger(one: Trigger) -> Trigger:
        return Trigger() if one.who == name else one

    def items(play: tuple[Item, ...]) -> tuple[Item, ...]:
        nonlocal gone
        found: list[Item] = []
        for one in play:
            if one.who == name or (isinstance(one, Action) and one.partner == name):
                gone += _lines(one)
            elif isinstance(one, Action):
                found.append(replace(one, trigger=trigger(one.trigger)))
            else:
                found.append(_within(one, items))
        return tuple(found)

    play = items(drill.play)
    tags = _tags(play)
    made = replace(
        drill,
        people=tuple(one for one in drill.people if one.name != name),
        play=_untagged(play, tags),
        next_rep=trigger(drill.next_rep),
    )
    return made, gone


def without_lost_tags(play: tuple[Item, ...]) -> tuple[Item, ...]:
    """Return the play where lines that waited for a line that is gone start after the one above."""
    return _untagged(play, _tags(play))


def _within(choice: Choice, change: Callable[[tuple[Item, ...]], tuple[Item, ...]]) -> Choice:
    branches = tuple(replace(b, items=change(b.items)) for b in choice.branches)
    return replace(choice, branches=branches)


def _lines(item: Item) -> int:
    if isinstance(item, Action):
        return 1
    return 1 + sum(1 + sum(_lines(x) for x in b.items) for b in item.branches)


def _tags(play: tuple[Item, ...]) -> frozenset[str]:
    found: set[str] = set()
    for item in play:
        if isinstance(item, Action):
            found.add(item.tag)
        else:
            for branch in item.branches:
                found |= _tags(branch.items)
    return frozenset(found)


def _untagged(play: tuple[Item, ...], tags: frozenset[str]) -> tuple[Item, ...]:
    def item(one: Item) -> Item:
        if isinstance(one, Action):
            lost = one.trigger.tag and one.trigger.tag not in tags
            return replace(one, trigger=Trigger()) if lost else one
        return _within(one, lambda inner: tuple(item(x) for x in inner))

    return tuple(item(one) for one in play)
