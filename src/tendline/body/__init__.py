"""A goaltender's build, stances and gear as sphere-swept segments.

Body frame: metres; origin on the ice under her, +x the way she faces, +y her left, +z up.
"""

from tendline.body.build import Build, build_by_age, build_goaltender
from tendline.body.growth import GrowthTable, level_at, mass_at, mass_for_stature, stature_at
from tendline.body.place import capsules, eye_point, knee_drop, place, posed
from tendline.body.posts import post_pose, sealed_post
from tendline.body.types import LIMB_COUNT, Capsules, Limb, Part, Pose, Stance

__all__ = [
    "LIMB_COUNT", "Build", "Capsules", "GrowthTable", "Limb", "Part", "Pose", "Stance",
    "build_by_age", "build_goaltender", "capsules", "eye_point", "knee_drop", "level_at", "mass_at",
    "mass_for_stature", "place", "posed", "post_pose", "sealed_post", "stature_at",
]  # fmt: skip
