"""The compiled goal chance: placements in a loop, targets in vector lanes, nothing allocated.

One placement: for each stance she may be in or reach, the gaps from ``sight``; for each target
the best margin ``flight to limb - reaction - delay - change - need(gap)``; the save chance
``Phi(margin / spread)``; the blur of the aim; the best of a few aims. The numpy twin in
``reference`` does the same in double precision.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from tendline.sight.compiled import kernel
from tendline.sight.kernel import gaps_into, is_inside, place_axes

SURE = np.float32(99.0)

# Places in ``plain``: what one call shares between its placements.
REACTION, SPREAD, HIDDEN, LEAK, CLEARANCE, BODY_SPEED = 0, 1, 2, 3, 4, 5
DRAG, GRAVITY, AIM_ERROR, AIM_FLOOR, LOOKS, THICKNESS = 6, 7, 8, 9, 10, 11
CELL_WIDTH, CELL_HEIGHT, ARC = 12, 13, 14
BINS = 128


@kernel
def normal_share(x: Any) -> Any:
    """Return the share of a standard normal below ``x``, within 3e-7 (5.6 spreads at most).

    Abramowitz and Stegun, Handbook of Mathematical Functions (1964), formula 7.1.28.
    """
    u = min(abs(x) * np.float32(0.70710678), np.float32(4.0))
    p = np.float32(1.0) + u * (
        np.float32(0.0705230784)
        + u
        * (
            np.float32(0.0422820123)
            + u
            * (
                np.float32(0.0092705272)
                + u
                * (
                    np.float32(0.0001520143)
                    + u * (np.float32(0.0002765672) + u * np.float32(0.0000430638))
                )
            )
        )
    )
    p = p * p
    p = p * p
    p = p * p
    p = p * p
    tail = np.float32(0.5) / p
    return np.float32(1.0) - tail if x > np.float32(0.0) else tail


@kernel
def share_before(puck: Any, axes: Any) -> Any:
    """Return the share of the way from puck to goal centre that lies before the placed body."""
    x = np.float32(0.0)
    y = np.float32(0.0)
    half = np.float32(0.5 / axes.shape[0])
    for n in range(axes.shape[0]):
        x += half * (axes[n, 0] + axes[n, 3])
        y += half * (axes[n, 1] + axes[n, 4])
    way = np.float32(math.sqrt((puck[0] - x) ** 2 + (puck[1] - y) ** 2))
    whole = np.float32(math.sqrt(puck[0] * puck[0] + puck[1] * puck[1]))
    return min(way / whole, np.float32(1.0))


@kernel
def flights_into(
    puck: Any, target_y: Any, target_z: Any, speed: Any, before: Any, plain: Any, distance: Any,
    rise: Any, reachable: Any,
) -> None:  # fmt: skip
    """Fill the length of each line, how far gravity lifts its start, and what can be reached.

    A puck sent up flies a parabola. Between her (``before``: the share of the line that lies
    before her) and the mouth it is close to its chord there, and that chord, drawn back, starts
    ``before * g T^2 / 2`` above the puck. A puck on the ice (the lowest row) slides and is not
    lifted. How far a target can be reached through the air falls from one to nothing as the arc,
    ``g T^2 / 8``, passes ``plain[ARC]`` (from three quarters of it to five); slower pucks are sent
    along the ice.
    """
    zero = np.float32(0.0)
    one = np.float32(1.0)
    half = np.float32(0.5)
    gravity = plain[GRAVITY]
    low = max(plain[THICKNESS], np.float32(0.75) * plain[CELL_HEIGHT])
    for i in range(distance.shape[0]):
        dy = target_y[i] - puck[1]
        dz = target_z[i] - puck[2]
        flat = puck[0] * puck[0] + dy * dy
        d = np.sqrt(flat + dz * dz)
        distance[i] = d
        kd = plain[DRAG] * d
        time = d * (one + half * kd) / speed
        fall = half * gravity * time * time
        lift = min(max((target_z[i] - low) / low, zero), one)
        rise[i] = lift * fall * before
        spare = np.float32(2.5) - half * fall / plain[ARC]
        reachable[i] = one if lift <= zero else min(max(spare, zero), one)


@kernel
def best_margin_into(
    gap: Any, along: Any, distance: Any, speed: Any, limbs: Any, plain: Any, wait: Any,
    held: Any, margin: Any, met: Any,
) -> None:  # fmt: skip
    """Raise ``margin`` (targets,) to the best limb's spare time in one stance.

    ``wait`` is all the time before a limb of this stance can start (s). However much time there
    is, a limb that has to go far may be put wrong: ``limbs`` (limbs, 4) ends with the way (m) at
    which one spread's worth of misplacing is left. In the stance she holds
    (``held``) ``met`` is raised to the share of each target's cell that is already closed.
    """
    zero = np.float32(0.0)
    one = np.float32(1.0)
    half = np.float32(0.5)
    third = np.float32(1.0 / 3.0)
    cell = np.sqrt(plain[CELL_WIDTH] * plain[CELL_HEIGHT])
    inverse_speed = one / speed
    inverse_body = one / plain[BODY_SPEED]
    for row in range(gap.shape[0]):
        inverse_limb = one / limbs[row, 0]
        twice = np.float32(2.0) / limbs[row, 1]
        start_up = half * limbs[row, 0] / limbs[row, 1]
        knee = half * limbs[row, 0] * limbs[row, 0] / limbs[row, 1]
        reach = limbs[row, 2]
        sure = limbs[row, 3] * plain[SPREAD]
        for i in range(distance.shape[0]):
            s = along[row, i]
            way = distance[i] * s
            kd = plain[DRAG] * way
            time = way * inverse_speed * (one + half * kd * (one + third * kd))
            apart = gap[row, i] - plain[CLEARANCE]
            far = max(apart, zero)
            own = min(far, reach)
            quick = np.sqrt(twice * own)
            steady = own * inverse_limb + start_up
            need = (quick if own < knee else steady) + (far - own) * inverse_body
            spare = min(time - wait - need, sure / max(far, np.float32(1e-4)))
            margin[i] = max(margin[i], spare)
            closed = min(max(half - apart / (cell * s), zero), one)
            met[i] = max(met[i], closed if held else zero)


@kernel
def goal_map_into(
    margin: Any, met: Any, reachable: Any, plain: Any, hidden: Any, goal: Any
) -> None:
    """Fill ``goal`` (rows, columns): the chance that a puck to this target goes in.

    A target out of reach takes that of the ice below it, where such a puck comes in.
    """
    one = np.float32(1.0)
    inverse = one / plain[SPREAD]
    columns = goal.shape[1]
    for r in range(goal.shape[0]):
        for c in range(columns):
            i = r * columns + c
            seen = normal_share(margin[i] * inverse)
            save = met[i] + (one - met[i]) * (one - hidden) * seen
            chance = one - save * (one - plain[LEAK])
            open_way = reachable[i] if r > 0 else one
            below = goal[0, c] if r > 0 else chance
            goal[r, c] = open_way * chance + (one - open_way) * below


@kernel
def blur_tables_into(puck: Any, width: Any, plain: Any, across: Any, up: Any) -> None:
    """Fill the shares of an aimed puck that land one, two, ... cells away.

    ``across`` (columns,) by columns; ``up`` (2 rows,) by rows. The angular error spreads over
    the mouth as the distance, and sideways more the sharper the angle; no cell exists below the
    ice or outside the posts.
    """
    level = math.sqrt(puck[0] * puck[0] + puck[1] * puck[1])
    error = plain[AIM_ERROR] * level
    high = math.sqrt(error * error + plain[AIM_FLOOR] * plain[AIM_FLOOR])
    steep = max(puck[0] / max(level, np.float32(1e-6)), np.float32(0.15))
    wide = math.sqrt(error * error / (steep * steep) + plain[AIM_FLOOR] * plain[AIM_FLOOR])
    scale = plain[CELL_WIDTH] / (wide * math.sqrt(2.0))
    for k in range(across.shape[0]):
        across[k] = 0.5 * (math.erf((k + 0.5) * scale) - math.erf((k - 0.5) * scale))
    scale = plain[CELL_HEIGHT] / (high * math.sqrt(2.0))
    for k in range(up.shape[0]):
        up[k] = 0.5 * (math.erf((k + 0.5) * scale) - math.erf((k - 0.5) * scale))


@kernel
def blur_into(
    goal: Any, across: Any, up: Any, wide: Any, high: Any, half_way: Any, aimed: Any, on_net: Any
) -> None:
    """Fill, for each aim, the chance of a goal (``aimed``) and of hitting the mouth (``on_net``).

    ``wide`` (columns, columns) and ``high`` (rows, rows) are room for the two blurs as matrices.
    An error below the ice folds up: a puck sent too low slides in along the ice.
    """
    rows, columns = goal.shape
    for a in range(columns):
        for c in range(columns):
            wide[a, c] = across[abs(c - a)]
    for b in range(rows):
        for r in range(rows):
            high[b, r] = up[abs(r - b)] + up[r + b + 1]
    np.dot(goal, wide, half_way)
    np.dot(high, half_way, aimed)
    for b in range(rows):
        total = np.float32(0.0)
        for r in range(rows):
            total += high[b, r]
        for a in range(columns):
            on_net[b, a] = total
    for a in range(columns):
        total = np.float32(0.0)
        for c in range(columns):
            total += wide[a, c]
        for b in range(rows):
            on_net[b, a] *= total


@kernel
def choose(aimed: Any, on_net: Any, reachable: Any, looks: Any, bins: Any) -> Any:
    """Return the chances of a goal and of hitting the mouth with the best of ``looks`` aims.

    The mean of the best of n places drawn at random from all aims: with F the share of aims that
    are worse, an aim counts F(its upper edge)^n - F(its lower edge)^n. Aims are ranked through
    ``bins`` (3, k) between the worst and the best, whose means keep what is inside a bin.
    """
    rows, columns = aimed.shape
    count = bins.shape[1]
    zero = np.float32(0.0)
    best = zero
    worst = np.float32(1.0)
    number = zero
    for b in range(rows):
        for a in range(columns):
            open_aim = reachable[b * columns + a]
            best = max(best, aimed[b, a] if open_aim > zero else zero)
            worst = min(worst, aimed[b, a] if open_aim > zero else worst)
            number += open_aim
    scale = np.float32(count - 0.001) / max(best - worst, np.float32(1e-9))
    for k in range(count):
        bins[0, k] = zero
        bins[1, k] = zero
        bins[2, k] = zero
    for b in range(rows):
        for a in range(columns):
            open_aim = reachable[b * columns + a]
            if open_aim > zero:
                k = int((aimed[b, a] - worst) * scale)
                bins[0, k] += open_aim
                bins[1, k] += open_aim * aimed[b, a]
                bins[2, k] += open_aim * on_net[b, a]
    goal = zero
    hit = zero
    below = zero
    passed = zero
    for k in range(count):
        if bins[0, k] > zero:
            below += bins[0, k]
            upper = np.float32(math.pow(min(below / number, np.float32(1.0)), looks))
            share = (upper - passed) / bins[0, k]
            goal += share * bins[1, k]
            hit += share * bins[2, k]
            passed = upper
    return goal, hit


@kernel
def goals_into(
    first: Any, last: Any, pucks: Any, poses: Any, speed: Any, delay: Any, hidden: Any, held: Any,
    bodies: Any, limb: Any, counts: Any, change: Any, limbs: Any, plain: Any, target_y: Any,
    target_z: Any, chance: Any, on_net: Any, flat: Any, gaps: Any, maps: Any, axes: Any,
    tables: Any, wide: Any, high: Any,
) -> None:  # fmt: skip
    """Fill ``chance`` and ``on_net`` for placements ``first`` .. ``last`` - 1.

    ``bodies`` (stances, n, 7) in the body frame with ``counts`` capsules each; ``change``
    (stances, stances) seconds from the held stance into another, above 9 meaning never. A puck
    inside the held body gets NaN. The last seven arrays are working room; after the call they hold
    the maps of the last placement.
    """
    cells = target_y.shape[0]
    distance, rise, reachable, margin, met = flat[0], flat[1], flat[2], flat[3], flat[4]
    gap, along = gaps[0], gaps[1]
    goal, half_way, aimed, hits = maps[0], maps[1], maps[2], maps[3]
    across = tables[0, : goal.shape[1]]
    up = tables[1, : 2 * goal.shape[0]]
    bins = tables[2:5, :BINS]
    for m in range(first, last):
        puck = pucks[m]
        level = math.sqrt(puck[0] * puck[0] + puck[1] * puck[1])
        out = math.sqrt(poses[m, 0] * poses[m, 0] + poses[m, 1] * poses[m, 1])
        share = min(np.float32(out) / np.float32(level), np.float32(1.0))
        flights_into(puck, target_y, target_z, speed[m], share, plain, distance, rise, reachable)
        for i in range(cells):
            margin[i] = -SURE
            met[i] = np.float32(0.0)
        mine = held[m]
        held_axes = axes[: counts[mine]]
        place_axes(bodies[mine, : counts[mine]], poses[m, 0], poses[m, 1], poses[m, 2], held_axes)
        if is_inside(puck, held_axes):
            chance[m] = np.float32(np.nan)
            on_net[m] = np.float32(np.nan)
            continue
        before = share_before(puck, held_axes)
        flights_into(puck, target_y, target_z, speed[m], before, plain, distance, rise, reachable)
        for i in range(cells):
            margin[i] = -SURE
            met[i] = np.float32(0.0)
        for s in range(bodies.shape[0]):
            if change[mine, s] > np.float32(9.0):
                continue
            n = counts[s]
            placed = axes[:n]
            place_axes(bodies[s, :n], poses[m, 0], poses[m, 1], poses[m, 2], placed)
            gaps_into(puck, target_y, target_z, rise, placed, limb[s, :n], gap, along)
            wait = plain[REACTION] + delay[m] + change[mine, s]
            best_margin_into(
                gap, along, distance, speed[m], limbs, plain, wait, s == mine, margin, met
            )
        unseen = np.float32(1.0) - (np.float32(1.0) - plain[HIDDEN]) * (np.float32(1.0) - hidden[m])
        goal_map_into(margin, met, reachable, plain, unseen, goal)
        blur_tables_into(puck, target_y, plain, across, up)
        blur_into(goal, across, up, wide, high, half_way, aimed, hits)
        chance[m], on_net[m] = choose(aimed, hits, reachable, plain[LOOKS], bins)
