"""The people, teams, opponents and fixtures of the demo club; all invented."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tendline.base import Level, Side

CLUB = "Kettle Harbour Skating Club"
SEASON_START = date(2026, 9, 7)
SEASON_END = date(2027, 4, 18)
TODAY = date(2026, 11, 25)
"""The evening on which the demo's main job is run: a Wednesday, week 12 of the season."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Player:
    """One invented goaltender; ``stature`` [m]."""

    id: str
    name: str
    born: int
    hand: Side
    stature: float
    level: Level
    team: str


RONJA = Player(
    id="ronja", name="Ronja Aldercott", born=2012, hand=Side.LEFT, stature=1.63,
    level=Level.U15, team="kh-u15",
)  # fmt: skip
MILO = Player(
    id="milo", name="Milo Fennimore", born=2013, hand=Side.RIGHT, stature=1.58,
    level=Level.U15, team="kh-u15",
)  # fmt: skip
ILSE = Player(
    id="ilse", name="Ilse Quarrington", born=2014, hand=Side.LEFT, stature=1.49,
    level=Level.U13, team="kh-u15",
)  # fmt: skip
PETRA = Player(
    id="petra", name="Petra Langhorne", born=1993, hand=Side.LEFT, stature=1.70,
    level=Level.ADULT, team="kh-adults",
)  # fmt: skip
PLAYERS: tuple[Player, ...] = (RONJA, MILO, ILSE, PETRA)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixture:
    """A game played: who started, who (if anybody) went in at ``change`` s of period 2."""

    id: str
    day: date
    team: str
    opponent: str
    starter: str
    relief: str = ""
    change: float = 0.0
    shots: int = 27
    at_home: bool = True


FIXTURES: tuple[Fixture, ...] = (
    Fixture(id="demo-g01", day=date(2026, 9, 26), team="kh-u15", opponent="Harrow Lake",
            starter="ronja", shots=25),
    Fixture(id="demo-g02", day=date(2026, 10, 3), team="kh-u15", opponent="Pine Narrows",
            starter="milo", shots=22, at_home=False),
    Fixture(id="demo-g03", day=date(2026, 10, 10), team="kh-u15", opponent="Stonebridge",
            starter="ronja", shots=29),
    Fixture(id="demo-g04", day=date(2026, 10, 16), team="kh-adults", opponent="Eastferry",
            starter="petra", shots=31),
    Fixture(id="demo-g05", day=date(2026, 10, 17), team="kh-u15", opponent="Cold Spring Mills",
            starter="ronja", shots=24, at_home=False),
    Fixture(id="demo-g06", day=date(2026, 10, 31), team="kh-u15", opponent="Harrow Lake",
            starter="milo", relief="ronja", change=430.0, shots=30, at_home=False),
    Fixture(id="demo-g07", day=date(2026, 11, 6), team="kh-adults", opponent="Old Quarry",
            starter="petra", shots=27, at_home=False),
    Fixture(id="demo-g08", day=date(2026, 11, 7), team="kh-u15", opponent="Pine Narrows",
            starter="ronja", shots=26),
    Fixture(id="demo-g09", day=date(2026, 11, 14), team="kh-u15", opponent="Stonebridge",
            starter="ilse", shots=21),
    Fixture(id="demo-g10", day=date(2026, 11, 20), team="kh-adults", opponent="Eastferry",
            starter="petra", shots=29, at_home=False),
    Fixture(id="demo-g11", day=date(2026, 11, 21), team="kh-u15", opponent="Cold Spring Mills",
            starter="ronja", shots=27),
)  # fmt: skip
