"""The sheet itself: clock times, a line for every goaltender, and the reason for every choice."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, time, timedelta

from tendline.practice.choosing import Menu
from tendline.practice.constants import PracticeRules
from tendline.practice.fitting import able
from tendline.practice.glossary import explain
from tendline.practice.reasons import sheet_reasons, usual_reasons, why
from tendline.practice.repetitions import Stint
from tendline.practice.rules import SAFETY_LIST
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
from tendline.practice.usual import mean_load, usual_loads
from tendline.practice.ways import Chosen, block_groups

_MOST_KEY_POINTS = 3
_TASKS = (
    "edges and posts on free ice beside the boards, out of the line of fire: push, stop, set; "
    "30 s on, 30 s off",
    "from the bench side: say 'set' or 'not set' at every release, and tell her at the change",
    "with a helper behind the line of fire: hand toss, eyes into the glove; 20 s on, 20 s off",
)
_QUIET_TASK = _TASKS[1]
"""For a goaltender who leaves a drill out: nothing that any note could rule out."""
_QUIET_WITHOUT_SHOTS = (
    "from beside: watch the others' feet, say 'still' or 'moving' at every stop, and tell them at "
    "the change"
)


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
    loads = tuple(_load_line(one, segments) for one in request.roster.goaltenders)
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
        loads=loads,
        reasons=sheet_reasons(
            request,
            menu,
            [*block, *team],
            used,
            usual_reasons(usual_loads(request.roster, rules), loads) if whole else (),
        ),
        checks=(),
        cautions=SAFETY_LIST,
        equipment=gathered(e for one in segments for e in one.equipment),
        glossary=explain(texts),
        is_proven_best=is_proven_best,
    )


def _numbered(segment: Segment, number: int) -> Segment:
    return replace(segment, number=number)


def _block_segment(request: Request, clock: _Clock, one: Chosen, rules: PracticeRules) -> Segment:
    drill = one.facts
    goaltenders = able(drill, request)
    groups = block_groups(drill, len(goaltenders), one.way, one.minutes, rules)
    stations = len(groups)
    lines: list[GoaltenderLine] = []
    taken = 0
    for at, (size, done) in enumerate(groups):
        spot = "net" if drill.needs_net else "patch"
        station = f"{spot} {chr(ord('A') + at)}" if stations > 1 else spot
        text = _block_text(one, done, sharing=size)
        lines += [_line(one, station, text, done) for one in goaltenders[taken : taken + size]]
        taken += size
    lines += [
        _task(other, _QUIET_TASK if drill.load.shots else _QUIET_WITHOUT_SHOTS)
        for other in request.roster.goaltenders
        if other not in goaltenders
    ]
    order = [other.id for other in request.roster.goaltenders]
    lines.sort(key=lambda line: order.index(line.goaltender_id))
    begin, end = clock.take(one.minutes)
    return _segment(
        SegmentKind.BLOCK, one, begin=begin, end=end, place=request.slot.block_space.name,
        lines=tuple(lines), reasons=why(one, request, with_team=False),
        nets=stations if drill.needs_net else 0, run_by=request.run_by,
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
    may = able(drill, request)
    lines = []
    tasks = 0
    for index, goaltender in enumerate(goaltenders):
        group = groups[places[index]]
        if group.stint is None:
            if goaltender in may:
                lines.append(_task(goaltender, _TASKS[(at + tasks) % len(_TASKS)]))
                tasks += 1
            else:
                lines.append(_task(goaltender, _QUIET_TASK))
            continue
        text = _team_text(one, group.stint, shared=group.size > 1, has_counts=one.drill is not None)
        lines.append(_line(goaltender, group.station, text, group.stint))
    begin, end = clock.take(one.minutes)
    reasons = ("Fixed by the head coach.",) if one.is_fixed else why(one, request, with_team=True)
    return _segment(
        SegmentKind.TEAM, one, begin=begin, end=end, place=request.slot.space.name,
        lines=tuple(lines), reasons=reasons,
        nets=one.way.places if drill.needs_net else 0, run_by=request.run_by,
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
    run_by: tuple[str, ...],
) -> Segment:
    drill = one.facts
    return Segment(
        number=0, kind=kind, begin=begin, end=end, minutes=one.minutes, title=one.title,
        place=place, lines=lines, drill_id=drill.id,
        objective_shooters=drill.objective_shooters,
        objective_goaltender=drill.objective_goaltender,
        set_up=drill.set_up, steps=drill.steps, key_points=drill.key_points[:_MOST_KEY_POINTS],
        equipment=drill.equipment, cautions=drill.cautions, reasons=reasons, nets=nets,
        run_by=run_by,
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


def _task(goaltender: RosterGoaltender, text: str) -> GoaltenderLine:
    return GoaltenderLine(
        goaltender_id=goaltender.id, name=goaltender.name, station="task", text=text, is_task=True
    )


def _line(goaltender: RosterGoaltender, station: str, text: str, done: Stint) -> GoaltenderLine:
    return GoaltenderLine(
        goaltender_id=goaltender.id, name=goaltender.name, station=station, text=text,
        repetitions=done.repetitions, left=done.left, right=done.right, load=done.load,
        longest_wait=done.longest_wait,
    )  # fmt: skip


def _repetitions(drill: DrillFacts, done: Stint, *, shared: bool) -> str:
    each = " each" if shared else ""
    if drill.sides is Sides.MIRRORED:
        return f"{done.repetitions} times{each}: {done.left} left, then {done.right} right"
    if drill.sides is Sides.BOTH:
        return f"{done.repetitions} times{each}, both sides every time"
    return f"{done.repetitions} times{each}"


def _block_text(one: Chosen, done: Stint, *, sharing: int) -> str:
    rest = f"rest {done.longest_wait:.0f} s in between"
    if sharing > 1:
        rest = "turn about"
        if one.way.rhythm > 1.0:
            rest += f", each with {done.longest_wait:.0f} s rest"
    return f"{_repetitions(one.facts, done, shared=sharing > 1)}; {rest}"


def _team_text(one: Chosen, done: Stint, *, shared: bool, has_counts: bool) -> str:
    drill = one.facts
    each = " each" if shared else ""
    parts = []
    if has_counts and done.load.shots:
        parts.append(f"about {done.load.shots:.0f} shots{each}")
    if one.way.rhythm > 1.0:
        parts.append(f"a start every {one.seconds_between:.0f} s")
    if shared:
        parts.append(f"change every {done.turn:.0f} s")
    if not drill.objective_goaltender:
        parts.append("be set before each release; one puck; play the rebound")
    return "; ".join(parts) or "in the net throughout; one puck; play the rebound"


def block_loads(request: Request, block: Sequence[Chosen], rules: PracticeRules) -> dict[str, Load]:
    """Return what each goaltender does in the block, by id."""
    found = {one.id: Load() for one in request.roster.goaltenders}
    for one in block:
        may = able(one.facts, request)
        sizes = block_groups(one.facts, len(may), one.way, one.minutes, rules)
        doing = [done for size, done in sizes for _ in range(size)]
        for goaltender, done in zip(may, doing, strict=True):
            found[goaltender.id] = found[goaltender.id] + done.load
    return found


def _load_line(goaltender: RosterGoaltender, segments: Sequence[Segment]) -> LoadLine:
    total = Load()
    for segment in segments:
        for line in segment.lines:
            if line.goaltender_id == goaltender.id:
                total = total + line.load
    count = len(goaltender.past)
    mean = mean_load(goaltender.past)
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


_COUNTED = re.compile(r"(\d+) (\D+)")


def gathered(equipment: Iterable[str]) -> tuple[str, ...]:
    """Return what to bring, each thing once: of ``'5 pucks'`` and ``'12 pucks'`` the most."""
    most: dict[str, int] = {}
    other: dict[str, None] = {}
    for one in equipment:
        found = _COUNTED.fullmatch(one)
        if found is None:
            other[one] = None
            continue
        thing = found[2] if found[2].endswith("s") else f"{found[2]}s"
        most[thing] = max(most.get(thing, 0), int(found[1]))
    counted = [f"{n} {thing if n != 1 else thing[:-1]}" for thing, n in most.items()]
    return (*counted, *other)
