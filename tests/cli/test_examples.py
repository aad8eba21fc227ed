"""Every example in a command's help really runs, on a club prepared for it."""

import json
import shlex
import shutil
from datetime import datetime
from importlib.resources import files
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from tendline.cli.main import main
from tests.cli.test_frame import COMMANDS

EXAMPLES = [(words, example) for words, command in COMMANDS.items() for example in command.examples]


def invoke(*words):
    return CliRunner().invoke(main, list(words))


def ok(*words):
    result = invoke(*words)
    assert result.exit_code == 0, result.output
    return result


@pytest.fixture(scope="module")
def prepared(tmp_path_factory):
    """A folder with a demo club, an own club with one game, and the files that examples name."""
    folder = tmp_path_factory.mktemp("prepared")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TENDLINE_DATA", str(folder / "data"))
        patch.chdir(folder)
        ok("demo")
        ok("goaltender", "add", "ida", "--name", "Ida", "--level", "U15", "--team", "First")
        ok("game", "new", "Lakeside", "--goaltender", "ida", "--day", "2026-01-10", "--id", "sat")
        ok("goaltender", "add", "bea", "--name", "Bea", "--level", "U15", "--team", "First")
        ok("game", "shot", "2,1", "goal", "--situation", "rebound")
        ok("settings", "set", "practice.changeover", "50")
        ok("backup", "club-copy.db")
        ok("--demo", "tonight", "--no-pdf")
    script = files("tendline.drill").joinpath("library/L01.drill").read_text("utf-8")
    (folder / "my.drill").write_text(script.replace("drill L01:", "drill MY1:"), "utf-8")
    (folder / "games.csv").write_text(
        "game,period,elapsed_s,team,player,goaltender,kind,x_m,y_m,outcome,empty_net,penalty_shot\n"
        "g1,1,30,them,p7,ida,wristshot,6.0,3.0,saved,0,0\n"
        "g1,1,95,them,p9,ida,snapshot,4.0,-1.0,goal,0,0\n",
        "utf-8",
    )
    return folder


@pytest.fixture
def place(prepared, tmp_path, monkeypatch):
    """A fresh copy of the prepared folder, so that examples do not disturb one another."""
    copy = tmp_path / "club"
    shutil.copytree(prepared, copy)
    (copy / "club-copy.db").rename(copy / "kept.db")
    monkeypatch.setenv("TENDLINE_DATA", str(copy / "data"))
    monkeypatch.chdir(copy)
    return copy


def run_example(example, place):
    words = shlex.split(example)
    assert words[0] == "tendline"
    if "restore" in words:
        (place / "kept.db").rename(place / "club-copy.db")
    result = invoke(*words[1:])
    assert result.exit_code == 0, f"{example}\n{result.output}"
    return result


@pytest.mark.parametrize(("words", "example"), EXAMPLES, ids=[one for _, one in EXAMPLES])
def test_every_example_runs(words, example, place):
    result = run_example(example, place)
    if "--json" in example:
        assert json.loads(result.stdout) is not None
    else:
        assert result.stdout.strip()


def test_read_answers_in_words_and_numbers(place):
    result = ok("read", "left dot", "--mate", "right dot", "--json")
    answer = json.loads(result.stdout)
    assert 0.2 < answer["depth_m"] < 4
    assert answer["options"]
    assert "m out" in answer["answer"]


def test_read_uses_a_goaltenders_own_file(place):
    ok("goaltender", "add", "tall", "--stature", "1.95", "--catches", "right", "--level", "U15")
    hers = ok("read", "9,4", "--who", "tall", "--json").stdout
    same = ok("read", "9,4", "--stature", "1.95", "--catches", "right", "--level", "U15", "--json")
    assert json.loads(hers) == json.loads(same.stdout)
    assert "Did you mean 'tall'?" in invoke("read", "9,4", "--who", "talll").output


def test_read_explains_a_figure(place):
    result = ok("read", "8,0", "--origin", "depth", "--json")
    assert json.loads(result.stdout)["title"] == "Depth"


