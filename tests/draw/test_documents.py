"""The page of signs names every sign that a diagram can print."""

from __future__ import annotations

from pathlib import Path

from tendline.draw.drill_scene import MOVE_WORDS, StrokeKind
from tendline.draw.legend import ROLE_WORDS, THING_WORDS

SIGNS = Path(__file__).parents[2] / "docs" / "lookup" / "symbols.md"


def test_every_line_person_thing_and_letter_is_explained() -> None:
    text = " ".join(SIGNS.read_text("utf-8").split())
    for kind in StrokeKind:
        if kind is not StrokeKind.MOVE:
            assert kind.value.replace("backward with", "skating backward with") in text
    for letter, words in ROLE_WORDS.values():
        assert words in text
        assert letter in text
    for words in THING_WORDS.values():
        assert words in text
    for letter, words in MOVE_WORDS.items():
        if letter not in ("set", "cover"):
            assert f"{letter} {words}" in text
