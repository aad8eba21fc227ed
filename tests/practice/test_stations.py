"""Stations that run at the same time: each with its letter, its goaltenders and who runs it."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import time

from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.practice import (
    GoaltenderLine,
    Roster,
    Segment,
    SegmentKind,
    plan_practice,
    sheet_from_dict,
    sheet_to_dict,
)
from tests.practice.samples import ARC, BEA, CYN, DROP, IDA, LIBRARY, block_request

DEE = replace(CYN, id="dee", name="Dee")


def line(name: str, station: str, text: str = "six times", *, task: bool = False) -> GoaltenderLine:
    return GoaltenderLine(
        goaltender_id=name.lower(), name=name, station=station, text=text, is_task=task
    )


def segment(*lines: GoaltenderLine, run_by: tuple[str, ...] = ()) -> Segment:
    return Segment(
        number=1, kind=SegmentKind.BLOCK, begin=time(18, 2), end=time(18, 7), minutes=5,
        title="Drop and get up", place="one end", lines=lines, run_by=run_by,
    )  # fmt: skip


def test_two_nets_are_two_stations_and_a_task_stands_beside_them():
    made = segment(
        line("Ida", "net B"), line("Bea", "net A", "turn about"), line("Cyn", "net A", "turn about"),
        line("Dee", "task", "say 'set'", task=True), run_by=("Anna",),
    )  # fmt: skip
    assert [(one.name, one.place, one.run_by) for one in made.stations] == [
        ("A", "net", "Anna"), ("B", "net", ""),
    ]  # fmt: skip
    assert [one.lines[0].names for one in made.stations] == ["Bea and Cyn", "Ida"]
    assert [one.names for one in made.lines_beside] == ["Dee"]


def test_one_net_is_no_station():
    made = segment(line("Ida", "net"), line("Dee", "task", task=True), run_by=("Anna",))
    assert made.stations == ()
    assert made.lines_beside == made.shared_lines


def test_an_open_place_in_the_names_leaves_that_station_open():
    made = segment(line("Ida", "net A"), line("Bea", "net B"), run_by=("", "Tom", "Ute"))
    assert [one.run_by for one in made.stations] == ["", "Tom"]


@given(st.lists(st.sampled_from(["net A", "net B", "net C", "task"]), min_size=1, max_size=8))
@settings(deadline=None, max_examples=60)
def test_every_goaltender_stands_exactly_once(places: list[str]):
    names = [f"P{at}" for at in range(len(places))]
    made = segment(
        *(line(n, p, f"text {n}", task=p == "task") for n, p in zip(names, places, strict=True))
    )
    shown = [one.names for station in made.stations for one in station.lines]
    shown += [one.names for one in made.lines_beside]
    assert sorted(shown) == sorted(names)


def test_a_block_for_four_is_planned_as_stations_run_by_those_named():
    four = Roster(goaltenders=(IDA, BEA, CYN, DEE), helpers=2)
    asked = block_request(roster=four, run_by=("Anna", "Tom"))
    sheet = plan_practice(asked, (ARC, DROP))
    stations = sheet.segments[0].stations
    assert [(one.name, one.run_by) for one in stations] == [("A", "Anna"), ("B", "Tom")]
    assert sheet_from_dict(json.loads(json.dumps(sheet_to_dict(sheet)))) == sheet


def test_a_sheet_kept_before_anybody_could_be_named_still_opens():
    sheet = plan_practice(block_request(), LIBRARY)
    document = sheet_to_dict(sheet)
    for one in document["segments"]:
        del one["run_by"]
    assert sheet_from_dict(document) == sheet
