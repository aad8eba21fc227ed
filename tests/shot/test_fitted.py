"""Fitted numbers: their kind, their error, and that the file is the study's own output."""

import csv
from pathlib import Path

import pytest

from tendline.base import Level, OriginKind
from tendline.shot import constants as known
from tendline.shot.constants import FITTED

RAW = Path(__file__).resolve().parents[2] / "reference" / "calibration" / "fit_numbers.csv"


def test_fitted_constants_say_so_and_carry_their_error() -> None:
    for constant in (known.REACTION[Level.MEN_ELITE], known.REACTION_SPREAD, known.AIM_FLOOR,
                     known.HIDDEN, known.OFF_SPOT_NEAR, known.OFF_SPOT_SCALE):  # fmt: skip
        assert constant.kind is OriginKind.FITTED
        assert "standard error" in constant.note
        assert "calibration" in constant.source
        assert constant.low <= constant.value <= constant.high


def test_other_levels_carry_the_transfer_as_an_assumption() -> None:
    assert "assumption" in known.REACTION[Level.U11].note
    assert "assumption" in known.AIM_ERROR[Level.U11].note


def test_the_package_holds_what_the_study_wrote() -> None:
    with RAW.open() as file:
        rows = {row["name"]: row for row in csv.DictReader(file)}
    for name, number in FITTED["fitted"].items():
        assert float(rows[name]["value"]) == pytest.approx(number["value"], rel=1e-3)
        assert float(rows[name]["standard_error"]) == pytest.approx(number["error"], rel=1e-2)
