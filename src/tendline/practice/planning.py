"""From roster, ice, minutes and needs to tonight's sheet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from tendline.base import DEFAULT_SETTINGS, InputError, PlanError, Settings, build, require_number
from tendline.drill.rules import RuleLevel
from tendline.practice.assembling import assemble, block_loads
from tendline.practice.checking import validate
from tendline.practice.choosing import Candidate, Menu, in_order, make_menu
from tendline.practice.constants import PlanWeights, PracticeRules
from tendline.practice.fitting import able, nets_used
from tendline.practice.program import Choice, Solver, Status
from tendline.practice.refusing import refusal
from tendline.practice.sharing import deal
from tendline.practice.solver import CpSatSolver
from tendline.practice.types import DrillFacts, Load, PlanKind, Request, Sheet, TeamSegment
from tendline.practice.usual import usual_loads
from tendline.practice.ways import Chosen, Way, team_groups

_LONGEST_SLOT = 180


def plan_practice(
    request: Request,
    drills: Sequence[DrillFacts],
    *,
    settings: Settings = DEFAULT_SETTINGS,
    solver: Solver | None = None,
) -> Sheet:
    """Return tonight's sheet for a request.

    The block is two drills within ``practice.block_minutes``; a whole practice adds the team
    part. The same request always gives the same sheet. Raises :class:`InputError` for a request
    that makes no sense and :class:`PlanError`, naming the rule and the smallest change that
    frees it, when no plan keeps the rules.
    """
    _check(request)
    rules = build(PracticeRules, settings)
    weights = build(PlanWeights, settings)
    engine = solver or CpSatSolver()
    menu = make_menu(request, drills, rules, weights)
    choice = engine.choose(menu.program)
    if choice.status is Status.IMPOSSIBLE:
        raise refusal(menu, request, rules, engine, drills)
    if not choice.is_usable:
        raise PlanError(
            "no plan was found within the time limit",
            came=f"{len(drills)} drills",
            hint="Ask for fewer minutes, or fix some segments yourself.",
        )
    sheet = _sheet(request, menu, choice, rules, engine)
    checked = replace(sheet, checks=validate(sheet, request, drills, settings=settings))
    broken = [one for one in checked.broken if one.level is RuleLevel.HARD]
    if broken:
        raise PlanError(
            "the plan did not pass its check",
            item=f"{broken[0].rule}, {broken[0].name}",
            came=broken[0].text,
            hint="Please keep this message: the planner and the checker disagree.",
        )
    return checked


def _sheet(
    request: Request, menu: Menu, choice: Choice, rules: PracticeRules, engine: Solver
) -> Sheet:
    picked = in_order((menu.candidates[index] for index in choice.chosen), request)
    block = tuple(_chosen(one) for one in picked if not one.with_team)
    team = tuple(_chosen(one) for one in picked if one.with_team) + tuple(
        _fixed(one, request) for one in request.fixed if request.kind is PlanKind.PRACTICE
    )
    roster = request.roster.goaltenders
    barred = tuple(_barred(one.facts, request) for one in team)
    groups = tuple(team_groups(one.facts, request, one.way, one.minutes, rules) for one in team)
    places: tuple[tuple[int, ...], ...] = ()
    if team:
        before = block_loads(request, block, rules)
        usual = {one.goaltender_id: one.most for one in usual_loads(request.roster, rules)}
        places = deal(
            groups, start=[before[one.id] for one in roster], barred=barred, solver=engine,
            most=[usual.get(one.id, Load()) for one in roster],
        )  # fmt: skip
    return assemble(
        request, menu, block=block, team=team, groups=groups, places=places, rules=rules,
        is_proven_best=choice.status is Status.BEST,
    )  # fmt: skip


def _chosen(one: Candidate) -> Chosen:
    return Chosen(drill=one.drill, title=one.drill.name, minutes=one.minutes, way=one.way)


def _fixed(one: TeamSegment, request: Request) -> Chosen:
    made = Chosen(drill=one.drill, title=one.title, minutes=one.minutes, is_fixed=True,
                  way=Way(places=one.nets))  # fmt: skip
    count = len(able(made.facts, request))
    nets = nets_used(made.facts, request.slot.space, count)
    return replace(made, way=Way(places=nets))


def _barred(drill: DrillFacts, request: Request) -> frozenset[int]:
    """Return the places on the roster of those who leave a drill out."""
    may = {one.id for one in able(drill, request)}
    return frozenset(at for at, one in enumerate(request.roster.goaltenders) if one.id not in may)


def _check(request: Request) -> None:
    if not request.roster.goaltenders:
        raise InputError(
            "a practice needs a goaltender", came="none on the roster", allowed="one or more",
            hint="Add a goaltender, or tick who is there tonight.",
        )  # fmt: skip
    require_number("ice time", request.slot.minutes, low=1, high=_LONGEST_SLOT, unit="min")
    for name, number in (
        ("number of skaters", request.roster.skaters),
        ("number of people to serve the block", request.roster.helpers),
        ("number of nets", request.slot.space.nets),
    ):
        require_number(name, number, low=0, high=200, unit="")
