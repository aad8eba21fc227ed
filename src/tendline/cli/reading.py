"""``tendline read``: where to stand against one moment of an attack."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

import click

from tendline.base import Level, Side
from tendline.cli.frame import Command, json_option, print_json, print_table, session_of, step

if TYPE_CHECKING:
    from tendline.play import Read
    from tendline.store import Store
    from tendline.work.reading import Question

_LEVELS = [one.value for one in Level]


@click.command(
    cls=Command,
    examples=(
        'tendline read "left dot" --mate "right dot:right" --defender 5,0 --level U15',
        "tendline read 10,4:left@-5,0 --even --json",
        'tendline read "left dot" --mate "right dot" --stature 1.62 --catches right',
        'tendline --demo read "high slot" --who ronja',
    ),
)
@click.argument("carrier")
@click.option("--mate", "mates", multiple=True, help="Another attacker: a place, see below.")
@click.option("--who", default="", help="A goaltender by id: her height, hand, level, settings.")
@click.option("--defender", "defenders", multiple=True, help="A defender: a place.")
@click.option(
    "--level",
    type=click.Choice(_LEVELS),
    default=None,
    help="Playing level, decides speeds and times; hers, or U18.",
)
@click.option("--stature", type=float, default=None, help="Her height, metres; else 1.70.")
@click.option(
    "--catches",
    type=click.Choice([one.value for one in Side]),
    default=None,
    help="Her catching hand; left if not known.",
)
@click.option("--even", is_flag=True, help="Give every attacker a defender.")
@click.option("--origin", "figure", default="", help="Say where one figure comes from: 'depth'.")
@json_option
@click.pass_context
def read(
    context: click.Context,
    carrier: str,
    mates: tuple[str, ...],
    defenders: tuple[str, ...],
    who: str,
    level: str | None,
    stature: float | None,
    catches: str | None,
    even: bool,
    figure: str,
    as_json: bool,
) -> None:
    """Say where to stand when the CARRIER has the puck there.

    A place is a spot ('left dot', 'high slot', 'right half wall') or x,y in metres: x out from
    the goal line, y to the goaltender's left. Add ':right' for a right-handed shot and '@vx,vy'
    for a speed in metres a second ('@-5,0' comes straight at the goal line).
    """
    from tendline.cli.places import attacker, defender
    from tendline.ice import rink
    from tendline.work.reading import Question, ask, with_even_numbers

    with session_of(context).store() as store:
        club = store.club.get()
        settings = store.choices.settings(who)
        hers = _known(store, who)
    sheet = rink(club.rule_set)
    question = Question(
        attackers=tuple(
            attacker(text, sheet, name=f"F{at}") for at, text in enumerate((carrier, *mates), 1)
        ),
        defenders=tuple(
            defender(text, sheet, name=f"D{at}") for at, text in enumerate(defenders, 1)
        ),
        level=Level(level) if level else hers.level,
        stature=stature or hers.stature,
        catching_hand=Side(catches) if catches else hers.catching_hand,
        rule_set=club.rule_set,
        settings=settings,
    )
    if even:
        question = with_even_numbers(question)
    if figure:
        _print_figure(question, figure, as_json=as_json)
        return
    answer = ask(question)
    if as_json:
        print_json(as_data(answer))
    else:
        _print(answer)


def _known(store: Store, who: str) -> Question:
    """Return what a goaltender's file says, in a question without people; defaults for nobody."""
    from tendline.people import level_on, stature_on
    from tendline.work.demo import TODAY
    from tendline.work.goaltenders import known_file
    from tendline.work.reading import Question

    plain = Question(attackers=())
    if not who:
        return plain
    day = TODAY if store.club.get().is_demo else date.today()
    file = known_file(store, who)
    height = stature_on(file, day)
    return replace(
        plain,
        level=level_on(file, day),
        stature=height.metres if height else plain.stature,
        catching_hand=file.catching_hand,
    )


def as_data(answer: Read) -> dict[str, object]:
    """Return a read as plain data for a script."""
    return {
        "answer": " ".join(answer.answer),
        "depth_m": answer.depth,
        "offset_m": answer.offset,
        "x_m": answer.spot.x,
        "y_m": answer.spot.y,
        "facing_rad": answer.spot.facing,
        "stance": answer.stance,
        "depth_name": answer.depth_name,
        "band_m": [answer.band.low, answer.band.high],
        "numbers": answer.numbers,
        "attack": answer.attack,
        "goal_chance": answer.loss,
        "options": [
            {
                "key": one.option.key,
                "words": one.words,
                "comes_off": one.comes_off,
                "goal_chance": one.goal_chance,
                "loss": one.loss,
                "release_s": one.release_time,
                "set_margin_s": one.set_margin,
                "is_set": one.is_set,
                "reply": one.reply.words,
            }
            for one in answer.options
        ],
        "reasons": [{"text": one.text, "settings": one.keys} for one in answer.reasons],
        "threats": answer.threats,
        "matters_most": [
            {"setting": one.key, "label": one.label, "depth_m": [one.depth_low, one.depth_high]}
            for one in answer.sensitivities
        ],
    }


def _print(answer: Read) -> None:
    for sentence in answer.answer:
        click.echo(sentence)
    click.echo("")
    print_table(
        ("option", "comes off", "goals in 100", "release", "set before", "reply"),
        [
            (
                one.words,
                f"{100 * one.comes_off:.0f} in 100",
                f"{100 * one.goal_chance:.0f}",
                f"{one.release_time:.2f} s",
                f"{one.set_margin:+.2f} s" if one.is_set else f"{one.set_margin:+.2f} s, not set",
                one.reply.words,
            )
            for one in answer.options
        ],
    )
    click.echo("")
    for reason in answer.reasons:
        click.echo(f"- {reason.text}")
    if answer.sensitivities:
        first = max(answer.sensitivities, key=lambda one: one.depth_swing)
        click.echo(
            f"What matters most: {first.label} ({first.key}): depth {first.depth_low:.2f} to "
            f"{first.depth_high:.2f} m between {first.low:g} and {first.high:g} {first.unit}."
        )


def _print_figure(question: Question, figure: str, *, as_json: bool) -> None:
    from tendline.work.origin import read_figure

    with step("Asking the engine again at both ends of each setting"):
        found = read_figure(question, figure)
    if as_json:
        print_json(found)
        return
    click.echo(f"{found.title}: {found.value_text}")
    click.echo(found.how)
    for line in found.lines:
        source = f"{line.kind}: {line.source}" if line.source else line.kind
        click.echo(f"- {line.label}: {line.value} {line.unit} ({source}; {line.key})")
        if line.moves:
            click.echo(f"  {line.moves}")
