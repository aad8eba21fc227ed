"""Edits made on the time line: a line starts or ends at a time, or waits for another line."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from tendline.base import InputError
from tendline.drill import limits
from tendline.drill.branches import Path, paths_of
from tendline.drill.editing.lines import checked, name_line, set_line
from tendline.drill.editing.request import Asked, Edited
from tendline.drill.editing.rows import Row, action_at, rows_of, with_row
from tendline.drill.goaltending import HerPlay
from tendline.drill.phrases import show_trigger
from tendline.drill.play_lines import show_action
from tendline.drill.resolve import Resolver
from tendline.drill.timeline import Attack, PuckKind
from tendline.drill.types import Action, Drill, Pace, Trigger
from tendline.drill.vocabulary import SpeedWord, TriggerKind, Verb
from tendline.drill.world import World

TOGETHER = 0.15
"""A start this near to an event [s] means: with the event."""
RECENT = 3.0
"""Events up to this long before a start [s] are worth naming in it."""
LEAST_SPAN = 0.1
ROUNDS = 5
NEAR_ENOUGH = 0.025
WORD_NEAR = 0.03
"""Shortest span [s]; tries for a speed, how near to the span [s] they must come, and how near
(share) to a speed in words it may be for the word to do."""
HELD = (Verb.WAIT, Verb.STOP, Verb.SET, Verb.DROP, Verb.SCREEN)
PACED = (Verb.SKATE, Verb.CARRY)


@dataclass(frozen=True, slots=True)
class Clock:
    """One branch on the clock, first repetition: the attack, and which line is which row."""

    attack: Attack
    numbers: dict[int, int]

    def begin(self, row: int) -> float:
        """Return when a row begins [s]."""
        return self.attack.lines[self._line(row)].begin

    def end(self, row: int) -> float:
        """Return when a row ends [s]."""
        return self.attack.lines[self._line(row)].end

    def _line(self, row: int) -> int:
        if row not in self.numbers:
            raise InputError("this line does not happen on this way", came=f"line {row}")
        return self.numbers[row]


def clock_of(drill: Drill, world: World, row: int) -> Clock:
    """Return the first branch on which a row happens, on the clock."""
    for path in paths_of(drill):
        numbers = line_numbers(drill, path)
        if row in numbers:
            attack = Resolver(drill, world, HerPlay(drill, world)).resolve(path.actions)
            return Clock(attack, numbers)
    raise InputError("this line is not on the clock", came=f"line {row}")


def line_numbers(drill: Drill, path: Path) -> dict[int, int]:
    """Return, for every row that happens on a way, its place in the way's list of lines."""
    at = {id(row.holds): row.number for row in rows_of(drill.play)}
    return {at[id(action)]: place for place, action in enumerate(path.actions)}


def start_at(drill: Drill, asked: Asked, world: World) -> Edited:
    """Let a line start at ``time`` [s after the whistle]: the trigger is found that says so.

    What it waits for stays if that has happened by then; else the newest event before it is taken,
    or the whistle.
    """
    row, action = action_at(drill, asked.whole("row"))
    wanted = _bounded(asked.number("time"))
    clock = clock_of(drill, world, row.number)
    trigger = _trigger_at(action, clock, clock.numbers[row.number], wanted)
    made = checked(drill, replace(action, trigger=trigger))
    said = show_trigger(trigger) or "then"
    return Edited(with_row(drill, row, made), f"Starts: {said}.", f"row {row.number}")


def _bounded(time: float) -> float:
    return min(max(0.0, time), limits.MAX_SECONDS)


def _trigger_at(action: Action, clock: Clock, number: int, wanted: float) -> Trigger:
    lines = clock.attack.lines
    here = lines[number]
    own = action.trigger
    base = here.begin - own.delay
    if own.kind is not TriggerKind.MEANWHILE and wanted >= base - TOGETHER:
        delay = round(max(0.0, wanted - base), 1)
        return replace(own, delay=delay)
    if number and abs(wanted - lines[number - 1].begin) <= TOGETHER:
        return Trigger(kind=TriggerKind.MEANWHILE)
    if wanted <= TOGETHER:
        return Trigger(kind=TriggerKind.WHISTLE)
    events = [one for one in _events(clock, number) if one[0] <= wanted + TOGETHER]
    recent = [one for one in events if wanted - one[0] <= RECENT]
    time, kind, who = max(recent, key=lambda one: one[0], default=(0.0, TriggerKind.WHISTLE, ""))
    return Trigger(kind=kind, who=who, delay=round(max(0.0, wanted - time), 1))


def _events(clock: Clock, number: int) -> list[tuple[float, TriggerKind, str]]:
    """Return what a line may wait for by the puck: the last of each kind before it."""
    first = clock.attack.lines[:number]
    actors = {(one.action.who, one.action.verb) for one in first}
    found = []
    last: dict[tuple[TriggerKind, str], float] = {}
    for event in clock.attack.ordered:
        shot = event.kind is PuckKind.SHOT
        verbs = (Verb.SHOOT, Verb.TOSS, Verb.TIP) if shot else (Verb.PASS,)
        if event.kind not in (PuckKind.SHOT, PuckKind.PASS):
            continue
        if not any((event.who, verb) in actors for verb in verbs):
            continue
        kind = TriggerKind.SHOT if shot else TriggerKind.PASS
        last[kind, event.who] = event.time
        if event.receiver:
            last[TriggerKind.HAS_PUCK, event.receiver] = event.arrives
    for (kind, who), time in last.items():
        found.append((time, kind, who))
    return found


