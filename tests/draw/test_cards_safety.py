"""Every card of the library, on every paper, says the cautions on its one side."""

from __future__ import annotations

import pytest

from tendline.draw import drill_card_pdf
from tendline.draw.card_pdf import _fitted
from tendline.drill import Drill, library
from tendline.ice import rink


@pytest.mark.parametrize("drill", library()[::6], ids=lambda one: one.id)
@pytest.mark.parametrize("paper", ["A6", "A5"])
def test_a_card_carries_its_cautions_on_one_side(drill: Drill, paper: str):
    data, made = _fitted(drill, None, paper, rink())
    assert made.pages == 1
    assert any("not looking" in line for line in data["cautions"])


def test_a_card_is_a_pdf():
    assert drill_card_pdf(library()[0]).startswith(b"%PDF")
