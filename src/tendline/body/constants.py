"""The figures behind a goaltender's size and gear; each knows where it comes from.

Segment ratios are those of Winter (adult, applied to children with caution); equipment limits are
rule-book figures. How thick gear is, and how a posture is held, no page gives: those are assumed,
and can be set.
"""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import assumed, fact, parameter

ANKLE_HEIGHT = fact("body.segment_length.ankle_height", "ankle height")
KNEE_HEIGHT = fact("body.segment_length.knee_height", "knee height")
HIP_HEIGHT = fact("body.segment_length.hip_height", "hip height")
SHOULDER_HEIGHT = fact("body.segment_length.shoulder_height", "shoulder height")
CHIN_HEIGHT = fact("body.segment_length.chin_height", "chin height", low=0.85, high=0.89)
EYE_HEIGHT = fact("body.segment_length.eye_height", "eye height", low=0.92, high=0.95)
THIGH = fact("body.segment_length.thigh", "thigh length")
SHANK = fact("body.segment_length.shank", "shank length")
UPPER_ARM = fact("body.segment_length.upper_arm", "upper arm length")
FOREARM = fact("body.segment_length.forearm", "forearm length")
HAND = fact("body.segment_length.hand", "hand length")
FOOT = fact("body.segment_length.foot_length", "foot length")
SHOULDER_BREADTH = fact(
    "body.segment_length.shoulder_breadth", "shoulder breadth", low=0.24, high=0.28
)
HIP_BREADTH = fact("body.segment_length.hip_breadth", "hip breadth", low=0.17, high=0.21)
HEAD_HEIGHT = fact("body.segment_length.head_height", "head height", low=0.12, high=0.14)

PRO_STATURE = fact("body.adult.goalie_pro_male_stature", "professional goaltender stature")
PRO_MASS = fact("body.adult.goalie_pro_male_mass", "professional goaltender mass")

NHL_PAD_WIDTH = fact("equipment.nhl_pad_width", "leg pad width", low=0.2, high=0.2794)
NHL_PAD_LENGTH = fact("equipment.nhl_pad_length_max", "leg pad length limit")
NHL_GLOVE = fact("equipment.nhl_glove_perimeter", "catching glove perimeter", low=0.8, high=1.143)
NHL_BLOCKER_WIDTH = fact("equipment.nhl_blocker_width", "blocker width", low=0.12, high=0.2032)
NHL_BLOCKER_LENGTH = fact("equipment.nhl_blocker_length", "blocker length", low=0.25, high=0.381)
NHL_PANTS = fact("equipment.nhl_thigh_width", "pants width at the thigh", low=0.18, high=0.254)
NHL_PADDLE = fact("equipment.nhl_paddle_max", "paddle length", low=0.45, high=0.6604)
NHL_BLADE = fact("equipment.nhl_blade_max", "stick blade length", low=0.25, high=0.3937)

IIHF_PAD_WIDTH = fact("equipment.iihf_pad_width", "leg pad width", low=0.2, high=0.28)
IIHF_PAD_168 = fact("equipment.iihf_pad_len_h168", "leg pad length limit, up to 1.68 m")
IIHF_PAD_175 = fact("equipment.iihf_pad_len_h175", "leg pad length limit, 1.69 to 1.75 m")
IIHF_PAD_182 = fact("equipment.iihf_pad_len_h182", "leg pad length limit, 1.76 to 1.82 m")
IIHF_PAD_183 = fact("equipment.iihf_pad_len_h183", "leg pad length limit, from 1.83 m")
IIHF_GLOVE = fact("equipment.iihf_glove_perimeter", "catching glove perimeter", low=0.8, high=1.145)
IIHF_BLOCKER_WIDTH = fact("equipment.iihf_blocker_width", "blocker width", low=0.12, high=0.205)
IIHF_BLOCKER_LENGTH = fact("equipment.iihf_blocker_length", "blocker length", low=0.25, high=0.385)
IIHF_PANTS = fact("equipment.iihf_pants_width", "pants width at the thigh", low=0.18, high=0.255)
IIHF_PADDLE = fact("equipment.iihf_stick_paddle_len", "paddle length", low=0.45, high=0.71)
IIHF_BLADE = fact("equipment.iihf_stick_blade_len", "stick blade length", low=0.25, high=0.39)
BLADE_WIDTH = fact("equipment.iihf_stick_paddle_width", "paddle and blade width")
PAD_ABOVE_KNEE = fact(
    "equipment.nhl_pad_above_knee_frac_2013", "pad above the knee, share of the thigh",
    low=0.3, high=0.55,
)  # fmt: skip

