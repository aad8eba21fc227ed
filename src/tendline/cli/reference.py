"""The page of all commands, made from the commands themselves.

``python -m tendline.cli.reference docs/lookup/commands.md`` writes it; a test says when it is old.
"""

from __future__ import annotations

import inspect
import sys
from collections.abc import Iterator
from pathlib import Path

import click

from tendline.cli.frame import Command
from tendline.cli.main import main

_OPENING = """\
# Commands

Made from the commands themselves: `python -m tendline.cli.reference docs/lookup/commands.md`.

Every command works on your own club's file; put `--demo` (the invented club) or `--file PATH`
before the command to work on another. Where a script would want it, `--json` prints the answer as
JSON. An error is one line and a hint on the error channel, and the exit code is 2.
"""


def reference() -> str:
    """Return the page as Markdown."""
    parts = [_OPENING]
    for words, command in walk(main, ("tendline",)):
        parts.append(_section(" ".join(words), command))
    return "\n".join(parts)


def walk(
    group: click.Group, words: tuple[str, ...]
) -> Iterator[tuple[tuple[str, ...], click.Command]]:
    """Yield every command with the words that call it, in the order of the help."""
    context = click.Context(group)
    for name in group.list_commands(context):
        command = group.get_command(context, name)
        if command is None:
            continue
        if isinstance(command, click.Group):
            yield from walk(command, (*words, name))
        else:
            yield (*words, name), command


def _section(name: str, command: click.Command) -> str:
    lines = [f"## {name}", "", inspect.cleandoc(command.help or ""), ""]
    arguments = [one for one in command.params if isinstance(one, click.Argument)]
    options = [one for one in command.params if isinstance(one, click.Option)]
    if arguments:
        words = " ".join(
            f"{one.human_readable_name.upper()}{'...' if one.nargs < 0 else ''}"
            if one.required
            else f"[{one.human_readable_name.upper()}]"
            for one in arguments
        )
        lines += [f"Words: `{words}`", ""]
    if options:
        lines += ["| Option | What it does |", "|---|---|"]
        lines += [f"| `{_names(one)}` | {_help(one)} |" for one in options]
        lines.append("")
    if isinstance(command, Command) and command.examples:
        lines += [f"    {one}" for one in command.examples]
        lines.append("")
    return "\n".join(lines)


def _names(option: click.Option) -> str:
    value = "" if option.is_flag else f" {_metavar(option)}"
    return f"{', '.join(option.opts)}{value}"


def _metavar(option: click.Option) -> str:
    if option.metavar:
        return option.metavar
    if isinstance(option.type, click.Choice):
        return "WORD"
    if isinstance(option.type, click.DateTime):
        return "HH:MM" if "%H:%M" in option.type.formats else "YYYY-MM-DD"
    if isinstance(option.type, click.Path):
        return "PATH"
    if isinstance(option.type, click.IntRange) or option.type is click.INT:
        return "N"
    return "NUMBER" if option.type is click.FLOAT else "TEXT"


def _help(option: click.Option) -> str:
    parts = [option.help or ""]
    if isinstance(option.type, click.Choice):
        parts.append(f"One of: {', '.join(str(one) for one in option.type.choices)}.")
    if option.show_default and not option.is_flag:
        shown = option.show_default if isinstance(option.show_default, str) else option.default
        parts.append(f"Default: {shown}.")
    if option.multiple:
        parts.append("May be given more than once.")
    return " ".join(part for part in parts if part).replace("|", "\\|")


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(reference(), "utf-8")
