"""A small library and a few evenings for the tests of practice; people and drills are invented."""

from datetime import date, time

from tendline.base import Level, ScoringSituation
from tendline.practice import (
    DrillFacts,
    IceSlot,
    Load,
    Need,
    Order,
    PlanKind,
    Request,
    Roster,
    RosterGoaltender,
    Sides,
    Space,
)

ARC = DrillFacts(
    id="arc", name="Stop-and-set arc", minutes_low=4, minutes_high=6, work=5, rest=10,
    load=Load(hard_stops=1), area=(5, 5), needs_net=False, people=1,
    themes=("movement", "angles"), situations=(ScoringSituation.CLEAR_SHOT,),
    sides=Sides.MIRRORED, order=Order.STOPS,
    objective_goaltender="Be still for one second at each mark",
    key_points=("arrive early", "feet stop", "stick first"),
)  # fmt: skip
LADDER = DrillFacts(
    id="ladder", name="Five-point ladder", minutes_low=5, minutes_high=5, work=25, rest=45,
    load=Load(hard_stops=8), area=(7, 4), needs_net=False, people=0, goaltenders_high=4,
    themes=("movement",), youngest=Level.U11, order=Order.STOPS, sides=Sides.BOTH,
)  # fmt: skip
SECOND = DrillFacts(
    id="second", name="Save, recover, second save", minutes_low=4, minutes_high=6, work=7, rest=25,
    load=Load(shots=2, drops=2, recoveries=1, hard_stops=1), area=(10, 8), needs_net=True,
    people=2, themes=("rebounds",), situations=(ScoringSituation.REBOUND,), youngest=Level.U11,
    sides=Sides.MIRRORED, order=Order.REBOUNDS, release_gap=3.0, second_save=True,
    moves=frozenset({"butterfly"}),
)  # fmt: skip
DROP = DrillFacts(
    id="drop", name="Drop and get up", minutes_low=4, minutes_high=5, work=6, rest=30,
    load=Load(drops=1, recoveries=1, hard_stops=1), area=(4, 4), needs_net=False, people=0,
    goaltenders_high=4, themes=("recovery", "rebounds"), situations=(ScoringSituation.REBOUND,),
    youngest=Level.U11, sides=Sides.MIRRORED, order=Order.REBOUNDS,
    moves=frozenset({"butterfly"}),
)  # fmt: skip
LINE = DrillFacts(
    id="line", name="Three-shot line", minutes_low=5, minutes_high=8, work=5, rest=1,
    load=Load(shots=3, drops=2), area=(20, 20), people=4, for_block=False, for_team=True,
    themes=("shots",), release_gap=1.6, order=Order.CLOSE,
)  # fmt: skip
LONG = DrillFacts(
    id="long", name="Long clear shots on an arc", minutes_low=5, minutes_high=8, work=3, rest=7,
    load=Load(shots=1, drops=0.3), area=(20, 20), people=4, nets_high=2, for_block=False,
    for_team=True, themes=("tracking",), situations=(ScoringSituation.CLEAR_SHOT,),
    order=Order.CLEAR_SHOTS, release_gap=10,
)  # fmt: skip
GAME = DrillFacts(
    id="game", name="Two against two below the dots", minutes_low=6, minutes_high=10, work=35,
    rest=25, load=Load(shots=3, drops=4, hard_stops=5), area=(12, 26), people=4, nets_high=2,
    for_block=False, for_team=True, themes=("rebounds", "reads"), choices=3, order=Order.CLOSE,
    situations=(ScoringSituation.NET_DRIVE, ScoringSituation.REBOUND), youngest=Level.U11,
    release_gap=6,
)  # fmt: skip
RUSH = DrillFacts(
    id="rush", name="Two against one", minutes_low=6, minutes_high=10, work=8, rest=22,
    load=Load(shots=1, drops=0.7, hard_stops=2), area=(26, 26), people=3, nets_high=2,
    for_block=False, for_team=True, themes=("rush",), choices=2, order=Order.LATERAL,
    situations=(ScoringSituation.ENTRY, ScoringSituation.EAST_WEST), youngest=Level.U11,
    release_gap=20,
)  # fmt: skip
DRIVE = DrillFacts(
    id="drive", name="Net drive, one against one", minutes_low=6, minutes_high=10, work=8, rest=16,
    load=Load(shots=1, drops=1, recoveries=1), area=(26, 26), people=2, nets_high=2,
    for_block=False, for_team=True, themes=("rush",), choices=2, order=Order.CLOSE,
    situations=(ScoringSituation.NET_DRIVE,), youngest=Level.U11, release_gap=20,
)  # fmt: skip

LIBRARY = (ARC, LADDER, SECOND, DROP, LINE, LONG, GAME, RUSH, DRIVE)

PATCH = Space(name="corner, 10 x 10 m", length=10, width=10, nets=0)
CORNER_WITH_NET = Space(name="one end, 10 x 10 m", length=10, width=10, nets=1)
FULL = Space(name="full ice", length=60, width=26, nets=2)
HALF = Space(name="half ice", length=28, width=26, nets=1)

IDA = RosterGoaltender(id="ida", name="Ida", level=Level.U15, game_shots=27.0)
BEA = RosterGoaltender(
    id="bea", name="Bea", level=Level.U15, game_shots=25.0,
    past=(Load(shots=30, drops=40, hard_stops=50), Load(shots=36, drops=44, hard_stops=54)),
)  # fmt: skip
CYN = RosterGoaltender(id="cyn", name="Cyn", level=Level.U15)
DOT = RosterGoaltender(id="dot", name="Dot", level=Level.U15)

STAGE = Need(name="recovery and rebounds", themes=("recovery", "rebounds"), is_stage=True)
NOT_SET = Need(
    name="set before the shot", themes=("movement",),
    situations=(ScoringSituation.CLEAR_SHOT,), count=5, of=19, sure="few goals: could be chance",
)  # fmt: skip

DAY = date(2026, 1, 13)
START = time(18, 0)


def evening(*, minutes=55, space=FULL, block_space=PATCH):
    return IceSlot(day=DAY, start=START, minutes=minutes, space=space, block_space=block_space)


def block_request(**changes):
    given = {
        "kind": PlanKind.BLOCK,
        "roster": Roster(goaltenders=(IDA, BEA), skaters=15, helpers=1),
        "slot": evening(minutes=10),
        "team": "Invented Town U15",
        "stage": "skills",
        "needs": (STAGE, NOT_SET),
    }
    return Request(**{**given, **changes})


def practice_request(**changes):
    return block_request(**{"kind": PlanKind.PRACTICE, "slot": evening(), **changes})
