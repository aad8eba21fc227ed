"""What the columns page calls each field of a mapping and each of its choices."""

from __future__ import annotations

from tendline.log import FIELDS, Ends, FileUnit, Origin

NEEDED = (
    ("x", "Out from the goal (x)"),
    ("y", "To the side (y)"),
    ("result", "What became of it"),
)
USUAL = (
    ("game", "Which game"),
    ("day", "Day"),
    ("team", "Team that shoots"),
    ("opponent", "Team whose net it is"),
    ("goaltender", "Goaltender"),
    ("period", "Period"),
    ("elapsed", "Time, counted up"),
    ("clock_left", "Time, counted down"),
    ("situation", "Scoring situation"),
    ("shot_type", "How it was sent"),
    ("shooter", "Shooter"),
)
RARE_NAMES = {
    "shooter_hand": "Shooter's hand",
    "readiness": "She was set, moving or down",
    "screened": "Screened: yes or no",
    "one_timer": "One-timer: yes or no",
    "crossed_middle": "Pass across the middle: yes or no",
    "off_rush": "Off the rush: yes or no",
    "empty_net": "Empty net: yes or no",
    "penalty_shot": "Penalty shot: yes or no",
    "pass_x": "Last pass from, out (x)",
    "pass_y": "Last pass from, side (y)",
    "since_pass": "Seconds since the last pass",
    "target_y": "On the net, to her left (m)",
    "target_z": "On the net, height (m)",
    "goaltender_x": "Her place, out (x)",
    "goaltender_y": "Her place, side (y)",
    "skaters_shooting": "Skaters of the team that shoots",
    "skaters_defending": "Skaters of the team that defends",
    "attackers": "Attackers in the play",
    "defenders": "Defenders in the play",
}
_SAID = {name for name, _ in (*NEEDED, *USUAL)}
RARE = tuple((name, RARE_NAMES[name]) for name in FIELDS if name not in _SAID)
LABELS = dict((*NEEDED, *USUAL, *RARE))

UNITS = (
    (FileUnit.METRES.value, "metres"),
    (FileUnit.FEET.value, "feet"),
    (FileUnit.YARDS.value, "yards"),
    (FileUnit.INCHES.value, "inches"),
)
ORIGINS = (
    (Origin.GOAL.value, "the middle of the goal line shot at"),
    (Origin.CENTRE.value, "the middle of the rink"),
    (Origin.CORNER.value, "a corner of the rink"),
)
ENDS = (
    (Ends.SHOT_AT.value, "every shot at the same goal"),
    (Ends.NEARER.value, "each shot at the goal nearer to it"),
    (Ends.BY_PERIOD.value, "the goals change with the period"),
)
X_GROWS = (("yes", "away from the goal"), ("no", "toward the goal"))
Y_GROWS = (("yes", "to her left"), ("no", "to her right"))
FIRST_END = (("yes", "the goal where x is small"), ("no", "the goal where x is large"))
"""At which goal period 1 shoots, where the goals change."""
