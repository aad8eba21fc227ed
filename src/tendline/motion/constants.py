"""The figures behind a goaltender's moves, each with its origin.

No measured time or speed of a goaltender's push, shuffle, slide or recovery has been published
as far as could be found; rows marked common practice or assumed are placeholders that a
goaltender's own timed tests replace (see ``tendline.motion.refit``).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from tendline.base import Constant, Level, OriginKind, assumed, fact
from tendline.motion.kinds import MoveKind

# Ranges over which a coach may set the parts of a law.
_DELAY = (0.0, 1.0)
_RATE = (0.5, 40.0)
_SPEED = (0.2, 6.0)
_ANGULAR_SPEED = (0.5, 15.0)
_ANGULAR_RATE = (2.0, 120.0)

HIGHEST_ACCELERATION = fact(
    "skating.accel_peak", "highest peak acceleration of a skater in the literature"
)
_HARDEST = HIGHEST_ACCELERATION.value
SHUFFLE_STEP_TIME = fact("locomotion.shuffle_step_time", "time of one shuffle step of a run")
POST_TO_POST_TIME = fact("locomotion.tpush_post_to_post", "T-push post to post with stop")


@dataclass(frozen=True, slots=True, kw_only=True)
class LawConstants:
    """The five constants of one move's time law, in the order of ``TimeLaw``."""

    start_delay: Constant
    acceleration: Constant
    top_speed: Constant
    braking: Constant
    settle: Constant

    @property
    def all(self) -> tuple[Constant, ...]:
        """Return them in order."""
        return (self.start_delay, self.acceleration, self.top_speed, self.braking, self.settle)


def _law(
    name: str,
    label: str,
    *,
    delay: float,
    acceleration: float,
    top: float | Constant,
    braking: float,
    settle: float,
    note: str = "",
    angular: bool = False,
) -> LawConstants:
    key = f"motion.{name}"
    speed_unit, rate_unit = ("rad/s", "rad/s2") if angular else ("m/s", "m/s2")
    speed, rate = (_ANGULAR_SPEED, _ANGULAR_RATE) if angular else (_SPEED, _RATE)

    def time(part: str, words: str, value: float) -> Constant:
        return assumed(f"{key}.{part}", f"{label}: {words}", value, "s", low=_DELAY[0],
                       high=_DELAY[1], note=note)  # fmt: skip

    def pace(part: str, words: str, value: float) -> Constant:
        return assumed(f"{key}.{part}", f"{label}: {words}", value, rate_unit, low=rate[0],
                       high=rate[1], note=note)  # fmt: skip

    top_speed = (
        top
        if isinstance(top, Constant)
        else assumed(f"{key}.top_speed", f"{label}: top speed", top, speed_unit, low=speed[0],
                     high=speed[1], note=note)
    )  # fmt: skip
    return LawConstants(
        start_delay=time("start_delay", "time from decision to first motion", delay),
        acceleration=pace("acceleration", "speeding up", acceleration),
        top_speed=top_speed,
        braking=pace("braking", "slowing down", braking),
        settle=time("settle", "time from stop to set", settle),
    )


_RUN = fact(
    "locomotion.shuffle_speed", "step shuffle: top speed", key="motion.step_shuffle.top_speed",
    low=_SPEED[0], high=_SPEED[1],
    note="a run of 0.4 m steps of 0.3 s each is the same figure",
)  # fmt: skip
_SHORT_RUN = fact(
    "locomotion.shuffle_speed", "short shuffle: top speed", key="motion.short_shuffle.top_speed",
    low=_SPEED[0], high=_SPEED[1],
)  # fmt: skip
_PUSH = fact(
    "locomotion.tpush_speed_peak", "T-push: top speed", key="motion.t_push.top_speed",
    low=_SPEED[0], high=_SPEED[1],
)  # fmt: skip

_PUSH_NOTE = (
    "acceleration at the highest peak published for skaters; braking chosen so that "
    "1.2 m from rest to rest takes the common-practice 0.9 s post to post"
)

