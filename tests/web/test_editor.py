"""The editor's addresses: edits, answers, drafts, keeping, and scripts of strangers."""

from __future__ import annotations

import json
import re

import pytest
from starlette.testclient import TestClient

from tendline.drill import format_drill, library, parse_drill
from tendline.store import Store
from tendline.web.editor.reading import MOST_BYTES

L01 = next(format_drill(one) for one in library() if one.id == "L01")
E08 = next(format_drill(one) for one in library() if one.id == "E08")


def post(app: TestClient, address: str, **values: object) -> dict[str, object]:
    answer = app.post(address, json=values)
    assert answer.status_code == 200, answer.text
    found: dict[str, object] = answer.json()
    return found


def test_the_page_works_as_plain_html(app: TestClient) -> None:
    page = app.get("/drills/new").text
    assert "<textarea" in page
    assert 'action="/drills/keep"' in page
    assert "drill Y01: New drill" in page
    assert "style=" not in page
    assert not re.search(r"\son[a-z]+=", page)


@pytest.mark.parametrize("name", ["L01", "E08", "M01", "T10"])
def test_every_kind_of_drill_opens(app: TestClient, name: str) -> None:
    page = app.get(f"/drills/{name}/edit")
    assert page.status_code == 200
    assert f"drill {name}:" in page.text


def test_an_edit_gives_the_script_the_picture_and_the_words(app: TestClient) -> None:
    edit = {"do": "move", "what": "F1", "at": "left point"}
    found = post(app, "/editor/look", script=L01, edit=edit, chosen="F1")
    assert "F1 at left point, shoots left, with a puck" in str(found["script"])
    assert "# " in str(found["script"])
    assert found["said"] == "F1 stands at left point."
    parts = found["parts"]
    assert isinstance(parts, dict)
    assert 'data-name="F1"' in parts["ice"]
    assert 'data-verb="skates"' in parts["verbs"]
    assert (
        found["marks"]["F1"]
        == str(found["script"])
        .splitlines()
        .index(next(one for one in str(found["script"]).splitlines() if one.startswith("  F1 at")))
        + 1
    )  # type: ignore[index]


def test_an_edit_that_cannot_be_done_leaves_the_script(app: TestClient) -> None:
    edit = {"do": "move", "what": "F1", "at": "left dto"}
    found = post(app, "/editor/look", script=L01, edit=edit)
    assert found["script"] == L01
    assert "Did you mean 'left dot'?" in str(found["refused"])


@pytest.mark.parametrize(
    "chosen", ["F1", "G", "cone A", "row 0", "row 2", "row 3", "row 5", "row 99", "nobody"]
)
def test_everything_that_can_be_chosen_has_a_panel(app: TestClient, chosen: str) -> None:
    parts = post(app, "/editor/look", script=E08, chosen=chosen)["parts"]
    assert isinstance(parts, dict)
    assert ("data-edit" in parts["chosen"]) == (chosen not in ("row 99", "nobody"))


def test_a_script_with_faults_is_answered_with_lines_and_a_mended_line(app: TestClient) -> None:
    wrong = L01.replace("F2 shoots", "F2 shots")
    found = post(app, "/editor/look", script=wrong, edit={"do": "mirror"})
    assert found["ok"] is False
    assert found["script"] == wrong
    fault = found["faults"][0]  # type: ignore[index]
    assert wrong.splitlines()[fault["line"] - 1].strip().startswith("F2 shots")
    assert "F2 shoots" in fault["mended"]
    assert post(app, "/editor/run", script=wrong) == {"ok": False}


def test_the_clock_answers_by_way_and_by_line(app: TestClient) -> None:
    found = post(app, "/editor/run", script=E08, way="across", time_width=380)
    assert found["way"] == "across"
    parts = found["parts"]
    assert isinstance(parts, dict)
    assert parts["time"].count('class="tl-bar ') == 7
    assert "67 %" in parts["answer"] or "shots a minute" in parts["answer"]