KNEE_FLEXION = fact("locomotion.stance_knee_flexion", "knee flexion in the ready stance",
                    low=50.0, high=110.0)  # fmt: skip
STICK_AHEAD = fact("locomotion.stance_stick_ahead", "stick blade ahead of the skates",
                   low=0.25, high=0.30)  # fmt: skip
TRUNK_FLEXION = assumed(
    "body.stance_trunk_flexion", "trunk forward in the ready stance", 40.0, "deg",
    low=20.0, high=55.0, note="'about 40 deg', note beside the knee flexion of the same source",
)  # fmt: skip

HALF_WIDTH = assumed("body.ready_half_width", "ready stance, half width between the ankles", 0.20,
                     "of stature", low=0.14, high=0.26)  # fmt: skip
NARROW_HALF_WIDTH = assumed(
    "body.narrow_half_width", "narrow stance, half width between the ankles", 0.135, "of stature",
    low=0.1, high=0.2,
)  # fmt: skip
HANDS_OUT = assumed("body.hands_out", "catching glove, distance to the side", 0.262, "of stature",
                    low=0.2, high=0.32)  # fmt: skip
BUTTERFLY_FLARE = assumed(
    "body.butterfly_flare", "butterfly, how far the pads point back from straight aside", 12.0,
    "deg", low=0.0, high=45.0, note="0 is pads in one line across",
)  # fmt: skip
BUTTERFLY_TRUNK = assumed("body.butterfly_trunk", "butterfly, trunk forward", 28.0, "deg",
                          low=5.0, high=45.0)  # fmt: skip

SHORTEST = assumed("body.stature_low", "shortest stature accepted", 0.95, "m", low=0.9, high=1.1)
TALLEST = assumed("body.stature_high", "tallest stature accepted", 2.2, "m", low=2.0, high=2.3)
FULL_GEAR = assumed(
    "body.full_gear_stature", "stature from which gear has adult size", 1.7, "m", low=1.5, high=1.9,
    note="below it gear shrinks in proportion; the limits of the rule book always hold",
)  # fmt: skip
SKATE_HEIGHT = assumed("body.skate_height", "height added by goaltender skates", 0.065, "m",
                       low=0.05, high=0.08)  # fmt: skip
PAD_THICKNESS = assumed("body.pad_thickness", "leg pad thickness", 0.145, "m", low=0.14, high=0.18)
GLOVE_THICKNESS = assumed("body.glove_thickness", "catching glove thickness", 0.17, "m",
                          low=0.1, high=0.2)  # fmt: skip
CHEST_DEPTH = assumed("body.chest_half_depth", "half depth of chest with protector", 0.155, "m",
                      low=0.11, high=0.2)  # fmt: skip
ARM_RADIUS = assumed("body.arm_radius", "half width of padded upper arm", 0.1, "m",
                     low=0.06, high=0.12)  # fmt: skip
FOREARM_RADIUS = assumed("body.forearm_radius", "half width of padded forearm", 0.07, "m",
                         low=0.04, high=0.09)  # fmt: skip
MASK_RADIUS = assumed("body.mask_radius", "half width of the mask", 0.12, "m",
                      low=0.1, high=0.15)  # fmt: skip
SKATE_RADIUS = assumed("body.skate_radius", "half width of the skate boot", 0.05, "m",
                       low=0.03, high=0.06)  # fmt: skip
SHAFT_LENGTH = assumed("body.stick_shaft_above_hand", "stick shaft above the paddle", 0.62, "m",
                       low=0.4, high=0.9)  # fmt: skip
SHAFT_RADIUS = assumed("body.stick_shaft_radius", "half width of the stick shaft", 0.014, "m",
                       low=0.01, high=0.02)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class SegmentRatios:
    """Segment lengths and heights as shares of stature (Winter)."""

    ankle_height: float = parameter(ANKLE_HEIGHT)
    knee_height: float = parameter(KNEE_HEIGHT)
    hip_height: float = parameter(HIP_HEIGHT)
    shoulder_height: float = parameter(SHOULDER_HEIGHT)
    chin_height: float = parameter(CHIN_HEIGHT)
    eye_height: float = parameter(EYE_HEIGHT)
    thigh: float = parameter(THIGH)
    shank: float = parameter(SHANK)
    upper_arm: float = parameter(UPPER_ARM)
    forearm: float = parameter(FOREARM)
    hand: float = parameter(HAND)
    foot: float = parameter(FOOT)
    shoulder_breadth: float = parameter(SHOULDER_BREADTH)
    hip_breadth: float = parameter(HIP_BREADTH)
    head_height: float = parameter(HEAD_HEIGHT)


