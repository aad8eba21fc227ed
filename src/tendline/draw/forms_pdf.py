"""Sheets to write on: the timed tests of a goaltender and the paper shot chart."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tendline.base import ScoringSituation, ShotResult, ShotType
from tendline.draw.ice_picture import IcePicture, Window
from tendline.draw.pdf import Typeset, first_that_fits, look, sentence, sentences, typeset
from tendline.draw.tokens import PRINT
from tendline.ice import Rink
from tendline.ice import rink as make_rink
from tendline.log.vocabulary import Readiness
from tendline.motion import CAUTIONS, HOW_TO_FILM, TEST_SHEET
from tendline.motion.timed import SheetRow

PX_PER_MM = 96.0 / 25.4
TEST_FOOT = "Times are hers alone: compare with her own earlier ones on the same ice."
CHART_FOOT = (
    "Opponents by sweater number only. Keep the sheet with the club's papers, enter it, then "
    "destroy it."
)
MOST_CHART_ROWS, LEAST_CHART_ROWS = 26, 6
TEST_GAPS = (0.62, 0.5, 0.4, 0.3)
"""Lines in each half of the chart, and space in the rows of tests [em], from roomy to tight."""
RESULT_CODES = {
    ShotResult.GOAL: "G",
    ShotResult.SAVE_HELD: "H",
    ShotResult.SAVE_SAFE_REBOUND: "S",
    ShotResult.SAVE_DANGEROUS_REBOUND: "D",
    ShotResult.SAVE: "V",
    ShotResult.WIDE: "W",
    ShotResult.BLOCKED: "B",
}
READY_CODES = {Readiness.SET: "S", Readiness.MOVING: "M", Readiness.DOWN: "D"}
TYPE_CODES = {
    ShotType.WRIST: "W",
    ShotType.SNAP: "N",
    ShotType.SLAP: "S",
    ShotType.BACKHAND: "B",
    ShotType.ONE_TIMER: "O",
    ShotType.TIP: "T",
    ShotType.WRAP: "A",
}


def timed_test_sheet_pdf(
    *, name: str = "", rows: Sequence[SheetRow] = TEST_SHEET, paper: str = "A4"
) -> bytes:
    """Return the sheet of timed tests with room for each repetition's time.

    ``rows`` leaves out tests that are not for her age (``motion.sheet_for``); ``name`` is printed
    if given. Raises ``NotFoundError`` for an unknown paper.
    """
    return render_timed_tests(name=name, rows=rows, paper=paper).pdf


def render_timed_tests(
    *, name: str = "", rows: Sequence[SheetRow] = TEST_SHEET, paper: str = "A4"
) -> Typeset:
    """Return the typeset sheet of timed tests, its pages and warnings."""
    rests = {one.rest for one in rows}
    shared = f" Rest {next(iter(rests))} after every repetition." if len(rests) == 1 else ""

    def make(index: int) -> Typeset:
        data = {
            "look": look(paper),
            "title": "Timed tests",
            "who": f"{f'{name}    ' if name else 'Name ....................  '}Date ..............",
            "how": sentence(HOW_TO_FILM) + shared,
            "gap": TEST_GAPS[index],
            "most": max((one.repetitions for one in rows), default=1),
            "rows": [_test_row(one, bool(shared)) for one in rows],
            "cautions": sentences(CAUTIONS),
            "foot": TEST_FOOT,
        }
        return typeset("timed_tests", data)

    return first_that_fits(len(TEST_GAPS), make)[1]


def _test_row(one: SheetRow, rest_is_shared: bool) -> dict[str, Any]:
    return {
        "name": one.name[:1].upper() + one.name[1:],
        "set_up": sentence(one.set_up),
        "how_to_time": sentence(one.how_to_time),
        "repetitions": one.repetitions,
        "rest": "" if rest_is_shared else one.rest,
        "gives": one.gives.rstrip(".") + ".",
    }


def shot_chart_pdf(*, paper: str = "A4", rink: Rink | None = None, team: str = "") -> bytes:
    """Return a paper shot chart with the fields of the app, three periods on one side.

    Raises ``NotFoundError`` for an unknown paper.
    """
    return render_shot_chart(paper=paper, rink=rink, team=team).pdf


def render_shot_chart(*, paper: str = "A4", rink: Rink | None = None, team: str = "") -> Typeset:
    """Return the typeset shot chart, its pages and warnings."""
    ground = rink or make_rink()
    picture = {"svg": _chart_ice(ground), "alt": "End zone to mark shots on, net at the bottom"}

    def make(index: int) -> Typeset:
        data = {
            "look": look(paper),
            "title": f"Shot chart{f', {team}' if team else ''}",
            "blanks": ["Goaltender", "Opponent", "Date", "Level", "Changed to", "At period, time",
                       "Charted by", "Score"],
            "periods": [
                {"name": f"Period {number}", "picture": picture} for number in (1, 2, 3)
            ],
            "how": "Every shot at her net: write its number on the ice where it left the stick, "
            "turned so that her net is at the bottom, and one line below.",
            "columns": _columns(),
            "rows": MOST_CHART_ROWS - index,
            "codes": _codes(),
            "foot": CHART_FOOT,
        }  # fmt: skip
        return typeset("shot_chart", data)

    return first_that_fits(MOST_CHART_ROWS - LEAST_CHART_ROWS + 1, make)[1]


def _chart_ice(rink: Rink) -> str:
    high = min(rink.blue_line_x + 1.0, rink.x_max)
    window = Window(rink.x_min - 0.4, high, -rink.half_width - 0.4, rink.half_width + 0.4)
    ice = IcePicture(rink, window, width=58.0 * PX_PER_MM, title="End zone", palette=PRINT)
    ice.draw_ice()
    return ice.svg()


def _columns() -> list[dict[str, Any]]:
    names = (("per.", 0.8), ("time", 1.5), ("sit.", 0.9), ("type", 0.9), ("res.", 0.9),
             ("goal", 1.0), ("she", 0.8), ("scr.", 0.8), ("acr.", 0.8), ("by", 0.9))  # fmt: skip
    return [{"name": name, "width": width} for name, width in names]


def _codes() -> list[list[str]]:
    situations = ", ".join(
        f"{number} {one.value}" for number, one in enumerate(ScoringSituation, start=1)
    )
    return [
        ["sit.", f"{situations}."],
        ["type", f"{_listed(TYPE_CODES)}."],
        ["res.", f"{_listed(RESULT_CODES)}."],
        [
            "goal",
            "where at the goal, as she sees it: 1 2 3 along the top from her left, 4 5 6 in the "
            "middle, 7 8 9 along the ice.",
        ],
        [
            "she",
            f"{_listed(READY_CODES)}. scr.: tick if she was screened. acr.: tick after a pass "
            "across the middle. by: shooter's number.",
        ],
    ]


def _listed(codes: dict[Any, str]) -> str:
    return ", ".join(f"{code} {one.value}" for one, code in codes.items())
