"""A drill as a printed card (A6, A5, A4), and many as a booklet with contents."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tendline.draw.drill_picture import drill_svg, drill_window, legend_svg
from tendline.draw.drill_scene import scene_of
from tendline.draw.legend import entries
from tendline.draw.pdf import Typeset, first_that_fits, look, sentence, sentences, typeset
from tendline.draw.tokens import PRINT, SHEET_BODY_PT
from tendline.drill.types import Drill, Link, Span
from tendline.drill.vocabulary import Family
from tendline.ice import Rink
from tendline.ice import rink as make_rink

if TYPE_CHECKING:
    from tendline.drill.run_types import Run

PX_PER_MM = 96.0 / 25.4
CAUTIONS = (
    "Goal on its pegs, masks on, nobody shoots at a goaltender who is not looking. Stop when form "
    "breaks or something hurts; medical questions go to medical staff."
)
SHORT_CAUTIONS = "Pegs in, masks on, no shot at one who is not looking; stop when it hurts."
"""What even the smallest card says."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardFit:
    """What a card shows: the diagram's greatest width and height [mm], sizes, and which texts.

    ``inner`` is the width between the margins [mm], ``scale`` that of the diagram's signs.
    """

    wide: float
    tall: float
    inner: float
    margin: float
    size: float
    item: float = 0.62
    title: float = 1.5
    scale: float = 0.85
    texts: frozenset[str] = frozenset()


_ALL = frozenset(
    {
        "purpose", "shooters_aim", "set_up", "branches", "steps", "rules", "key_points", "cues",
        "errors", "easier", "harder", "off_ice", "repeats", "load", "marks", "cautions",
    }
)  # fmt: skip
_MIDDLE = _ALL - {"off_ice", "cues", "errors"}
_SHORT = frozenset({"steps", "branches", "key_points", "repeats", "cautions", "marks"})


def _a4(tall: float, size: float, item: float) -> CardFit:
    return CardFit(wide=180.0, tall=tall, inner=180.0, margin=15.0, size=size, item=item,
                   texts=_ALL, scale=0.9)  # fmt: skip


def _a5(tall: float, texts: frozenset[str], item: float = 0.6) -> CardFit:
    return CardFit(wide=130.0, tall=tall, inner=130.0, margin=9.0, size=10.5, item=item,
                   title=1.4, texts=texts, scale=0.74)  # fmt: skip


def _a6(tall: float, texts: frozenset[str], item: float = 0.5) -> CardFit:
    return CardFit(wide=92.0, tall=tall, inner=92.0, margin=6.5, size=10.5, item=item,
                   title=1.15, texts=texts, scale=0.6)  # fmt: skip


FITS: dict[str, tuple[CardFit, ...]] = {
    "A4": (
        _a4(135.0, 12.5, 0.8), _a4(120.0, 12.0, 0.75), _a4(110.0, 11.5, 0.7),
        _a4(100.0, 11.0, 0.68), _a4(85.0, 10.5, 0.62), _a4(65.0, 10.5, 0.54),
    ),
    "A5": (
        _a5(85.0, _ALL), _a5(70.0, _ALL), _a5(58.0, _ALL, 0.54), _a5(66.0, _MIDDLE),
        _a5(54.0, _MIDDLE, 0.54), _a5(60.0, _SHORT | {"set_up"}, 0.54), _a5(50.0, _SHORT, 0.5),
    ),
    "A6": (
        _a6(62.0, _SHORT), _a6(50.0, _SHORT), _a6(46.0, _SHORT - {"marks", "repeats"}),
        _a6(50.0, frozenset({"steps", "branches", "key_points"})),
        _a6(50.0, frozenset({"branches", "key_points"}), 0.46),
        _a6(44.0, frozenset({"key_points"}), 0.42),
        _a6(36.0, frozenset({"key_points"}), 0.36),
        _a6(28.0, frozenset({"key_points"}), 0.32),
    ),
}  # fmt: skip
"""From roomy to tight; the first that fits one side is printed."""


