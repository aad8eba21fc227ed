"""Lines on a figure's gear: seams, bars, webbing, runners. They lie on the segments themselves."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from tendline.body import Capsules, Part
from tendline.draw.figure_camera import Camera, Floats
from tendline.draw.svg import Point

Line = tuple[Point, ...]

FACING = 0.15
"""Lines are drawn where gear looks at the viewer by more than this (cosine)."""


@dataclass(frozen=True, slots=True)
class Details:
    """What is drawn inside an outline: bold lines, fine lines that small pictures leave out,
    and areas filled dark."""

    bold: tuple[Line, ...] = ()
    fine: tuple[Line, ...] = ()
    dark: tuple[Line, ...] = ()


NO_DETAILS = Details()


def project(camera: Camera, places: Sequence[Floats]) -> Line:
    """Return places as a line of picture points."""
    return tuple((float(x), float(y)) for x, y in camera.points(np.asarray(places)))


def face_of(one: tuple[Floats, Floats], other: tuple[Floats, Floats]) -> Floats:
    """Return the direction a flat set of two segments faces (the one with more +x)."""
    normal = np.cross(one[1] - one[0], other[0] + other[1] - one[0] - one[1])
    size = float(np.linalg.norm(normal))
    if size < 1e-9:
        return np.array([1.0, 0.0, 0.0])
    normal = normal / size
    return np.asarray(normal if normal[0] >= 0.0 else -normal, dtype=np.float64)


def pad(body: Capsules, index: Sequence[int], camera: Camera) -> Details:
    """Return the rolls of a pad: across at the boot and about the knee, and along its outside."""
    one, other = ((body.start[i], body.end[i]) for i in index[:2])
    radius = float(body.radius[index[0]])
    face = face_of(one, other)
    if float(face @ camera.way_to(one[0])) < FACING:
        return NO_DETAILS
    across = other[0] - one[0]
    across = across / np.linalg.norm(across)
    lift = 0.86 * radius * face
    edge = 0.5 * radius * across

    def roll(share: float) -> Line:
        ends = [end[0] + share * (end[1] - end[0]) + lift for end in (one, other)]
        return project(camera, [ends[0] - edge, ends[1] + edge])

    def along(side: tuple[Floats, Floats], low: float, high: float) -> Line:
        ends = [side[0] + share * (side[1] - side[0]) + lift for share in (low, high)]
        return project(camera, ends)

    outside = max((one, other), key=lambda side: abs(float(side[0][1])))
    if abs(float(one[0][2]) - float(other[0][2])) > radius:
        outside = max((one, other), key=lambda side: float(side[0][2]))
    bold = tuple(roll(share) for share in (0.12, 0.66, 0.78, 0.9))
    return Details(bold=bold, fine=(along(outside, 0.12, 0.66),))


def mask(body: Capsules, index: Sequence[int], camera: Camera) -> Details:
    """Return the opening of the mask, dark, and its bars, on the front of the head."""
    one = index[0]
    low, high, radius = body.start[one], body.end[one], 1.01 * float(body.radius[one])
    axis = high - low
    axis = axis / np.linalg.norm(axis)
    front = np.array([1.0, 0.0, -0.15])
    front = front - float(front @ axis) * axis
    front /= np.linalg.norm(front)
    side = np.cross(axis, front)
    centre = 0.5 * (low + high)

    def on_mask(turn: float, tilt: float) -> Floats:
        way = math.cos(tilt) * (math.cos(turn) * front + math.sin(turn) * side)
        return np.asarray(centre + radius * (way + math.sin(tilt) * axis), dtype=np.float64)

    wide, brow, chin = 1.0, 0.5, -0.8
    middle, half = 0.5 * (brow + chin), 0.5 * (brow - chin)
    around = np.linspace(0.0, 2.0 * math.pi, 61)
    opening = [on_mask(wide * math.cos(a), middle + half * math.sin(a)) for a in around]

    def chord(tilt: float) -> list[Floats]:
        reach = wide * math.sqrt(max(1.0 - ((tilt - middle) / half) ** 2, 0.0))
        return [on_mask(turn, tilt) for turn in np.linspace(-reach, reach, 15)]

    def post(turn: float) -> list[Floats]:
        reach = half * math.sqrt(1.0 - (turn / wide) ** 2)
        return [on_mask(turn, tilt) for tilt in np.linspace(middle - reach, middle + reach, 15)]

    bars = [chord(tilt) for tilt in (0.22, -0.15, -0.52)]
    bars += [post(turn) for turn in (-0.5, 0.0, 0.5)]
    to_viewer = camera.way_to(centre)

    def seen(places: Iterable[Floats]) -> list[list[Floats]]:
        runs: list[list[Floats]] = [[]]
        for place in places:
            if float((place - centre) @ to_viewer) > 0.02 * radius:
                runs[-1].append(place)
            elif runs[-1]:
                runs.append([])
        return [run for run in runs if len(run) > 1]

    rim = seen(opening)
    if len(rim) == 2:
        rim = [rim[1] + rim[0]]
    rims = tuple(project(camera, run) for run in rim)
    fine = tuple(project(camera, run) for bar in bars for run in seen(bar))
    return Details(bold=rims, fine=fine, dark=tuple(run for run in rims if len(run) > 4))


def glove(body: Capsules, index: Sequence[int], camera: Camera) -> Details:
    """Return the catching glove's pocket and the webbing between fingers and thumb."""
    fingers, thumb = ((body.start[i], body.end[i]) for i in index[:2])
    ways = [(end[1] - end[0]) / np.linalg.norm(end[1] - end[0]) for end in (fingers, thumb)]
    face = face_of(fingers, thumb)
    if float(face @ camera.way_to(fingers[0])) < FACING:
        return NO_DETAILS
    if float(ways[0] @ ways[1]) > math.cos(0.3):
        fold = [0.5 * (fingers[0] + thumb[0]), 0.5 * (fingers[1] + thumb[1])]
        return Details(bold=(project(camera, fold),))
    radius = float(body.radius[index[0]])
    lift = 0.9 * radius * face

    def place(of: tuple[Floats, Floats], share: float, aside: float = 0.0) -> Floats:
        out = ways[0] - ways[1] if of is fingers else ways[1] - ways[0]
        out = out / np.linalg.norm(out)
        return np.asarray(of[0] + share * (of[1] - of[0]) + lift + aside * radius * out)

    def bow(share: float, sag: float) -> Line:
        ends = [place(fingers, share, -0.35), place(thumb, share, -0.35)]
        low = 0.5 * (ends[0] + ends[1]) - sag * radius * (ways[0] + ways[1]) / 2.0
        steps = np.linspace(0.0, 1.0, 9)
        return project(
            camera,
            [(1 - s) ** 2 * ends[0] + 2 * s * (1 - s) * low + s * s * ends[1] for s in steps],
        )

    rungs = tuple(
        project(camera, [place(fingers, share, -0.35), place(thumb, share, -0.35)])
        for share in (0.66, 0.84, 1.02)
    )
    rails = tuple(
        project(camera, [place(side, 0.5, -0.35), place(side, 1.1, -0.35)])
        for side in (fingers, thumb)
    )
    heel = project(camera, [place(fingers, 0.0, 0.75), place(thumb, 0.0, 0.75)])
    return Details(bold=(bow(0.5, 0.9), *rails, heel), fine=rungs)


