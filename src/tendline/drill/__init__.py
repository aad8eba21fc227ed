"""Drills: a readable script, its simulation on the clock, checks, and computed repairs."""

from tendline.drill.check import CHECKED, check_drill, standing, verdict
from tendline.drill.convert import drill_from_dict, drill_to_dict
from tendline.drill.findings import Finding
from tendline.drill.formatter import format_drill
from tendline.drill.lines import DrillScriptError
from tendline.drill.loading import minutes_needed
from tendline.drill.mirror import mirror_drill, mirror_text
from tendline.drill.places import spot_names, xy_of
from tendline.drill.playback import Shot, Tracks, tracks
from tendline.drill.registry import Fault, check_library, check_one, drill_by_id, library
from tendline.drill.repairs import Price, Repair, repairs
from tendline.drill.rules import (
    RULES,
    DrillLimits,
    Rule,
    RuleLevel,
    drill_limits,
    safety_lines,
)
from tendline.drill.run_types import BranchRun, HerState, Load, Release, Run, Waiting
from tendline.drill.schema import drill_schema
from tendline.drill.script import parse_drill, parse_drills, read_drill
from tendline.drill.search import ladder, search_drills, suits
from tendline.drill.simulate import simulate
from tendline.drill.types import (
    Action,
    Ages,
    Branch,
    Choice,
    Drill,
    Ice,
    Link,
    Mark,
    Person,
    Place,
    Repeats,
    Span,
    Thing,
    Trigger,
    actions_of,
    choices_of,
)

__all__ = [
    "CHECKED", "RULES", "Action", "Ages", "Branch", "BranchRun", "Choice", "Drill", "DrillLimits",
    "DrillScriptError", "Fault", "Finding", "HerState", "Ice", "Link", "Load", "Mark", "Person",
    "Place", "Price", "Release", "Repair", "Repeats", "Rule", "RuleLevel", "Run", "Shot", "Span",
    "Thing", "Tracks", "Trigger", "Waiting", "actions_of", "check_drill", "check_library",
    "check_one", "choices_of", "drill_by_id", "drill_from_dict", "drill_limits", "drill_schema",
    "drill_to_dict", "format_drill", "ladder", "library", "minutes_needed", "mirror_drill",
    "mirror_text", "parse_drill", "parse_drills", "read_drill", "repairs", "safety_lines",
    "search_drills", "simulate", "spot_names", "standing", "suits", "tracks", "verdict", "xy_of",
]  # fmt: skip
