"""A drill seen in a mirror: left and right exchanged in places and words, hands left as they are.

Places swap by name or change the sign of y. In texts 'left' and 'right' change places word by
word, with two exceptions: hands do not mirror, so 'shoots left', 'catches left', 'left hand' and
'left-handed' stay; and her glove stays on its hand, so 'glove side' and 'blocker side', and shots
aimed at either, change places. Mirroring twice gives the drill back, letter for letter.
"""

from __future__ import annotations

import re
from dataclasses import replace

from tendline.drill.types import (
    Action,
    Branch,
    Choice,
    Correction,
    Drill,
    Item,
    Link,
    Mark,
    Note,
    Person,
    Place,
    Thing,
    Trigger,
)
from tendline.drill.vocabulary import Target

_WORDS = re.compile(
    r"(?P<hand>\b(?:shoots|catches|shot|shooting|catching)\s+(?:left|right)\b"
    r"|\b(?:left|right)(?:-|\s+)(?:hand|hands|handed|hander|handers|handedness)\b"
    r"|\b(?:left|right)-?(?:shot|catching)\b)"
    r"|\b(?P<side>left|right)(?P<ward>ward|wards|most)?\b"
    r"|\b(?P<gear>glove|blocker)(?=(?:\s+|-)side\b)",
    re.IGNORECASE,
)
_SWAP = {"left": "right", "right": "left", "glove": "blocker", "blocker": "glove"}
_TARGETS = {
    Target.LOW_GLOVE: Target.LOW_BLOCKER,
    Target.HIGH_GLOVE: Target.HIGH_BLOCKER,
    Target.LOW_BLOCKER: Target.LOW_GLOVE,
    Target.HIGH_BLOCKER: Target.HIGH_GLOVE,
}


def mirror_text(text: str) -> str:
    """Return a text with left and right exchanged, hands left alone."""

    def swap(found: re.Match[str]) -> str:
        if found["hand"]:
            return found[0]
        word = found["side"] or found["gear"]
        new = _SWAP[word.lower()]
        if word.isupper() and len(word) > 1:
            new = new.upper()
        elif word[0].isupper():
            new = new.capitalize()
        return new + (found["ward"] or "")

    return _WORDS.sub(swap, text)


def mirror_place(place: Place, things: frozenset[str] = frozenset()) -> Place:
    """Return a place on the other side; names of the drill's own things stay."""
    if not place.name:
        return Place("", place.x, -place.y + 0.0)
    if place.name in things:
        return place
    return Place(mirror_text(place.name))


def mirror_drill(drill: Drill) -> Drill:
    """Return the mirror image of a drill; mirrored twice it is the same, letter for letter."""
    labels = frozenset(one.label for one in drill.things)

    def at(place: Place | None) -> Place | None:
        return None if place is None else mirror_place(place, labels)

    def texts(lines: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(mirror_text(one) for one in lines)

    def note(one: Note) -> Note:
        return Note(texts(one.before), mirror_text(one.after))

    def trigger(one: Trigger) -> Trigger:
        return replace(one, place=at(one.place))

    def action(one: Action) -> Action:
        return replace(
            one, to=at(one.to), via=tuple(mirror_place(p, labels) for p in one.via),
            facing=at(one.facing), trigger=trigger(one.trigger), word=mirror_text(one.word),
            target=_TARGETS.get(one.target, one.target) if one.target else None,
            note=note(one.note),
        )  # fmt: skip

    def item(one: Item) -> Item:
        if isinstance(one, Action):
            return action(one)
        return Choice(
            who=one.who, reading=mirror_text(one.reading), told=one.told, note=note(one.note),
            branches=tuple(
                Branch(name=mirror_text(b.name), when=mirror_text(b.when), weight=b.weight,
                       items=tuple(item(x) for x in b.items), note=note(b.note))
                for b in one.branches
            ),
        )  # fmt: skip

    def person(one: Person) -> Person:
        return replace(
            one, at=mirror_place(one.at, labels), facing=at(one.facing),
            words=mirror_text(one.words), note=note(one.note),
        )  # fmt: skip

    def thing(one: Thing) -> Thing:
        return replace(one, at=mirror_place(one.at, labels), facing=at(one.facing),
                       note=note(one.note))  # fmt: skip

    return replace(
        drill,
        title=mirror_text(drill.title),
        equipment=texts(drill.equipment),
        purpose=mirror_text(drill.purpose),
        shooters_aim=mirror_text(drill.shooters_aim),
        goaltender_aim=mirror_text(drill.goaltender_aim),
        set_up=texts(drill.set_up),
        steps=texts(drill.steps),
        rules=texts(drill.rules),
        next_rep=trigger(drill.next_rep),
        rotation=mirror_text(drill.rotation),
        cues=texts(drill.cues),
        key_points=texts(drill.key_points),
        errors=tuple(
            Correction(mirror_text(one.error), mirror_text(one.correction)) for one in drill.errors
        ),
        easier=tuple(Link(one.drill, mirror_text(one.words)) for one in drill.easier),
        harder=tuple(Link(one.drill, mirror_text(one.words)) for one in drill.harder),
        off_ice=texts(drill.off_ice),
        marks=tuple(Mark(one.kind, mirror_text(one.because)) for one in drill.marks),
        remarks=texts(drill.remarks),
        mirrored=not drill.mirrored,
        people=tuple(person(one) for one in drill.people),
        things=tuple(thing(one) for one in drill.things),
        play=tuple(item(one) for one in drill.play),
        notes=tuple((key, note(one)) for key, one in drill.notes),
    )