def blocker(body: Capsules, index: Sequence[int], camera: Camera) -> Details:
    """Return the border of the blocker's board and the seam across it."""
    first, last = ((body.start[i], body.end[i]) for i in (index[0], index[-1]))
    face = face_of(first, last)
    if float(face @ camera.way_to(first[0])) < FACING:
        return NO_DETAILS
    lift = 0.9 * float(body.radius[index[0]]) * face

    def at(side: tuple[Floats, Floats], share: float) -> Floats:
        return np.asarray(side[0] + share * (side[1] - side[0]) + lift)

    border = [at(first, 0.05), at(first, 0.95), at(last, 0.95), at(last, 0.05), at(first, 0.05)]
    seam = [at(first, 0.72), at(last, 0.72)]
    return Details(bold=(project(camera, border),), fine=(project(camera, seam),))


def skate(body: Capsules, index: Sequence[int], camera: Camera) -> Details:
    """Return the runner under the boot."""
    one = index[0]
    ends = [body.start[one], body.end[one]]
    drop = np.array([0.0, 0.0, 0.45 * float(body.radius[one])])
    return Details(fine=(project(camera, [end - drop for end in ends]),))


DETAILS: dict[Part, Callable[[Capsules, Sequence[int], Camera], Details]] = {
    Part.LEFT_PAD: pad,
    Part.RIGHT_PAD: pad,
    Part.MASK: mask,
    Part.GLOVE: glove,
    Part.BLOCKER: blocker,
    Part.LEFT_SKATE: skate,
    Part.RIGHT_SKATE: skate,
}
