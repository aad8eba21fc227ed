"""Nothing but our own pages may change anything, and nothing loads from elsewhere."""

from __future__ import annotations

import pytest
from starlette.testclient import TestClient

GAME = {
    "day": "2026-11-21",
    "team": "Kettle Harbour U15",
    "opponent": "Blue Valley",
    "goaltender": "ronja",
}


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, 303),
        ({"sec-fetch-site": "same-origin"}, 303),
        ({"sec-fetch-site": "cross-site"}, 403),
        ({"sec-fetch-site": "same-site"}, 403),
        ({"origin": "http://testserver"}, 303),
        ({"origin": "http://elsewhere.example"}, 403),
    ],
)
def test_only_our_own_pages_may_post(app: TestClient, headers: dict[str, str], status: int):
    answer = app.post("/games", data=GAME, headers=headers, follow_redirects=False)
    assert answer.status_code == status


def test_another_host_name_is_refused(app: TestClient):
    assert app.get("/games", headers={"host": "elsewhere.example"}).status_code == 400


def test_every_answer_carries_the_content_policy(app: TestClient):
    for path in ("/games", "/games.json", "/nowhere"):
        assert "default-src 'self'" in app.get(path).headers["content-security-policy"]
