"""The example scripts run and say what their pages say."""

import runpy
from pathlib import Path

from tendline.drill import format_drill, parse_drill, simulate

EXAMPLES = Path(__file__).parents[2] / "examples"


def test_the_three_shot_drill_is_checked_and_repaired(capsys):
    runpy.run_path(str(EXAMPLES / "check_a_drill.py"))
    said = capsys.readouterr().out
    assert "28 shots a minute" in said
    assert "225 shots in 8 minutes" in said
    assert "start on rebound cleared: 28 to 9 shots a minute" in said
    assert "shoot only the last: 28 to 9 shots a minute" in said


def test_the_example_script_is_canonical():
    text = (EXAMPLES / "three_shots.drill").read_text("utf-8")
    assert format_drill(parse_drill(text)) == text
    assert simulate(parse_drill(text)).shots_total == 225
