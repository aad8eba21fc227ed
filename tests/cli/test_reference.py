"""The page of commands is made from the commands and is up to date."""

from pathlib import Path

from tendline.cli.reference import reference
from tests.cli.test_frame import COMMANDS

PAGE = Path(__file__).parents[2] / "docs" / "lookup" / "commands.md"


def test_the_page_of_commands_is_up_to_date():
    assert PAGE.read_text("utf-8") == reference(), (
        "run: python -m tendline.cli.reference docs/lookup/commands.md"
    )


def test_every_command_and_example_is_on_the_page():
    page = reference()
    for words, command in COMMANDS.items():
        assert f"## {' '.join(words)}\n" in page
        for one in command.examples:
            assert f"    {one}\n" in page
