"""A sheet survives the way to JSON and back."""

import json

import pytest

from tendline.base import InputError
from tendline.practice import plan_practice, sheet_from_dict, sheet_to_dict
from tests.practice.samples import LIBRARY, block_request, practice_request


@pytest.mark.parametrize("request_", [block_request(), practice_request()])
def test_round_trip_through_json_text(request_):
    sheet = plan_practice(request_, LIBRARY)
    assert sheet_from_dict(json.loads(json.dumps(sheet_to_dict(sheet)))) == sheet


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"format": 99}, "another version"),
        ({"segments": [{}]}, "not a practice sheet"),
        ({"day": "soon"}, "not a practice sheet"),
    ],
)
def test_a_wrong_document_is_refused_plainly(change, words):
    document = sheet_to_dict(plan_practice(block_request(), LIBRARY))
    with pytest.raises(InputError, match=words):
        sheet_from_dict({**document, **change})
    with pytest.raises(InputError, match="not a practice sheet"):
        sheet_from_dict({})
