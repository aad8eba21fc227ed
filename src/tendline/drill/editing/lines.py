"""Edits of the lines of the play."""

from __future__ import annotations

from dataclasses import replace
from enum import StrEnum
from typing import TypeVar

from tendline.base import InputError, ShotType
from tendline.drill import limits
from tendline.drill.editing.references import without_lost_tags
from tendline.drill.editing.request import Asked, Edited, names_in, place_in, refused
from tendline.drill.editing.rows import (
    Row,
    RowPath,
    action_at,
    inserted,
    items_in,
    row_of,
    rows_of,
    with_items,
    with_row,
)
from tendline.drill.editing.verbs import may_have
from tendline.drill.phrases import (
    TAG,
    Wrong,
    read_number,
    read_pace,
    read_trigger,
    read_word,
)
from tendline.drill.play_lines import read_action, show_action
from tendline.drill.types import Action, Branch, Choice, Drill, Pace, Trigger
from tendline.drill.vocabulary import Force, Target, TriggerKind, Verb

E = TypeVar("E", bound=StrEnum)
WAITS = 1.0
"""Seconds that 'waits' starts with [s]; the coach changes them."""
FIRST_WORD = "now"
"""What a call says until the coach writes something better."""
ON_GOING = (Verb.FOLLOW, Verb.CALL)


def add_line(drill: Drill, asked: Asked) -> Edited:
    """Write a line: ``who`` does ``verb``, ``to`` a place or a person, ``via`` places.

    It goes behind row ``after``, else to the end of the branch that is row ``track``, else to the
    end of the play. Its trigger is the one that usually fits; the coach may change it.
    """
    who, verb = asked.text("who"), _verb(asked.text("verb"))
    container, index = _where(drill, asked)
    target = asked.text("to", "")
    action = _made(drill, who, verb, target, asked)
    action = replace(action, trigger=_usual_trigger(drill, container, index, action))
    made = inserted(drill, container, index, action)
    return Edited(made, f"New line: {show_action(action)}.", None)


def _made(drill: Drill, who: str, verb: Verb, target: str, asked: Asked) -> Action:
    """Return the action read from words, so that the script's own rules decide what is allowed."""
    action = Action(who=who, verb=verb)
    if target:
        action = _aimed(drill, action, target)
    via = tuple(place_in(one, drill) for one in asked.texts("via"))
    if via:
        _require(verb, "via")
        action = replace(action, via=via)
    if verb is Verb.WAIT:
        action = replace(action, seconds=WAITS)
    elif verb is Verb.CALL:
        action = replace(action, word=FIRST_WORD)
    return checked(drill, action)


def _aimed(drill: Drill, action: Action, target: str) -> Action:
    people = names_in(drill).people
    if action.verb in (Verb.PASS, Verb.TOSS, Verb.FOLLOW) and target in people:
        return replace(action, partner=target, to=None)
    place = place_in(target, drill)
    if action.verb is Verb.RE_AIM:
        return replace(action, facing=place)
    return replace(action, to=place, partner="")


def checked(drill: Drill, action: Action) -> Action:
    """Return the action as the script reads it back; raises ``InputError`` if it cannot be said."""
    try:
        return replace(read_action(show_action(action), names_in(drill)), note=action.note)
    except Wrong as wrong:
        raise refused(wrong) from None


def _where(drill: Drill, asked: Asked) -> tuple[RowPath, int]:
    """Return the block and the place in it where a new line goes."""
    after, track = asked.whole("after", -1), asked.whole("track", -1)
    if after >= 0:
        row = row_of(drill, after)
        if isinstance(row.holds, Branch):
            return row.path, 0
        return row.container, row.path[-1] + 1
    if track >= 0:
        row = row_of(drill, track)
        if isinstance(row.holds, Branch):
            return row.path, len(row.holds.items)
    return (), len(drill.play)


def line_before(drill: Drill, container: RowPath, index: int) -> Action | None:
    """Return the line that is finished before one at this place; None at the start of the play."""
    items = items_in(drill.play, container)
    if index > 0:
        before = items[index - 1]
        if isinstance(before, Action):
            return before
        endings = [b.items[-1] for b in before.branches if b.items]
        return next((one for one in endings if isinstance(one, Action)), None)
    return line_before(drill, container[:-2], container[-2]) if container else None


def _usual_trigger(drill: Drill, container: RowPath, index: int, action: Action) -> Trigger:
    before = line_before(drill, container, index)
    if before is None:
        return Trigger(kind=TriggerKind.WHISTLE) if not container else Trigger()
    if action.verb is Verb.SHOOT and before.verb is Verb.PASS and before.partner == action.who:
        return Trigger(kind=TriggerKind.HAS_PUCK, who=action.who)
    if action.verb is Verb.TIP and before.verb is Verb.SHOOT:
        return Trigger(kind=TriggerKind.SHOT)
    return Trigger()


