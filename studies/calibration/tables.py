"""The published tables and open shot data behind the calibration, as places with weights.

Rows of game data are read where they lie (``../shared/data`` beside the repository) and never
copied: the outputs hold counts and rates only.
"""

from __future__ import annotations

import csv
import itertools
from collections import defaultdict
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from tendline.base import fact_table

ROOT = Path(__file__).resolve().parents[2]
OPEN_DATA = ROOT.parent / "shared" / "data"
FOOT = 0.3048
LAST_ROW = 21  # m; shots recorded from farther hold coding errors

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Places:
    """Places of shots on goal with weights (n,); y is folded to the positive side."""

    x: Floats
    y: Floats
    weight: Floats

    @property
    def distance(self) -> Floats:
        return np.hypot(self.x, self.y)

    @property
    def angle(self) -> Floats:
        """Return degrees off the rink's long axis, 0 straight in front."""
        return np.degrees(np.arctan2(self.y, self.x))


@dataclass(frozen=True)
class Bands:
    """Shots and goals in bands of one measure (``distance`` m or ``angle`` deg)."""

    name: str
    measure: str
    edges: tuple[float, ...]
    shots: tuple[int, ...]
    goals: tuple[int, ...]

    @property
    def labels(self) -> tuple[str, ...]:
        unit = "m" if self.measure == "distance" else "deg"
        pairs = zip(self.edges[:-1], self.edges[1:], strict=True)
        return tuple(f"{low:.4g}-{high:.4g} {unit}" for low, high in pairs)

    @property
    def rate(self) -> Floats:
        return np.array(self.goals) / np.array(self.shots)


def wilson(goals: int, shots: int) -> tuple[float, float]:
    """Return the 95 % interval of a rate (Wilson 1927)."""
    if not shots:
        return 0.0, 1.0
    z = 1.959964
    p, n = goals / shots, shots
    middle = (p + z * z / (2 * n)) / (1 + z * z / n)
    half = z * ((p * (1 - p) + z * z / (4 * n)) / n) ** 0.5 / (1 + z * z / n)
    return max(middle - half, 0.0), min(middle + half, 1.0)


def _folded(cells: dict[tuple[float, float], float]) -> Places:
    keys = sorted(cells)
    return Places(
        np.array([k[0] for k in keys]),
        np.array([k[1] for k in keys]),
        np.array([cells[k] for k in keys]),
    )


def men_places() -> Places:
    """Return where men's shots on goal came from (nh11, sums per square metre, four per cell)."""
    cells: dict[tuple[float, float], float] = defaultdict(float)
    with (OPEN_DATA / "shot_grid_1m.csv").open() as file:
        for row in csv.DictReader(file):
            x, y, shots = int(row["x_from_m"]), int(row["y_from_m"]), int(row["on_goal"])
            if row["pool"] != "nh11" or not shots or not 0 <= x <= LAST_ROW:
                continue
            for dx in (0.25, 0.75):
                for dy in (0.25, 0.75):
                    cells[(x + dx, abs(y + dy))] += shots / 4
    return _folded(cells)


def women_shots() -> tuple[Places, Bands, Bands]:
    """Return places of women's shots on goal (pw24) and their bands by distance and by angle."""
    cells: dict[tuple[float, float], float] = defaultdict(float)
    rows = []
    with (OPEN_DATA / "shots_pw24.csv").open() as file:
        for row in csv.DictReader(file):
            if row["empty_net"] == "1" or row["penalty_shot"] == "1":
                continue
            x, y = float(row["x_m"]), abs(float(row["y_m"]))
            rows.append((x, y, row["outcome"] == "goal"))
            if 0.0 <= x <= LAST_ROW + 1:
                cells[(np.floor(x * 2) / 2 + 0.25, np.floor(y * 2) / 2 + 0.25)] += 1
    table = np.array(rows, float)
    front = table[table[:, 0] >= 0]
    away = np.hypot(front[:, 0], front[:, 1])
    round_ = np.degrees(np.arctan2(front[:, 1], front[:, 0]))
    feet = tuple(FOOT * f for f in (*range(0, 61, 5), 70))
    tens = tuple(float(d) for d in range(0, 91, 10))
    return (
        _folded(cells),
        _count(
            "women's league shots on goal (pw24), by distance", "distance", away, front[:, 2], feet
        ),
        _count("women's league shots on goal (pw24), by angle", "angle", round_, front[:, 2], tens),
    )


def _count(
    name: str, measure: str, values: Floats, goal: Floats, edges: tuple[float, ...]
) -> Bands:
    shots, goals = [], []
    for low, high in itertools.pairwise(edges):
        inside = (values >= low) & ((values < high) | ((high == 90.0) & (values == 90.0)))
        shots.append(int(inside.sum()))
        goals.append(int(goal[inside].sum()))
    return Bands(name, measure, edges, tuple(shots), tuple(goals))


def men_bands() -> tuple[Bands, Bands]:
    """Return the published men's even-strength tables (NHL 2011-12) by distance and by angle."""
    d, a = fact_table("game.ev_by_distance"), fact_table("game.ev_by_angle")
    return (
        Bands(
            "men's shots on goal (NHL 2011-12), by distance",
            "distance",
            tuple(d["edge_m"]),
            tuple(d["shots"]),
            tuple(d["goals"]),
        ),
        Bands(
            "men's shots on goal (NHL 2011-12), by angle",
            "angle",
            tuple(map(float, a["edge_deg"])),
            tuple(a["shots"]),
            tuple(a["goals"]),
        ),
    )


def shot_table(table: str, pool: str, base: str) -> dict[str, tuple[int, int]]:
    """Return cell -> (shots, goals) of one of the open sums in ``shot_tables.csv``."""
    with (OPEN_DATA / "shot_tables.csv").open() as file:
        return {
            row["cell"]: (int(row["shots"]), int(row["goals"]))
            for row in csv.DictReader(file)
            if (row["table"], row["pool"], row["base"]) == (table, pool, base)
        }


def share_on_goal(pool: str) -> tuple[tuple[float, ...], Floats]:
    """Return band edges (m) and the share of unblocked shots that were on goal, by distance."""
    hit, all_ = (shot_table("distance_5ft", pool, base) for base in ("on goal", "unblocked"))
    edges = tuple(FOOT * f for f in (*range(0, 61, 5), 70))
    return edges, np.array([hit[cell][0] / all_[cell][0] for cell in all_])


def tracked_flights() -> tuple[Floats, Floats]:
    """Return distance (m) and time to the goal (s) of men's shots with a measured speed (st23)."""
    rows = []
    with (OPEN_DATA / "tracked_events_st23.csv").open() as file:
        for row in csv.DictReader(file):
            if row["event"] == "shot" and row["competition"] == "men" and row["shot_speed_ms"]:
                away = float(np.hypot(float(row["x_m"]), float(row["y_m"])))
                rows.append((away, away / float(row["shot_speed_ms"])))
    table = np.array(rows)
    return table[:, 0], table[:, 1]


def by_band(places: Places, bands: Bands, value: Floats) -> Floats:
    """Return the mean of ``value`` over the places in each band, weighted by shots."""
    return mean_in(places, getattr(places, bands.measure), bands.edges, value)


def mean_in(places: Places, measure: Floats, edges: tuple[float, ...], value: Floats) -> Floats:
    """Return the weighted mean of ``value`` between successive ``edges``."""
    means = []
    for low, high in itertools.pairwise(edges):
        inside = (measure >= low) & (measure < high) & np.isfinite(value)
        means.append(float(np.average(value[inside], weights=places.weight[inside])))
    return np.array(means)
