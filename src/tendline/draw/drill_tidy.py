"""Making a scene readable: lines that branches share, letters at one place, signs that overlap."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from tendline.draw.drill_scene import Mark, Stroke
from tendline.draw.svg import Point

ONE_PLACE = 0.35
"""Marks nearer to each other than this [m] are written together."""
MOST_LETTERS = 4
ROUNDS = 24
"""Letters written together at most, and rounds of pushing signs apart."""


def shared_strokes(strokes: Sequence[Stroke]) -> list[Stroke]:
    """Return the lines, each once: equal lines of several branches carry all their letters."""
    found: dict[tuple[object, ...], Stroke] = {}
    for one in strokes:
        points = tuple((round(x, 2), round(y, 2)) for x, y in one.points)
        key = (one.kind, one.who, points, one.number, one.letter, bool(one.branch))
        if key not in found:
            found[key] = one
        elif one.branch and one.branch not in found[key].branch.split(" "):
            before = found[key]
            found[key] = replace(
                before, branch=f"{before.branch} {one.branch}", stops=before.stops or one.stops
            )
    return [
        replace(one, branch=_letters(one.branch)) if " " in one.branch else one
        for one in found.values()
    ]


def _letters(branches: str) -> str:
    names = branches.split(" ")
    if all(len(one) == 1 for one in names):
        return "".join(names)
    return "+".join(names)


def gathered_marks(marks: Sequence[Mark]) -> list[Mark]:
    """Return the marks with letters at one place written together, each letter once, in order."""
    found: list[Mark] = []
    for one in marks:
        if one.kind != "letter":
            found.append(one)
            continue
        index = next(
            (
                i
                for i, other in enumerate(found)
                if other.kind == "letter"
                and other.who == one.who
                and math.dist(other.at, one.at) < ONE_PLACE
            ),
            None,
        )
        if index is None:
            found.append(one)
            continue
        letters = found[index].letter.split(", ")
        if one.letter not in letters and len(letters) < MOST_LETTERS:
            found[index] = replace(found[index], letter=f"{found[index].letter}, {one.letter}")
    return found


def signs_apart(signs: Sequence[tuple[Point, bool]], *, least: float) -> list[Point]:
    """Return places of signs at least about ``least`` apart; signs marked True stay where they are.

    Signs on one spot are moved sideways first, so that the result does not depend on rounding.
    """
    places = [list(at) for at, _ in signs]
    for _ in range(ROUNDS):
        moved = False
        for i in range(len(signs)):
            for j in range(i):
                dx, dy = places[i][0] - places[j][0], places[i][1] - places[j][1]
                distance = math.hypot(dx, dy)
                if distance >= least - 1e-9 or (signs[i][1] and signs[j][1]):
                    continue
                if distance < 1e-6:
                    dx, dy, distance = 1.0, 0.0, 1.0
                    push = least
                else:
                    push = least - distance
                ux, uy = dx / distance, dy / distance
                share_i, share_j = (0.0, 1.0) if signs[i][1] else (1.0, 0.0)
                if not signs[i][1] and not signs[j][1]:
                    share_i = share_j = 0.5
                places[i] = [places[i][0] + share_i * push * ux, places[i][1] + share_i * push * uy]
                places[j] = [places[j][0] - share_j * push * ux, places[j][1] - share_j * push * uy]
                moved = True
        if not moved:
            break
    return [(x, y) for x, y in places]