def set_line(drill: Drill, asked: Asked) -> Edited:
    """Change one thing that a line says; an empty ``value`` takes it out."""
    row, action = action_at(drill, asked.whole("row"))
    field, value = asked.text("field"), asked.text("value", "")
    made = checked(drill, _changed(drill, action, field, value))
    if made.verb is Verb.CALL and not made.word:
        raise InputError("a call says something", came="nothing", allowed='a word, such as "left"')
    return Edited(with_row(drill, row, made), f"Now: {show_action(made)}.", f"row {row.number}")


def _changed(drill: Drill, action: Action, field: str, value: str) -> Action:
    try:
        match field:
            case "who":
                return replace(action, who=value)
            case "to":
                return _aimed(drill, action, value) if value else replace(action, to=None)
            case "facing":
                return replace(action, facing=place_in(value, drill) if value else None)
            case "pace":
                return replace(action, pace=_pace(value))
            case "force":
                return replace(action, force=_word(Force, value, "how hard a pass is"))
            case "shot":
                return replace(action, shot=_word(ShotType, value, "the shot"))
            case "target":
                return replace(action, target=_word(Target, value, "the aim"))
            case "seconds":
                seconds = (
                    read_number(value, "the time", low=0.0, high=limits.MAX_SECONDS, unit="s")
                    if value else None
                )  # fmt: skip
                return replace(action, seconds=seconds)
            case "backward":
                return replace(action, backward=value in ("yes", "on", "true"))
            case "word":
                return replace(action, word=value.replace('"', ""))
            case "verb":
                return _other_verb(action, _verb(value))
            case "trigger":
                return replace(action, trigger=_trigger(drill, value, action.trigger.delay))
            case "delay":
                return replace(action, trigger=_delayed(action.trigger, value))
            case _:
                raise InputError("this is not known of a line", came=field)
    except Wrong as wrong:
        raise refused(wrong) from None


def _other_verb(action: Action, verb: Verb) -> Action:
    """Return the line with another verb and what still fits of the rest."""
    made = Action(who=action.who, verb=verb, trigger=action.trigger, note=action.note,
                  tag=action.tag)  # fmt: skip
    if may_have(verb, "to") or (verb in (Verb.SCREEN, Verb.COLLECT, Verb.LOOK, Verb.SEAL)):
        made = replace(made, to=action.to)
    if may_have(verb, "via"):
        made = replace(made, via=action.via)
    if may_have(verb, "backward"):
        made = replace(made, backward=action.backward)
    if may_have(verb, "facing"):
        made = replace(made, facing=action.facing)
    if verb in (Verb.SKATE, Verb.CARRY, Verb.FOLLOW) and action.verb in (Verb.SKATE, Verb.CARRY):
        made = replace(made, pace=action.pace)
    if verb in (Verb.PASS, Verb.TOSS, Verb.FOLLOW):
        made = replace(made, partner=action.partner)
    if verb in (Verb.WAIT, Verb.STOP, Verb.SET, Verb.DROP, Verb.SCREEN):
        made = replace(made, seconds=action.seconds or (WAITS if verb is Verb.WAIT else None))
    return replace(made, word=FIRST_WORD) if verb is Verb.CALL else made


def _trigger(drill: Drill, value: str, delay: float) -> Trigger:
    trigger = read_trigger(value or "then", names_in(drill))
    if trigger.delay or trigger.kind is TriggerKind.MEANWHILE:
        return trigger
    return replace(trigger, delay=delay)


def _delayed(trigger: Trigger, value: str) -> Trigger:
    delay = read_number(value or "0", "the delay", low=0.0, high=limits.MAX_SECONDS, unit="s")
    if trigger.kind is TriggerKind.MEANWHILE and delay:
        raise InputError(
            "a line that starts together with the one above has no delay", came=f"{delay:g} s",
            hint="Drag its bar on the time line, or choose another start.",
        )  # fmt: skip
    return replace(trigger, delay=delay)


def _pace(value: str) -> Pace | None:
    if not value:
        return None
    pace = read_pace(value.removeprefix("at "))
    if pace is None:
        raise InputError(
            "the speed is not known", came=f"'{value}'",
            allowed="a walk, half speed, full speed, 5 m/s",
        )  # fmt: skip
    return pace


def _word(kind: type[E], value: str, what: str) -> E | None:
    return read_word(kind, value, what) if value else None


