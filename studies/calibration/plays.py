"""Checks of the read against tracked games: depth, passes across, breakaways."""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass, replace

import numpy as np
import tables
from check import Check, Role, near, sure_value

from tendline import body, ice
from tendline.base import InputError, Level, Side, fact_table
from tendline.motion import motion_parameters
from tendline.play import (
    Attacker,
    Defender,
    Goaltender,
    OptionKind,
    Situation,
    play_parameters,
    read,
)

LEVEL = Level.MEN_ELITE
HER = Goaltender(
    build=body.build_goaltender(stature=1.84, level=LEVEL), motion=motion_parameters(LEVEL)
)
PARAMETERS = play_parameters(LEVEL)
DISTANCES = ((0.0, 6.1), (6.1, 10.7), (10.7, 15.2), (15.2, 25.0))
"""Distances of the puck from the goal [m]: 20, 35 and 50 ft, as the open tables have them."""
OTHER_SETS = (
    (
        "men's frames mp2x, on the power play, all the time (the cleanest places)",
        "goaltender_position_frames_mp2x.csv", "along",
        ("puck 0-20 ft", "puck 20-35 ft", "puck 35-50 ft", "puck 50-70 ft"),
    ),
    (
        "women's power plays pp22, from broadcast pictures, at every event",
        "goaltender_position_pp22.csv", "along_cor",
        ("puck 0-20 ft", "puck 20-35 ft", "puck 35-50 ft", "puck 50-80 ft"),
    ),
)  # fmt: skip
"""Other measured goaltenders: what, file, measure, and the subsets by distance."""


@dataclass(frozen=True)
class TrackedShots:
    """One row per tracked shot: puck's distance, our depth, offset and band, hers (corrected).

    Depths count along the line from the goal's centre to the puck, offsets from it [m].
    """

    distance: np.ndarray
    ours: np.ndarray
    theirs: np.ndarray
    our_offset: np.ndarray
    their_offset: np.ndarray
    band_low: np.ndarray
    band_high: np.ndarray
    left_out: int


def tracked_shots() -> TrackedShots:
    """Return the engine's spot for every unblocked shot of the tracked men's tournament."""
    rink = ice.rink(ice.RuleSet.IIHF)
    rows, left_out = [], 0
    with (tables.OPEN_DATA / "tracked_events_st23.csv").open() as file:
        for row in csv.DictReader(file):
            if row["event"] != "shot" or row["competition"] != "men" or row["result"] == "blocked":
                continue
            try:
                rows.append(_one(rink, row))
            except (ValueError, InputError):  # a place missing, off the ice or inside the net
                left_out += 1
    table = np.array([one for one in rows if one], float)
    return TrackedShots(*table.T, left_out=left_out)


def _one(rink: ice.Rink, row: dict[str, str]) -> tuple[float, ...] | None:
    x, y = float(row["x_m"]), float(row["y_m"])
    gx = float(row["gt_x_m"]) - float(row["gt_ref_dx_m"])
    gy = float(row["gt_y_m"]) - float(row["gt_ref_dy_m"])
    if not 1.5 < x < 21.0:
        return None
    mates = sorted(_people(row, "a"), key=lambda p: math.hypot(p[0] - x, p[1] - y))[1:]
    foes = [p for p in _people(row, "d") if math.hypot(p[0] - x, p[1] - y) > 0.3]
    found = read(
        Situation(
            rink=rink,
            carrier=Attacker(name="F1", x=x, y=y),
            mates=tuple(Attacker(name=f"F{n}", x=a, y=b) for n, (a, b) in enumerate(mates, 2)),
            defenders=tuple(Defender(name=f"D{n}", x=a, y=b) for n, (a, b) in enumerate(foes, 1)),
            level=LEVEL,
        ),
        HER,
        PARAMETERS,
        detail=False,
    )
    away = math.hypot(x, y)
    return (
        away, found.depth, (gx * x + gy * y) / away, found.offset, (gy * x - gx * y) / away,
        found.band.low, found.band.high,
    )  # fmt: skip


