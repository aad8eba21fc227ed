"""The pages about moves say what the program does.

``python -m tests.motion.test_docs`` writes the table of moves afresh.
"""

import re
from pathlib import Path

import pytest

from tendline.motion import TEST_SHEET, MoveKind
from tendline.motion.table import HEADS, markdown_table, table_rows

DOCS = Path(__file__).parents[2] / "docs"
MOVES = DOCS / "lookup" / "moves.md"
TIMING = DOCS / "do" / "time-a-goaltender.md"
MARK = "<!-- the table below is written by tests/motion/test_docs.py -->\n\n"


def test_the_table_of_moves_is_fresh():
    assert MOVES.read_text(encoding="utf-8").split(MARK)[1] == markdown_table()


def test_the_table_has_a_whole_row_for_every_move():
    rows = table_rows()
    assert [row[0] for row in rows] == list(dict.fromkeys(r[0] for r in rows))
    assert {row[0] for row in rows} == {one.value for one in MoveKind}
    for row in rows:
        assert len(row) == len(HEADS)
        assert all(row)


def test_the_page_on_timing_names_every_test_with_its_repetitions():
    text = TIMING.read_text(encoding="utf-8")
    rows = [line for line in text.splitlines() if line.startswith("| ")]
    for row in TEST_SHEET:
        line = next(one for one in rows if row.name in one)
        assert re.search(rf"\| {row.repetitions}( each)? \|", line), row.name


def test_the_example_on_timing_runs(capsys):
    code = re.search(r"```python\n(.*?)```", TIMING.read_text(encoding="utf-8"), re.DOTALL).group(1)
    exec(compile(code, str(TIMING), "exec"), {})
    assert re.fullmatch(
        r"shuffle pace: \d+ % of the level's default \(.*\)\n", capsys.readouterr().out
    )


@pytest.mark.parametrize("page", ["understand/motion.md", "understand/people.md"])
def test_links_between_pages_lead_somewhere(page):
    text = (DOCS / page).read_text(encoding="utf-8")
    for target in re.findall(r"\]\(([^)#]+)\)", text):
        assert ((DOCS / page).parent / target).exists(), target


if __name__ == "__main__":
    head = MOVES.read_text(encoding="utf-8").split(MARK)[0]
    MOVES.write_text(head + MARK + markdown_table(), encoding="utf-8")
