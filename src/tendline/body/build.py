"""A goaltender's build: lengths from stature, gear within the limits of the rule book."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeVar

from tendline.base import (
    DEFAULT_SETTINGS,
    Level,
    Settings,
    Sex,
    Side,
    build,
    require_number,
    unknown_name,
)
from tendline.body.constants import (
    PRO_MASS,
    PRO_STATURE,
    GearShape,
    IihfGear,
    NhlGear,
    SegmentRatios,
    StanceShape,
    StatureRange,
)
from tendline.body.growth import GrowthTable, level_at, mass_at, mass_for_stature, stature_at
from tendline.ice import RuleSet

_Name = TypeVar("_Name", bound=StrEnum)
_YOUTH = (Level.U9, Level.U11, Level.U13, Level.U15, Level.U18)


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """A goaltender's size and gear; metres and kilograms. Hashable, so bodies are cached by it.

    ``gear_scale`` (at most 1) is the size of her gear against adult gear. Heights are those of
    the bare body standing; ``skate_height`` comes on top.
    """

    stature: float
    mass: float
    catching_hand: Side
    level: Level
    rule_set: RuleSet
    ankle_height: float
    thigh: float
    shank: float
    trunk: float
    upper_arm: float
    forearm: float
    hand: float
    foot: float
    shoulder_breadth: float
    hip_breadth: float
    neck: float
    head_height: float
    gear_scale: float
    skate_height: float
    skate_radius: float
    pad_length: float
    pad_width: float
    pad_thickness: float
    glove_perimeter: float
    glove_thickness: float
    blocker_width: float
    blocker_length: float
    pants_width: float
    paddle: float
    blade: float
    blade_width: float
    shaft: float
    shaft_radius: float
    chest_half_depth: float
    arm_radius: float
    forearm_radius: float
    mask_radius: float
    knee_flexion: float
    trunk_flexion: float
    stick_ahead: float
    half_width: float
    narrow_half_width: float
    hands_out: float
    butterfly_flare: float
    butterfly_trunk: float

    @property
    def blocker_hand(self) -> Side:
        """Return the side of the blocker and stick."""
        return self.catching_hand.other


def _named(kind: str, names: type[_Name], name: str) -> _Name:
    """Return the member of a closed vocabulary; raises ``NotFoundError``."""
    try:
        return names(name)
    except ValueError:
        raise unknown_name(kind, str(name), [one.value for one in names]) from None


def build_goaltender(
    stature: float = 1.75,
    catching_hand: Side = Side.LEFT,
    level: Level = Level.ADULT,
    rule_set: RuleSet = RuleSet.NHL,
    *,
    mass: float | None = None,
    settings: Settings = DEFAULT_SETTINGS,
) -> Build:
    """Return the build of a goaltender of a stature in metres.

    Pads reach from the ice to the published share of the thigh above the knee, never longer than
    the rule book allows; other gear has the size of its limit, and shrinks in proportion for a
    goaltender shorter than full gear is made for. Raises ``InputError`` for a stature that is no
    goaltender's and ``NotFoundError`` for an unknown hand, level or rule set.
    """
    allowed = build(StatureRange, settings)
    height = require_number(
        "stature", stature, low=allowed.shortest, high=allowed.tallest, unit="m"
    )
    side = _named("catching hand", Side, catching_hand)
    the_level, rules = _named("level", Level, level), _named("rule set", RuleSet, rule_set)
    ratios = build(SegmentRatios, settings)
    shape = build(GearShape, settings)
    ready = build(StanceShape, settings)
    gear = build(NhlGear, settings) if rules is RuleSet.NHL else build(IihfGear, settings)
    scale = min(height / shape.full_gear, 1.0)
    skate = shape.skate_height * scale
    fit = skate + (ratios.ankle_height + ratios.shank + shape.above_knee * ratios.thigh) * height
    if mass is None:
        by_square = PRO_MASS.value * (height / PRO_STATURE.value) ** 2
        weight = mass_for_stature(height) if the_level in _YOUTH else by_square
    else:
        weight = require_number("mass", mass, low=10.0, high=200.0, unit="kg")
    head_scale = 0.5 + 0.5 * scale
    return Build(
        stature=height,
        mass=weight,
        catching_hand=side,
        level=the_level,
        rule_set=rules,
        ankle_height=ratios.ankle_height * height,
        thigh=ratios.thigh * height,
        shank=ratios.shank * height,
        trunk=(ratios.shoulder_height - ratios.hip_height) * height,
        upper_arm=ratios.upper_arm * height,
        forearm=ratios.forearm * height,
        hand=ratios.hand * height,
        foot=ratios.foot * height,
        shoulder_breadth=ratios.shoulder_breadth * height,
        hip_breadth=ratios.hip_breadth * height,
        neck=(ratios.chin_height - ratios.shoulder_height) * height,
        head_height=ratios.head_height * height,
        gear_scale=scale,
        skate_height=skate,
        skate_radius=shape.skate_radius * scale,
        pad_length=min(fit, gear.pad_limit(height)),
        pad_width=gear.pad_width * scale,
        pad_thickness=shape.pad_thickness * scale,
        glove_perimeter=gear.glove_perimeter * scale,
        glove_thickness=shape.glove_thickness * scale,
        blocker_width=gear.blocker_width * scale,
        blocker_length=gear.blocker_length * scale,
        pants_width=gear.pants_width * scale,
        paddle=gear.paddle * scale,
        blade=gear.blade * scale,
        blade_width=shape.blade_width * scale,
        shaft=shape.shaft * scale,
        shaft_radius=shape.shaft_radius * scale,
        chest_half_depth=shape.chest_half_depth * scale,
        arm_radius=shape.arm_radius * scale,
        forearm_radius=shape.forearm_radius * scale,
        mask_radius=shape.mask_radius * head_scale,
        knee_flexion=ready.knee_flexion,
        trunk_flexion=ready.trunk_flexion,
        stick_ahead=ready.stick_ahead * scale,
        half_width=ready.half_width * height,
        narrow_half_width=ready.narrow_half_width * height,
        hands_out=ready.hands_out * height,
        butterfly_flare=ready.butterfly_flare,
        butterfly_trunk=ready.butterfly_trunk,
    )


def build_by_age(
    age: float,
    sex: Sex,
    z: float = 0.0,
    *,
    catching_hand: Side = Side.LEFT,
    level: Level | None = None,
    rule_set: RuleSet = RuleSet.NHL,
    table: GrowthTable = GrowthTable.CDC_2000,
    settings: Settings = DEFAULT_SETTINGS,
) -> Build:
    """Return the build of a goaltender by age in years and sex, at a z-score of the growth table.

    The level is the age class unless given. Raises ``InputError`` below 7 years: give the stature.
    """
    return build_goaltender(
        stature_at(age, sex, z, table=table), catching_hand,
        level_at(age) if level is None else level, rule_set, mass=mass_at(age, sex, z),
        settings=settings,
    )  # fmt: skip
