"""The main job: from logged games to tonight's sheet, on the demo club and on imported games."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from tendline.base import InputError, Level, NotFoundError, PlanError
from tendline.practice import PlanKind, RuleLevel, SegmentKind, sheet_from_dict, validate
from tendline.store import Practice, Refusal, open_store
from tendline.work.demo import TODAY, open_demo
from tendline.work.goaltenders import save_goaltender
from tendline.work.imports import import_games
from tendline.work.tonight import (
    Evening,
    drills_of,
    keep,
    note_done,
    recent_drills,
    sheet_pdf,
    short_names,
    team_of,
    tonight,
    week_pair,
)

DATA = Path(__file__).parents[3] / "shared" / "data"
BLOCK = Evening(kind=PlanKind.BLOCK, minutes=10)


@pytest.fixture(scope="module")
def store(tmp_path_factory):
    """The demo club in a folder of its own, where runs of drills are remembered too."""
    folder = tmp_path_factory.mktemp("demo")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TENDLINE_DATA", str(folder))
        with open_demo(folder / "demo.db") as opened:
            yield opened


@pytest.fixture(scope="module")
def made(store):
    return tonight(store, Evening())


@pytest.fixture(scope="module")
def block(store):
    return tonight(store, BLOCK)


def test_it_says_what_the_games_cost_with_counts_and_how_sure(made):
    assert made.focus == "ronja"
    assert len(made.games) == 6
    text = " ".join(made.answer)
    assert "10 of 20 goals" in text
    assert "chance" in text


def test_at_most_two_themes_are_trained_beside_the_stage(made):
    corrective = [one for one in made.needs if not one.is_stage]
    assert 1 <= len(corrective) <= 2
    assert made.stage == "skills"
    assert [one.name for one in corrective] == ["being set", "rebound"]
    assert all("chance" in one.sure for one in corrective)
    assert not any(one.sure.endswith(".") or one.sure[0].isupper() for one in corrective)


def test_the_sheet_keeps_the_rules_and_fills_the_evening(made):
    again = validate(made.sheet, made.request, made.drills)
    assert not [one for one in again if not one.kept and one.level is RuleLevel.HARD]
    assert 50 <= made.sheet.minutes <= 55


def test_every_choice_carries_its_reason_with_the_evidence(made):
    chosen = [one for one in made.sheet.segments if one.drill_id]
    assert all(one.reasons for one in chosen)
    assert any("10 of 20" in reason for one in chosen for reason in one.reasons)


def test_every_goaltender_has_a_line_under_every_segment(made):
    for one in made.sheet.segments:
        assert [line.name for line in one.lines] == ["Ronja", "Milo", "Ilse"]


def test_the_block_is_two_drills_in_ten_minutes_with_three_key_points_each(block):
    chosen = [one for one in block.sheet.segments if one.kind is SegmentKind.BLOCK]
    assert len(chosen) == 2
    assert block.sheet.minutes <= 10
    assert all(len(one.key_points) <= 3 for one in chosen)
    assert all(line.left == line.right for one in chosen for line in one.lines)


def test_trade_words_on_the_sheet_are_explained(made):
    words = dict(made.sheet.glossary)
    assert words
    text = " ".join(point for one in made.sheet.segments for point in one.key_points).lower()
    assert ("square" in text) <= ("square" in words)


def test_the_load_stands_beside_her_own_past(block):
    ronja = next(one for one in block.sheet.loads if one.name == "Ronja")
    assert ronja.past_count == 4
    assert "her last 4 practices" in ronja.words


def test_the_same_evening_gives_the_same_sheet(store, block):
    assert tonight(store, BLOCK).sheet == block.sheet


def test_steps_are_told_in_words(store):
    from contextlib import nullcontext

    told = []

    def tell(words):
        told.append(words)
        return nullcontext()

    tonight(store, BLOCK, tell=tell)
    assert told[0] == "Reading the games"
    assert told[-1] == "Choosing drills and writing the sheet"


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_sheet_becomes_a_pdf(store, block, paper):
    assert sheet_pdf(store, block, paper=paper).startswith(b"%PDF")


def test_a_kept_sheet_is_read_back_and_its_pair_lasts_the_week(tmp_path, monkeypatch):
    monkeypatch.setenv("TENDLINE_DATA", str(tmp_path))
    with open_demo(tmp_path / "demo.db") as club:
        first = tonight(club, BLOCK)
        name = keep(club, first)
        assert sheet_from_dict(club.practices.get(name).sheet) == first.sheet
        day_after = replace(BLOCK, day=date(2026, 11, 26))
        again = tonight(club, day_after)
        pair = [one.drill_id for one in first.sheet.segments]
        assert week_pair(club, first.team, date(2026, 11, 26)) == tuple(pair)
        assert [one.drill_id for one in again.sheet.segments] == pair
        assert week_pair(club, first.team, date(2026, 12, 1)) == ()


def test_a_practice_that_was_run_stands_beside_the_next_plans(tmp_path, monkeypatch):
    monkeypatch.setenv("TENDLINE_DATA", str(tmp_path))
    with open_demo(tmp_path / "demo.db") as club:
        first = tonight(club, BLOCK)
        name = keep(club, first)
        left = first.sheet.segments[1].drill_id
        done = note_done(club, name, left_out=[left]).done
        assert done["drills"] == [first.sheet.segments[0].drill_id]
        line = first.sheet.segments[0].lines[0]
        assert done["load"]["ronja"]["hard_stops"] == round(line.load.hard_stops)
        later = tonight(club, replace(BLOCK, day=date(2026, 12, 2)))
        ronja = next(one for one in later.sheet.loads if one.name == "Ronja")
        assert ronja.past_count == 5
        with pytest.raises(InputError, match="not on the sheet"):
            note_done(club, name, left_out=["Z99"])


def test_a_refused_theme_stays_out(tmp_path, monkeypatch):
    monkeypatch.setenv("TENDLINE_DATA", str(tmp_path))
    with open_demo(tmp_path / "demo.db") as club:
        club.choices.refuse(
            Refusal(id="r1", day=TODAY, goaltender="ronja", theme="rebound", reason="not now")
        )
        needs = tonight(club, BLOCK).needs
        assert "rebound" not in {one.name for one in needs}


def test_recent_drills_are_those_of_the_last_practices(store):
    team = team_of(store, "Kettle Harbour U15")
    assert recent_drills(store, team, TODAY) == ("R01", "T03", "M05", "M03")
    assert recent_drills(store, team, date(2026, 11, 11)) == ("M05", "M03")


def test_what_was_done_counts_before_what_was_planned():
    practice = Practice(
        id="p", day=TODAY, team="", done={"drills": ["A"]},
        sheet={"segments": [{"drill_id": "B"}, {"drill_id": ""}]},
    )  # fmt: skip
    assert drills_of(practice) == ("A",)
    assert drills_of(replace(practice, done={})) == ("B",)


def test_sheets_carry_first_names_only():
    assert short_names({"a": "Ida Moor", "b": "Ida Lund", "c": "Bea Holm", "d": "dot"}) == {
        "a": "Ida M.", "b": "Ida L.", "c": "Bea", "d": "dot",
    }  # fmt: skip


def test_an_unknown_team_or_an_empty_club_is_said_plainly(store, tmp_path):
    with pytest.raises(NotFoundError, match="Kettle Harbour U15"):
        tonight(store, replace(BLOCK, team="Kettle Harbor U15"))
    with (
        open_store(tmp_path / "empty.db") as empty,
        pytest.raises(NotFoundError, match="no goaltender"),
    ):
        tonight(empty, replace(BLOCK, day=TODAY))


def test_the_day_must_be_known_outside_the_demo(tmp_path):
    with (
        open_store(tmp_path / "own.db") as own,
        pytest.raises(InputError, match="which day"),
    ):
        tonight(own, BLOCK)


def test_too_little_ice_names_the_rule_and_the_change(store):
    with pytest.raises(PlanError, match="V15") as caught:
        tonight(store, replace(BLOCK, minutes=3))
    assert "of ice" in caught.value.hint


def test_without_games_the_stage_alone_decides(tmp_path, monkeypatch):
    monkeypatch.setenv("TENDLINE_DATA", str(tmp_path))
    with open_store(tmp_path / "own.db") as own:
        save_goaltender(own, "ida", day=TODAY, name="Ida", level=Level.U15, team="First")
        made = tonight(own, replace(BLOCK, day=TODAY))
        assert made.findings is None
        assert "No game of Ida is logged yet" in made.answer[0]
        assert made.sheet.segments


def test_a_real_goaltenders_imported_games_become_findings_and_a_sheet(tmp_path, monkeypatch):
    path = DATA / "shots_pw24.csv"
    if not path.exists():
        pytest.skip("open game data not there (../shared/data)")
    monkeypatch.setenv("TENDLINE_DATA", str(tmp_path))
    with open_store(tmp_path / "real.db") as club:
        import_games(
            club, path.read_bytes(), day=TODAY, goaltenders=["pw24-k11"], level=Level.WOMEN_ELITE
        )
        made = tonight(club, replace(BLOCK, day=TODAY, focus="pw24-k11", last=12))
        assert made.findings.games == 12
        assert made.findings.goals > 0
        assert len([one for one in made.needs if not one.is_stage]) <= 2
        assert len(made.sheet.segments) == 2
        assert sheet_pdf(club, made).startswith(b"%PDF")
