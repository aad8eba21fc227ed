"""The sheet itself: clock times, a line for every goaltender, and the reason for every choice."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, time, timedelta

from tendline.practice.choosing import Menu
from tendline.practice.constants import PracticeRules
from tendline.practice.fitting import nets_used, stations_needed
from tendline.practice.glossary import explain
from tendline.practice.repetitions import Stint, stint
from tendline.practice.rules import RULES, SAFETY_LIST
from tendline.practice.sharing import Group
from tendline.practice.types import (
    DrillFacts,
    GoaltenderLine,
    IceSlot,
    Load,
    LoadLine,
    PlanKind,
    Request,
    RosterGoaltender,
    Segment,
    SegmentKind,
    Sheet,
    Sides,
)

_MOST_KEY_POINTS = 3
_TASKS = (
    "edges and posts on free ice beside the boards, out of the line of fire: push, stop, set; "
    "30 s on, 30 s off",
    "from the bench side: say 'set' or 'not set' at every release, and tell her at the change",
    "with a helper behind the line of fire: hand toss, eyes into the glove; 20 s on, 20 s off",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A segment decided on: a drill, or what the head coach has fixed."""

    drill: DrillFacts | None
    title: str
    minutes: int
    is_fixed: bool = False
    nets: int = 1

    @property
    def facts(self) -> DrillFacts:
        """Return the drill, or a stand-in with no counts for a fixed segment without one."""
        return self.drill or DrillFacts(
            id="", name=self.title, minutes_low=self.minutes, minutes_high=self.minutes,
            work=30.0, rest=15.0, nets_high=self.nets, for_block=False, for_team=True,
        )  # fmt: skip


@dataclass(slots=True)
class _Clock:
    now: datetime

    @classmethod
    def at(cls, slot: IceSlot) -> _Clock:
        return cls(datetime.combine(slot.day, slot.start))

    def take(self, minutes: int) -> tuple[time, time]:
        begin = self.now
        self.now = begin + timedelta(minutes=minutes)
        return begin.time(), self.now.time()


