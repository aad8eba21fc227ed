"""Drills: a readable script, its simulation on the clock, checks, and computed repairs."""

from tendline.drill.formatter import format_drill
from tendline.drill.lines import DrillScriptError
from tendline.drill.script import parse_drill, parse_drills, read_drill
from tendline.drill.types import Drill

__all__ = [
    "Drill",
    "DrillScriptError",
    "format_drill",
    "parse_drill",
    "parse_drills",
    "read_drill",
]
