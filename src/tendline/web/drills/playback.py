"""A run as the animation plays it: places sampled on the clock, drawn once on the ice picture."""

from __future__ import annotations

import json
from dataclasses import dataclass

from tendline.draw import rink_svg
from tendline.draw.drill_picture import drill_window
from tendline.draw.drill_scene import scene_of
from tendline.drill import Drill, Run, Tracks, tracks
from tendline.ice import Rink

STEP = 0.05
"""Time between samples [s]; the browser draws straight lines between them."""


@dataclass(frozen=True, slots=True)
class Playback:
    """The ice to draw on, and the tracks of every branch as JSON text."""

    ice: str
    tracks: str
    branches: tuple[tuple[str, str], ...]


def playback_of(drill: Drill, run: Run, sheet: Rink) -> Playback:
    """Return everything that the page needs to play a run."""
    window = drill_window(drill, scene_of(drill, sheet), sheet)
    branches = {one.key: _track(tracks(run, one.key, STEP)) for one in run.branches}
    text = json.dumps({"step": STEP, "branches": branches}, separators=(",", ":"))
    return Playback(
        ice=rink_svg(sheet, window=window),
        tracks=text.replace("<", "\\u003c"),
        branches=tuple((one.key, one.words) for one in run.branches),
    )


def _track(track: Tracks) -> dict[str, object]:
    return {
        "t": track.time,
        "names": [name for name, _ in track.people],
        "people": [list(moment) for moment in zip(*(p for _, p in track.people), strict=True)]
        or [[] for _ in track.time],
        "puck": track.puck,
        "her": track.her,
        "set": track.is_set,
    }
