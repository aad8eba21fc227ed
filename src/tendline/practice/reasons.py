"""Why this sheet: the reason behind each drill, and behind the sheet as a whole."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from tendline.practice.choosing import Menu
from tendline.practice.rules import RULES
from tendline.practice.types import LoadLine, Request, joined_names
from tendline.practice.usual import Usual
from tendline.practice.ways import Chosen

_LONG_TURN = 100.0
"""From here on a skater's wait is said in minutes [s]."""


def why(one: Chosen, request: Request, *, with_team: bool) -> tuple[str, ...]:
    """Return why a drill stands on the sheet, most telling first."""
    drill = one.facts
    found = []
    for need in request.needs:
        shared = need.shared_situations(drill)
        if need.met_by(drill):
            found.append(
                f"Theme of the stage: {need.name}." if need.is_stage else f"Trains {need.words}."
            )
        elif shared and not need.is_stage:
            named = ", ".join(situation.value for situation in shared)
            found.append(f"Has the situation of {need.words}: {named}.")
    found += _for_the_load(one, with_team=with_team, skaters=request.roster.skaters)
    space = request.slot.space if with_team else request.slot.block_space
    length, width = drill.area
    net = "with a net" if drill.needs_net else "without a net"
    found.append(f"Needs {length:g} x {width:g} m {net}: fits {space.name}.")
    if not with_team:
        people = drill.people * one.way.places
        served = f"Needs {people} to serve it: {request.roster.helpers} there."
        found.append(served if people else "Needs nobody to serve it.")
    if drill.choices > 1:
        found.append(f"A real read: {drill.choices} choices that she is not told.")
    if drill.id in request.week_pair:
        found.append("Kept from this week's pair.")
    elif drill.id in request.keep:
        found.append("Kept from the plan before the change.")
    elif drill.id in request.recent:
        found.append("Used lately; nothing newer trains as much.")
    return tuple(found)


def _skaters_turn(one: Chosen, skaters: int) -> str:
    """Return in words how often each skater has a turn: what slower starts cost them."""
    at_once = max(1, one.facts.people) * max(1, one.way.places)
    seconds = one.seconds_between * max(1.0, skaters / at_once)
    often = f"{seconds:.0f} s" if seconds < _LONG_TURN else f"{seconds / 60.0:.1f} min"
    return f"each of {skaters} skaters has a turn about every {often}"


def _for_the_load(one: Chosen, *, with_team: bool, skaters: int) -> list[str]:
    """Return what was made calmer than the drill by itself, and why."""
    lines = []
    way, drill = one.way, one.facts
    if with_team and way.left_out:
        nets = "One net" if way.places == 1 else f"{way.places} nets"
        lines.append(
            f"{nets}, {way.places + way.left_out} could be used: keeps the load usual and the "
            f"shots near her games; {_skaters_turn(one, skaters)}."
        )
    if way.rhythm > 1.0 and with_team:
        own = drill.work + drill.rest
        lines.append(
            f"A start every {one.seconds_between:.0f} s instead of {own:.0f} s keeps the load "
            f"usual; {_skaters_turn(one, skaters)}."
        )
    elif way.rhythm > 1.0:
        lines.append("Longer rests than the drill asks: keeps the load usual.")
    return lines


def usual_reasons(usual: Sequence[Usual], loads: Sequence[LoadLine]) -> list[str]:
    """Return for each goaltender whether her load stays usual, with the counts that do not."""
    planned = {one.goaltender_id: one.load for one in loads}
    lines = []
    kept = [one for one in usual if not one.over(planned[one.goaltender_id])]
    for basis in dict.fromkeys(one.basis for one in kept):
        names = joined_names([one.name for one in kept if one.basis == basis])
        lines.append(f"{names}: every load within what is usual ({basis}).")
    for one in usual:
        over = one.over(planned[one.goaltender_id])
        if over:
            counts = ", ".join(
                f"{kind.replace('_', ' ')} {count:.0f} against {most:.0f}"
                for kind, count, most in over
            )
            lines.append(
                f"{one.name}: could not keep to what is usual ({one.basis}): {counts}; the drills "
                "that train the themes need more, even on fewer nets and with slower starts."
            )
    return lines


def sheet_reasons(
    request: Request,
    menu: Menu,
    chosen: Sequence[Chosen],
    used: int,
    loads: Sequence[str],
) -> tuple[str, ...]:
    """Return why the whole sheet is as it is."""
    lines = [f"{used} of {request.slot.minutes} minutes of ice used."]
    stage = [one for one in request.needs if one.is_stage]
    if request.stage:
        themes = f": {', '.join(one.name for one in stage)}" if stage else ""
        lines.append(f"Stage of the season: {request.stage}{themes}.")
    lines += [f"To correct: {one.words}." for one in request.needs if not one.is_stage]
    shares = [
        f"{sum(c.minutes for c in chosen if need.met_by(c.facts))} min {need.name}"
        for need in request.needs
    ]
    if shares:
        lines.append(f"Minutes of drills that train it: {', '.join(shares)}.")
    lines += loads
    for with_team, part in ((False, "block"), (True, "team part")):
        out = [found for _, team, found in menu.kept_out if team is with_team]
        if out:
            counts = Counter(RULES[misfit.rule].name for found in out for misfit in found)
            why = "; ".join(f"{count}: {name}" for name, count in counts.most_common(3))
            lines.append(f"Left out of the {part}: {len(out)} drills ({why}).")
    return tuple(lines)
