"""The independent check of a finished sheet: every rule again, from the sheet itself.

Nothing here uses the planner's tables: clock times, lines and loads are read off the sheet, and
the drills are looked up by id. A sheet that was written or changed by hand is checked the same way.
"""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Sequence
from datetime import datetime

from tendline.base import DEFAULT_SETTINGS, Level, Settings, build
from tendline.practice.constants import PracticeRules
from tendline.practice.rules import RULES, SAFETY_LIST
from tendline.practice.types import (
    LEVEL_ORDER,
    Check,
    DrillFacts,
    Load,
    Order,
    PlanKind,
    Request,
    Segment,
    SegmentKind,
    Sheet,
    Sides,
)
from tendline.practice.usual import shot_budgets, usual_loads

_BLOCK_DRILLS = 2
_SAME = 1e-6


def validate(
    sheet: Sheet,
    request: Request,
    drills: Sequence[DrillFacts],
    *,
    settings: Settings = DEFAULT_SETTINGS,
) -> tuple[Check, ...]:
    """Return every rule looked at, kept or not, with its evidence."""
    rules = build(PracticeRules, settings)
    known = {one.id: one for one in drills}
    known |= {one.drill.id: one.drill for one in request.fixed if one.drill}
    played = [(s, known[s.drill_id]) for s in sheet.segments if s.drill_id in known]
    return (
        _stopped(played),
        _pucks(played),
        _release_gap(played, rules),
        _after_part(played, rules),
        _sides(sheet, known, rules),
        _turns(played, rules),
        _block_first(sheet, rules),
        _order(played),
        *_read(played, sheet, request),
        *_shots(sheet, request, rules),
        _idle(sheet, request, rules),
        _equal(sheet, request, rules),
        _clock(sheet, request, rules),
        _lengths(played, request, rules),
        _ages(played, request),
        _room(played, request),
        _safety(sheet),
        _fresh(sheet, request),
        _restrictions(sheet, known, request),
        _people(played, request),
    )


_Played = Sequence[tuple[Segment, DrillFacts]]


def _result(rule: str, faults: Sequence[str], kept: str) -> Check:
    what = RULES[rule]
    return Check(
        rule=rule, name=what.name, level=what.level, kept=not faults,
        text="; ".join(faults) if faults else kept, origin=what.origin,
    )  # fmt: skip


def _stopped(played: _Played) -> Check:
    faults = [f"{s.title}: {words}" for s, d in played for rule, words in d.faults if rule == "V1"]
    return _result("V1", faults, "no drill is stopped by its own check")


def _pucks(played: _Played) -> Check:
    faults = [f"{s.title}: {d.pucks_in_play} pucks" for s, d in played if d.pucks_in_play > 1]
    faults += [f"{s.title}: {words}" for s, d in played for rule, words in d.faults if rule == "V2"]
    return _result("V2", faults, "one puck at each net in every drill")


def _release_gap(played: _Played, rules: PracticeRules) -> Check:
    faults = [
        f"{s.title}: {d.release_gap:.1f} s between releases, limit {rules.release_gap:g} s"
        for s, d in played
        if d.release_gap < rules.release_gap and not d.second_save
    ]
    return _result("V3", faults, f"{rules.release_gap:g} s or more between releases")


def _after_part(played: _Played, rules: PracticeRules) -> Check:
    faults = [
        f"{s.title}: {d.after_part:.1f} s after the save"
        for s, d in played
        if d.load.shots and d.after_part < rules.after_part
    ]
    return _result("V4", faults, f"{rules.after_part:g} s or more after each save")


def _sides(sheet: Sheet, known: dict[str, DrillFacts], rules: PracticeRules) -> Check:
    faults = []
    for segment in sheet.segments:
        drill = known.get(segment.drill_id)
        if drill is None or drill.sides is Sides.NONE:
            continue
        for line in segment.lines:
            most = max(line.left, line.right)
            if most and abs(line.left - line.right) > rules.side_tolerance * most:
                faults.append(f"{segment.title}, {line.name}: {line.left} left, {line.right} right")
    return _result("V5", faults, "left and right equal for every goaltender")


