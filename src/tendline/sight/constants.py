"""The figures behind names of areas, skaters' outlines and clear sight."""

from __future__ import annotations

from tendline.base import assumed, fact
from tendline.body.constants import HIP_BREADTH, HIP_HEIGHT, SHOULDER_BREADTH, SHOULDER_HEIGHT

__all__ = [
    "CLEAR_SHARE", "HIP_BREADTH", "HIP_HEIGHT", "LOW_HIGH_SPLIT", "NEAR_CENTRE", "PUCK_DIAMETER",
    "PUCK_THICKNESS", "SHOULDER_BREADTH", "SHOULDER_HEIGHT", "SKATER_PADDING", "SKATER_STATURE",
    "SKATER_STOOP", "SMALLEST_AREA",
]  # fmt: skip

LOW_HIGH_SPLIT = assumed("sight.low_high_split", "height where low ends and high begins, in mouths",
                         0.5, "share of the goal's height", low=0.25, high=0.75,
                         note="coaches speak of low and high; no rule gives the line")  # fmt: skip
SMALLEST_AREA = assumed("sight.smallest_area", "open areas smaller than this are not named", 0.0005,
                        "share of the mouth", low=0.0, high=0.01)  # fmt: skip
NEAR_CENTRE = assumed("sight.near_centre", "within this angle there is no short side", 0.035, "rad",
                      low=0.0, high=0.2, note="2 degrees")  # fmt: skip

PUCK_DIAMETER = fact("rink.other.puck_diameter", "puck diameter")
PUCK_THICKNESS = fact("rink.other.puck_thickness", "puck thickness")
CLEAR_SHARE = assumed("sight.clear_share", "the puck counts as seen when no more is hidden than",
                      0.5, "share of the puck", low=0.0, high=0.95)  # fmt: skip

SKATER_STOOP = assumed("sight.skater_stoop", "a skater's height on the ice over stature", 0.9,
                       "ratio", low=0.7, high=1.05,
                       note="bent knees less, skates more")  # fmt: skip
SKATER_PADDING = assumed("sight.skater_padding", "protective gear on a skater, each side", 0.03,
                         "m", low=0.0, high=0.08)  # fmt: skip
SKATER_STATURE = assumed("sight.skater_stature", "a skater's stature when not known", 1.78, "m",
                         low=1.1, high=2.1)  # fmt: skip
