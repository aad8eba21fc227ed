"""What a read answers: where to stand, what each option costs, why, and what it hangs on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from tendline.base import InputError
from tendline.body import Pose, Stance
from tendline.motion import Chain
from tendline.play.decision import DepthBand
from tendline.play.options import Option
from tendline.play.reply import Way
from tendline.play.situation import Goaltender, Situation

WAY_WORDS = {
    Way.NEAREST: "push to the new line",
    Way.OUT: "push out onto the new line",
    Way.STOP_SHORT: "stop short and set",
    Way.SLIDE: "butterfly slide",
    Way.DROP: "drop as he shoots",
    Way.DROP_OUT: "push out onto the new line, drop as he shoots",
    Way.REACH: "reach across",
    Way.STAND_ON_POST: "stand on the post",
    Way.DOWN_ON_POST: "down on the post, reverse VH",
}


class DepthName(StrEnum):
    """The published four-step scale of depths (USA Hockey Goaltending, Positioning)."""

    DEFENSIVE = "defensive"
    CONSERVATIVE = "conservative"
    BASE = "base"
    AGGRESSIVE = "aggressive"


class Numbers(StrEnum):
    """Attackers against defenders, as read from where people are."""

    ALONE = "alone"
    ODD = "odd-man"
    EVEN = "even"
    OUTNUMBERED = "outnumbered"


class Attack(StrEnum):
    """Whether the puck comes from in front of the goal line or from behind it."""

    DIRECT = "direct"
    INDIRECT = "indirect"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reply:
    """What she does about one option.

    ``start`` is where she stands, ``at_release`` where she is when the shot leaves, ``target``
    where she is going. ``chain`` holds the moves with times and driving legs (empty if she just
    stays). ``arrival`` and ``set_time`` [s] count from the first sign of the option.
    """

    start: Pose
    at_release: Pose
    target: Pose
    arrival: float
    set_time: float
    distance: float
    chain: Chain
    way: Way

    @property
    def words(self) -> str:
        """Return what she does in a few words."""
        if self.chain.steps or self.way in (Way.DROP, Way.REACH, Way.STAND_ON_POST):
            return WAY_WORDS[self.way]
        return "hold and react"


@dataclass(frozen=True, slots=True, kw_only=True)
class OptionAnswer:
    """One option against her place.

    ``goal_chance`` is the chance of a goal if the shot is taken, ``after_save`` that of one by a
    second shot after a save, ``comes_off`` the chance that the shot is taken, ``loss`` all of them
    together; ``weight`` the share that habits give it. ``set_margin`` [s] is
    how long before the release she is set on the new line, or where she meets the shot (negative:
    too late for it), ``is_set`` whether she is set at all, there or short of it.
    ``chance_low`` and ``chance_high`` bound the goal chance as the assumptions move within their
    ranges one standard step (equal to it where that was not asked for).
    """

    option: Option
    comes_off: float
    goal_chance: float
    after_save: float
    loss: float
    weight: float
    release: tuple[float, float]
    release_time: float
    reply: Reply
    set_margin: float
    is_set: bool
    words: str
    cue: str
    chance_low: float
    chance_high: float

    def __str__(self) -> str:
        return f"{self.words}: {100 * self.loss:.0f} goals in 100"


@dataclass(frozen=True, slots=True, kw_only=True)
class DepthCurve:
    """What each option costs by depth, at the recommended distance from the line.

    ``depth`` (n,) [m], ``loss`` (options, n), ``combined`` (n,); ``names`` of the options in the
    order of the rows. NaN where she cannot stand.
    """

    depth: NDArray[np.float64]
    names: tuple[str, ...]
    loss: NDArray[np.float64]
    combined: NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One reason in words, with the number in it and the keys of the constants behind it."""

    text: str
    value: float
    unit: str
    keys: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Sensitivity:
    """How the answer moves when one assumption goes to the ends of its range.

    ``depth_low`` and ``depth_high`` [m], ``loss_low`` and ``loss_high``: the recommended depth and
    its loss with the assumption at ``low`` and at ``high``.
    """

    key: str
    label: str
    unit: str
    low: float
    high: float
    depth_low: float
    depth_high: float
    loss_low: float
    loss_high: float

    @property
    def depth_swing(self) -> float:
        """Return by how much the depth moves [m]."""
        return abs(self.depth_high - self.depth_low)


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """What one place costs: its pose, the combined loss and every option's answer."""

    pose: Pose
    depth: float
    offset: float
    loss: float
    options: tuple[OptionAnswer, ...]

    def option(self, key: str) -> OptionAnswer:
        """Return one option's answer by its key; raises ``InputError`` for an unknown one."""
        for one in self.options:
            if one.option.key == key:
                return one
        raise InputError("no option of that name here", came=key,
                         allowed=", ".join(one.option.key for one in self.options))  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """The answer to one moment of an attack. Lengths in metres, times in seconds."""

    situation: Situation
    goaltender: Goaltender
    spot: Pose
    depth: float
    offset: float
    depth_name: DepthName
    band: DepthBand
    loss: float
    options: tuple[OptionAnswer, ...]
    curve: DepthCurve
    answer: tuple[str, ...]
    reasons: tuple[Reason, ...]
    threats: tuple[str, ...]
    numbers: Numbers
    attack: Attack
    sensitivities: tuple[Sensitivity, ...]
    worst_share: float
    observed: int

    @property
    def stance(self) -> Stance:
        """Return the stance she waits in."""
        return self.spot.stance

    @property
    def worst(self) -> OptionAnswer:
        """Return the option that costs most."""
        return self.options[0]

    def option(self, key: str) -> OptionAnswer:
        """Return one option's answer by its key; raises ``InputError`` for an unknown one."""
        place = Place(pose=self.spot, depth=self.depth, offset=self.offset, loss=self.loss,
                      options=self.options)  # fmt: skip
        return place.option(key)

    def __str__(self) -> str:
        return " ".join(self.answer)
