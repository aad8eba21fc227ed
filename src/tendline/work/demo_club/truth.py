"""How the invented games come about: how often each situation arises and what it then costs.

Made-up figures of a plausible size, chosen so that the demo has something to find: one U15
goaltender is late across and gives up rebounds in front; the others have no special weakness.
None of these figures is used anywhere but in making the demo club.
"""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import ScoringSituation as S
from tendline.base import ShotType


@dataclass(frozen=True, slots=True, kw_only=True)
class Play:
    """One kind of play: how often, from where (x, y, spread [m]), by which shots, at what cost."""

    often: float
    x: float
    y: float
    spread: float
    types: tuple[ShotType, ...]
    cost: float
    moving: float


PLAYS: dict[S, Play] = {
    S.CLEAR_SHOT: Play(often=36, x=10.0, y=5.0, spread=2.2, cost=0.05, moving=0.12,
                       types=(ShotType.WRIST, ShotType.SNAP, ShotType.SLAP)),
    S.ENTRY: Play(often=18, x=9.0, y=5.5, spread=1.8, cost=0.08, moving=0.20,
                  types=(ShotType.WRIST, ShotType.SNAP)),
    S.NET_DRIVE: Play(often=7, x=2.2, y=1.8, spread=0.7, cost=0.12, moving=0.45,
                      types=(ShotType.BACKHAND, ShotType.WRIST)),
    S.BREAKAWAY: Play(often=2, x=3.5, y=0.5, spread=0.8, cost=0.25, moving=0.40,
                      types=(ShotType.WRIST, ShotType.BACKHAND)),
    S.LOW_HIGH: Play(often=9, x=16.5, y=4.0, spread=1.5, cost=0.04, moving=0.20,
                     types=(ShotType.SLAP, ShotType.WRIST)),
    S.EAST_WEST: Play(often=10, x=5.5, y=3.5, spread=1.0, cost=0.17, moving=0.40,
                      types=(ShotType.ONE_TIMER, ShotType.SNAP)),
    S.BELOW_GOAL_LINE: Play(often=6, x=2.6, y=1.4, spread=0.7, cost=0.09, moving=0.30,
                            types=(ShotType.SNAP, ShotType.WRAP)),
    S.DEFLECTION: Play(often=4, x=3.0, y=0.9, spread=0.8, cost=0.14, moving=0.10,
                       types=(ShotType.TIP,)),
    S.SCREEN: Play(often=6, x=13.0, y=3.0, spread=1.8, cost=0.08, moving=0.10,
                   types=(ShotType.SLAP, ShotType.WRIST)),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Skill:
    """One goaltender: how often she is late across, and what that and rebounds cost her."""

    late_across: float = 0.40
    moving_factor: float = 1.5
    dangerous: float = 0.13
    second_chance: float = 0.45
    rebound_cost: float = 0.20
    level: float = 1.0


SKILLS: dict[str, Skill] = {
    "ronja": Skill(late_across=0.80, moving_factor=2.6, dangerous=0.24, rebound_cost=0.42,
                   second_chance=0.5, level=1.0),
    "milo": Skill(level=1.2),
    "ilse": Skill(level=1.1, dangerous=0.18),
    "petra": Skill(level=0.9),
}  # fmt: skip