def _turns(played: _Played, rules: PracticeRules) -> Check:
    faults = [
        f"{s.title}: turns of {d.work:.0f} s, limit {rules.turn_limit:g} s"
        for s, d in played
        if d.work > rules.turn_limit
    ]
    for segment, drill in played:
        if segment.kind is not SegmentKind.BLOCK:
            continue
        at_station = Counter(line.station for line in segment.lines)
        for line in segment.lines:
            least = drill.work * (rules.rest_per_work if at_station[line.station] == 1 else 1.0)
            if not line.is_task and line.longest_wait < least - 1e-9:
                faults.append(
                    f"{segment.title}, {line.name}: {line.longest_wait:.0f} s rest after "
                    f"{drill.work:.0f} s work"
                )
    return _result("V6", faults, f"turns up to {rules.turn_limit:g} s, each with its rest")


def _block_first(sheet: Sheet, rules: PracticeRules) -> Check:
    drills = [one for one in sheet.segments if one.kind is not SegmentKind.PAUSE]
    block = [one for one in drills if one.kind is SegmentKind.BLOCK]
    faults = []
    if len(block) != _BLOCK_DRILLS or drills[: len(block)] != block:
        faults.append(f"{len(block)} block drills, first: {drills[0].title if drills else 'none'}")
    minutes = sum(one.minutes for one in block)
    if minutes > rules.block_minutes:
        faults.append(f"block of {minutes} min, limit {rules.block_minutes:g} min")
    return _result("V7", faults, f"two drills first, {minutes} min with change-over")


def _order(played: _Played) -> Check:
    block = [d for s, d in played if s.kind is SegmentKind.BLOCK]
    team = [(s, d) for s, d in played if s.kind is SegmentKind.TEAM]
    faults = [
        f"{later.name} after {earlier.name}"
        for earlier, later in itertools.pairwise(block)
        if later.order < earlier.order
    ]
    if team and team[0][1].order > Order.CLEAR_SHOTS:
        faults.append(f"the team part opens with {team[0][0].title}, not with long clear shots")
    return _result("V8", faults, "movement first, long clear shots before closer plays")


def _read(played: _Played, sheet: Sheet, request: Request) -> tuple[Check, ...]:
    young = LEVEL_ORDER.index(request.roster.youngest) < LEVEL_ORDER.index(Level.U11)
    if request.kind is PlanKind.BLOCK or young or request.fixed:
        return ()
    live = [s.title for s, d in played if d.choices > 1]
    faults = [] if live else ["no drill leaves the carrier a choice"]
    return (_result("V10", faults, f"a real choice in {', '.join(live)}"),)


def _shots(sheet: Sheet, request: Request, rules: PracticeRules) -> tuple[Check, ...]:
    games = {one.id: one.game_shots for one in request.roster.goaltenders}
    budgets = shot_budgets(request.roster, rules)
    faults = []
    words = []
    for line in sheet.loads:
        own = games.get(line.goaltender_id)
        if line.load.shots > rules.shots_red:
            faults.append(f"{line.name}: {line.load.shots:.0f} shots, limit {rules.shots_red:g}")
        elif own and line.load.shots > budgets[line.goaltender_id]:
            faults.append(
                f"{line.name}: {line.load.shots:.0f} shots, her games average {own:.1f} "
                f"(limit {budgets[line.goaltender_id]:.1f})"
            )
        beside = f", {own:.0f} in a game" if own else ""
        words.append(f"{line.name} {line.load.shots:.0f}{beside}")
    if faults and any(one.nets > 1 for one in sheet.segments):
        faults.append("one net at a time, or longer between starts, brings it down")
    return (
        _result("V11", faults, f"shots: {'; '.join(words)}"),
        _own_past(sheet, request, rules),
    )