LAWS: dict[MoveKind, LawConstants] = {
    MoveKind.SHORT_SHUFFLE: _law(
        "short_shuffle", "short shuffle", delay=0.04, acceleration=_HARDEST, top=_SHORT_RUN,
        braking=7.6, settle=0.04,
    ),
    MoveKind.STEP_SHUFFLE: _law(
        "step_shuffle", "step shuffle", delay=0.05, acceleration=_HARDEST, top=_RUN, braking=7.6,
        settle=0.05,
    ),
    MoveKind.T_PUSH: _law(
        "t_push", "T-push", delay=0.05, acceleration=_HARDEST, top=_PUSH, braking=7.6, settle=0.20,
        note=_PUSH_NOTE,
    ),
    MoveKind.C_CUT_FORWARD: _law(
        "c_cut_forward", "C-cut out", delay=0.05, acceleration=4.0, top=2.5, braking=5.0,
        settle=0.05,
    ),
    MoveKind.C_CUT_BACK: _law(
        "c_cut_back", "C-cut back", delay=0.05, acceleration=3.4, top=2.1, braking=5.0,
        settle=0.05, note="84 % of the forward top speed, as in skating tests backward to forward",
    ),
    MoveKind.FORWARD_PUSH: _law(
        "forward_push", "forward push and stop", delay=0.08, acceleration=5.0, top=3.0,
        braking=6.0, settle=0.25,
    ),
    MoveKind.TURN: _law(
        "turn", "turn", delay=0.0, acceleration=25.0, top=5.0, braking=25.0, settle=0.04,
        angular=True,
    ),
    MoveKind.BUTTERFLY_SLIDE: _law(
        "butterfly_slide", "butterfly slide", delay=0.05, acceleration=_HARDEST, top=3.0,
        braking=20.0, settle=0.05,
        note="the same push as the T-push; she need not stop on an edge; 2 m come to the "
        "common-practice mean of 2 m/s",
    ),
    MoveKind.BUTTERFLY_PUSH: _law(
        "butterfly_push", "butterfly push", delay=0.25, acceleration=4.5, top=2.2, braking=12.0,
        settle=0.05, note="the delay is the raising of the far leg",
    ),
    MoveKind.POST_ENTRY: _law(
        "post_push", "push into or off a post", delay=0.05, acceleration=_HARDEST, top=3.0,
        braking=20.0, settle=0.05, note="the same push as the T-push; the post stops her",
    ),
    MoveKind.KNEE_SHUFFLE: _law(
        "knee_shuffle", "knee shuffle", delay=0.08, acceleration=2.0, top=0.5, braking=4.0,
        settle=0.03,
    ),
}  # fmt: skip

DROP_TIME = fact(
    "locomotion.butterfly_drop_time_est", "drop: knees to the ice", key="motion.drop.time",
    low=0.2, high=0.6, note="gravity sets it: free fall over 0.40 m takes 0.286 s",
)  # fmt: skip
DROP_SETTLE = assumed(
    "motion.drop.settle", "drop: time from knees on the ice to sealed", 0.05, "s", low=0.0, high=0.5
)
RECOVERY_TIME = fact(
    "locomotion.recovery_time", "full recovery: knees to set feet", key="motion.full_recovery.time",
    low=0.2, high=2.0,
)  # fmt: skip
RECOVERY_SETTLE = assumed(
    "motion.full_recovery.settle", "full recovery: share of the time that is settling", 0.2, "1",
    low=0.0, high=0.6, note="the published row counts to set feet, so this part lies inside it",
)  # fmt: skip
ON_ICE_RECOVERY_TIME = assumed(
    "motion.on_ice_recovery.time", "on-ice recovery: raise the far leg and re-aim", 0.35, "s",
    low=0.1, high=1.5,
)  # fmt: skip
STANCE_CHANGE_TIME = assumed(
    "motion.stance_change.time", "change between two stances on the feet", 0.15, "s",
    low=0.0, high=1.0,
)  # fmt: skip
DOWN_CHANGE_TIME = assumed(
    "motion.down_change.time", "change between two stances on the knees", 0.25, "s",
    low=0.0, high=1.0,
)  # fmt: skip
POST_ENTRY_TIME = assumed(
    "motion.post_entry.time", "post entry: least time to seal the post", 0.30, "s",
    low=0.05, high=1.5,
)  # fmt: skip
POST_EXIT_TIME = assumed(
    "motion.post_exit.time", "post exit: least time from the seal to the feet", 0.40, "s",
    low=0.05, high=1.5,
)  # fmt: skip

