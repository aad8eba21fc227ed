"""The club, teams, people, notes, practices, settings, refusals, mappings and own drills."""

from datetime import UTC, date, datetime

import pytest

from tendline.base import InputError, LengthUnit, Level, NotFoundError, Settings
from tendline.ice import RuleSet
from tendline.people import GoaltenderFile
from tendline.store import Club, Note, OwnDrill, Practice, Refusal, Team
from tendline.store.moments import Moment

CLUB = Club(
    name="Kettle Harbour", rule_set=RuleSet.IIHF, unit=LengthUnit.FEET,
    season_start=date(2026, 9, 7), cautions=("mask on",),
)  # fmt: skip
TEAM = Team(id="u15", name="U15", level=Level.U15, goaltenders=("ronja", "milo"), skaters=16)


def test_the_club_comes_back_as_it_was(store):
    assert store.club.get() == Club(name="")
    store.club.save(CLUB)
    assert store.club.get() == CLUB


def test_teams_come_back_by_id_or_name(store):
    store.club.save_team(TEAM)
    assert store.club.team("u15") == store.club.team("U15") == TEAM
    with pytest.raises(NotFoundError, match="Did you mean 'U15'"):
        store.club.team("U-15")


def test_people_are_documents_by_id(store):
    store.people.save("ronja", {"display_name": "Ronja"})
    store.people.save("ronja", {"display_name": "Ronja A."})
    assert store.people.get("ronja") == {"display_name": "Ronja A."}
    assert store.people.ids() == ("ronja",)
    with pytest.raises(NotFoundError, match="allowed: ronja"):
        store.people.get("ron")


def test_files_are_kept_as_their_own_type(store):
    for name in ("Ronja", "Milo"):
        store.people.save_file(GoaltenderFile(id=name.lower(), display_name=name))
    assert [one.display_name for one in store.people.files()] == ["Milo", "Ronja"]
    assert store.people.file("ronja").display_name == "Ronja"


def test_moments_may_be_missing():
    moment = Moment()
    assert moment.process_bind_param(None, None) is None
    assert moment.process_result_value(None, None) is None


def test_notes_come_back_newest_first(store):
    for day in (10, 17):
        store.notes.save(
            Note(id=f"n{day}", day=date(2026, 11, day), about="ronja", kind="note", text="x")
        )
    assert [one.id for one in store.notes.about("ronja")] == ["n17", "n10"]
    assert store.notes.about("milo") == ()


def test_practices_keep_their_sheet(store):
    practice = Practice(id="p1", day=date(2026, 11, 24), team="U15", sheet={"segments": [1]})
    store.practices.save(practice)
    (only,) = store.practices.list(team="U15")
    assert only.sheet == {"segments": [1]}
    assert only.saved_at is not None
    assert only.saved_at.tzinfo is UTC
    assert store.practices.get("p1") == only
    with pytest.raises(NotFoundError, match="no practice of that id"):
        store.practices.get("p2")


def test_a_persons_settings_lie_on_top_of_the_clubs(store):
    store.choices.set("log.rebound_within", 2.0)
    store.choices.set("motion.reaction", 0.2)
    store.choices.set("log.rebound_within", 4.0, whose="ronja")
    assert store.choices.settings() == Settings.of(
        {"log.rebound_within": 2.0, "motion.reaction": 0.2}
    )
    assert dict(store.choices.settings("ronja").changed)["log.rebound_within"] == 4.0
    store.choices.clear("log.rebound_within", whose="ronja")
    assert store.choices.settings("ronja") == store.choices.settings()


def test_refusals_are_remembered_until_taken_back(store):
    refusal = Refusal(
        id="r1", day=date(2026, 11, 12), goaltender="ronja", theme="rebound", reason="not now"
    )
    store.choices.refuse(refusal)
    assert store.choices.refusals("ronja") == (refusal,)
    store.choices.take_back("r1")
    assert store.choices.refusals("ronja") == ()


def test_mappings_and_own_drills(store):
    store.mappings.save("ours", {"name": "ours"})
    assert store.mappings.all() == {"ours": {"name": "ours"}}
    store.drills.save(OwnDrill(id="d1", name="Ours", script="drill"))
    assert store.drills.list()[0].script == "drill"
    store.drills.delete("d1")
    assert store.drills.list() == ()


def test_a_moment_without_its_zone_is_refused():
    with pytest.raises(InputError, match="needs its time zone"):
        Moment().process_bind_param(datetime(2026, 11, 25), None)