@dataclass(frozen=True, slots=True, kw_only=True)
class NhlGear:
    """Gear limits of the NHL book (USA Hockey and Hockey Canada print the same inches); metres."""

    pad_width: float = parameter(NHL_PAD_WIDTH)
    pad_length: float = parameter(NHL_PAD_LENGTH)
    glove_perimeter: float = parameter(NHL_GLOVE)
    blocker_width: float = parameter(NHL_BLOCKER_WIDTH)
    blocker_length: float = parameter(NHL_BLOCKER_LENGTH)
    pants_width: float = parameter(NHL_PANTS)
    paddle: float = parameter(NHL_PADDLE)
    blade: float = parameter(NHL_BLADE)

    def pad_limit(self, stature: float) -> float:
        """Return the longest pad allowed (m); the book's cap holds for every stature."""
        return self.pad_length


@dataclass(frozen=True, slots=True, kw_only=True)
class IihfGear:
    """Gear limits of the IIHF book; metres. Pad length goes by stature (2014 table)."""

    pad_width: float = parameter(IIHF_PAD_WIDTH)
    pad_length_168: float = parameter(IIHF_PAD_168)
    pad_length_175: float = parameter(IIHF_PAD_175)
    pad_length_182: float = parameter(IIHF_PAD_182)
    pad_length_183: float = parameter(IIHF_PAD_183)
    glove_perimeter: float = parameter(IIHF_GLOVE)
    blocker_width: float = parameter(IIHF_BLOCKER_WIDTH)
    blocker_length: float = parameter(IIHF_BLOCKER_LENGTH)
    pants_width: float = parameter(IIHF_PANTS)
    paddle: float = parameter(IIHF_PADDLE)
    blade: float = parameter(IIHF_BLADE)

    def pad_limit(self, stature: float) -> float:
        """Return the longest pad allowed (m) for a stature, read to the whole centimetre."""
        centimetres = round(stature * 100.0)
        if centimetres <= 168:
            return self.pad_length_168
        if centimetres <= 175:
            return self.pad_length_175
        return self.pad_length_182 if centimetres <= 182 else self.pad_length_183


@dataclass(frozen=True, slots=True, kw_only=True)
class GearShape:
    """Thickness of gear and skates, and the share of the pad above the knee; metres and a ratio."""

    above_knee: float = parameter(PAD_ABOVE_KNEE)
    blade_width: float = parameter(BLADE_WIDTH)
    full_gear: float = parameter(FULL_GEAR)
    skate_height: float = parameter(SKATE_HEIGHT)
    pad_thickness: float = parameter(PAD_THICKNESS)
    glove_thickness: float = parameter(GLOVE_THICKNESS)
    chest_half_depth: float = parameter(CHEST_DEPTH)
    arm_radius: float = parameter(ARM_RADIUS)
    forearm_radius: float = parameter(FOREARM_RADIUS)
    mask_radius: float = parameter(MASK_RADIUS)
    skate_radius: float = parameter(SKATE_RADIUS)
    shaft: float = parameter(SHAFT_LENGTH)
    shaft_radius: float = parameter(SHAFT_RADIUS)


@dataclass(frozen=True, slots=True, kw_only=True)
class StanceShape:
    """How she holds herself: degrees, metres, and shares of stature."""

    knee_flexion: float = parameter(KNEE_FLEXION)
    trunk_flexion: float = parameter(TRUNK_FLEXION)
    stick_ahead: float = parameter(STICK_AHEAD)
    half_width: float = parameter(HALF_WIDTH)
    narrow_half_width: float = parameter(NARROW_HALF_WIDTH)
    hands_out: float = parameter(HANDS_OUT)
    butterfly_flare: float = parameter(BUTTERFLY_FLARE)
    butterfly_trunk: float = parameter(BUTTERFLY_TRUNK)


@dataclass(frozen=True, slots=True, kw_only=True)
class StatureRange:
    """Statures that are taken for a goaltender; metres."""

    shortest: float = parameter(SHORTEST)
    tallest: float = parameter(TALLEST)