def end_at(drill: Drill, asked: Asked, world: World) -> Edited:
    """Let a line end at ``time`` [s]: how long he waits, how fast he skates, how hard he passes."""
    row, action = action_at(drill, asked.whole("row"))
    clock = clock_of(drill, world, row.number)
    begin = clock.begin(row.number)
    span = max(LEAST_SPAN, round(_bounded(asked.number("time")) - begin, 1))
    if action.verb in PACED:
        made = _paced(drill, world, row, action, span)
    elif action.verb is Verb.PASS:
        made = _passed(clock, row, action, begin + span)
    elif action.verb in HELD:
        made = replace(action, seconds=span)
    else:
        raise InputError(
            "the end of this line cannot be chosen", came=show_action(action),
            hint="It takes as long as it takes; move its start instead.",
        )  # fmt: skip
    made = checked(drill, made)
    return Edited(with_row(drill, row, made), f"Now: {show_action(made)}.", f"row {row.number}")


def _paced(drill: Drill, world: World, row: Row, action: Action, span: float) -> Action:
    """Return the line with the speed that takes about ``span``; full speed if none is so fast."""
    skating = world.skating
    carrying = action.verb is Verb.CARRY

    def speed_of(pace: Pace | None) -> float:
        return skating.pace_speed(pace, carrying=carrying, backward=action.backward)

    full = speed_of(Pace(SpeedWord.FULL))
    speed = speed_of(action.pace)
    for _ in range(ROUNDS):
        tried = with_row(drill, row, replace(action, pace=Pace(None, round(speed, 3))))
        clock = clock_of(tried, world, row.number)
        took = clock.end(row.number) - clock.begin(row.number)
        if abs(took - span) < NEAR_ENOUGH:
            break
        speed = min(max(speed * took / span, 0.1), full)
    for word in SpeedWord:
        of_word = speed_of(Pace(word))
        if abs(speed - of_word) <= WORD_NEAR * of_word:
            return replace(action, pace=Pace(word))
    return replace(action, pace=Pace(None, round(speed, 1)))


def _passed(clock: Clock, row: Row, action: Action, arrives: float) -> Action:
    line = clock.attack.lines[clock.numbers[row.number]]
    flight = next(
        one for one in clock.attack.ordered
        if one.kind is PuckKind.PASS and one.who == action.who and one.arrives == line.end
    )  # fmt: skip
    taken = flight.arrives - flight.time
    wanted = max(LEAST_SPAN, arrives - flight.time)
    speed = min(max(flight.speed * taken / wanted, 0.1), limits.MAX_SPEED)
    return replace(action, pace=Pace(None, round(speed, 1)), force=None)


def link(drill: Drill, asked: Asked) -> Edited:
    """Let a line wait for another that stands above it: until it ``starts`` or ends."""
    return _linked(drill, asked.whole("row"), asked.whole("source"), starts=asked.flag("starts"))


def wait_for(drill: Drill, asked: Asked) -> Edited:
    """Let a line wait for ``value``: a trigger in words, or 'row 3 ends', 'row 3 starts'."""
    found = re.fullmatch(r"row (\d{1,4}) (starts|ends)", asked.text("value"))
    if found:
        return _linked(drill, asked.whole("row"), int(found[1]), starts=found[2] == "starts")
    return set_line(drill, Asked({**asked.values, "field": "trigger"}))


def _linked(drill: Drill, number: int, above: int, *, starts: bool) -> Edited:
    row, _ = action_at(drill, number)
    source, other = action_at(drill, above)
    if source.number >= row.number:
        raise InputError(
            "a line can only wait for one above it", came=show_action(other),
            hint="Move the line further down first.",
        )  # fmt: skip
    made, trigger = _waiting_for(drill, row, source, other, starts=starts)
    fresh, now = action_at(made, row.number)
    changed = checked(made, replace(now, trigger=trigger))
    return Edited(
        with_row(made, fresh, changed), f"Starts: {show_trigger(trigger) or 'then'}.",
        f"row {row.number}",
    )  # fmt: skip


def _waiting_for(
    drill: Drill, row: Row, source: Row, other: Action, *, starts: bool
) -> tuple[Drill, Trigger]:
    """Return the trigger in the plainest words, and the drill (where a line may get a name)."""
    above = source.container == row.container and source.path[-1] == row.path[-1] - 1
    if starts:
        if above:
            return drill, Trigger(kind=TriggerKind.MEANWHILE)
        if other.verb is Verb.PASS:
            return drill, Trigger(kind=TriggerKind.PASS, who=other.who)
    else:
        if above and other.trigger.kind is not TriggerKind.MEANWHILE:
            return drill, Trigger()
        if other.verb is Verb.PASS and other.partner:
            return drill, Trigger(kind=TriggerKind.HAS_PUCK, who=other.partner)
        if other.verb in (Verb.SHOOT, Verb.TOSS, Verb.TIP):
            return drill, Trigger(kind=TriggerKind.SHOT, who=other.who)
    made, tag = name_line(drill, source, other)
    kind = TriggerKind.TAG_STARTS if starts else TriggerKind.TAG_ENDS
    return made, Trigger(kind=kind, tag=tag)


__all__ = ["Clock", "clock_of", "end_at", "line_numbers", "link", "start_at", "wait_for"]
