"""Drills as plain data: the published schema, round trips, refusals."""

import json
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest

from tendline.base import InputError
from tendline.drill import drill_from_dict, drill_schema, drill_to_dict, library, parse_drill
from tendline.drill.schema import SCHEMA_NAME, schema_text
from tests.drill.samples import PASS_AND_SHOT

VALIDATOR = jsonschema.Draft202012Validator(drill_schema())
DRILL = parse_drill(PASS_AND_SHOT)


def test_the_schema_is_a_schema_and_both_published_files_are_fresh():
    jsonschema.Draft202012Validator.check_schema(drill_schema())
    assert files("tendline.drill").joinpath(SCHEMA_NAME).read_text("utf-8") == schema_text()
    docs = Path(__file__).parents[2] / "docs" / "lookup" / SCHEMA_NAME
    assert docs.read_text("utf-8") == schema_text()


@pytest.mark.parametrize("drill", library(), ids=lambda one: one.id)
def test_every_drill_validates_and_comes_back(drill):
    data = json.loads(json.dumps(drill_to_dict(drill)))
    assert list(VALIDATOR.iter_errors(data)) == []
    assert drill_from_dict(data) == drill


def changed(**changes):
    return {**drill_to_dict(DRILL), **changes}


@pytest.mark.parametrize(
    ("data", "asked"),
    [
        ([], "a drill is a mapping"),
        ("drill", "a drill is a mapping"),
        (changed(format=2), "another version"),
        (changed(familly="lateral"), "no such key"),
        (changed(family="latteral"), "the word is not known"),
        (changed(title=7), "a str is wanted"),
        (changed(nets="one"), "a int is wanted"),
        (changed(nets=True), "a int is wanted"),
        (changed(minutes=[4, 6]), "a mapping of keys is wanted"),
        (changed(people=[{"name": "F1"}]), "a key is missing"),
        (changed(people=[{"name": "F1", "at": [1]}]), "a place is a name or two numbers"),
        (changed(title="two\nlines"), ""),
        (changed(title="x" * 5000), "a text is too long"),
        (changed(id="../../x"), ""),
        (changed(key_points=["a", "b", "c", "d"]), ""),
        (changed(people=[{"name": "<b>", "at": "left dot"}]), ""),
        (changed(people=[{"name": "F1", "at": "/etc/passwd"}]), ""),
        (changed(play=[{"who": "F9", "verb": "shoots"}]), ""),
        (changed(play=[{"who": "F1", "verb": "explodes"}]), "the word is not known"),
        (changed(purpose='he said "go" # now'), ""),
        (changed(equipment=["pucks, cones"]), ""),
    ],
)
def test_plain_data_can_hold_nothing_that_a_script_could_not(data, asked):
    with pytest.raises(InputError, match=asked or None):
        drill_from_dict(data)


def test_deep_nesting_is_refused():
    data: dict = {"who": "F1", "branches": []}
    for _ in range(200):
        data = {"who": "F1", "branches": [{"name": "a", "items": [data]}]}
    with pytest.raises(InputError, match="nested too deep"):
        drill_from_dict(changed(play=[data]))


def test_places_are_names_or_pairs():
    data = drill_to_dict(DRILL)
    assert data["people"][0]["at"] == "left dot"
    moved = changed(people=[{"name": "F1", "at": [6.0001, -2.5], "has_puck": True},
                            {"name": "F2", "at": "right dot"}])  # fmt: skip
    assert drill_from_dict(moved).people[0].at.x == 6.0