def _verb(word: str) -> Verb:
    try:
        return read_word(Verb, word, "what he does")
    except Wrong as wrong:
        raise refused(wrong) from None


def _require(verb: Verb, clause: str) -> None:
    if not may_have(verb, clause):
        raise InputError(f"'{verb.value}' has no '{clause}'", came=verb.value)


def remove_row(drill: Drill, asked: Asked) -> Edited:
    """Take out a line, a branch (two must stay), or a whole choice."""
    row = row_of(drill, asked.whole("row"))
    words = said_of(row)
    if isinstance(row.holds, Branch):
        above = _choice_above(drill, row)
        if len(above.branches) <= 2:
            raise InputError(
                "a choice has at least two ways", came=words,
                hint="Take out the whole choice, or write another way first.",
            )  # fmt: skip
    made = with_row(drill, row)
    made = replace(made, play=without_lost_tags(made.play))
    return Edited(made, f"Taken out: {words}.", "")


def _choice_above(drill: Drill, row: Row) -> Choice:
    found = items_in(drill.play, row.path[:-2])[row.path[-2]]
    assert isinstance(found, Choice)
    return found


def said_of(row: Row) -> str:
    """Return what a row says in a few words."""
    if isinstance(row.holds, Action):
        return show_action(row.holds)
    if isinstance(row.holds, Branch):
        return f"the way '{row.holds.name}'"
    return f"the choice by {row.holds.who}"


def move_row(drill: Drill, asked: Asked) -> Edited:
    """Move a line or a choice up (-1) or down (1) within its block."""
    row, by = row_of(drill, asked.whole("row")), asked.whole("by")
    if isinstance(row.holds, Branch):
        raise InputError("ways of a choice have no order", came=said_of(row))
    items = items_in(drill.play, row.container)
    place = row.path[-1] + by
    if by not in (-1, 1) or not 0 <= place < len(items):
        raise InputError("the line cannot go further", came=said_of(row))
    order = list(items)
    order.insert(place, order.pop(row.path[-1]))
    play = with_items(drill.play, row.container, lambda _: tuple(order))
    made = replace(drill, play=play)
    path = (*row.container, place)
    number = next(one.number for one in rows_of(play) if one.path == path)
    return Edited(made, f"Moved: {said_of(row)}.", f"row {number}")


def name_line(drill: Drill, row: Row, action: Action) -> tuple[Drill, str]:
    """Return the drill where a line has a name ('as ...') for others to wait for, and the name."""
    if action.tag:
        return drill, action.tag
    taken = set(names_in(drill).tags)
    word = action.verb.value.rstrip("s").replace("-", "")
    stem = f"{action.who.lower()}-{word}"[:26]
    tag = next(
        name for name in (stem, *(f"{stem}{n}" for n in range(2, 400)))
        if name not in taken and TAG.fullmatch(name)
    )  # fmt: skip
    return with_row(drill, row, replace(action, tag=tag)), tag


# Points of a path ---------------------------------------------------------------------------


def move_point(drill: Drill, asked: Asked) -> Edited:
    """Move a point of a path; the one behind the last of 'via' is its end, a place or a person."""
    row, action = action_at(drill, asked.whole("row"))
    index = asked.whole("index")
    if index >= len(action.via):
        made = _aimed(drill, action, asked.text("at"))
    else:
        _known_point(action, index)
        via = (*action.via[:index], asked.place("at", drill), *action.via[index + 1 :])
        made = replace(action, via=via)
    made = checked(drill, made)
    return Edited(with_row(drill, row, made), f"Now: {show_action(made)}.", f"row {row.number}")


def add_point(drill: Drill, asked: Asked) -> Edited:
    """Put a point into a path before point ``index``."""
    row, action = action_at(drill, asked.whole("row"))
    index, place = asked.whole("index"), asked.place("at", drill)
    _require(action.verb, "via")
    if not 0 <= index <= len(action.via):
        raise InputError("the path has no such point", came=str(index))
    via = (*action.via[:index], place, *action.via[index:])
    made = checked(drill, replace(action, via=via))
    return Edited(with_row(drill, row, made), f"Now: {show_action(made)}.", f"row {row.number}")


def remove_point(drill: Drill, asked: Asked) -> Edited:
    """Take a point out of a path."""
    row, action = action_at(drill, asked.whole("row"))
    index = asked.whole("index")
    _known_point(action, index)
    made = replace(action, via=(*action.via[:index], *action.via[index + 1 :]))
    return Edited(with_row(drill, row, made), f"Now: {show_action(made)}.", f"row {row.number}")


def _known_point(action: Action, index: int) -> None:
    if not 0 <= index < len(action.via):
        raise InputError("the path has no such point", came=str(index))