def test_a_shot_is_logged_and_taken_back(place):
    assert "2 shots on goal, 1 goal." in ok("game", "shot", "6.1", "6.7", "save").stdout
    assert "1 shots on goal" in ok("game", "undo").stdout


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("game", "shot", "6", "6", "gaol"), "Did you mean 'goal'?"),
        (("game", "shot", "goal"), "a shot needs a place"),
        (("game", "shot", "90", "0", "save"), "shot: "),
        (("read", "left dott"), "Did you mean 'left dot'?"),
        (("read", "6,5:up"), "no hand of that name"),
        (("read", "6,5", "--defender", "5,0:left"), "a defender's hand is not used"),
        (("settings", "set", "practice.changeover", "9999"), "0 to 180 s"),
        (("settings", "set", "goal.nhl.width_inner", "2"), "this figure is fixed"),
        (("settings", "set", "practice.chaneover", "5"), "practice.changeover"),
        (("records", "nobody"), "no logged game of hers"),
        (("goaltender", "add", "I D"), "small letters"),
        (("goaltender", "erase", "nobody", "--yes"), "nothing is kept"),
        (("season",), "when does the season start?"),
        (("season", "--start", "2026-09-07", "--break", "soon", "later", "x"), "not a day"),
        (("drill", "show", "E99"), "tendline drill list"),
        (("drill", "list", "--theme", "latral"), "Did you mean 'lateral'?"),
        (("game", "import"), "which file?"),
        (("--file", "nowhere/club.txt/x.db", "game", "list"), "club.txt"),
        (("tonight", "--team", "Secnd"), "Secnd"),
        (("--demo", "tonight", "--minutes", "3", "--no-pdf"), "more minutes of ice"),
    ],
)  # fmt: skip
def test_wrong_words_get_one_clear_message(place, words, message):
    (place / "nowhere").mkdir()
    (place / "nowhere" / "club.txt").write_text("not a folder")
    result = invoke(*words)
    assert result.exit_code == 2
    assert message in result.output
    assert "Traceback" not in result.output
    last = [one for one in result.stderr.splitlines() if one.startswith("Error:")]
    assert len(last) == 1


def test_a_broken_script_is_named_with_its_line(place):
    Path("bad.drill").write_text("drill B1: Bad\nfamily: nonsense\n", "utf-8")
    result = invoke("drill", "format", "bad.drill")
    assert result.exit_code == 2
    assert "line 2" in result.output


def test_restore_brings_back_what_was_there(place):
    ok("game", "shot", "5", "0", "goal")
    (place / "kept.db").rename(place / "club-copy.db")
    result = ok("restore", "club-copy.db", "--yes")
    assert "What was there" in result.stdout
    assert "1 shots on goal" in ok("game", "show").stdout


def test_tonight_writes_a_pdf_and_saves_the_sheet(place):
    result = ok("--demo", "tonight", "--out", "sheet.pdf", "--json")
    answer = json.loads(result.stdout)
    assert Path("sheet.pdf").read_bytes().startswith(b"%PDF")
    assert len([one for one in answer["train"] if not one["is_stage"]]) <= 2
    assert answer["sheet"]["segments"]
    listed = json.loads(ok("--demo", "sheet", "--list", "--json").stdout)
    assert listed


def test_half_the_ice_is_planned_again_with_what_was_dropped(place):
    whole = json.loads(ok("--demo", "plan", "--json").stdout)
    half = json.loads(ok("--demo", "plan", "--half", "--json").stdout)
    assert whole["segments"]
    assert half["notes"]


def test_commands_say_what_they_do_on_the_error_channel_only(place):
    result = ok("--demo", "tonight", "--no-pdf", "--json")
    json.loads(result.stdout)
    assert "Reading the games" in result.stderr


def test_a_club_day_defaults_to_today(place):
    ok("game", "new", "Elsewhere", "--goaltender", "ida", "--id", "now")
    games = json.loads(ok("game", "list", "--json").stdout)
    assert games[0]["day"] == f"{datetime.now():%Y-%m-%d}"


def test_every_group_prints_help_without_words():
    for name in main.list_commands(click.Context(main)):
        command = main.get_command(click.Context(main), name)
        if isinstance(command, click.Group):
            assert "Commands:" in CliRunner().invoke(main, [name, "--help"]).output