def _own_past(sheet: Sheet, request: Request, rules: PracticeRules) -> Check:
    """Compare the lines of the sheet, added up again, with what is usual for each goaltender."""
    done = {
        one.goaltender_id: {
            kind: sum(
                line.load.of(kind)
                for segment in sheet.segments
                for line in segment.lines
                if line.goaltender_id == one.goaltender_id
            )
            for kind in Load.KINDS
        }
        for one in sheet.loads
    }
    faults = [
        f"{one.name}: the lines add up to {done[one.goaltender_id][kind]:.0f} {kind}, "
        f"the sheet says {one.load.of(kind):.0f}"
        for one in sheet.loads
        for kind in Load.KINDS
        if abs(done[one.goaltender_id][kind] - one.load.of(kind)) > _SAME
    ]
    for own in usual_loads(request.roster, rules):
        counts = done.get(own.goaltender_id, {})
        over = [
            f"{kind.replace('_', ' ')} {count:.0f} against {own.most.of(kind):.0f}"
            for kind, count in counts.items()
            if 0.0 < own.most.of(kind) * (1.0 + rules.load_tolerance) < count
        ]
        if over:
            faults.append(f"{own.name}: {', '.join(over)} ({own.basis})")
    own_past = "; ".join(f"{line.name}: {line.words}" for line in sheet.loads)
    return _result("V12", faults, own_past)


def _idle(sheet: Sheet, request: Request, rules: PracticeRules) -> Check:
    faults = []
    for segment in sheet.segments:
        there = {line.goaltender_id for line in segment.lines}
        faults += [
            f"{segment.title}: {one.name} has nothing to do"
            for one in request.roster.goaltenders
            if one.id not in there
        ]
        faults += [
            f"{segment.title}: {line.name} waits {line.longest_wait:.0f} s"
            for line in segment.lines
            if line.longest_wait > rules.idle_limit
        ]
        faults += [
            f"{segment.title}: no words for {line.name}"
            for line in segment.lines
            if not line.text.strip()
        ]
    return _result(
        "V13", faults, f"a net or a job for everyone, waits under {rules.idle_limit:g} s"
    )


def _equal(sheet: Sheet, request: Request, rules: PracticeRules) -> Check:
    leaving_out = {one.id for one in request.roster.goaltenders if one.restrictions}
    shots = {
        line.name: line.load.shots for line in sheet.loads if line.goaltender_id not in leaving_out
    }
    most, least = max(shots.values(), default=0.0), min(shots.values(), default=0.0)
    faults = []
    if most and most - least > rules.equal_tolerance * most + 1.0:
        faults.append("; ".join(f"{name} {count:.0f}" for name, count in shots.items()))
    return _result("V14", faults, "shots equal between goaltenders")


def _clock(sheet: Sheet, request: Request, rules: PracticeRules) -> Check:
    faults = []
    now = datetime.combine(sheet.day, request.slot.start)
    for segment in sheet.segments:
        begin = datetime.combine(sheet.day, segment.begin)
        end = datetime.combine(sheet.day, segment.end)
        if begin < now:
            faults.append(f"{segment.title} begins before the segment before it has ended")
        if round((end - begin).total_seconds() / 60) != segment.minutes:
            faults.append(f"{segment.title}: clock times and minutes differ")
        if segment.kind is not SegmentKind.PAUSE and segment.minutes * 60 <= rules.changeover:
            faults.append(f"{segment.title} is no longer than its change-over")
        now = end
    used = (now - datetime.combine(sheet.day, request.slot.start)).total_seconds() / 60
    used += request.slot.other_minutes if request.kind is PlanKind.PRACTICE else 0
    if used > request.slot.minutes:
        faults.append(f"{used:.0f} min planned, {request.slot.minutes} min of ice")
    return _result("V15", faults, f"{used:.0f} of {request.slot.minutes} min used")


