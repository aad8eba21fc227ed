"""Why no plan can be made: which rule forbids it, and the smallest change that frees it.

Each rule in turn is allowed to give way; the solver says by how much the best such plan needs it
to. Rules that protect somebody (age, restriction, one puck, shooting lines) are named when they
forbid a plan, but the change offered is always a drill, a place or a person, never the rule.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from tendline.base import PlanError
from tendline.practice.choosing import Menu
from tendline.practice.constants import PracticeRules
from tendline.practice.fitting import Misfit
from tendline.practice.program import Solver, Status
from tendline.practice.rules import RULES
from tendline.practice.types import Request

_EASIEST_FIRST = (
    "refused", "V15", "block time", "people", "net", "goaltenders", "V19", "V11", "V3", "once",
    "V1", "V22", "V18", "V2",
)  # fmt: skip
_LAST_RESORT = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """One rule that, if it gave way, would let a plan be made; ``amount`` in its own units."""

    rules: tuple[str, ...]
    amount: int
    change: str


def ways_out(
    menu: Menu, request: Request, rules: PracticeRules, solver: Solver
) -> tuple[WayOut, ...]:
    """Return the changes that free a plan, the smallest first: one rule alone, else two."""
    present = {row.rule for row in menu.program.rows if row.penalty is None}
    names = [name for name in _EASIEST_FIRST if name in present]
    for size in (1, 2):
        found = []
        for together in combinations(names, size):
            stretch = solver.stretch(menu.program, frozenset(together))
            if stretch.status in (Status.BEST, Status.GOOD):
                change = _words(menu, request, rules, together, stretch.amount, stretch.chosen)
                found.append(WayOut(rules=together, amount=stretch.amount, change=change))
        if found:
            order = {name: at for at, name in enumerate(_EASIEST_FIRST)}
            return tuple(sorted(found, key=lambda w: (_effort(w), order[w.rules[0]])))
    return ()


def refusal(
    menu: Menu, request: Request, rules: PracticeRules, solver: Solver, drills: Sequence[object]
) -> PlanError:
    """Return the error for a request that has no plan."""
    asked = f"no {request.kind.value} keeps every rule"
    if not drills:
        return PlanError(asked, came="no drills", hint="Add drills, or use the library.")
    found = ways_out(menu, request, rules, solver)
    if not found:
        return PlanError(
            asked,
            came=f"{len(drills)} drills, none that fits",
            hint="Change two things at once: more room or people, and drills for this age.",
        )
    best = found[0]
    labels = " and ".join(RULES[name].label for name in best.rules)
    others = [one.change for one in found[1:3] if one.change != best.change]
    also = f" Or: {'; or '.join(others)}." if others else ""
    return PlanError(
        asked,
        came=_came(request),
        item=labels,
        hint=f"Smallest change that frees it: {best.change}.{also}",
    )


def _effort(way: WayOut) -> int:
    last_resort = _LAST_RESORT if "once" in way.rules else 0
    return way.amount + _LAST_RESORT * (len(way.rules) - 1) + last_resort


def _came(request: Request) -> str:
    roster, slot = request.roster, request.slot
    return (
        f"{slot.minutes} min of ice, {len(roster.goaltenders)} goaltenders, "
        f"{roster.helpers} to serve the block, {slot.block_space.name} with "
        f"{slot.block_space.nets} net(s)"
    )


def _words(
    menu: Menu,
    request: Request,
    rules: PracticeRules,
    together: tuple[str, ...],
    amount: int,
    chosen: frozenset[int],
) -> str:
    words = []
    for rule in together:
        if rule == "V15":
            words.append(f"{amount} more minute{'' if amount == 1 else 's'} of ice")
        elif rule == "block time":
            total = round(rules.block_minutes) + amount
            words.append(f"a block of {total} minutes (now {rules.block_minutes:g})")
        elif rule == "V11":
            words.append("fewer shots a minute: a drill with fewer shots, or a shorter one")
        elif rule == "once":
            words.append("the same drill twice, or one more drill that fits")
        else:
            words += _changes(menu, chosen, rule)
    return ", and ".join(words)


def _changes(menu: Menu, chosen: frozenset[int], rule: str) -> list[str]:
    picked = {(menu.candidates[i].drill.id, menu.candidates[i].with_team) for i in chosen}
    kept_out: list[Misfit] = [
        misfit
        for drill_id, with_team, found in menu.kept_out
        if (drill_id, with_team) in picked
        for misfit in found
        if misfit.rule == rule
    ]
    return list(dict.fromkeys(one.change for one in kept_out))
