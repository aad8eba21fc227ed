"""Checks of geometry, bodies, timing and flight against rule books, tables and measurements."""

from __future__ import annotations

import math

import numpy as np
import tables
import trimesh
from check import Check, Role, near, sure_value

from tendline import body, ice
from tendline.base import Level, Sex, Side, fact_table
from tendline.body import Pose, Stance
from tendline.motion import free_fall_time, motion_parameters
from tendline.shot import (
    OrdinaryPlay,
    flight,
    flight_time,
    puck_speed,
    rebounds,
    shot_parameters,
    usual_build,
)
from tendline.shot.constants import ADULT_REACTION_AGE, age_ratio
from tendline.shot.parameters import drag_per_metre
from tendline.sight import cover, exact_cover, mouth_grid
from tendline.sight.cover import puck_depth_inside

GOAL = ice.goal()
GRID = mouth_grid(GOAL)
FEET = 0.3048
SEED = 20251125
EACH_STANCE = 20


def geometry() -> list[Check]:
    """Return opening angles of the goal and the table of depths, from rule-book lengths."""
    iihf = ice.goal(ice.RuleSet.IIHF)
    rows = [
        ("slot, 3 m out", 3.0, 0.0, 33.92),
        ("5 m straight", 5.0, 0.0, 20.74),
        ("10 m straight", 10.0, 0.0, 10.46),
        ("NHL end-zone spot", 6.096, 6.706, 7.81),
        ("IIHF end-zone spot", 6.0, 7.0, 7.43),
        ("blue line, middle", 19.507, 0.0, 5.37),
        ("1 m out, 3 m aside", 1.0, 3.0, 11.29),
    ]
    made = [
        near(
            "geometry",
            f"opening angle of the goal, {name}",
            math.degrees(float(ice.opening_angle(x, y, iihf))),
            theirs,
            0.006,
            "deg",
            "facts.md, geometry worked from the rules (IIHF22)",
        )
        for name, x, y, theirs in rows
    ]
    dot = (6.096, 6.706)
    for depth, width, trip in (
        (0.6, 1.15, 0.89),
        (0.9, 1.11, 1.33),
        (1.4, 1.04, 2.07),
        (1.83, 0.98, 2.71),
        (2.4, 0.91, 3.55),
    ):
        source = "similar triangles, job.md 6.2"
        made.append(
            near(
                "similar triangles",
                f"width to cover from a dot at {depth:g} m",
                float(ice.width_to_cover(*dot, depth, 0.91)),
                width,
                0.006,
                "m",
                source,
            )
        )
        other = (dot[0], -dot[1])
        made.append(
            near(
                "similar triangles",
                f"dot to dot on the angle at {depth:g} m",
                float(ice.on_angle_distance(dot, other, depth)),
                trip,
                0.006,
                "m",
                source,
            )
        )
    return made


def bodies() -> list[Check]:
    """Return statures and segment lengths against growth and anthropometric tables."""
    made = []
    for sex, table in ((Sex.MALE, "boys"), (Sex.FEMALE, "girls")):
        row = fact_table(f"body.cdc.stature_{table}")
        for age in (8.0, 12.0, 16.0):
            at = list(row["age_y"]).index(age)
            for label, z in (("P5", -1.6448536), ("P95", 1.6448536)):
                made.append(
                    near(
                        "growth",
                        f"{label} stature of {table} at {age:g}",
                        body.stature_at(age, sex, z),
                        row[label][at],
                        0.0006,
                        "m",
                        "CDC 2000 growth charts",
                    )
                )
    tall = body.build_goaltender(stature=1.8)
    knee = tall.ankle_height + tall.shank
    winter = "Winter, Drillis and Contini"
    for name, ours, path in (
        ("height of the knee, from ankle and shank", knee, "knee_height"),
        ("height of the hip, with the thigh", knee + tall.thigh, "hip_height"),
    ):
        theirs = sure_value(f"body.segment_length.{path}")
        made.append(
            near(
                "segments",
                f"{name}, over stature",
                ours / 1.8,
                theirs,
                0.001,
                "ratio",
                winter,
                note="put together from lengths; the height itself is not used",
            )
        )
    for name, ours, path in (
        ("thigh", tall.thigh, "thigh"),
        ("shank", tall.shank, "shank"),
        ("upper arm", tall.upper_arm, "upper_arm"),
        ("forearm", tall.forearm, "forearm"),
    ):
        theirs = sure_value(f"body.segment_length.{path}")
        made.append(
            near(
                "segments",
                f"{name} over stature",
                ours / 1.8,
                theirs,
                0.001,
                "ratio",
                winter,
                Role.FITTED,
                "taken over from this table",
            )
        )
    return made


