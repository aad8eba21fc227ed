"""The page on speed: every question and array form that it names exists, and so does its test."""

import re
from pathlib import Path

from tendline import ice, motion, play, shot, sight

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs" / "understand" / "speed.md").read_text("utf-8")
ROWS = [
    [cell.strip() for cell in line.strip("|").split("|")]
    for line in PAGE.split("## One question or thousands")[1].split("\n## ")[0].splitlines()
    if line.startswith("| `")
]


def test_every_question_of_the_table_can_be_asked() -> None:
    assert len(ROWS) >= 10
    for row in ROWS:
        for name in re.findall(r"`(\w+)`", f"{row[0]} {row[1]}"):
            assert any(
                callable(getattr(one, name, None)) for one in (ice, sight, motion, shot, play)
            ), name


def test_every_test_of_the_table_is_there() -> None:
    for row in ROWS:
        files = re.findall(r"`([\w/]+\.py)`", row[2])
        assert files
        folder = Path(files[0]).parent
        for file in files:
            assert (ROOT / (file if "/" in file else folder / file)).is_file(), file


def test_the_benchmarks_that_it_names_are_there() -> None:
    named = set(re.findall(r"bench_\w+\.py", PAGE))
    assert {"bench_cover.py", "bench_read.py", "bench_motion.py"} <= named
    for name in named:
        assert (ROOT / "benchmarks" / name).is_file()
