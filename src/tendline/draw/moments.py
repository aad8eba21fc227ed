"""One moment of a drill's run, as pictures need it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tendline.body import Pose, Stance

if TYPE_CHECKING:
    from tendline.drill.playback import Tracks

Place = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """Where everybody is at ``time`` [s]; places in metres.

    ``holder`` has the puck ('' for nobody); ``wanted`` is where she should be (None: not shown);
    ``words`` is the line of the script under way.
    """

    time: float
    people: tuple[tuple[str, Place], ...]
    puck: Place
    holder: str
    pose: Pose
    is_set: bool
    wanted: Place | None = None
    words: str = ""


def moments_of(tracks: Tracks) -> tuple[Moment, ...]:
    """Return the moments of a branch's tracks, evenly spaced by ``tracks.step``."""
    found = []
    for k, time in enumerate(tracks.time):
        x, y, facing = tracks.her[k]
        said = [words for begin, words in tracks.words if begin <= time + 1e-9]
        found.append(
            Moment(
                time=time,
                people=tuple((name, places[k]) for name, places in tracks.people),
                puck=tracks.puck[k],
                holder=tracks.holder[k],
                pose=Pose(x, y, facing, Stance(tracks.stance[k])),
                is_set=tracks.is_set[k],
                wanted=tracks.wanted[k],
                words=said[-1] if said else "",
            )
        )
    return tuple(found)
