"""The examples about planning run and say what the docs promise."""

import runpy
from pathlib import Path

EXAMPLE = Path(__file__).parents[2] / "examples" / "plan_a_block.py"


def test_the_block_example_prints_two_drills_with_reasons(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("TENDLINE_DATA", str(tmp_path))
    runpy.run_path(str(EXAMPLE))
    out = capsys.readouterr().out
    assert "10 of 20 goals" in out
    assert out.count("why: Needs") >= 2
    assert "18:00" in out
