"""``tendline settings``: what the coach changed."""

from __future__ import annotations

import click

from tendline.cli.frame import Command, Group, json_option, print_json, print_table, session_of


@click.group(cls=Group)
def settings() -> None:
    """See and change the numbers that the program takes as given."""


@settings.command(
    "list", cls=Command, examples=("tendline settings list", "tendline settings list --json")
)
@json_option
@click.pass_context
def list_settings(context: click.Context, as_json: bool) -> None:
    """List what you changed; everything else keeps its default."""
    from tendline.work.origin import constant_origin, registry

    with session_of(context).store() as store:
        now = store.choices.settings()
    known = registry()
    lines = [constant_origin(key, now) for key, _ in now.changed if key in known]
    if as_json:
        print_json(lines)
    elif not lines:
        click.echo("Nothing changed: every number has its default. See 'tendline origin'.")
    else:
        print_table(
            ("number", "yours", "key"), [(x.label, f"{x.value} {x.unit}", x.key) for x in lines]
        )


@settings.command("set", cls=Command, examples=("tendline settings set practice.changeover 60",))
@click.argument("key")
@click.argument("value", type=float)
@click.pass_context
def set_setting(context: click.Context, key: str, value: float) -> None:
    """Set the number KEY to VALUE for your club."""
    from tendline.base import InputError
    from tendline.work.origin import constant_origin, known_constant

    constant = known_constant(key)
    if not constant.is_setting:
        raise InputError("this figure is fixed", item=constant.label, hint=constant.origin)
    with session_of(context).store() as store:
        store.choices.settings().with_value(key, value).value_of(constant)
        store.choices.set(key, value)
        line = constant_origin(key, store.choices.settings())
    click.echo(f"{line.label}: {line.value} {line.unit}. {line.note}")


@settings.command("clear", cls=Command, examples=("tendline settings clear practice.changeover",))
@click.argument("key")
@click.pass_context
def clear_setting(context: click.Context, key: str) -> None:
    """Put the number KEY back to its default."""
    from tendline.work.origin import constant_origin

    with session_of(context).store() as store:
        line = constant_origin(key)
        store.choices.clear(key)
    click.echo(f"{line.label}: {line.value} {line.unit}, the default ({line.kind}).")
