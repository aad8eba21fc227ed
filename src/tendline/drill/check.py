"""All rules over one drill, and what may be said about it."""

from __future__ import annotations

from tendline import ice
from tendline.base import DEFAULT_SETTINGS, InputError, Settings
from tendline.drill.check_card import aims, for_the_young, real_choice, safety, technique_for_age
from tendline.drill.check_load import minutes_by_age, sides_alike, turn_and_rest
from tendline.drill.check_space import inside_its_ice, out_of_fire
from tendline.drill.check_timing import after_part, one_puck, set_before_shot, time_between
from tendline.drill.findings import Finding
from tendline.drill.rules import BY_ID, DrillLimits, RuleLevel, drill_limits
from tendline.drill.run_types import Run
from tendline.drill.simulate import simulate
from tendline.drill.types import Drill
from tendline.drill.world import world_of

_ORDER = {RuleLevel.HARD: 0, RuleLevel.WARN: 1, RuleLevel.INFORM: 2}
CHECKED = ("V1", "V2", "V3", "V4", "V5", "V6", "V10", "V16", "V18", "V19", "V20", "AGE", "AIM")
"""Rules that are looked at for every drill, in order."""


def check_drill(
    drill: Drill,
    run: Run | None = None,
    limits: DrillLimits | None = None,
    *,
    settings: Settings = DEFAULT_SETTINGS,
    rink: ice.Rink | None = None,
) -> tuple[Finding, ...]:
    """Return the findings of a drill: what it breaks, what it breaks on purpose, and notes.

    The gravest come first; safety lines (V20) are notes on every drill.
    """
    done = run if run is not None else simulate(drill, settings=settings, rink=rink)
    bounds = limits if limits is not None else drill_limits(settings)
    world = world_of(done.level, settings, rink)
    found = (
        *set_before_shot(drill, done, bounds, sight_time=world.sight_time),
        *one_puck(drill, done, bounds),
        *time_between(drill, done, bounds),
        *after_part(drill, done, bounds),
        *sides_alike(drill, done, bounds),
        *turn_and_rest(drill, done, bounds),
        *real_choice(drill, done),
        *minutes_by_age(drill, done, bounds),
        *for_the_young(drill, done, bounds),
        *inside_its_ice(drill, done, world),
        *out_of_fire(drill, done, bounds, world),
        *technique_for_age(drill, done),
        *aims(drill, done),
        *safety(drill),
    )
    return tuple(sorted(found, key=lambda one: (bool(one.on_purpose), _ORDER[one.level])))


def standing(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return the findings that are neither notes nor broken on purpose."""
    return tuple(one for one in findings if one.stands)


def verdict(run: Run, findings: tuple[Finding, ...]) -> str:
    """Return one or two sentences: what stands, and which limits were used.

    Never 'fair' alone: the limits looked at are named.
    """
    broken = standing(findings)
    on_purpose = sorted({one.rule for one in findings if one.on_purpose})
    ids = sorted({one.rule for one in broken}, key=CHECKED.index)
    used = ", ".join(CHECKED)
    numbers = f"{run.shots_per_minute:.0f} shots a minute, {100 * run.set_share:.0f} % of them set"
    if not run.load.shots:
        numbers = f"no shots, {run.load.hard_stops:.0f} hard stops a repetition"
    if broken:
        first = next((one for one in broken if one.rule == "V1"), broken[0])
        start = f"{numbers}. {first.text[0].upper()}{first.text[1:]}"
        more = f", and breaks {', '.join(ids)} in all" if len(ids) > 1 else f" ({first.rule})"
        kept = ", ".join(one for one in CHECKED if one not in ids)
        text = f"{start}{more}. Kept at {run.level.value} limits: {kept}."
    else:
        text = f"{numbers}. Nothing stands against {used} at {run.level.value} limits."
    if on_purpose:
        text += f" On purpose: {', '.join(on_purpose)}."
    return text


def rule_names() -> dict[str, str]:
    """Return the names of the rules by id."""
    return {key: rule.name for key, rule in BY_ID.items()}


def require_sound(drill: Drill) -> Run:
    """Return the run of a drill; raises ``InputError`` naming the drill if it cannot be run."""
    try:
        return simulate(drill)
    except InputError as fault:
        raise InputError(
            fault.asked, came=fault.came, allowed=fault.allowed, hint=fault.hint,
            item=fault.item or drill.id,
        ) from None  # fmt: skip
