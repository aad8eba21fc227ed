"""Fit the few global numbers of the save and of ordinary play on published tables.

    python studies/calibration/fit.py            fit, write fitted.toml and reference/calibration

Fit rows: every second band of the men's even-strength tables by distance (NHL 2011-12) and by
angle; the save percentage of clean shots and the share of shots that are not clean; every second
band of the share of unblocked shots that were on goal (men, 2021-24). Everything else is kept for
checking (``report.py``). Weak log-normal priors keep each number where it can be believed and are
part of the stated errors. Three seeded starts; the best is kept and all three are printed.
"""

from __future__ import annotations

import argparse
import dataclasses
import sys
import time
from collections.abc import Mapping
from pathlib import Path

import numpy as np
from scipy.optimize import least_squares

sys.path.insert(0, str(Path(__file__).resolve().parent))
import tables
from tables import Floats

from tendline.base import Level, build, fact_table
from tendline.ice import goal
from tendline.shot import ShotParameters, shot_parameters
from tendline.shot.constants import LIMB_SURENESS
from tendline.shot.ordinary import OrdinaryChance, OrdinaryPlay, ordinary_chance
from tendline.sight import mouth_grid

SEED = 20251125
FITTED_FILE = tables.ROOT / "src" / "tendline" / "shot" / "fitted.toml"
OUTPUT = tables.ROOT / "reference" / "calibration"
GRID = mouth_grid(goal(), 19, 13)

# name: (prior middle, prior spread; in logarithms except for off_spot_sharp)
PRIORS = {
    "reaction": (0.15, 0.25),
    "reaction_spread": (0.08, 0.4),
    "aim_error": (0.03, 0.3),
    "aim_floor": (0.25, 0.5),
    "hidden": (0.05, 0.7),
    "sureness": (1.0, 0.4),
    "off_spot_near": (0.35, 0.5),
    "off_spot_far": (0.03, 0.7),
    "off_spot_scale": (5.0, 0.4),
    "off_spot_sharp": (0.0, 0.15),
}
SHOT_NAMES = ("reaction", "reaction_spread", "aim_error", "aim_floor", "hidden", "sureness")
MODEL_ERROR = 0.004  # goal chance: bands with many thousand shots are not believed closer
CLEAN_SHARE, CLEAN_SHARE_ERROR = 0.85, 0.04  # "80-90 % of the shots faced" (SQP)
CLEAN_ERROR = 0.006
ON_GOAL_ERROR = 0.05
FIT_BANDS = slice(0, None, 2)


def numbers_of(theta: Floats) -> dict[str, float]:
    """Return the parameters of a point of the search."""
    named = dict(zip(PRIORS, theta, strict=True))
    return {k: float(v) if k == "off_spot_sharp" else float(np.exp(v)) for k, v in named.items()}


def centre() -> tuple[Floats, Floats]:
    """Return the priors' middles and spreads in the search's scale."""
    middle = [m if k == "off_spot_sharp" else np.log(m) for k, (m, _) in PRIORS.items()]
    return np.array(middle), np.array([s for _, s in PRIORS.values()])


def parameters_from(numbers: Mapping[str, float]) -> tuple[ShotParameters, OrdinaryPlay]:
    """Return men's elite parameters and ordinary play with the fitted numbers put in."""
    shot = {k: numbers[k] for k in SHOT_NAMES if k != "sureness"}
    sure = tuple(numbers["sureness"] * one.value for one in LIMB_SURENESS)
    play = {k: v for k, v in numbers.items() if k not in SHOT_NAMES}
    return (
        dataclasses.replace(shot_parameters(Level.MEN_ELITE), limb_sureness=sure, **shot),
        dataclasses.replace(build(OrdinaryPlay), **play),
    )


def predict(places: tables.Places, numbers: Mapping[str, float]) -> OrdinaryChance:
    """Return the goal chances of men's shots on goal from all places."""
    parameters, play = parameters_from(numbers)
    return ordinary_chance(
        places.x, places.y, parameters=parameters, play=play, grid=GRID, threads=2
    )


def clean_shots(places: tables.Places, found: OrdinaryChance) -> tuple[float, float]:
    """Return the goal chance of shots met set, and the share of shots met set."""
    known = np.isfinite(found.set_chance)
    met = places.weight[known] * (1.0 - found.off_spot_share[known])
    return (
        float(np.average(found.set_chance[known], weights=met)),
        float(met.sum() / places.weight[known].sum()),
    )