def test_a_line_that_cannot_happen_is_named(app: TestClient) -> None:
    wrong = L01.replace("at the whistle: F1 passes", "on the shot: F1 passes")
    fault = post(app, "/editor/run", script=wrong)["fault"]
    assert wrong.splitlines()[fault["line"] - 1].strip().startswith("on the shot")  # type: ignore[index]


def test_repairs_are_scripts_with_a_price(app: TestClient) -> None:
    hasty = L01.replace(
        "  F2 shoots low blocker", "  F2 shoots low blocker\n  0.3 s after the shot: F1 shoots"
    )
    found = post(app, "/editor/repairs", script=hasty)
    scripts = found["scripts"]
    assert isinstance(scripts, list)
    assert scripts
    assert all(format_drill(parse_drill(one)) == one for one in scripts)
    assert "shots a minute" in found["parts"]["repairs"]  # type: ignore[index]


def test_a_draft_is_saved_found_again_and_not_overwritten(app: TestClient, store: Store) -> None:
    def save(counter: int, script: str) -> dict[str, object]:
        answer = app.put(
            "/editor/drafts/new-1a2b", json={"script": script, "counter": counter, "base": ""}
        )
        found: dict[str, object] = answer.json()
        return found

    assert save(1, L01.replace("drill L01", "drill Y05")) == {"saved": 1}
    assert store.drafts.get("new-1a2b").counter == 1
    assert "newer" in save(1, "something else")
    assert "drill Y05" in app.get("/drills/new?draft=new-1a2b").text
    assert "Go on with it" in app.get("/drills/new").text
    assert app.get("/editor/drafts/new-1a2b").json()["counter"] == 1
    app.delete("/editor/drafts/new-1a2b")
    assert store.drafts.find("new-1a2b") is None


def test_keeping_takes_a_free_number_and_drops_the_draft(app: TestClient, store: Store) -> None:
    app.put("/editor/drafts/new-77", json={"script": L01, "counter": 1, "base": ""})
    taken = app.post("/drills/keep", data={"script": L01}, headers={"Accept": "application/json"})
    assert taken.status_code == 422
    assert "another drill has this number" in taken.text
    own = L01.replace("drill L01", "drill Y31")
    kept = app.post("/drills/keep", data={"script": own, "draft": "new-77"}, follow_redirects=False)
    assert kept.headers["location"] == "/drills/Y31"
    assert store.drafts.list() == ()
    assert app.get("/drills/Y31.drill").text == own
    assert 'filename="Y31.drill"' in app.get("/drills/Y31.drill").headers["content-disposition"]
    same = app.post("/drills/keep", data={"script": L01, "base": "L01"}, follow_redirects=False)
    assert same.status_code == 303


def test_a_strangers_file_is_read_shown_and_taken_in_under_free_numbers(
    app: TestClient, store: Store
) -> None:
    both = f"{L01}\n{E08.replace('drill E08', 'drill NEW-7')}"
    shown = app.post(
        "/drills/import", files={"file": ("../../etc/passwd", both.encode(), "text/plain")}
    )
    assert shown.status_code == 200
    assert "2 drills" in shown.text
    assert "Y01" in shown.text
    assert "passwd" not in shown.text
    assert store.drills.list() == ()
    app.post("/drills/import/take", data={"script": both})
    assert {one.id for one in store.drills.list()} == {"Y01", "NEW-7"}
    assert "# At U11" in next(one.script for one in store.drills.list() if one.id == "Y01")


HOSTILE = {
    "too many bytes": "x" * (MOST_BYTES * 4),
    "a long script": "drill A: b\n" + "#\n" * 90_000,
    "a long line": "drill A: " + "b" * 5_000,
    "deep nesting": "drill A: b\nplay\n" + "\n".join("  " * k + "choice by F1" for k in range(1, 60)),
    "control characters": "drill A: b\x07\nfamily: lateral",
    "references that grow": "a: &a [x,x,x]\nb: &b [*a,*a,*a]\nc: [*b,*b,*b]",
    "an object to be made": "!!python/object/apply:os.system ['touch /tmp/owned']",
    "a path": "drill ../../x: y\nfamily: lateral",
    "not text": "\x00\x01\x02",
    "nothing": "   ",
}  # fmt: skip


