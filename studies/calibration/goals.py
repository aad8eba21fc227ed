"""Checks of the goal chance against game tables: bands, areas, clean shots, shots on goal."""

from __future__ import annotations

import numpy as np
import tables
from check import Check, Role, near, sure_value
from fit import CLEAN_ERROR, CLEAN_SHARE, CLEAN_SHARE_ERROR, GRID, Fit, clean_shots

from tendline import ice
from tendline.base import Level
from tendline.shot import OrdinaryChance, ordinary_chance

CLOSE = 0.015  # a band counts as met within the data's interval or 1.5 points of it


def band_checks(
    group: str,
    places: tables.Places,
    bands: tables.Bands,
    chance: np.ndarray,
    source: str,
    fitted: slice | None = None,
) -> list[Check]:
    """Return one row per band: inside the 95 % interval of the data or within 1.5 points of it."""
    ours = tables.by_band(places, bands, chance)
    used = set(range(len(ours))[fitted]) if fitted is not None else set()
    made = []
    for n, (label, shots, goals) in enumerate(
        zip(bands.labels, bands.shots, bands.goals, strict=True)
    ):
        low, high = tables.wilson(goals, shots)
        inside = low <= ours[n] <= high
        made.append(
            Check(
                group,
                label,
                float(ours[n]),
                goals / shots,
                low - CLOSE,
                high + CLOSE,
                "probability",
                f"{source}, {shots} shots",
                Role.FITTED if n in used else Role.CHECKED,
                f"95 % interval {low:.3f} to {high:.3f}{'' if inside else '; ours outside it'}",
            )
        )
    return made


def all_goals() -> tuple[list[Check], dict[str, object]]:
    """Return every check on goal chances and what the plots need."""
    fit = Fit()
    men = ordinary_chance(fit.places.x, fit.places.y, grid=GRID, threads=2)
    women_places, by_distance, by_angle = tables.women_shots()
    women = ordinary_chance(
        women_places.x, women_places.y, level=Level.WOMEN_ELITE, grid=GRID, threads=2
    )
    every_second = slice(0, None, 2)
    nhl, league = "NHL 2011-12, even strength", "women's league pw24"
    made = [
        *band_checks("men, by distance", fit.places, fit.distance, men.chance, nhl, every_second),
        *band_checks("men, by angle", fit.places, fit.angle, men.chance, nhl, every_second),
        *band_checks("women, by distance", women_places, by_distance, women.chance, league),
        *band_checks("women, by angle", women_places, by_angle, women.chance, league),
        *areas(fit.places, men),
        *clean(fit, men),
        *on_goal(fit, men),
    ]
    plots = {
        "men": fit.places,
        "men_chance": men,
        "men_bands": (fit.distance, fit.angle),
        "women": women_places,
        "women_chance": women,
        "women_bands": (by_distance, by_angle),
    }
    return made, plots


def areas(places: tables.Places, found: OrdinaryChance) -> list[Check]:
    """Return save percentages inside and outside named areas (even strength)."""
    rink = ice.rink()
    plate = np.array(
        [ice.inside_home_plate(rink, x, y) for x, y in zip(places.x, places.y, strict=True)]
    )
    foot = tables.FOOT
    slot = (places.x < 20 * foot) & (places.y < 9 * foot)
    far = places.distance > 45 * foot
    known = np.isfinite(found.chance)
    made = []
    for name, where, path in (
        ("inside home plate", plate, "home_plate_sv"),
        ("outside home plate", ~plate, "outside_home_plate_sv"),
        ("inner slot", slot, "inner_slot_sv"),
        ("beyond 45 ft", far, "beyond_45ft_sv"),
    ):
        inside = where & known
        ours = 1 - np.average(found.chance[inside], weights=places.weight[inside])
        made.append(
            near(
                "areas",
                f"save percentage {name}",
                ours,
                sure_value(f"game.{path}"),
                CLOSE,
                "share",
                "NHL 2011-12 (NHL1112)",
                note="the areas cut the same shots as the bands, across fitted ones and others",
            )
        )
    ours = 1 - np.average(found.chance[known], weights=places.weight[known])
    made.append(
        near(
            "areas",
            "save percentage of all shots",
            ours,
            sure_value("game.nhl_ev_sv"),
            0.006,
            "share",
            "NHL 2011-12",
            Role.SHOWN,
            "half of these shots are in fitted bands, which leaves this little room",
        )
    )
    return made


def clean(fit: Fit, found: OrdinaryChance) -> list[Check]:
    """Return shots met set and shots met off the spot."""
    chance, share = clean_shots(fit.places, found)
    known = np.isfinite(found.chance)
    weight = fit.places.weight[known] * found.off_spot_share[known]
    off = np.average(np.fmax(found.off_spot_chance, found.set_chance)[known], weights=weight)
    every = 1 - sure_value("game.nhl_ev_sv")
    implied = (every - CLEAN_SHARE * fit.clean) / (1 - CLEAN_SHARE)
    return [
        near(
            "set or moving",
            "goal chance of clean shots (set)",
            chance,
            fit.clean,
            2 * CLEAN_ERROR,
            "probability",
            "SQP, 28,398 shots",
            Role.FITTED,
        ),
        near(
            "set or moving",
            "share of clean shots",
            share,
            CLEAN_SHARE,
            2 * CLEAN_SHARE_ERROR,
            "share",
            "SQP: 80-90 % of the shots faced",
            Role.FITTED,
        ),
        Check(
            "set or moving",
            "goal chance when not set",
            float(off),
            implied,
            0.2,
            0.5,
            "probability",
            "SQP and the overall rate imply 0.25 (0.19 to 0.33 for 80 to 90 %)",
            Role.SHOWN,
            "implied by fitted rows; ours are fewer and worse",
        ),
        near(
            "set or moving",
            "not set over set",
            float(off) / chance,
            implied / fit.clean,
            4.0,
            "ratio",
            "SQP",
            Role.SHOWN,
            "implied by fitted rows",
        ),
    ]


def on_goal(fit: Fit, found: OrdinaryChance) -> list[Check]:
    """Return the share of unblocked shots that are on goal."""
    hits = tables.mean_in(fit.places, fit.places.distance, fit.edges, found.on_net)
    made = []
    for n, (ours, theirs) in enumerate(zip(hits, fit.on_goal, strict=True)):
        label = f"{fit.edges[n]:.3g}-{fit.edges[n + 1]:.3g} m"
        made.append(
            near(
                "shots on goal",
                f"share of unblocked shots on goal, {label}",
                ours,
                theirs,
                0.10,
                "share",
                "men 2021-24 (nh21)",
                Role.FITTED if n % 2 == 0 else Role.CHECKED,
            )
        )
    return made
