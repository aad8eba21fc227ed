"""What every command shares: help, errors in one line, tables, JSON."""

import json
from datetime import date, time

import click
import pytest
from click.testing import CliRunner

from tendline.base import InputError, Level
from tendline.cli.frame import (
    Command,
    Group,
    error_lines,
    print_json,
    print_table,
    step,
)
from tendline.cli.main import main


@pytest.fixture
def run():
    runner = CliRunner()
    return lambda *words: runner.invoke(main, list(words))


def every_command(group=main, words=("tendline",)):
    context = click.Context(group)
    for name in group.list_commands(context):
        command = group.get_command(context, name)
        if isinstance(command, click.Group):
            yield from every_command(command, (*words, name))
        else:
            yield (*words, name), command


COMMANDS = dict(every_command())


def test_there_are_many_commands_each_in_its_own_words():
    assert len(COMMANDS) > 20
    assert ("tendline", "read") in COMMANDS


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_every_command_has_help_and_an_example(words, run):
    command = COMMANDS[words]
    assert command.help
    assert command.help.strip().endswith((".", "'.")) or "example" in command.help
    assert isinstance(command, Command)
    assert command.examples or "For example:" in command.help
    result = run(*words[1:], "--help")
    assert result.exit_code == 0
    for one in command.examples:
        assert one.split()[0] == "tendline"
        assert " ".join(one.split()[:2]) in " ".join(result.output.split())


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_every_option_has_help(words):
    for one in COMMANDS[words].params:
        if isinstance(one, click.Option) and one.name not in ("paper",):
            assert one.help, f"{' '.join(words)} --{one.name}"


def test_our_errors_become_one_line_and_a_hint():
    @click.group(cls=Group)
    def top():
        """Top."""

    @top.command()
    def fail():
        """Fail."""
        raise InputError(
            "ice time is out of range", came="0 min", allowed="1 to 180", hint="Give more."
        )

    result = CliRunner().invoke(top, ["fail"])
    assert result.exit_code == 2
    assert result.stderr.splitlines() == [
        "Error: ice time is out of range; got 0 min; allowed: 1 to 180.",
        "Give more.",
    ]
    assert result.stdout == ""


def test_an_error_without_a_hint_is_one_line():
    assert error_lines(InputError("no", came="x")) == ("Error: no; got x.",)


def test_a_wrong_command_names_the_nearest(run):
    result = run("gaem")
    assert result.exit_code == 2
    assert "Did you mean 'game'?" in result.output


def test_tables_put_figures_to_the_right(capsys):
    print_table(("name", "shots"), [("a", "5"), ("bcd", "12")])
    assert capsys.readouterr().out.splitlines() == ["name  shots", "a         5", "bcd      12"]


def test_json_understands_our_values(capsys):
    print_json({"level": Level.U13, "day": date(2026, 1, 2), "at": time(18, 7), "set": {"b", "a"}})
    assert json.loads(capsys.readouterr().out) == {
        "level": "U13", "day": "2026-01-02", "at": "18:07", "set": ["a", "b"],
    }  # fmt: skip


def test_json_refuses_what_it_does_not_know(capsys):
    with pytest.raises(TypeError, match="object"):
        print_json(object())


def test_a_step_says_what_it_does_on_the_error_channel(capsys):
    with step("Reading the games"):
        pass
    captured = capsys.readouterr()
    assert captured.err == "Reading the games ... done\n"
    assert captured.out == ""


def test_a_step_that_fails_ends_its_line(capsys):
    with pytest.raises(ValueError, match="no"), step("Reading"):
        raise ValueError("no")
    assert capsys.readouterr().err == "Reading ...\n"