POST_REACH = assumed(
    "motion.post.reach", "furthest from a post from which she pushes into its seal", 0.60, "m",
    low=0.2, high=1.5,
)  # fmt: skip

SHORT_SHUFFLE_REACH = assumed(
    "motion.short_shuffle.reach", "longest short shuffle", 0.30, "m", low=0.15, high=0.5,
    note="usual length about 0.20 m",
)  # fmt: skip
SHUFFLE_STEP = assumed(
    "motion.step_shuffle.step", "length of one step of a shuffle run", 0.40, "m",
    low=0.2, high=0.8, kind=OriginKind.PRACTICE, source="common practice, no source",
)  # fmt: skip
SHUFFLE_REACH = assumed(
    "motion.step_shuffle.reach", "longest shuffle run", 2.4, "m", low=0.8, high=6.0
)
T_PUSH_REACH = assumed("motion.t_push.reach", "longest single T-push", 3.0, "m", low=1.0, high=8.0)
C_CUT_REACH = assumed("motion.c_cut.reach", "longest run of C-cuts", 30.0, "m", low=2.0, high=60.0)
FORWARD_PUSH_REACH = assumed(
    "motion.forward_push.reach", "longest forward push and stop", 3.0, "m", low=1.0, high=8.0
)
SLIDE_REACH = assumed(
    "motion.butterfly_slide.reach", "longest butterfly slide", 2.5, "m", low=0.5, high=5.0
)
BUTTERFLY_PUSH_REACH = assumed(
    "motion.butterfly_push.reach", "longest butterfly push", 2.0, "m", low=0.5, high=5.0
)
KNEE_SHUFFLE_REACH = assumed(
    "motion.knee_shuffle.reach", "longest knee shuffle", 0.5, "m", low=0.1, high=2.0
)

_SHARES = {
    Level.U9: 0.60, Level.U11: 0.68, Level.U13: 0.76, Level.U15: 0.86, Level.U18: 0.94,
    Level.ADULT: 1.0, Level.WOMEN_ELITE: 1.05, Level.MEN_ELITE: 1.10,
}  # fmt: skip
PACE_SHARE: dict[Level, Constant] = {
    level: assumed(
        f"motion.pace_share.{level.value.replace(' ', '_')}",
        f"speed and acceleration of moves at {level.value}, as a share of the adult's",
        share, "1", low=0.3, high=1.6,
        note="no published figure for goaltenders; top skating speeds rise with age likewise",
    )
    for level, share in _SHARES.items()
}  # fmt: skip

_ADULT_REACTION = fact("human.srt_adult_visual_hw", "simple visual reaction, adults")
_SLOWING = fact(
    "human.sart_loglog_exponent", "exponent of reaction time over age, to 16 years",
    key="motion.reaction.age_exponent",
)  # fmt: skip
ADULT_REACTION_AGE = 16.0
"""Age at which the published line reaches the adult level [years]."""

_OLDEST = {Level.U9: 8.0, Level.U11: 10.0, Level.U13: 12.0, Level.U15: 14.0}


def _reaction(level: Level) -> Constant:
    age = min(_OLDEST.get(level, ADULT_REACTION_AGE), ADULT_REACTION_AGE)
    slower = math.pow(age / ADULT_REACTION_AGE, _SLOWING.value)
    return assumed(
        f"motion.reaction.{level.value.replace(' ', '_')}",
        f"time from what she sees to the start of her move at {level.value}",
        round(_ADULT_REACTION.value * slower, 3), "s", low=0.05, high=0.8,
        kind=OriginKind.COMPUTED,
        source=f"{_ADULT_REACTION.source}; slowing by age: {_SLOWING.source}",
        note="simple reaction of adults, slowed by the published line over age (adult at 16)",
    )  # fmt: skip


REACTION: dict[Level, Constant] = {level: _reaction(level) for level in Level}


