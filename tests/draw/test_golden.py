"""A few pictures compared with kept ones. Frozen: they prove only that nothing changed.

After a wanted change, look at the new pictures, then run ``python -m tests.draw.test_golden`` from
the repository's root to keep them.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tendline import ice
from tendline.draw import close_window, drill_svg, interval_svg, legend_svg, rink_svg
from tendline.ice import RuleSet

from .plays import branching_drill
from .svg_reading import normalised

FOLDER = Path(__file__).parent / "golden"

PICTURES = {
    "rink_iihf_close": lambda: rink_svg(
        ice.rink(RuleSet.IIHF), window=close_window(ice.rink(RuleSet.IIHF)), width=300
    ),
    "drill_two_branches": lambda: drill_svg(branching_drill(), width=420),
    "legend": lambda: legend_svg(branching_drill(), width=420),
    "interval": lambda: interval_svg(0.12, 0.36, 0.65, marks=(0.25,), words="4 of 11"),
}


@pytest.mark.parametrize("name", list(PICTURES))
def test_picture_is_the_kept_one(name: str) -> None:
    kept = (FOLDER / f"{name}.svg").read_text("utf-8")
    assert normalised(PICTURES[name]()) == kept


if __name__ == "__main__":
    for key, make in PICTURES.items():
        (FOLDER / f"{key}.svg").write_text(normalised(make()), "utf-8")
        print("kept", key, os.linesep, end="")
