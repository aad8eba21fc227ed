"""One person's data: all of it out, all of it gone, nobody else's touched."""

import json
from datetime import date

import pytest

from tendline.base import Level, NotFoundError, ShotResult
from tendline.log import Context, GoalRating, GoaltenderChange, NoteTaken, event_to_dict, records
from tendline.people import mentions
from tendline.store import (
    Note,
    OwnDrill,
    Practice,
    Refusal,
    Team,
    back_up,
    erase_person,
    export_person,
)
from tests.store.samples import EVENING, set_up, shot

NAMES = {"ronja": "Ronja Aldercott", "milo": "Milo Fennimore"}


@pytest.fixture
def club(store):
    for person in ("ronja", "milo"):
        store.people.save(person, {"id": person, "display_name": NAMES[person]})
        store.notes.save(
            Note(
                id=f"n-{person}",
                day=date(2026, 11, 20),
                about=person,
                kind="note",
                text=f"{person} calm",
            )
        )
        store.choices.refuse(
            Refusal(id=f"r-{person}", day=date(2026, 11, 1), goaltender=person, theme="x")
        )
        store.choices.set("log.rebound_within", 2.0, whose=person)
    store.club.save_team(Team(id="u15", name="U15", level=Level.U15, goaltenders=("ronja", "milo")))
    store.practices.save(
        Practice(id="p", day=date(2026, 11, 19), team="U15", done={"load": {"ronja": {"shots": 3}, "milo": {"shots": 4}}},
                 sheet={"lines": [{"name": "Ronja, Milo", "who": ["ronja", "milo"]}]})
    )  # fmt: skip
    store.games.start(set_up(), game="g1")
    store.games.add(
        "g1",
        shot("a", result=ShotResult.GOAL, context=Context(shooter="14")),
        GoalRating(id="ra", shot="a", rating=1, text="ronja was late"),
        GoaltenderChange(id="c", goaltender="milo"),
        shot("b", result=ShotResult.GOAL),
        GoalRating(id="rb", shot="b", rating=0, text="milo had no chance"),
        NoteTaken(id="na", text="ronja sad", about="ronja"),
        NoteTaken(id="nb", text="milo glad", about="milo"),
        NoteTaken(id="nc", text="RONJA ALDERCOTT and the captain talked"),
    )
    store.drills.save(OwnDrill(id="d", name="For Ronja Aldercott", script="drill"))
    return store


def test_export_holds_hers_and_nobody_elses(club):
    text = json.dumps(export_person(club, "ronja"))
    assert "Ronja Aldercott" in text
    assert "ronja calm" in text
    assert "ronja was late" in text
    assert "ronja sad" in text
    assert '"shots": 3' in text
    assert "milo" not in text
    assert '"14"' not in text


def test_erasing_leaves_no_trace_of_her_in_the_file(club):
    before = records(club.games.game("g1").shots).total
    done = erase_person(club, "ronja")
    for path in club.path.parent.glob("club.db*"):  # the file and, still open, its log
        assert b"ronja" not in path.read_bytes().lower()
    ratings = {one.shot: one.text for one in club.games.events("g1") if isinstance(one, GoalRating)}
    assert ratings == {"a": "", "b": "milo had no chance"}
    assert (done.games, done.notes) == (1, 1)
    after = records(club.games.game("g1").shots).total
    assert after == before  # the counts stay
    assert "ronja" not in str(club.games.headers())
    assert club.people.ids() == ("milo",)


def test_erasing_leaves_the_others_as_they_were(club):
    before = export_person(club, "milo")
    erase_person(club, "ronja")
    after = export_person(club, "milo")
    assert after == before
    assert club.club.team("U15").goaltenders == ("milo",)
    assert [one.id for one in club.games.game("g1").shots_of("milo")] == ["b"]


def test_what_stays_does_not_mention_her(club):
    erase_person(club, "ronja")
    kept = [
        [event_to_dict(one) for one in club.games.events("g1")],
        [one.sheet for one in club.practices.list()],
        [one.done for one in club.practices.list()],
        club.people.all(),
        [one.name for one in club.drills.list()],
    ]
    for one in kept:
        assert mentions(one, ("ronja", "Ronja Aldercott", "Ronja")) == ()
    assert club.practices.list()[0].sheet["lines"][0] == {
        "name": "removed goaltender, Milo", "who": ["milo"],
    }  # fmt: skip


def test_a_name_inside_another_word_stays(club):
    club.notes.save(
        Note(id="x", day=date(2026, 11, 20), about="milo", kind="note", text="ronjas edges")
    )
    erase_person(club, "ronja")
    assert "ronjas edges" in [one.text for one in club.notes.about("milo")]


def test_erasing_names_the_backups_that_still_hold_her(club):
    made = back_up(club, moment=EVENING)
    done = erase_person(club, "ronja")
    assert done.backups == (made,)
    assert "1 older backups still hold her data" in done.words


def test_events_are_locked_again_after_erasing(club):
    erase_person(club, "ronja")
    from sqlalchemy.exc import DBAPIError

    with (
        pytest.raises(DBAPIError, match="game events are never"),
        club.database.engine.begin() as c,
    ):
        c.exec_driver_sql("DELETE FROM events")


def test_a_person_nobody_knows_is_told(club):
    for ask in (export_person, erase_person):
        with pytest.raises(NotFoundError, match="nothing is kept about a person of that id"):
            ask(club, "nobody")
