"""What a drill that is being written does on the clock: lines, shots, what stands against it.

A script under the hands of a coach is seldom finished. What can be said is said; what cannot is
pinned to the line that is in the way.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from tendline.base import InputError, ScriptError, Settings
from tendline.drill import (
    Action,
    BranchRun,
    Drill,
    Finding,
    Release,
    Repair,
    Run,
    Trigger,
    check_drill,
    format_drill,
    read_drill,
    repairs,
    simulate,
    standing,
    verdict,
)
from tendline.drill.branches import Path, paths_of
from tendline.drill.editing import Written, apply_edit, line_numbers, locate, rows_of
from tendline.drill.goaltending import HerPlay
from tendline.drill.phrases import show_trigger
from tendline.drill.play_lines import show_action
from tendline.drill.resolve import Resolver
from tendline.drill.timeline import Line
from tendline.drill.vocabulary import GOALTENDER_ONLY, TriggerKind, Verb
from tendline.drill.world import World, world_of
from tendline.ice import rink
from tendline.store import Store
from tendline.work.own_drills import free_number

STEP = 0.05
"""Time between samples of whether she is set [s]; numerical."""
NEW_TITLE = "New drill"


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedLine:
    """One line of the script on the clock [s after the whistle].

    ``source`` is the row of the line that it waits for, -1 for none; ``since`` when what it waits
    for happens.
    """

    row: int
    words: str
    trigger: str
    kind: str
    begin: float
    end: float
    source: int
    since: float
    may_end: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedWay:
    """One way through the choices on the clock."""

    key: str
    words: str
    share: float
    lines: tuple[TimedLine, ...]
    releases: tuple[Release, ...]
    is_set: tuple[bool, ...]
    lasts: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DeskRun:
    """A drill on the clock, with what stands against it."""

    drill: Drill
    run: Run
    verdict: str
    ways: tuple[TimedWay, ...]
    broken: tuple[Finding, ...]
    on_purpose: tuple[Finding, ...]


def world_for(store: Store, drill: Drill) -> World:
    """Return the rink, level and settings in which a drill of this club is run."""
    sheet = rink(store.club.get().rule_set)
    return world_of(drill.sim_level, store.choices.settings(), sheet, None)


def edited(store: Store, script: str, edit: Mapping[str, object]) -> Written:
    """Return the script after an edit; see :func:`tendline.drill.editing.apply_edit`."""
    return apply_edit(script, edit, lambda drill: world_for(store, drill))


def desk_run(store: Store, drill: Drill) -> DeskRun:
    """Return a drill on the clock.

    Raises :class:`ScriptError` with the line that cannot happen (a line that waits for a pass that
    nobody gives, for example).
    """
    settings = store.choices.settings()
    sheet = rink(store.club.get().rule_set)
    try:
        run = simulate(drill, rink=sheet, settings=settings)
    except InputError as fault:
        raise _pinned(drill, world_for(store, drill), fault) from None
    found = check_drill(drill, run, settings=settings, rink=sheet)
    ways = zip(paths_of(drill), run.branches, strict=True)
    return DeskRun(
        drill=drill,
        run=run,
        verdict=verdict(run, found),
        ways=tuple(_way(drill, path, branch) for path, branch in ways),
        broken=standing(found),
        on_purpose=tuple(one for one in found if one.on_purpose),
    )


def mends(store: Store, drill: Drill) -> tuple[Repair, ...]:
    """Return the repairs of a drill with their prices."""
    settings: Settings = store.choices.settings()
    return repairs(drill, settings=settings)


def _pinned(drill: Drill, world: World, fault: InputError) -> ScriptError:
    """Return the fault with the line of the script at which the play cannot go on."""
    line = 1
    at = locate(format_drill(drill))
    for path in paths_of(drill):
        rows = {place: row for row, place in line_numbers(drill, path).items()}
        count = _possible(drill, world, path)
        if count < len(path.actions):
            line = at.rows[rows[count]]
            break
    return ScriptError(
        fault.asked, line=line, came=fault.came, allowed=fault.allowed, hint=fault.hint
    )


def _possible(drill: Drill, world: World, path: Path) -> int:
    """Return how many lines of a way can happen."""
    resolver = Resolver(drill, world, HerPlay(drill, world))
    for count in range(1, len(path.actions) + 1):
        try:
            resolver.resolve(path.actions[:count])
        except InputError:
            return count - 1
    return len(path.actions)


def _way(drill: Drill, path: Path, branch: BranchRun) -> TimedWay:
    start = branch.first_whistle
    both = branch.attack.lines
    lines = both[len(both) // 2 :]
    rows = {place: row for row, place in line_numbers(drill, path).items()}
    samples = range(round(branch.period / STEP) + 1)
    return TimedWay(
        key=branch.key,
        words=branch.words,
        share=branch.share,
        lines=tuple(
            _timed(one, path.actions[k], lines[:k], rows, k, start) for k, one in enumerate(lines)
        ),
        releases=branch.releases,
        is_set=tuple(branch.her.track.state(start + k * STEP).is_set for k in samples),
        lasts=max([branch.period, *(one.end - start for one in lines)]),
    )


def _timed(
    line: Line, action: Action, before: list[Line], rows: Mapping[int, int], place: int,
    start: float,
) -> TimedLine:  # fmt: skip
    begin, end = line.begin - start, line.end - start
    source, since = _source(action, before, line.begin)
    return TimedLine(
        row=rows[place],
        words=show_action(_plain(action)),
        trigger=show_trigger(action.trigger) or "then",
        kind=_kind(action),
        begin=begin,
        end=end,
        source=rows[source] if source >= 0 else -1,
        since=max(0.0, min(since - start if source >= 0 else 0.0, begin)),
        may_end=action.verb in _MAY_END,
    )


_MAY_END = frozenset(
    {
        Verb.SKATE, Verb.CARRY, Verb.PASS, Verb.WAIT, Verb.STOP, Verb.SET, Verb.DROP, Verb.SCREEN,
    }
)  # fmt: skip


def _plain(action: Action) -> Action:
    return replace(action, trigger=Trigger(), tag="")


def _kind(action: Action) -> str:
    if action.who[0] == "G" and action.verb in GOALTENDER_ONLY:
        return "hers"
    match action.verb:
        case Verb.SKATE | Verb.CARRY | Verb.FOLLOW | Verb.COLLECT:
            return "skate"
        case Verb.PASS:
            return "pass"
        case Verb.SHOOT | Verb.TOSS | Verb.TIP:
            return "shot"
        case Verb.CALL:
            return "word"
        case _:
            return "hold"


_SHOTS = (Verb.SHOOT, Verb.TOSS, Verb.TIP)


def _source(action: Action, before: list[Line], begin: float) -> tuple[int, float]:
    """Return the place of the line that this one waits for (-1: none), and when that happens."""
    trigger = action.trigger
    wanted = begin - trigger.delay
    match trigger.kind:
        case TriggerKind.WHISTLE:
            return -1, 0.0
        case TriggerKind.MEANWHILE:
            found = [(len(before) - 1, before[-1].begin)] if before else []
        case TriggerKind.PASS:
            found = [(k, one.end) for k, one in enumerate(before)
                     if one.action.verb is Verb.PASS and _by(one, trigger.who)]  # fmt: skip
            return (found[-1][0], wanted) if found else (-1, 0.0)
        case TriggerKind.SHOT | TriggerKind.CLEARED:
            found = [(k, one.end) for k, one in enumerate(before)
                     if one.action.verb in _SHOTS and _by(one, trigger.who)]  # fmt: skip
            return (found[-1][0], wanted) if found else (-1, 0.0)
        case TriggerKind.TAG_STARTS | TriggerKind.TAG_ENDS:
            starts = trigger.kind is TriggerKind.TAG_STARTS
            found = [(k, one.begin if starts else one.end) for k, one in enumerate(before)
                     if one.action.tag == trigger.tag]  # fmt: skip
        case _:
            found = [(k, one.end) for k, one in enumerate(before)]
    if not found:
        return -1, 0.0
    place, time = min(reversed(found), key=lambda one: abs(one[1] - wanted))
    return place, min(time, begin)


def _by(line: Line, who: str) -> bool:
    return not who or line.action.who.rstrip("'") == who


def new_script(store: Store) -> str:
    """Return the script of an empty drill with the next free number of the coach's own."""
    return _EMPTY.format(number=free_number(store), title=NEW_TITLE)


def read_script(script: str) -> tuple[Drill | None, tuple[ScriptError, ...]]:
    """Return the drill of a script, or None, and every fault with its line."""
    return read_drill(script)


def row_numbers(drill: Drill) -> tuple[int, ...]:
    """Return the row numbers of the play's actions, in the order of the script."""
    return tuple(one.number for one in rows_of(drill.play) if isinstance(one.holds, Action))


_EMPTY = """\
drill {number}: {title}
family: lateral
kind: technique
themes: movement
ages: U11 and up
minutes: 5
ice: end zone
goaltenders: 1 to 2

purpose: Say in one sentence what she gets better at.
aim of the shooters: Say what they try to do.
aim of the goaltender: Stopped and square before the shot.

next: when the rebound is cleared
repeat: 6 x 2, rest 30 s
sides: change every set

people
  G at crease top
"""