def _people(row: dict[str, str], side: str) -> list[tuple[float, float]]:
    all_ = [
        (float(row[f"{side}{n}_x_m"]), float(row[f"{side}{n}_y_m"]))
        for n in range(1, 7)
        if row[f"{side}{n}_x_m"]
    ]
    return [p for p in all_ if -3.0 < p[0] < 20.0 and abs(p[1]) < 14.5]


def measured_medians(file: str, measure: str, subsets: tuple[str, ...]) -> list[float]:
    """Return the median depth along the line [m] of another measured set, by distance."""
    with (tables.OPEN_DATA / file).open() as rows:
        found = {
            row["subset"]: float(row["p50"])
            for row in csv.DictReader(rows)
            if row["measure"] == measure
        }
    return [found[one] for one in subsets]


def depth_checks(shots: TrackedShots) -> list[Check]:
    """Return medians of depth by distance, their order, and the offset from the line."""
    source = f"tracked men's tournament (st23), {len(shots.ours)} unblocked shots"
    made, medians = [], []
    for low, high in DISTANCES:
        inside = (shots.distance >= low) & (shots.distance < high)
        medians.append((np.median(shots.ours[inside]), np.median(shots.theirs[inside])))
    sets = [(source, [theirs for _, theirs in medians])]
    sets += [(name, measured_medians(*where)) for name, *where in OTHER_SETS]
    for name, theirs in sets:
        for (low, high), (ours, _), median in zip(DISTANCES, medians, theirs, strict=True):
            made.append(
                near(
                    "depth",
                    f"median depth, puck {low:g}-{high:g} m away",
                    ours,
                    median,
                    0.4,
                    "m",
                    name,
                    note="ours for the shots of st23; the sets differ from each other by up to "
                    "0.6 m, their leftover error is about 0.3 m",
                )
            )
    for low, high in DISTANCES:
        inside = (shots.distance >= low) & (shots.distance < high)
        band = np.median(shots.band_low[inside]), np.median(shots.band_high[inside])
        theirs = float(np.median(shots.theirs[inside]))
        made.append(
            near(
                "depth",
                f"nearest depth in the engine's band, puck {low:g}-{high:g} m away",
                float(np.clip(theirs, *band)),
                theirs,
                0.15,
                "m",
                source,
                note=f"band {band[0]:.2f} to {band[1]:.2f} m: half a goal in 100 shots or less",
            )
        )
    near_far = medians[-1][0] - medians[0][0]
    made.append(
        Check(
            "depth",
            "depth given up from the farthest to the nearest band",
            near_far,
            medians[-1][1] - medians[0][1],
            0.1,
            2.0,
            "m",
            source,
            note="she gives depth up as the puck comes nearer",
        )
    )
    made.append(
        near(
            "depth",
            "median depth of all shots",
            float(np.median(shots.ours)),
            float(np.median(shots.theirs)),
            0.4,
            "m",
            source,
        )
    )
    made.append(
        Check(
            "depth",
            "median distance off the puck's line",
            float(np.median(np.abs(shots.our_offset))),
            float(np.median(np.abs(shots.their_offset))),
            0.0,
            float(np.median(np.abs(shots.their_offset))),
            "m",
            source,
            Role.SHOWN,
            "theirs holds the sensors' error and being off the spot, so anything less would do",
        )
    )
    return made


def attack(
    carrier: tuple[float, float], mate: tuple[float, float] | None, speed: float = 0.0
) -> Situation:
    """Return a carrier, perhaps with a mate on the other side and one defender behind the lane."""
    away = math.hypot(*carrier)
    return Situation(
        rink=ice.rink(),
        carrier=Attacker(
            name="F1",
            x=carrier[0],
            y=carrier[1],
            vx=-speed * carrier[0] / away,
            vy=-speed * carrier[1] / away,
        ),
        mates=() if mate is None else (Attacker(name="F2", x=mate[0], y=mate[1], hand=Side.RIGHT),),
        level=LEVEL,
    )


