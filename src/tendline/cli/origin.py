"""``tendline origin``: where every number comes from."""

from __future__ import annotations

import click

from tendline.cli.frame import Command, json_option, print_json, print_table, session_of


@click.command(
    cls=Command,
    examples=(
        "tendline origin practice.changeover",
        "tendline origin --only assumed",
        "tendline origin --find push",
    ),
)
@click.argument("key", required=False)
@click.option("--only", default="", help="Only one kind of origin, for example 'assumed'.")
@click.option("--find", default="", help="Only numbers whose name or key holds this word.")
@json_option
@click.pass_context
def origin(context: click.Context, key: str | None, only: str, find: str, as_json: bool) -> None:
    """Say where a number comes from, or list them all.

    With KEY: origin, range, the value in force, and how far it moves the depth of an example.
    Without: every number of the program, or those of one kind.
    """
    from tendline.base import OriginKind, unknown_name
    from tendline.work.origin import constant_figure, groups, origin_line

    with session_of(context).store() as store:
        settings = store.choices.settings()
    if key:
        figure = constant_figure(key, settings)
        if as_json:
            print_json(figure)
            return
        line = figure.lines[0]
        click.echo(f"{figure.title}: {figure.value_text}")
        click.echo(f"{line.kind}: {line.source}" if line.source else line.kind)
        for text in (line.note, figure.how, line.moves):
            if text:
                click.echo(text)
        if line.is_setting:
            click.echo(f"Change it: tendline settings set {key} VALUE ({line.low} to {line.high})")
        return
    kinds = [one.value for one in OriginKind]
    if only and only not in kinds:
        raise unknown_name("kind of origin", only, kinds)
    lines = [
        (title, origin_line(one, settings))
        for title, constants in groups()
        for one in constants
        if find.lower() in f"{one.key} {one.label}".lower()
    ]
    lines = [(title, line) for title, line in lines if not only or line.kind == only]
    if as_json:
        print_json([line for _, line in lines])
        return
    print_table(
        ("number", "value", "origin", "key"),
        [(x.label, f"{x.value} {x.unit}", x.kind, x.key) for _, x in lines],
    )
    assumed = sum(line.kind == OriginKind.ASSUMED.value for _, line in lines)
    click.echo(f"{len(lines)} numbers, {assumed} of them assumed.")
