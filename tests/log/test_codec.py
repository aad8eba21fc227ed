"""Events as dictionaries: what is refused, and how it is said."""

from dataclasses import fields
from pathlib import Path

import pytest

from tendline.base import InputError, ScoringSituation, Side
from tendline.log import (
    KINDS,
    ChanceSeen,
    Context,
    GameEnd,
    GoalRating,
    GoaltenderChange,
    NoteTaken,
    PeriodStart,
    Readiness,
    RinkEnd,
    ShotDetail,
    Undo,
    event_from_dict,
    event_kind,
    event_to_dict,
)
from tests.log.samples import NOON, set_up, shot

FULL = Context(
    readiness=Readiness.DOWN, pass_x=4.0, pass_y=-2.0, shooter="14", shooter_hand=Side.LEFT
)
EVERY = (
    set_up(made_at=NOON, at_home=False),
    PeriodStart(id="p", period=2, defended_end=RinkEnd.FAR),
    shot("s", context=FULL, situation=ScoringSituation.EAST_WEST, target_y=0.2, elapsed=3.0),
    ShotDetail(id="d", shot="s", screened=False),
    GoaltenderChange(id="c", goaltender="milo", before="s"),
    ChanceSeen(id="ch", x=1.0, y=2.0),
    GoalRating(id="r", shot="s", rating=1),
    NoteTaken(id="n", text="calm"),
    Undo(id="u", undoes="n"),
    GameEnd(id="e", elapsed=10.0),
)


def test_every_kind_goes_there_and_back():
    assert {event_kind(one) for one in EVERY} == set(KINDS)
    for one in EVERY:
        assert event_from_dict(event_to_dict(one)) == one


def test_nothing_said_is_the_same_as_left_out():
    assert event_from_dict({"kind": "end", "id": "e", "elapsed": None}) == GameEnd(id="e")


def test_defaults_are_left_out():
    assert event_to_dict(Undo(id="u", undoes="n")) == {"kind": "undo", "id": "u", "undoes": "n"}


@pytest.mark.parametrize(
    ("data", "words"),
    [
        ({}, "no kind of event of that name"),
        ({"kind": "shots", "id": "a"}, "Did you mean 'shot'"),
        ({"kind": "undo", "id": "a"}, "the field 'undoes' is missing from 'undo'"),
        ({"kind": "undo", "id": "a", "undoes": "b", "x": 1}, "no field of 'undo' of that name"),
        ({"kind": "undo", "id": "a b", "undoes": "b"}, "the event's id cannot be used"),
        ({"kind": "undo", "id": "a", "undoes": 3}, "'undoes' cannot be read"),
        ({"kind": "undo", "id": "a", "undoes": "b", "made_at": "noon"}, "'made_at' cannot be read"),
        ({"kind": "undo", "id": "a", "undoes": "b", "made_at": "2026-11-25T10:00:00"}, "time zone"),
        ({"kind": "period", "id": "a", "period": 1.5}, "allowed: a whole number"),
        ({"kind": "period", "id": "a", "period": 0}, "period is out of range"),
        ({"kind": "shot", "id": "a", "x": "6", "y": 1, "result": "goal"}, "allowed: a number"),
        ({"kind": "shot", "id": "a", "x": 6, "y": 1, "result": "gaol"}, "Did you mean 'goal'"),
        ({"kind": "shot", "id": "a", "x": float("nan"), "y": 1, "result": "goal"}, "x is out of"),
        ({"kind": "shot", "id": "a", "x": 6, "y": 1, "result": "goal", "context": 3}, "a table"),
        (
            {"kind": "shot", "id": "a", "x": 6, "y": 1, "result": "goal", "context": {"a": 1}},
            "no field of 'context' of that name",
        ),
        ({"kind": "rating", "id": "a", "shot": "b", "rating": 3}, "rated with one of three"),
        ({"kind": "note", "id": "a", "text": "x" * 5000}, "the note is too long"),
        ({"kind": "end", "id": "a", "elapsed": True}, "allowed: a number"),
        (
            {"kind": "rating", "id": "a", "shot": "b", "rating": 1, "with_goaltender": 1},
            "allowed: true or false",
        ),
    ],
)
def test_what_cannot_be_read_is_refused_in_words(data, words):
    with pytest.raises((InputError, LookupError)) as caught:
        event_from_dict(data)
    assert words in str(caught.value)


def test_the_reference_page_names_every_kind_and_field():
    page = Path(__file__).parents[2] / "docs" / "lookup" / "game-events.md"
    text = page.read_text("utf-8")
    for kind, of in KINDS.items():
        (row,) = [line for line in text.splitlines() if line.startswith(f"| `{kind}` |")]
        for one in fields(of):
            if one.name not in ("id", "made_at"):
                assert f"`{one.name}`" in row, (kind, one.name)
    for one in fields(Context):
        assert f"`{one.name}`" in text, one.name
