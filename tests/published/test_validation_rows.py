"""The rows of the validation report: enough checks, none that chose a number, none that is not sure.

The report is made by ``studies/calibration/report.py``; its raw rows are committed.
"""

import csv
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "studies" / "calibration"))
from check import Check, Role, near, sure_value  # noqa: E402

with (ROOT / "reference" / "calibration" / "checks.csv").open() as file:
    ROWS = list(csv.DictReader(file))
with (ROOT / "reference" / "calibration" / "fit_rows.csv").open() as file:
    FITTED_ROWS = [row["row"] for row in csv.DictReader(file)]


def of_role(role: Role) -> list[dict[str, str]]:
    return [row for row in ROWS if row["role"] == role.value]


def test_at_least_forty_checks_and_most_hold() -> None:
    checks = of_role(Role.CHECKED)
    assert len(checks) >= 40
    assert sum(row["holds"] == "yes" for row in checks) >= 0.9 * len(checks)


def test_every_row_of_the_fit_is_a_fitted_row_of_the_report() -> None:
    # a row of the fit reads "goal chance, distance 0-1.524 m": group and label of the report
    fitted = {(row["group"], row["name"]) for row in of_role(Role.FITTED)}
    checked = {(row["group"], row["name"]) for row in of_role(Role.CHECKED)}
    for row in FITTED_ROWS:
        words = row.removeprefix("goal chance, ")
        for measure in ("distance", "angle"):
            if words.startswith(measure):
                key = (f"men, by {measure}", words.removeprefix(f"{measure} "))
                assert key in fitted
                assert key not in checked
    assert sum(group == "shots on goal" for group, _ in fitted) == sum(
        row.startswith("share of unblocked") for row in FITTED_ROWS
    )
    assert {"goal chance of clean shots (set)", "share of clean shots"} <= {n for _, n in fitted}


@pytest.mark.parametrize(
    "words",
    ["age 8 over age 14", "thigh over stature", "median time to the goal", "shot again"],
)
def test_rows_that_chose_a_number_are_not_checks(words: str) -> None:
    found = [row for row in ROWS if words in row["name"]]
    assert found
    assert {row["role"] for row in found} == {Role.FITTED.value}


@pytest.mark.parametrize(
    "words",
    ["PM68", "PV06", "ARCTIC11, breakaway", "drag row"],
)
def test_rows_of_weak_sources_are_only_shown(words: str) -> None:
    found = [row for row in ROWS if words in row["source"]]
    assert found
    assert {row["role"] for row in found} == {Role.SHOWN.value}


def test_a_figure_that_is_not_sure_cannot_be_a_check() -> None:
    assert sure_value("body.segment_length.thigh") == 0.245
    with pytest.raises(ValueError, match=r"breakaway_goal is not sure \(looked_up_weak\)"):
        sure_value("game.breakaway_goal")


def test_a_check_holds_at_its_limits_and_not_beyond() -> None:
    row = near("group", "name", 1.25, 1.0, 0.25, "m", "source")
    assert (row.low, row.high, row.holds, row.role) == (0.75, 1.25, True, Role.CHECKED)
    assert not Check("group", "name", 1.3, 1.0, 0.75, 1.25, "m", "source").holds