def drill_card_pdf(
    drill: Drill, run: Run | None = None, *, paper: str = "A6", rink: Rink | None = None
) -> bytes:
    """Return the drill on one side of A6, A5 or A4, the words never under 10.5 points.

    ``run`` adds the load of one repetition and the shots a minute. Raises ``NotFoundError`` for
    another paper.
    """
    return render_drill_card(drill, run, paper=paper, rink=rink).pdf


def render_drill_card(
    drill: Drill, run: Run | None = None, *, paper: str = "A6", rink: Rink | None = None
) -> Typeset:
    """Return the typeset card, its pages and warnings."""
    return _fitted(drill, run, paper, rink or make_rink())[1]


def _fitted(
    drill: Drill, run: Run | None, paper: str, rink: Rink, *, numbered: bool = False
) -> tuple[dict[str, Any], Typeset]:
    """Return a card's data in the roomiest layout that fits one side, and the card."""
    fits = FITS.get(paper, FITS["A4"])

    def make(index: int) -> Typeset:
        card = _card(drill, run, fits[index], rink)
        return typeset("drill_card", _data([card], paper, title=drill.title, numbered=numbered))

    index, made = first_that_fits(len(fits), make)
    return _card(drill, run, fits[index], rink), made


def drill_booklet_pdf(
    drills: Sequence[Drill],
    runs: Mapping[str, Run] | None = None,
    *,
    title: str = "Drills for goaltenders",
    paper: str = "A5",
    rink: Rink | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> bytes:
    """Return many drills as one PDF with contents, in the order of their families.

    ``progress`` is called with the number of cards drawn so far and their total.
    """
    return render_drill_booklet(
        drills, runs, title=title, paper=paper, rink=rink, progress=progress
    ).pdf


def render_drill_booklet(
    drills: Sequence[Drill],
    runs: Mapping[str, Run] | None = None,
    *,
    title: str = "Drills for goaltenders",
    paper: str = "A5",
    rink: Rink | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Typeset:
    """Return the typeset booklet, its pages and warnings."""
    order = list(Family)
    ranked = sorted(drills, key=lambda one: (order.index(one.family), one.id))
    ground = rink or make_rink()
    cards = []
    for index, one in enumerate(ranked, start=1):
        run = (runs or {}).get(one.id)
        cards.append(_fitted(one, run, paper, ground, numbered=True)[0])
        if progress is not None:
            progress(index, len(ranked))
    data = _data(cards, paper, title=title, contents=_contents(ranked), numbered=True)
    return typeset("drill_card", data)


def _data(
    cards: Sequence[dict[str, Any]],
    paper: str,
    *,
    title: str,
    contents: Sequence[dict[str, Any]] = (),
    numbered: bool = False,
) -> dict[str, Any]:
    return {
        "look": look(paper, size=SHEET_BODY_PT),
        "title": title,
        "subtitle": f"{len(cards)} drills",
        "margin": FITS.get(paper, FITS["A4"])[0].margin,
        "cards": list(cards),
        "contents": list(contents),
        "numbered": numbered,
    }


def _contents(drills: Sequence[Drill]) -> list[dict[str, Any]]:
    groups: list[dict[str, Any]] = []
    for one in drills:
        name = sentence(one.family.value).rstrip(".")
        if not groups or groups[-1]["name"] != name:
            groups.append({"name": name, "drills": []})
        groups[-1]["drills"].append({"title": f"{one.id} {one.title}", "label": _label(one)})
    return groups


def _label(drill: Drill) -> str:
    return "card-" + "".join(c if c.isalnum() else "-" for c in drill.id)


def _card(drill: Drill, run: Run | None, fit: CardFit, ground: Rink) -> dict[str, Any]:
    scene = scene_of(drill, ground)
    window = drill_window(drill, scene, ground)
    wide = min(fit.wide, fit.tall * window.across / window.along)
    svg = drill_svg(
        drill, rink=ground, width=wide * PX_PER_MM, scale=fit.scale, window=window, legend=False,
        palette=PRINT,
    )  # fmt: skip
    picture = {"svg": svg, "alt": f"Diagram of {drill.title}", "width": wide}
    signs = None
    if entries(scene):
        signs = legend_svg(
            drill, rink=ground, width=fit.inner * PX_PER_MM, scale=fit.scale, palette=PRINT
        )
    texts: dict[str, Any] = {
        "purpose": sentence(drill.purpose),
        "shooters_aim": sentence(drill.shooters_aim),
        "set_up": sentences(drill.set_up),
        "branches": [[one.letter, sentence(one.words)] for one in scene.branches],
        "steps": sentences(drill.steps),
        "rules": sentences((*drill.rules, f"next one {_next_words(drill)}")),
        "key_points": sentences(drill.key_points[:3]),
        "cues": [f"“{one}”" for one in drill.cues],
        "errors": [[one.error, one.correction] for one in drill.errors],
        "easier": sentences(_link(one) for one in drill.easier),
        "harder": sentences(_link(one) for one in drill.harder),
        "off_ice": sentences(drill.off_ice),
        "repeats": sentences([_repeats(drill)]),
        "load": sentences([load_words(run)]) if run else [],
        "marks": sentences(f"{one.kind.value}, because {one.because}" for one in drill.marks),
        "cautions": [CAUTIONS if "cautions" in fit.texts else SHORT_CAUTIONS],
    }
    shown = fit.texts | {"cautions"}
    kept = {key: value if key in shown else type(value)() for key, value in texts.items()}
    return {
        **kept,
        "title": f"{drill.id}  {drill.title}",
        "label": _label(drill),
        "facts": facts_words(drill),
        "goaltender_aim": sentence(drill.goaltender_aim),
        "picture": picture if scene.places() else None,
        "fit": {"size": fit.size, "item": fit.item, "title": fit.title},
        "legend": signs and {"svg": signs, "alt": "What the signs in the diagram mean"},
    }


def facts_words(drill: Drill) -> str:
    """Return age, minutes, people, ice and equipment of a drill in one line."""
    oldest = drill.ages.oldest
    ages = f"{drill.ages.youngest.value} {f'to {oldest.value}' if oldest else 'and up'}"
    people = [f"{drill.goaltenders} goaltender{_plural(drill.goaltenders)}"]
    if drill.skaters.high:
        people.append(f"{drill.skaters} skater{_plural(drill.skaters)}")
    if drill.helpers.high:
        people.append(f"{drill.helpers} helper{_plural(drill.helpers)}")
    parts = [ages, f"{drill.minutes} min", ", ".join(people), drill.ice.use.value,
             ", ".join(drill.equipment)]  # fmt: skip
    return " · ".join(part for part in parts if part)


def _plural(span: Span) -> str:
    return "" if span.high == 1 else "s"


def _link(one: Link) -> str:
    return f"{one.drill}: {one.words}" if one.drill and one.words else one.drill or one.words


def _next_words(drill: Drill) -> str:
    trigger = drill.next_rep
    after = f" and {trigger.delay:g} s more" if trigger.delay else ""
    who = f"{trigger.who} " if trigger.who else ""
    return f"when {who}{trigger.kind.value}{after}" if trigger.kind.value != "then" else "at once"


def _repeats(drill: Drill) -> str:
    one = drill.repeats
    sets = f" in {one.sets} sets" if one.sets > 1 else ""
    rest = f", rest {one.rest:g} s" if one.rest else ""
    return f"{one.reps} repetitions{sets}{rest}; sides: {drill.sides.value}"


def load_words(run: Run) -> str:
    """Return the load of one repetition in words, with shots a minute and work and rest."""
    load = run.load
    return (
        f"a repetition: {load.shots:.1f} shots, {load.drops:.1f} drops, {load.hard_stops:.1f} hard "
        f"stops, {load.recoveries:.1f} recoveries; {run.shots_per_minute:.0f} shots a minute; "
        f"work {run.work:.0f} s, rest {run.rest:.0f} s; set for {100.0 * run.set_share:.0f} of "
        "100 shots"
    )