def human() -> list[Check]:
    """Return drops, reactions and their order against physics and published figures."""
    drop = motion_parameters(Level.MEN_ELITE).drop
    her = body.build_goaltender(stature=1.84, level=Level.MEN_ELITE)
    height = body.knee_drop(her)
    fall = free_fall_time(height, 9.81)
    men, child = shot_parameters(Level.MEN_ELITE), shot_parameters(Level.U9)
    hand = math.sqrt(2 * 0.1 / men.limb_acceleration[4])
    return [
        near(
            "free fall",
            "time of a drop against free fall over the knees' way",
            drop,
            fall,
            0.03,
            "s",
            "free fall over the knees' way of a goaltender of 1.84 m; drop: FRAYNE15",
            note="she falls, she is not pulled down: nothing much quicker is possible",
        ),
        near(
            "reactions",
            "leg response less hand response (drop less 10 cm of the glove)",
            drop - hand,
            0.30,
            0.08,
            "s",
            "PM68, four goaltenders: 0.46-0.53 less 0.18-0.21",
            Role.SHOWN,
            "weak source",
        ),
        Check(
            "reactions",
            "hand: fitted reaction and 10 cm of the glove",
            men.reaction + hand,
            0.195,
            0.15,
            0.24,
            "s",
            "PM68: 0.18-0.21",
            Role.SHOWN,
            "weak source",
        ),
        Check(
            "reactions",
            "fitted reaction is shorter than a laboratory's",
            men.reaction,
            0.213,
            0.08,
            0.213,
            "s",
            "WOODS15 simple visual reaction, adults",
            note="she sees the shot coming",
        ),
        near(
            "reactions",
            "age 8 over age 14",
            age_ratio(Level.U9) / age_ratio(Level.U15),
            0.317 / 0.201,
            0.02,
            "ratio",
            "SART84, line through ages 5 and 15",
            Role.FITTED,
            "the ratio by age is taken from this line",
        ),
        Check(
            "reactions",
            "order: U9 slower than adult",
            child.reaction / men.reaction,
            1.76,
            1.3,
            2.2,
            "ratio",
            "SART84 at 8 and 16; KAIL91 gives 1.96",
            Role.FITTED,
            "the ratio by age is taken from this line",
        ),
        near(
            "reactions",
            "age from which a reaction is an adult's",
            ADULT_REACTION_AGE,
            sure_value("human.best_srt_age_female"),
            1.5,
            "years",
            "CRT14: quickest at 17, 550 girls and women of 7 to 20",
        ),
        Check(
            "reactions",
            "no reacting to a close shot: flight over 4 m less reaction",
            float(flight_time(4.0, 29.0)) - men.reaction,
            0.0,
            -0.05,
            0.03,
            "s",
            "PV06: 0.14 s are left on close shots",
            Role.SHOWN,
            "weak source, press interview",
        ),
    ]


def flights() -> list[Check]:
    """Return flight times and losses against measured shots and physics."""
    from scipy.integrate import solve_ivp

    made = []
    away, theirs = tables.tracked_flights()
    speed = OrdinaryPlay().speed_at(away, puck_speed(Level.MEN_ELITE))
    ours = flight_time(away, speed)
    for low, high in ((20, 35), (35, 50), (50, 80)):
        inside = (away >= low * FEET) & (away < high * FEET)
        median = float(np.median(theirs[inside]))
        made.append(
            near(
                "flight",
                f"men's shots from {low}-{high} ft, median time to the goal",
                float(np.median(ours[inside])),
                median,
                0.1 * median,
                "s",
                f"tracked men's tournament (st23), {int(inside.sum())} shots, distance / speed",
                Role.FITTED,
                "how shots slow down toward the net was chosen on these speeds",
            )
        )
    lost = 40.0 * (1 - math.exp(-15.0 * drag_per_metre()))
    made.append(
        near(
            "flight",
            "speed lost over 15 m from 40 m/s",
            lost,
            2.0,
            0.3,
            "m/s",
            "facts.md, drag row (0.5, 1.2 kg/m3)",
            Role.SHOWN,
            "worked from the same coefficient, which is from memory",
        )
    )
    for speed in (14.0, 31.0):
        path = flight([10.0, 0.0, 0.0127], [0.0, 0.0, 0.9], speed=speed)
        k = drag_per_metre()

        def moving(_: float, s: np.ndarray, k: float = k) -> list[float]:
            v = math.hypot(s[2], s[3])
            return [s[2], s[3], -k * v * s[2], -9.81 - k * v * s[3]]

        start = [
            0.0,
            0.0127,
            speed * math.cos(path.launch_angle),
            speed * math.sin(path.launch_angle),
        ]
        run = solve_ivp(moving, (0.0, path.time), start, rtol=1e-9, atol=1e-9)
        made.append(
            near(
                "flight",
                f"height reached at 10 m, {speed:g} m/s",
                0.9,
                run.y[1, -1],
                0.015,
                "m",
                "Runge-Kutta on the equations of motion (scipy)",
            )
        )
    return made