def pass_checks() -> list[Check]:
    """Return a one-timer after a pass across over a shot at once, against event data."""
    pairs = [
        ((8, 5), (5, -3)),
        ((6, 4), (4, -3)),
        ((9, -4), (6, 3.5)),
        ((7, 6), (7, -5)),
        ((10, 3), (7, -4)),
        ((6, -6), (5, 4)),
    ]
    ratios = []
    for carrier, mate in pairs:
        found = read(attack(carrier, mate), HER, PARAMETERS, detail=False)
        by_kind = {one.option.kind: one.goal_chance for one in found.options}
        ratios.append(by_kind[OptionKind.ONE_TIMER] / by_kind[OptionKind.SHOOT])
    rates = {pool: one_timer_ratio(pool) for pool in ("ev", "jm19")}
    claim = float(fact_table("game.midline_pass_shooting")["v"]) / 0.085
    return [
        Check(
            "pass across",
            "one-timer after a pass across over a shot at once",
            float(np.median(ratios)),
            float(np.sqrt(rates["ev"][0] * rates["jm19"][0])),
            min(low for _, low, _ in rates.values()),
            max(high for _, _, high in rates.values()),
            "ratio",
            "event data, crossing pass and one-timer over neither, on goal: "
            f"{rates['ev'][0]:.1f} (women, ev) and {rates['jm19'][0]:.1f} (men's juniors, jm19)",
            note=f"within their 95 % intervals; MIDLINE15 claims {claim:.1f} (weak, not used)",
        ),
    ]


def one_timer_ratio(pool: str) -> tuple[float, float, float]:
    """Return the ratio of goal rates, and its 95 % interval (log scale, Katz)."""
    cells = tables.shot_table("crossing_by_one_timer", pool, "on goal")
    (m, a), (n, b) = cells["crossing + one-timer"], cells["neither"]
    ratio = (a / m) / (b / n)
    spread = math.exp(1.96 * math.sqrt(1 / a - 1 / m + 1 / b - 1 / n))
    return ratio, ratio / spread, ratio * spread


def lone_cost(*, chased: bool) -> float:
    """Return the median cost of a lone carrier at speed, perhaps with somebody behind him."""
    costs = []
    for out, speed in ((9.0, 6.0), (7.0, 6.0), (5.6, 5.0)):
        moment = attack((out, 0.0), None, speed)
        if chased:
            chaser = Defender(name="D1", x=out + 2.5, y=0.0, vx=-speed)
            moment = replace(moment, defenders=(chaser,))
        found = read(moment, HER, PARAMETERS, detail=False)
        costs.append(max(one.loss for one in found.options))
    return float(np.median(costs))


def breakaway_checks() -> list[Check]:
    """Return a lone carrier coming in: the shoot-out (fitted) and the breakaway (not sure)."""
    alone = float(fact_table("game.breakaway_goal")["v"])
    shootout = sure_value("game.shootout_goal")
    return [
        near(
            "breakaway", "goal chance of a lone carrier at speed, nobody near",
            lone_cost(chased=False), shootout, 0.03, "probability", "ARCTIC11, shoot-out",
            Role.FITTED,
            "play.deke_open was fitted on it (studies/breakaway.py)",
        ),
        near(
            "breakaway", "goal chance of a lone carrier at speed, chased", lone_cost(chased=True),
            alone, 0.06, "probability", "ARCTIC11, breakaway: small sample, not sure", Role.SHOWN,
            "per attempt; not counted as a check because the source is weak",
        ),
    ]  # fmt: skip


def all_plays() -> tuple[list[Check], TrackedShots]:
    """Return every check on reads, and the tracked shots for the plot."""
    shots = tracked_shots()
    return [*depth_checks(shots), *pass_checks(), *breakaway_checks()], shots


__all__ = ["Role", "TrackedShots", "all_plays"]