RE_AIM_TURN = assumed(
    "motion.on_ice_recovery.turn", "turning further than this while down needs an on-ice recovery",
    math.radians(10.0), "rad", low=0.0, high=math.radians(45.0),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeConstants:
    """Where a travelling move may go.

    ``least_angle`` and ``greatest_angle`` bound the angle [rad] between her facing and the way
    she travels; ``usual_from`` [m] is the shortest distance it is usually chosen for.
    """

    least_angle: Constant
    greatest_angle: Constant
    usual_from: Constant
    longest: Constant

    @property
    def all(self) -> tuple[Constant, ...]:
        """Return them in order."""
        return (self.least_angle, self.greatest_angle, self.usual_from, self.longest)


def _range(
    name: str, label: str, *, least: float, greatest: float, usual_from: float, longest: Constant
) -> RangeConstants:
    def angle(part: str, words: str, degrees: float) -> Constant:
        value = math.radians(degrees)
        return assumed(f"motion.{name}.{part}", f"{label}: {words}", value, "rad", low=value,
                       high=value)  # fmt: skip

    return RangeConstants(
        least_angle=angle("least_angle", "least angle from her facing", least),
        greatest_angle=angle("greatest_angle", "greatest angle from her facing", greatest),
        usual_from=assumed(
            f"motion.{name}.usual_from", f"{label}: shortest usual distance", usual_from, "m",
            low=usual_from, high=usual_from, note="guidance; a shorter one is not forbidden",
        ),
        longest=longest,
    )  # fmt: skip


RANGES: dict[MoveKind, RangeConstants] = {
    MoveKind.SHORT_SHUFFLE: _range(
        "short_shuffle", "short shuffle", least=45.0, greatest=135.0, usual_from=0.05,
        longest=SHORT_SHUFFLE_REACH,
    ),
    MoveKind.STEP_SHUFFLE: _range(
        "step_shuffle", "step shuffle", least=45.0, greatest=135.0, usual_from=0.25,
        longest=SHUFFLE_REACH,
    ),
    MoveKind.T_PUSH: _range(
        "t_push", "T-push", least=30.0, greatest=150.0, usual_from=0.8, longest=T_PUSH_REACH
    ),
    MoveKind.C_CUT_FORWARD: _range(
        "c_cut_forward", "C-cut out", least=0.0, greatest=45.0, usual_from=0.1, longest=C_CUT_REACH
    ),
    MoveKind.FORWARD_PUSH: _range(
        "forward_push", "forward push and stop", least=0.0, greatest=60.0, usual_from=0.8,
        longest=FORWARD_PUSH_REACH,
    ),
    MoveKind.C_CUT_BACK: _range(
        "c_cut_back", "C-cut back", least=120.0, greatest=180.0, usual_from=0.1,
        longest=C_CUT_REACH,
    ),
    MoveKind.BUTTERFLY_SLIDE: _range(
        "butterfly_slide", "butterfly slide", least=45.0, greatest=135.0, usual_from=0.4,
        longest=SLIDE_REACH,
    ),
    MoveKind.BUTTERFLY_PUSH: _range(
        "butterfly_push", "butterfly push", least=40.0, greatest=140.0, usual_from=0.3,
        longest=BUTTERFLY_PUSH_REACH,
    ),
    MoveKind.KNEE_SHUFFLE: _range(
        "knee_shuffle", "knee shuffle", least=45.0, greatest=135.0, usual_from=0.05,
        longest=KNEE_SHUFFLE_REACH,
    ),
    MoveKind.POST_ENTRY: _range(
        "post_entry", "post entry", least=0.0, greatest=180.0, usual_from=0.0, longest=POST_REACH
    ),
    MoveKind.POST_EXIT: _range(
        "post_exit", "post exit", least=0.0, greatest=180.0, usual_from=0.0, longest=POST_REACH
    ),
}  # fmt: skip

BUTTERFLY_AGE = assumed(
    "motion.butterfly_age", "age from which the butterfly is usually taught", 10.0, "yr",
    low=6.0, high=14.0, kind=OriginKind.PRACTICE, source="common practice, no source",
    note="usually from about 10 or 11, after stance, skating and tracking",
)  # fmt: skip

MOTION_CONSTANTS: tuple[Constant, ...] = (
    *(one for law in LAWS.values() for one in law.all),
    DROP_TIME, DROP_SETTLE, RECOVERY_TIME, RECOVERY_SETTLE, ON_ICE_RECOVERY_TIME, RE_AIM_TURN,
    STANCE_CHANGE_TIME, DOWN_CHANGE_TIME, POST_ENTRY_TIME, POST_EXIT_TIME, SHUFFLE_STEP,
    BUTTERFLY_AGE,
    *dict.fromkeys(one for row in RANGES.values() for one in row.all),
    *PACE_SHARE.values(), *REACTION.values(),
)  # fmt: skip
