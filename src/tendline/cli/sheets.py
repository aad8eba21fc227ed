"""``tendline sheet``: a saved practice sheet again, as text, JSON or PDF."""

from __future__ import annotations

from pathlib import Path

import click

from tendline.cli.frame import Command, json_option, print_json, print_table, session_of, step


@click.command(
    cls=Command,
    examples=(
        "tendline --demo sheet --list",
        "tendline --demo sheet",
        "tendline --demo sheet --out sheet.pdf --paper Letter",
        "tendline --demo sheet --done",
    ),
)
@click.argument("practice", required=False)
@click.option("--list", "list_them", is_flag=True, help="List the saved practices.")
@click.option("--done", is_flag=True, help="Note that it was run: loads and drills then count.")
@click.option("--left-out", multiple=True, help="With --done: a drill that was not run, by id.")
@click.option("--paper", type=click.Choice(["A4", "Letter"]), default="A4", show_default=True)
@click.option("--large", is_flag=True, help="Large print.")
@click.option("--back", is_flag=True, help="The drills' diagrams large on the back.")
@click.option(
    "--out", type=click.Path(path_type=Path, dir_okay=False), default=None, help="Write a PDF here."
)
@json_option
@click.pass_context
def sheet(
    context: click.Context,
    practice: str | None,
    list_them: bool,
    done: bool,
    left_out: tuple[str, ...],
    paper: str,
    large: bool,
    back: bool,
    out: Path | None,
    as_json: bool,
) -> None:
    """Show a saved PRACTICE sheet again; the newest one if none is named."""
    from tendline.base import NotFoundError
    from tendline.cli.evening import print_sheet
    from tendline.cli.tonight import write_pdf
    from tendline.draw import practice_sheet_pdf
    from tendline.ice import rink
    from tendline.practice import sheet_from_dict
    from tendline.work.drills import all_drills
    from tendline.work.tonight import note_done

    with session_of(context).store() as store:
        saved = [one for one in store.practices.list() if one.sheet]
        if list_them:
            if as_json:
                print_json([{"id": one.id, "day": one.day, "team": one.team} for one in saved])
            elif not saved:
                click.echo("No practice is saved yet: tendline tonight makes one.")
            else:
                print_table(
                    ("day", "team", "id"), [(str(one.day), one.team, one.id) for one in saved]
                )
            return
        if practice is None and not saved:
            raise NotFoundError("no practice is saved yet", hint="Make one: tendline tonight")
        found = (
            store.practices.get(practice)
            if practice
            else max(saved, key=lambda one: (one.day, str(one.saved_at)))
        )
        made = sheet_from_dict(found.sheet)
        if done:
            noted = note_done(store, found.id, left_out=left_out)
        if out:
            wanted = {one.drill_id for one in made.segments}
            drills = {one.id: one for one in all_drills(store) if one.id in wanted}
            with step("Drawing the sheet"):
                content = practice_sheet_pdf(
                    made, paper=paper, drills=drills, large_print=large,
                    rink=rink(store.club.get().rule_set), diagrams_on_back=back,
                )  # fmt: skip
            write_pdf(content, out, out.parent, "")
    if done:
        if as_json:
            print_json(noted.done)
        else:
            ran = ", ".join(noted.done["drills"])
            click.echo(f"Noted for {found.day}: {ran}. It now stands beside the next plans.")
        return
    if as_json:
        print_json(found.sheet)
        return
    print_sheet(made)
    if out:
        click.echo(f"Sheet: {out}")
