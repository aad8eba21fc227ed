"""Finding drills: by theme, situation, age, people, ice, minutes, equipment, load, words."""

from __future__ import annotations

from collections.abc import Iterable

from tendline.base import Level, ScoringSituation
from tendline.drill.formatter import format_drill
from tendline.drill.simulate import simulate
from tendline.drill.types import Drill, Link
from tendline.drill.vocabulary import DrillKind, Family, IceUse, Theme

_ICE_ORDER = (
    IceUse.OFF_ICE, IceUse.PATCH, IceUse.CREASE, IceUse.CIRCLE, IceUse.CORNER, IceUse.CROSS_ICE,
    IceUse.END_ZONE, IceUse.NEUTRAL_ZONE, IceUse.HALF_ICE, IceUse.FULL_ICE,
)  # fmt: skip
"""From little ice to much; a search for a part finds drills that need no more."""


def suits(drill: Drill, level: Level) -> bool:
    """Return whether a drill is meant for an age class; elite levels count as adult."""
    order = list(Level)
    place = min(order.index(level), order.index(Level.ADULT))
    oldest = drill.ages.oldest
    top = order.index(oldest) if oldest is not None else order.index(Level.ADULT)
    return order.index(drill.ages.youngest) <= place <= top


def search_drills(
    drills: Iterable[Drill],
    *,
    words: str = "",
    theme: Theme | None = None,
    situation: ScoringSituation | None = None,
    family: Family | None = None,
    kind: DrillKind | None = None,
    level: Level | None = None,
    goaltenders: int | None = None,
    skaters: int | None = None,
    helpers: int | None = None,
    ice: IceUse | None = None,
    minutes: float | None = None,
    nets: int | None = None,
    without: Iterable[str] = (),
    most_shots: float | None = None,
    most_drops: float | None = None,
) -> tuple[Drill, ...]:
    """Return the drills that fit everything asked, in their order.

    ``goaltenders``, ``skaters``, ``helpers``, ``nets`` are how many there are: a drill fits if it
    needs no more (more goaltenders than it takes at once go in turn). ``ice`` is how much there is,
    ``minutes`` how long there is. ``without`` names equipment that is missing. ``most_shots`` and
    ``most_drops`` bound the load of the whole drill for one goaltender, from its run.
    """
    missing = tuple(one.lower() for one in without)
    wanted = words.lower().split()
    found = []
    for drill in drills:
        if theme is not None and theme not in drill.themes:
            continue
        if situation is not None and situation not in drill.situations:
            continue
        if (family is not None and drill.family is not family) or (
            kind is not None and drill.kind is not kind
        ):
            continue
        if level is not None and not suits(drill, level):
            continue
        if goaltenders is not None and drill.goaltenders.low > goaltenders:
            continue
        if skaters is not None and drill.skaters.low > skaters:
            continue
        if helpers is not None and drill.helpers.low > helpers:
            continue
        if nets is not None and drill.nets > nets:
            continue
        if ice is not None and _ICE_ORDER.index(drill.ice.use) > _ICE_ORDER.index(ice):
            continue
        if minutes is not None and drill.minutes.low > minutes:
            continue
        if any(gone in thing.lower() for gone in missing for thing in drill.equipment):
            continue
        if wanted and not _says(drill, wanted):
            continue
        if (most_shots is not None or most_drops is not None) and not _light(
            drill, most_shots, most_drops
        ):
            continue
        found.append(drill)
    return tuple(found)


def _says(drill: Drill, wanted: list[str]) -> bool:
    text = format_drill(drill).lower()
    return all(word in text for word in wanted)


def _light(drill: Drill, most_shots: float | None, most_drops: float | None) -> bool:
    run = simulate(drill)
    return (most_shots is None or run.shots_total <= most_shots) and (
        most_drops is None or run.total.drops <= most_drops
    )


def ladder(drill: Drill, drills: Iterable[Drill]) -> tuple[tuple[Drill, ...], tuple[Drill, ...]]:
    """Return the drills below and above on the ladder: its own links, and those that link to it."""
    known = {one.id: one for one in drills}

    def linked(links: tuple[Link, ...]) -> list[Drill]:
        return [known[one.drill] for one in links if one.drill in known]

    below, above = linked(drill.easier), linked(drill.harder)
    for other in known.values():
        if other.id == drill.id:
            continue
        if any(one.drill == drill.id for one in other.harder) and other not in below:
            below.append(other)
        if any(one.drill == drill.id for one in other.easier) and other not in above:
            above.append(other)
    return tuple(below), tuple(above)
