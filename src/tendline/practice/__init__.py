"""Practices: from roster, ice, minutes and needs to a checked sheet, and the season around it."""

from tendline.drill.rules import RuleLevel
from tendline.practice.changing import Change, changed_request, replan, what_dropped
from tendline.practice.checking import validate
from tendline.practice.codec import sheet_from_dict, sheet_to_dict
from tendline.practice.constants import PlanWeights, PracticeRules
from tendline.practice.planning import plan_practice
from tendline.practice.program import Choice, Program, Row, Solver, Status, Stretch
from tendline.practice.rules import RULES, SAFETY_LIST, Rule
from tendline.practice.season import (
    STAGES,
    Break,
    Coverage,
    Done,
    PracticeDay,
    SeasonPlan,
    Stage,
    Week,
    by_situation,
    change_plan,
    coverage,
    practice_days,
    season_plan,
    stage_need,
)
from tendline.practice.solver import CpSatSolver, ExhaustiveSolver
from tendline.practice.spaces import space, spaces
from tendline.practice.types import (
    Check,
    DrillFacts,
    GoaltenderLine,
    IceSlot,
    Load,
    LoadLine,
    Need,
    Order,
    PlanKind,
    Request,
    Roster,
    RosterGoaltender,
    Segment,
    SegmentKind,
    Sheet,
    Sides,
    Space,
    TeamSegment,
)

__all__ = [
    "RULES", "SAFETY_LIST", "STAGES", "Break", "Change", "Check", "Choice",
    "Coverage", "CpSatSolver", "Done", "DrillFacts", "ExhaustiveSolver", "GoaltenderLine",
    "IceSlot", "Load", "LoadLine", "Need", "Order", "PlanKind", "PlanWeights", "PracticeDay",
    "PracticeRules", "Program", "Request", "Roster", "RosterGoaltender", "Row", "Rule",
    "RuleLevel", "SeasonPlan", "Segment", "SegmentKind", "Sheet", "Sides", "Solver", "Space",
    "Stage", "Status", "Stretch", "TeamSegment", "Week", "by_situation", "change_plan",
    "changed_request", "coverage", "plan_practice", "practice_days", "replan", "season_plan",
    "sheet_from_dict", "sheet_to_dict", "space", "spaces", "stage_need", "validate", "what_dropped",
]  # fmt: skip