def after_saves(places: tables.Places) -> list[Check]:
    """Return what follows ordinary saves against published rates of rebounds."""
    rng = np.random.default_rng(SEED)
    chosen = rng.choice(len(places.x), 60, p=places.weight / places.weight.sum())
    play, men, her = OrdinaryPlay(), shot_parameters(Level.MEN_ELITE), usual_build(Level.MEN_ELITE)
    grid = mouth_grid(GOAL, 19, 13)
    rows = []
    for n in chosen:
        x, y = places.x[n], places.y[n]
        away, angle = math.hypot(x, y), math.atan2(y, x)
        if away < 2.0:
            continue
        depth = float(play.depth_at(np.array([away]), np.array([angle]))[0])
        pose = Pose(depth * math.cos(angle), depth * math.sin(angle), angle, Stance.BUTTERFLY)
        speed = float(play.speed_at(np.array([away]), puck_speed(Level.MEN_ELITE))[0])
        found = rebounds([x, y, 0.0127], her, pose, grid, men, speed=speed)
        rows.append((found.loose, found.second_shot, found.second_goal))
    loose, second, goals = (np.array(one) for one in zip(*rows, strict=True))
    return [
        near(
            "rebounds",
            "share of shots on goal shot again",
            second.mean(),
            sure_value("game.rebound_rate_ev"),
            0.01,
            "share",
            "REB09, even strength",
            Role.FITTED,
            "how often attackers get there was chosen for this",
        ),
        near(
            "rebounds",
            "goal chance of the second shot",
            float(np.average(goals, weights=second)),
            sure_value("game.rebound_goal_share_2009_10"),
            0.06,
            "probability",
            "KRZ10; RYDER04: 0.348",
        ),
        near(
            "rebounds",
            "share of shots on goal that stay loose",
            loose.mean(),
            sure_value("game.pp_loose_puck"),
            0.18,
            "share",
            "PPREB16, power plays only",
        ),
    ]


def ray_caster() -> list[Check]:
    """Return the worst difference from a ray caster for each stance, and grid against exact."""
    made = []
    rng = np.random.default_rng(SEED)
    for stance in Stance:
        worst, exact_worst = 0.0, 0.0
        for hand in Side:
            her = body.build_goaltender(stature=1.78, catching_hand=hand)
            mesh = mesh_of(body.capsules(her, stance))
            done = 0
            while done < EACH_STANCE // 2:
                puck = np.array([rng.uniform(0.3, 18.0), rng.uniform(-10, 10), 0.0127])
                pose = Pose(
                    rng.uniform(0, 1.8), rng.uniform(-0.8, 0.8), rng.uniform(-1.2, 1.2), stance
                )
                placed = body.posed(her, pose)
                if puck_depth_inside(puck, placed) > -0.02:
                    continue
                done += 1
                ours = cover(puck, placed, GRID).share
                worst = max(worst, abs(ours - cast_share(mesh, pose, puck)))
                if done <= 2:
                    exact_worst = max(
                        exact_worst, abs(ours - exact_cover(puck, placed, GOAL).share)
                    )
        made.append(
            near(
                "ray caster",
                f"worst difference in covered share, {stance.value}",
                100 * worst,
                0.0,
                0.5,
                "points",
                f"trimesh with embree, {EACH_STANCE} placements, both hands",
                note=f"exact areas against the grid: {100 * exact_worst:.2f} points",
            )
        )
    return made


def mesh_of(parts: body.Capsules) -> trimesh.Trimesh:
    pieces = []
    for start, end, radius in zip(parts.start, parts.end, parts.radius, strict=True):
        length = float(np.linalg.norm(end - start))
        piece = trimesh.creation.capsule(height=length, radius=float(radius), count=(48, 48))
        if length > 1e-9:
            piece.apply_transform(trimesh.geometry.align_vectors([0, 0, 1], (end - start) / length))
        piece.apply_translation((start + end) / 2)
        pieces.append(piece)
    return trimesh.util.concatenate(pieces)


def cast_share(mesh: trimesh.Trimesh, pose: Pose, puck: np.ndarray) -> float:
    cosine, sine = math.cos(pose.facing), math.sin(pose.facing)
    turn = np.array([[cosine, sine, 0.0], [-sine, cosine, 0.0], [0.0, 0.0, 1.0]])
    shift = np.array([pose.x, pose.y, 0.0])
    origin, ends = turn @ (puck - shift), (GRID.points - shift) @ turn.T
    ways = ends - origin
    lengths = np.linalg.norm(ways, axis=1)
    hits, rays, _ = mesh.ray.intersects_location(
        np.broadcast_to(origin, ways.shape), ways / lengths[:, None], multiple_hits=False
    )
    near_enough = np.linalg.norm(hits - origin, axis=1) <= lengths[rays]
    return len(np.unique(rays[near_enough])) / len(ways)
