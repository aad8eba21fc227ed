"""What every command shares: examples in the help, errors in one line, the club's file, JSON."""

from __future__ import annotations

import dataclasses
import importlib
import json
import time as clock
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime, time
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from tendline.base import TendlineError

if TYPE_CHECKING:
    from tendline.store import Store

F = TypeVar("F", bound=Callable[..., Any])
ERROR_CODE = 2


class Command(click.Command):
    """A command whose help ends with examples that really run."""

    def __init__(self, *args: Any, examples: Sequence[str] = (), **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.examples = tuple(examples)

    def format_epilog(self, context: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the examples under the options."""
        if self.examples:
            with formatter.section("Example" if len(self.examples) == 1 else "Examples"):
                for one in self.examples:
                    formatter.write_text(one)
        super().format_epilog(context, formatter)


class Group(click.Group):
    """A group that loads its commands when asked and turns our errors into one line and a hint."""

    command_class = Command

    def __init__(self, *args: Any, modules: Mapping[str, str] | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.modules = dict(modules or {})

    def list_commands(self, context: click.Context) -> list[str]:
        """Return the names of the commands, in the order in which they were given."""
        return [*self.modules, *super().list_commands(context)]

    def get_command(self, context: click.Context, name: str) -> click.Command | None:
        """Return a command, importing its module the first time."""
        if name in self.modules:
            module, _, attribute = self.modules[name].partition(":")
            found = getattr(importlib.import_module(module), attribute)
            assert isinstance(found, click.Command)
            return found
        return super().get_command(context, name)

    def resolve_command(
        self, context: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command; on a wrong word name the nearest right one."""
        try:
            return super().resolve_command(context, args)
        except click.UsageError as error:
            from tendline.base import nearest_name

            hint = nearest_name(args[0], self.list_commands(context)) if args else ""
            raise click.UsageError(f"{error.message} {hint}".strip(), error.ctx) from None

    def invoke(self, context: click.Context) -> Any:
        """Run the command; a :class:`TendlineError` becomes one line plus a hint, exit code 2."""
        try:
            return super().invoke(context)
        except TendlineError as error:
            for line in error_lines(error):
                click.echo(line, err=True)
            context.exit(ERROR_CODE)


Group.group_class = Group


def error_lines(error: TendlineError) -> tuple[str, ...]:
    """Return the message on one line and, if there is one, the hint on the next."""
    message = error.message
    if error.hint and message.endswith(error.hint):
        message = message[: -len(error.hint)].rstrip()
    return (f"Error: {message}", *([error.hint] if error.hint else []))


@dataclass(slots=True)
class Session:
    """What the options before the command say: which file to work on."""

    file: Path | None = None
    demo: bool = False

    def path(self) -> Path | None:
        """Return the file to work on; None for the club's own."""
        from tendline.store import demo_path

        return demo_path() if self.file is None and self.demo else self.file

    @contextmanager
    def store(self) -> Iterator[Store]:
        """Open the club's file (or the demo club's, made if it is not there) for one command."""
        from tendline.store import open_store

        path = self.path()
        if path is not None and self.file is None and not path.exists():
            with step("Making the demo club"):
                _make_demo()
        with open_store(path) as store:
            yield store


def _make_demo() -> None:
    from tendline.work.demo import open_demo

    open_demo().close()


def session_of(context: click.Context) -> Session:
    """Return the session of a command."""
    found = context.find_object(Session)
    return found if found is not None else Session()


@contextmanager
def step(words: str) -> Iterator[None]:
    """Say on the error channel what is being done, and how long it took if over a second."""
    started = clock.monotonic()
    click.echo(f"{words} ...", err=True, nl=False)
    try:
        yield
    except BaseException:
        click.echo("", err=True)
        raise
    took = clock.monotonic() - started
    click.echo(f" {took:.1f} s" if took >= 1 else " done", err=True)


def json_option(function: F) -> F:
    """Add ``--json`` to a command."""
    return click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON.")(
        function
    )


def print_json(value: object) -> None:
    """Print a value as JSON: dataclasses, enumerations, dates and paths are understood."""
    click.echo(json.dumps(value, default=_plain, indent=2, ensure_ascii=False, allow_nan=False))


def write_json(value: object, path: Path) -> None:
    """Write a value as JSON to a file."""
    path.write_text(
        json.dumps(value, default=_plain, indent=2, ensure_ascii=False, allow_nan=False), "utf-8"
    )


def print_table(headings: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
    """Print a table with aligned columns; figures are put to the right."""
    if not rows:
        return
    every = [list(headings), *(list(row) for row in rows)]
    widths = [max(len(row[at]) for row in every) for at in range(len(headings))]
    right = [all(_is_figure(row[at]) for row in rows) for at in range(len(headings))]
    for row in every:
        cells = [
            cell.rjust(width) if is_right else cell.ljust(width)
            for cell, width, is_right in zip(row, widths, right, strict=True)
        ]
        click.echo("  ".join(cells).rstrip())


def _is_figure(text: str) -> bool:
    return text.strip()[:1] in "0123456789+-." if text.strip() else True


def _plain(value: object) -> object:
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {one.name: getattr(value, one.name) for one in dataclasses.fields(value)}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, time):
        return value.strftime("%H:%M")
    if isinstance(value, date | datetime):
        return value.isoformat()
    if isinstance(value, Path):
        return str(value)
    if isinstance(value, frozenset | set):
        return sorted(value, key=str)
    if hasattr(value, "tolist"):
        return value.tolist()
    raise TypeError(f"cannot write {type(value).__name__} as JSON")