def assemble(
    request: Request,
    menu: Menu,
    *,
    block: Sequence[Chosen],
    team: Sequence[Chosen],
    groups: Sequence[tuple[Group, ...]],
    places: Sequence[tuple[int, ...]],
    rules: PracticeRules,
    is_proven_best: bool,
) -> Sheet:
    """Return the sheet for decided segments (not yet checked)."""
    clock = _Clock.at(request.slot)
    whole = request.kind is PlanKind.PRACTICE
    made: list[Segment] = []
    if whole and rules.settle_minutes >= 1:
        made.append(_pause(request, clock, "On the ice: strides, edges", rules.settle_minutes))
    made += [_block_segment(request, clock, one, rules) for one in block]
    water_after = max(1, len(team) // 2)
    for at, one in enumerate(team):
        made.append(_team_segment(request, clock, one, groups[at], places[at], at))
        if at + 1 == water_after and rules.water_minutes >= 1:
            made.append(_pause(request, clock, "Water", rules.water_minutes))
    if whole and rules.closing_minutes >= 1:
        made.append(
            _pause(request, clock, "Together: one thing well, one thing next, one cue",
                   rules.closing_minutes)
        )  # fmt: skip
    segments = tuple(_numbered(one, number) for number, one in enumerate(made, start=1))
    texts = [text for one in segments for text in _texts(one)]
    used = sum(one.minutes for one in segments)
    return Sheet(
        title=_title(request),
        team=request.team,
        day=request.slot.day,
        start=request.slot.start,
        end=clock.now.time(),
        minutes=used,
        place=_place(request),
        goaltenders=tuple(one.name for one in request.roster.goaltenders),
        objectives=tuple(f"{one.words}" for one in request.needs),
        segments=segments,
        loads=tuple(_load_line(one, segments) for one in request.roster.goaltenders),
        reasons=_reasons(request, menu, used),
        checks=(),
        cautions=SAFETY_LIST,
        equipment=tuple(dict.fromkeys(e for one in segments for e in one.equipment)),
        glossary=explain(texts),
        is_proven_best=is_proven_best,
    )


def _numbered(segment: Segment, number: int) -> Segment:
    return replace(segment, number=number)


def _block_segment(request: Request, clock: _Clock, one: Chosen, rules: PracticeRules) -> Segment:
    drill = one.facts
    goaltenders = request.roster.goaltenders
    stations = stations_needed(drill, len(goaltenders))
    sizes = [
        len(goaltenders) // stations + (1 if at < len(goaltenders) % stations else 0)
        for at in range(stations)
    ]
    names = [g.name for g in goaltenders]
    lines: list[GoaltenderLine] = []
    taken = 0
    for at, size in enumerate(sizes):
        done = stint(drill, minutes=one.minutes, sharing=size, with_team=False, rules=rules)
        spot = "net" if drill.needs_net else "patch"
        station = f"{spot} {chr(ord('A') + at)}" if stations > 1 else spot
        together = names[taken : taken + size]
        for goaltender in goaltenders[taken : taken + size]:
            text = _block_text(drill, done, [n for n in together if n != goaltender.name])
            lines.append(_line(goaltender, station, text, done))
        taken += size
    begin, end = clock.take(one.minutes)
    return _segment(
        SegmentKind.BLOCK, one, begin=begin, end=end, place=request.slot.block_space.name,
        lines=tuple(lines), reasons=_why(drill, request, with_team=False),
        nets=stations if drill.needs_net else 0,
    )  # fmt: skip


def _team_segment(
    request: Request,
    clock: _Clock,
    one: Chosen,
    groups: tuple[Group, ...],
    places: tuple[int, ...],
    at: int,
) -> Segment:
    drill = one.facts
    goaltenders = request.roster.goaltenders
    lines = []
    tasks = 0
    for index, goaltender in enumerate(goaltenders):
        group = groups[places[index]]
        if group.stint is None:
            text = _TASKS[(at + tasks) % len(_TASKS)]
            tasks += 1
            lines.append(
                GoaltenderLine(
                    goaltender_id=goaltender.id,
                    name=goaltender.name,
                    station="task",
                    text=text,
                    is_task=True,
                )
            )
            continue
        with_her = [
            goaltenders[i].name for i, g in enumerate(places) if g == places[index] and i != index
        ]
        text = _team_text(drill, group.stint, with_her, has_counts=one.drill is not None)
        lines.append(_line(goaltender, group.station, text, group.stint))
    begin, end = clock.take(one.minutes)
    reasons = (
        ("Fixed by the head coach.",) if one.is_fixed else _why(drill, request, with_team=True)
    )
    return _segment(
        SegmentKind.TEAM, one, begin=begin, end=end, place=request.slot.space.name,
        lines=tuple(lines), reasons=reasons,
        nets=nets_used(drill, request.slot.space, len(goaltenders)),
    )  # fmt: skip


def _segment(
    kind: SegmentKind,
    one: Chosen,
    *,
    begin: time,
    end: time,
    place: str,
    lines: tuple[GoaltenderLine, ...],
    reasons: tuple[str, ...],
    nets: int,
) -> Segment:
    drill = one.facts
    return Segment(
        number=0, kind=kind, begin=begin, end=end, minutes=one.minutes, title=one.title,
        place=place, lines=lines, drill_id=drill.id,
        objective_shooters=drill.objective_shooters,
        objective_goaltender=drill.objective_goaltender,
        set_up=drill.set_up, steps=drill.steps, key_points=drill.key_points[:_MOST_KEY_POINTS],
        equipment=drill.equipment, cautions=drill.cautions, reasons=reasons, nets=nets,
    )  # fmt: skip


def _pause(request: Request, clock: _Clock, title: str, minutes: float) -> Segment:
    whole = round(minutes)
    begin, end = clock.take(whole)
    lines = tuple(
        GoaltenderLine(
            goaltender_id=one.id, name=one.name, station="with the team", text="with the team",
            is_task=True,
        )
        for one in request.roster.goaltenders
    )  # fmt: skip
    return Segment(
        number=0, kind=SegmentKind.PAUSE, begin=begin, end=end, minutes=whole, title=title,
        place=request.slot.space.name, lines=lines,
    )  # fmt: skip


def _line(goaltender: RosterGoaltender, station: str, text: str, done: Stint) -> GoaltenderLine:
    return GoaltenderLine(
        goaltender_id=goaltender.id, name=goaltender.name, station=station, text=text,
        repetitions=done.repetitions, left=done.left, right=done.right, load=done.load,
        longest_wait=done.longest_wait,
    )  # fmt: skip


def _repetitions(drill: DrillFacts, done: Stint) -> str:
    if drill.sides is Sides.MIRRORED:
        return f"{done.repetitions} times: {done.left} left, then {done.right} right"
    if drill.sides is Sides.BOTH:
        return f"{done.repetitions} times, both sides each time"
    return f"{done.repetitions} times"


def _block_text(drill: DrillFacts, done: Stint, others: Sequence[str]) -> str:
    turn = f"; turn about with {_and(others)}" if others else f"; rest {done.longest_wait:.0f} s"
    aim = f". {drill.objective_goaltender}" if drill.objective_goaltender else ""
    return f"{_repetitions(drill, done)}{turn}{aim}"


def _team_text(drill: DrillFacts, done: Stint, others: Sequence[str], *, has_counts: bool) -> str:
    share = f"change with {_and(others)} every {done.longest_wait:.0f} s" if others else ""
    count = f"about {done.load.shots:.0f} shots" if has_counts and done.load.shots else ""
    aim = drill.objective_goaltender or "be set before each release; one puck; play the rebound"
    return "; ".join(part for part in (count, share, aim) if part)


def _why(drill: DrillFacts, request: Request, *, with_team: bool) -> tuple[str, ...]:
    found = [
        f"Theme of the stage: {need.name}." if need.is_stage else f"Trains {need.words}."
        for need in request.needs
        if need.met_by(drill)
    ]
    space = request.slot.space if with_team else request.slot.block_space
    length, width = drill.area
    net = "with a net" if drill.needs_net else "without a net"
    found.append(f"Needs {length:g} x {width:g} m {net}: fits {space.name}.")
    if not with_team:
        people = drill.people * stations_needed(drill, len(request.roster.goaltenders))
        found.append(f"Needs {people} to serve it: {request.roster.helpers} there.")
    if drill.choices > 1:
        found.append(f"A real read: {drill.choices} choices that she is not told.")
    if drill.id in request.week_pair:
        found.append("Kept from this week's pair.")
    elif drill.id in request.keep:
        found.append("Kept from the plan before the change.")
    elif drill.id in request.recent:
        found.append("Used lately; nothing newer trains as much.")
    return tuple(found)


def _reasons(request: Request, menu: Menu, used: int) -> tuple[str, ...]:
    lines = [f"{used} of {request.slot.minutes} minutes of ice used."]
    stage = [one for one in request.needs if one.is_stage]
    if request.stage:
        themes = f": {', '.join(one.name for one in stage)}" if stage else ""
        lines.append(f"Stage of the season: {request.stage}{themes}.")
    lines += [f"To correct: {one.words}." for one in request.needs if not one.is_stage]
    for with_team, part in ((False, "block"), (True, "team part")):
        out = [found for _, team, found in menu.kept_out if team is with_team]
        if out:
            counts = Counter(RULES[misfit.rule].name for found in out for misfit in found)
            why = "; ".join(f"{count}: {name}" for name, count in counts.most_common(3))
            lines.append(f"Left out of the {part}: {len(out)} drills ({why}).")
    return tuple(lines)


def _load_line(goaltender: RosterGoaltender, segments: Sequence[Segment]) -> LoadLine:
    total = Load()
    for segment in segments:
        for line in segment.lines:
            if line.goaltender_id == goaltender.id:
                total = total + line.load
    count = len(goaltender.past)
    mean = None
    if count:
        added = Load()
        for one in goaltender.past:
            added = added + one
        mean = added.times(1.0 / count)
    beside = (
        f"her last {count} practices on average: {mean.words}"
        if mean
        else "no earlier practices to compare with"
    )
    return LoadLine(
        goaltender_id=goaltender.id, name=goaltender.name, load=total, past_mean=mean,
        past_count=count, words=f"{total.words}; {beside}",
    )  # fmt: skip


def _texts(segment: Segment) -> tuple[str, ...]:
    return (
        segment.title, segment.objective_goaltender, segment.objective_shooters,
        *segment.set_up, *segment.steps, *segment.key_points, *(one.text for one in segment.lines),
    )  # fmt: skip


def _title(request: Request) -> str:
    return "Goaltender block" if request.kind is PlanKind.BLOCK else "Practice"


def _place(request: Request) -> str:
    if request.kind is PlanKind.BLOCK:
        return request.slot.block_space.name
    return request.slot.space.name


def _and(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