def _lengths(played: _Played, request: Request, rules: PracticeRules) -> Check:
    young = LEVEL_ORDER.index(request.roster.youngest) <= LEVEL_ORDER.index(Level.U11)
    low = rules.young_segment_low if young else rules.older_segment_low
    high = rules.young_segment_high if young else rules.older_segment_high
    faults = [
        f"{s.title}: {s.minutes} min, usual {low:g} to {high:g}"
        for s, _ in played
        if s.kind is SegmentKind.TEAM and not low <= s.minutes <= high
    ]
    return _result("V16", faults, f"team segments of {low:g} to {high:g} min")


def _ages(played: _Played, request: Request) -> Check:
    faults = []
    for one in request.roster.goaltenders:
        at = LEVEL_ORDER.index(one.level)
        faults += [
            f"{s.title} is for {d.youngest.value} and up, {one.name} plays {one.level.value}"
            for s, d in played
            if at < LEVEL_ORDER.index(d.youngest)
        ]
        faults += [
            f"{s.title} is for {d.oldest.value} and younger, {one.name} plays {one.level.value}"
            for s, d in played
            if at > LEVEL_ORDER.index(d.oldest)
        ]
    return _result("V18", faults, "every drill suits every age on the ice")


def _room(played: _Played, request: Request) -> Check:
    faults = []
    for segment, drill in played:
        team = segment.kind is SegmentKind.TEAM
        space = request.slot.space if team else request.slot.block_space
        stations = len({line.station for line in segment.lines if not line.is_task})
        copies = 1 if team else max(1, stations)
        short, long = sorted(drill.area)
        width, length = sorted((space.length, space.width))
        fits = (short * copies <= width and long <= length) or (
            short <= width and long * copies <= length
        )
        fits = fits or (short * copies <= length and long <= width)
        if not fits:
            faults.append(f"{segment.title} needs {drill.area[0]:g} x {drill.area[1]:g} m")
        wanted = drill.nets_low * (1 if team else copies)
        if drill.needs_net and space.nets < wanted:
            faults.append(f"{segment.title} needs {wanted} net(s), {space.nets} there")
    return _result("V19", faults, "every drill fits its ice")


def _safety(sheet: Sheet) -> Check:
    missing = [line for line in SAFETY_LIST if line not in sheet.cautions]
    return _result("V20", missing and ["the safety list is not on the sheet"], "on the sheet")


def _fresh(sheet: Sheet, request: Request) -> Check:
    third = request.slot.minutes / 3
    start = datetime.combine(sheet.day, request.slot.start)
    faults = []
    for segment in sheet.segments:
        begin = (datetime.combine(sheet.day, segment.begin) - start).total_seconds() / 60
        if segment.drill_id in request.fresh and segment.minutes and begin > third:
            faults.append(f"{segment.title} is new and begins after {begin:.0f} min")
    return _result("V21", faults, "new technique comes early")


def _restrictions(sheet: Sheet, known: dict[str, DrillFacts], request: Request) -> Check:
    faults = []
    for one in request.roster.goaltenders:
        for segment in sheet.segments:
            drill = known.get(segment.drill_id)
            does = [n for n in segment.lines if n.goaltender_id == one.id and not n.is_task]
            barred = sorted(one.restrictions & drill.moves) if drill and does else []
            if barred:
                faults.append(f"{segment.title}: {one.name} leaves out {', '.join(barred)}")
    return _result("V22", faults, "no drill asks for a move that a note rules out")


def _people(played: _Played, request: Request) -> Check:
    faults = []
    for segment, drill in played:
        team = segment.kind is SegmentKind.TEAM
        there = request.roster.skaters if team else request.roster.helpers
        stations = len({line.station for line in segment.lines if not line.is_task})
        wanted = drill.people * (1 if team else max(1, stations))
        if wanted > there:
            faults.append(f"{segment.title} needs {wanted} people, {there} there")
    return _result("people", faults, "enough people for every drill")