@pytest.mark.parametrize("kind", HOSTILE)
def test_hostile_scripts_are_refused_in_words_and_nothing_is_kept(
    app: TestClient, store: Store, kind: str
) -> None:
    answer = app.post(
        "/drills/import", files={"file": ("x.drill", HOSTILE[kind].encode(), "text/plain")}
    )
    assert answer.status_code == 422
    assert "cannot be taken in" in answer.text or "could not be done" in answer.text
    assert "<textarea" in answer.text or "What is allowed" in answer.text
    assert store.drills.list() == ()
    assert app.get("/drills").status_code == 200


def test_bytes_that_are_no_text_are_refused(app: TestClient) -> None:
    answer = app.post(
        "/drills/import", files={"file": ("x.drill", b"drill \xff\xfe: x", "text/plain")}
    )
    assert answer.status_code == 422
    assert "UTF-8" in answer.text


def test_markup_in_names_stays_words(app: TestClient) -> None:
    hostile = L01.replace("Dot to dot", "<script>alert(1)</script>").replace(
        "drill L01", "drill Y90"
    )
    shown = app.post("/drills/import", data={"script": hostile})
    assert "<script>alert" not in shown.text
    found = post(app, "/editor/look", script=hostile, chosen="F1")
    assert "<script" not in json.dumps(found["parts"])
    app.post("/drills/import/take", data={"script": hostile})
    for address in ("/drills/Y90/edit", "/drills/Y90", "/drills"):
        assert "<script>alert" not in app.get(address).text


@pytest.mark.parametrize(
    ("body", "why"),
    [
        (b"[" * 20_000, "cannot be read"),
        (b"{", "cannot be read"),
        (b"[1]", "JSON object"),
        (b'{"script": 7}', "must be text"),
        (b'{"script": "", "edit": [1]}', "an edit has a name"),
        (b'{"script": "' + b"x" * (MOST_BYTES + 10) + b'"}', "too large"),
    ],
)  # fmt: skip
def test_a_body_that_makes_no_sense_is_refused(app: TestClient, body: bytes, why: str) -> None:
    answer = app.post("/editor/look", content=body, headers={"Accept": "application/json"})
    assert answer.status_code == 422
    assert why in answer.text


@pytest.mark.parametrize("name", ["..", "a b", "x" * 99, "%2e%2e%2fx"])
def test_a_draft_has_a_plain_name(app: TestClient, name: str) -> None:
    answer = app.put(f"/editor/drafts/{name}", json={"script": "", "counter": 1, "base": ""})
    assert answer.status_code in (404, 405, 422)


def test_another_site_cannot_write(app: TestClient, store: Store) -> None:
    answer = app.post(
        "/drills/keep", data={"script": L01}, headers={"Sec-Fetch-Site": "cross-site"}
    )
    assert answer.status_code == 403
    assert store.drills.list() == ()


@pytest.mark.parametrize("script", [L01, E08], ids=["L01", "E08"])
def test_a_script_that_is_not_saved_runs_as_the_saved_drill_does(
    app: TestClient, script: str
) -> None:
    played = str(post(app, "/editor/play", script=script, width=460)["html"])
    page = app.get(f"/drills/{parse_drill(script).id}").text
    run = re.search(r'<script type="application/json" id="run">(.*?)</script>', page)
    assert run
    assert run[0] in played
    assert " style=" not in played
    moved = re.sub(r"(?m)^  F2 at .*?, shoots", "  F2 at (14, 3), shoots", script)
    assert moved != script
    assert run[0] not in str(post(app, "/editor/play", script=moved, width=460)["html"])


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("people", "peeple"), "is not understood yet"),
        ((L01[L01.index("\nplay") :], "\n"), "Nothing happens yet"),
    ],
)
def test_what_cannot_be_run_is_told_in_words(
    app: TestClient, change: tuple[str, str], words: str
) -> None:
    found = post(app, "/editor/play", script=L01.replace(*change))
    assert found["ok"] is False
    assert words in str(found["words"])
