"""Drills of the club, and their runs remembered on disk."""

import json
from dataclasses import replace

import pytest

from tendline.base import NotFoundError
from tendline.practice import PlanKind, PracticeRules, Request, Roster
from tendline.store import OwnDrill, data_folder, open_store
from tendline.work import drills as work_drills
from tendline.work.drills import KEPT, all_drills, find_drill, planning_facts
from tests.practice.samples import BEA, IDA, evening

RULES = PracticeRules()
REQUEST = Request(
    kind=PlanKind.BLOCK, roster=Roster(goaltenders=(IDA, BEA), helpers=1),
    slot=evening(minutes=10),
)  # fmt: skip


@pytest.fixture
def store(tmp_path, monkeypatch):
    monkeypatch.setenv("TENDLINE_DATA", str(tmp_path))
    with open_store(tmp_path / "club.db") as opened:
        yield opened


def test_the_library_comes_with_the_program(store):
    assert len(all_drills(store)) > 10


def test_an_own_drill_stands_beside_the_library_and_replaces_its_namesake(store):
    from tendline.drill import format_drill

    first = all_drills(store)[0]
    own = replace(first, title="Mine")
    store.drills.save(OwnDrill(id=own.id, name="Mine", script=format_drill(own)))
    assert find_drill(all_drills(store), first.id).title == "Mine"


def test_a_broken_own_script_does_not_stop_the_evening(store):
    before = len(all_drills(store))
    store.drills.save(OwnDrill(id="bad", name="Bad", script="drill ?\nnonsense"))
    assert len(all_drills(store)) == before


def test_a_drill_is_found_by_id_or_title_or_the_nearest_is_named(store):
    drills = all_drills(store)
    assert find_drill(drills, "e08") == find_drill(drills, "Branching lane attack")
    with pytest.raises(NotFoundError, match="Branching lane attack"):
        find_drill(drills, "Branching lane atack")


def test_runs_are_kept_and_used_again(store, monkeypatch):
    first = planning_facts(store, REQUEST, rules=RULES)
    kept = json.loads((data_folder() / KEPT).read_text("utf-8"))
    assert kept["runs"]

    def never(*args, **kwargs):
        raise AssertionError("ran again")

    monkeypatch.setattr(work_drills, "simulate", never)
    assert planning_facts(store, REQUEST, rules=RULES) == first


@pytest.mark.parametrize("damage", ["", "{", '{"program": 1}', "[]"])
def test_a_damaged_file_of_runs_is_only_slower(store, damage):
    first = planning_facts(store, REQUEST, rules=RULES)
    (data_folder() / KEPT).write_text(damage, "utf-8")
    assert planning_facts(store, REQUEST, rules=RULES) == first


def test_only_drills_that_fit_are_run(store):
    facts = planning_facts(store, REQUEST, rules=RULES)
    inside = [one for one in facts if not one.needs_net and one.for_block and one.people <= 1]
    assert any(one.load.hard_stops for one in inside)
    outside = [one for one in facts if one.needs_net and not one.for_team]
    assert all(one.work == 1.0 for one in outside)