class Fit:
    """The fit rows and the residuals of a point of the search against them."""

    def __init__(self) -> None:
        self.places = tables.men_places()
        self.distance, self.angle = tables.men_bands()
        self.edges, self.on_goal = tables.share_on_goal("nh21")
        self.clean = 1.0 - float(fact_table("game.clean_shot_sv")["v"])
        self.middle, self.spread = centre()

    def rows(self, found: OrdinaryChance) -> list[tuple[str, float, float, float]]:
        """Return all rows (name, observed, predicted, error) of the fit."""
        made = []
        for bands in (self.distance, self.angle):
            predicted = tables.by_band(self.places, bands, found.chance)
            chosen = zip(bands.labels, bands.rate, predicted, bands.shots, strict=True)
            for label, seen, model, shots in list(chosen)[FIT_BANDS]:
                error = float(np.sqrt(seen * (1 - seen) / shots + MODEL_ERROR**2))
                made.append((f"goal chance, {bands.measure} {label}", seen, model, error))
        clean, share = clean_shots(self.places, found)
        made.append(("goal chance of clean shots", self.clean, clean, CLEAN_ERROR))
        made.append(("share of clean shots", CLEAN_SHARE, share, CLEAN_SHARE_ERROR))
        hits = tables.mean_in(self.places, self.places.distance, self.edges, found.on_net)
        for number in range(len(hits))[FIT_BANDS]:
            label = f"{self.edges[number]:.4g}-{self.edges[number + 1]:.4g} m"
            made.append(
                (
                    f"share of unblocked shots on goal, {label}",
                    float(self.on_goal[number]),
                    float(hits[number]),
                    ON_GOAL_ERROR,
                )
            )
        return made

    def residuals(self, theta: Floats) -> Floats:
        rows = self.rows(predict(self.places, numbers_of(theta)))
        misfit = [(model - seen) / error for _, seen, model, error in rows]
        return np.concatenate([misfit, (theta - self.middle) / self.spread])

    def search(self, start: Floats) -> tuple[float, Floats, Floats]:
        """Return cost, point and standard errors of one search, in steps of a tenth spread."""
        shift = 5.0  # keeps every variable away from nought, where relative steps vanish

        def point(u: Floats) -> Floats:
            return self.middle + (u - shift) * self.spread

        found = least_squares(
            lambda u: self.residuals(point(u)),
            shift + (start - self.middle) / self.spread,
            method="trf",
            diff_step=0.02,
            max_nfev=30,
        )
        covariance = np.linalg.inv(found.jac.T @ found.jac)
        return float(found.cost), point(found.x), np.sqrt(np.diag(covariance)) * self.spread


def write(fit: Fit, theta: Floats, errors: Floats, cost: float) -> None:
    """Write the package's fitted numbers and the raw rows behind them."""
    numbers = numbers_of(theta)
    spread = {
        k: float(e) if k == "off_spot_sharp" else float(e * numbers[k])
        for k, e in zip(PRIORS, errors, strict=True)
    }
    lines = [
        "# Written by studies/calibration/fit.py; do not edit by hand.",
        "source = \"studies/calibration: men's even-strength shots on goal NHL 2011-12 by distance "
        "and angle (every second band), clean shots (SQP), share of unblocked shots on goal "
        '(men 2021-24)"',
        "",
        "[fitted]",
        *(f"{k} = {{ value = {numbers[k]:.5g}, error = {spread[k]:.3g} }}" for k in PRIORS),
        "",
    ]
    FITTED_FILE.write_text("\n".join(lines))
    OUTPUT.mkdir(parents=True, exist_ok=True)
    with (OUTPUT / "fit_rows.csv").open("w") as file:
        file.write("row,observed,predicted,error\n")
        for name, seen, model, error in fit.rows(predict(fit.places, numbers)):
            file.write(f'"{name}",{seen:.5f},{model:.5f},{error:.5f}\n')
    with (OUTPUT / "fit_numbers.csv").open("w") as file:
        file.write("name,prior,value,standard_error\n")
        for k, (prior, _) in PRIORS.items():
            file.write(f"{k},{prior:g},{numbers[k]:.5g},{spread[k]:.3g}\n")
        file.write(f"cost,,{cost:.4f},\n")


def main() -> int:
    """Fit from three starts, print them, write the best."""
    argparse.ArgumentParser(description=__doc__.splitlines()[0]).parse_args()
    if not tables.OPEN_DATA.is_dir():
        sys.exit(
            "The calibration needs the open shot data in ../shared/data beside the repository."
        )
    fit = Fit()
    rng = np.random.default_rng(SEED)
    starts = [fit.middle, *(fit.middle + 0.7 * fit.spread * rng.standard_normal((2, len(PRIORS))))]
    best = None
    for number, start in enumerate(starts, 1):
        begun = time.monotonic()
        cost, theta, errors = fit.search(start)
        print(f"start {number}: cost {cost:.3f} in {time.monotonic() - begun:.0f} s", flush=True)
        if best is None or cost < best[0]:
            best = (cost, theta, errors)
        for k, v in numbers_of(theta).items():
            print(f"  {k:16s} {v:.4f}")
    assert best is not None
    write(fit, best[1], best[2], best[0])
    print(f"wrote {FITTED_FILE.relative_to(tables.ROOT)} and {OUTPUT.relative_to(tables.ROOT)}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
