"""The checker on sheets broken by hand: each rule is seen failing once."""

from dataclasses import replace
from datetime import time

import pytest

from tendline.base import Level, Settings
from tendline.practice import RULES, Load, Roster, RuleLevel, plan_practice, validate
from tests.practice.samples import (
    ARC,
    BEA,
    DOT,
    DROP,
    GAME,
    IDA,
    LIBRARY,
    LINE,
    LONG,
    block_request,
    evening,
    practice_request,
)

REQUEST = practice_request()
SHEET = plan_practice(REQUEST, LIBRARY, settings=Settings.of({"practice.weight.shot": 10}))
"""A sheet with the drills that are broken by hand below, whatever a shot too many costs."""


def first(sheet, drill_id):
    return next(at for at, one in enumerate(sheet.segments) if one.drill_id == drill_id)


def with_segment(sheet, at, **changes):
    segments = list(sheet.segments)
    segments[at] = replace(segments[at], **changes)
    return replace(sheet, segments=tuple(segments))


def with_line(sheet, at, **changes):
    lines = sheet.segments[at].lines
    return with_segment(sheet, at, lines=(replace(lines[0], **changes), *lines[1:]))


def kept(sheet, request=REQUEST, drills=LIBRARY):
    return {one.rule: one.kept for one in validate(sheet, request, drills)}


def test_a_made_sheet_keeps_every_hard_rule():
    broken = {one.rule for one in SHEET.checks if not one.kept and one.level is RuleLevel.HARD}
    assert broken == set()
    assert {one.rule for one in SHEET.checks} >= {"V2", "V3", "V5", "V13", "V15"}


def changed(drill, **changes):
    return tuple(replace(one, **changes) if one.id == drill.id else one for one in LIBRARY)


def swapped(sheet):
    """The same sheet with its second block drill first."""
    a, b = first(sheet, "arc"), first(sheet, "drop")
    segments = list(sheet.segments)
    segments[a], segments[b] = segments[b], segments[a]
    return replace(sheet, segments=tuple(segments))


ARC_AT, DROP_AT, LONG_AT = first(SHEET, "arc"), first(SHEET, "drop"), first(SHEET, "long")

BROKEN = [
    ("V1", SHEET, REQUEST, changed(LONG, faults=(("V1", "late for every shot"),))),
    ("V2", SHEET, REQUEST, changed(LONG, faults=(("V2", "two pucks at one net"),))),
    ("V2", SHEET, REQUEST, changed(LONG, pucks_in_play=2)),
    ("V3", SHEET, REQUEST, changed(LONG, release_gap=1.6)),
    ("V4", SHEET, REQUEST, changed(LONG, after_part=0.5)),
    ("V5", with_line(SHEET, ARC_AT, left=12, right=8), REQUEST, LIBRARY),
    ("V6", SHEET, REQUEST, changed(ARC, work=60)),
    ("V6", with_line(SHEET, ARC_AT, longest_wait=1.0), REQUEST, LIBRARY),
    ("V7", with_segment(SHEET, ARC_AT, minutes=9), REQUEST, LIBRARY),
    ("V7", replace(SHEET, segments=SHEET.segments[ARC_AT + 1 :]), REQUEST, LIBRARY),
    ("V8", swapped(SHEET), REQUEST, LIBRARY),
    ("V10", SHEET, REQUEST, tuple(replace(one, choices=0) for one in LIBRARY)),
    (
        "V11",
        replace(SHEET, loads=(replace(SHEET.loads[0], load=Load(shots=151)),)),
        REQUEST,
        LIBRARY,
    ),
    ("V13", with_segment(SHEET, ARC_AT, lines=SHEET.segments[ARC_AT].lines[:1]), REQUEST, LIBRARY),
    ("V13", with_line(SHEET, ARC_AT, longest_wait=181.0), REQUEST, LIBRARY),
    ("V13", with_line(SHEET, ARC_AT, text=" "), REQUEST, LIBRARY),
    (
        "V14",
        replace(
            SHEET,
            loads=(
                replace(SHEET.loads[0], load=Load(shots=40)),
                replace(SHEET.loads[1], load=Load(shots=30)),
            ),
        ),
        REQUEST,
        LIBRARY,
    ),
    ("V15", SHEET, practice_request(slot=evening(minutes=40)), LIBRARY),
    ("V15", with_segment(SHEET, DROP_AT, begin=time(18, 5)), REQUEST, LIBRARY),
    ("V15", with_segment(SHEET, DROP_AT, minutes=8), REQUEST, LIBRARY),
    ("V16", with_segment(SHEET, LONG_AT, minutes=20), REQUEST, LIBRARY),
    (
        "V18",
        SHEET,
        practice_request(roster=Roster(
            goaltenders=(replace(IDA, level=Level.U9), BEA), skaters=15, helpers=1)),
        LIBRARY,
    ),
    ("V19", SHEET, REQUEST, changed(ARC, area=(12, 12))),
    ("V19", SHEET, REQUEST, changed(ARC, needs_net=True)),
    ("V20", replace(SHEET, cautions=SHEET.cautions[1:]), REQUEST, LIBRARY),
    ("V21", SHEET, practice_request(fresh=frozenset({"game"})), LIBRARY),
    (
        "V22",
        SHEET,
        practice_request(roster=Roster(goaltenders=(
            replace(IDA, restrictions=frozenset({"butterfly"})), BEA), skaters=15, helpers=1)),
        LIBRARY,
    ),
    ("people", SHEET, REQUEST, changed(ARC, people=2)),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "sheet", "request_", "drills"), BROKEN)
def test_a_sheet_broken_by_hand_is_caught(rule, sheet, request_, drills):
    assert kept(SHEET)[rule] or rule == "V11"
    assert not kept(sheet, request_, drills)[rule]


def test_every_check_states_evidence_and_origin():
    for one in SHEET.checks:
        assert one.text
        assert one.origin
        assert one.name == RULES[one.rule].name


def test_a_known_bad_team_drill_is_named_with_its_numbers():
    fixed = practice_request(slot=evening(minutes=40))
    sheet = plan_practice(fixed, (ARC, DROP, LONG, GAME))
    bad = with_segment(sheet, first(sheet, "long"), drill_id="line", title=LINE.name)
    v3 = next(one for one in validate(bad, fixed, LIBRARY) if one.rule == "V3")
    assert "1.6 s between releases, limit 4 s" in v3.text


def test_a_goaltender_who_is_not_on_the_sheet_is_missed():
    roster = Roster(goaltenders=(IDA, BEA, DOT), skaters=15, helpers=1)
    check = next(
        one
        for one in validate(SHEET, practice_request(roster=roster), LIBRARY)
        if one.rule == "V13"
    )
    assert "Dot has nothing to do" in check.text


def test_a_block_alone_is_not_asked_for_a_team_read():
    sheet = plan_practice(block_request(), LIBRARY)
    assert "V10" not in {one.rule for one in sheet.checks}
