"""Names of places in a script, and where they are on a given rink."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache

from tendline import ice
from tendline.base import NotFoundError, nearest_name
from tendline.drill.constants import BACK_DOOR_X, BACK_DOOR_Y
from tendline.drill.types import Drill, Place, Thing

EXTRA_SPOTS = ("left back door", "right back door")


@cache
def spot_names() -> tuple[str, ...]:
    """Return every spot name that a script may use."""
    return (*ice.spots(ice.rink()), *EXTRA_SPOTS)


@cache
def _spot_table(rink: ice.Rink) -> Mapping[str, tuple[float, float]]:
    table = {name: (one.x, one.y) for name, one in ice.spots(rink).items()}
    table["left back door"] = (BACK_DOOR_X.value, BACK_DOOR_Y.value)
    table["right back door"] = (BACK_DOOR_X.value, -BACK_DOOR_Y.value)
    return table


def known_names(things: Iterable[Thing]) -> tuple[str, ...]:
    """Return spot names plus the names of the drill's own things."""
    return (*spot_names(), *(one.label for one in things))


def xy_of(place: Place, drill: Drill, rink: ice.Rink) -> tuple[float, float]:
    """Return where a place is on this rink (m).

    Raises ``NotFoundError`` for a name that is neither a spot nor a thing of the drill.
    """
    if not place.name:
        return place.x, place.y
    table = _spot_table(rink)
    if place.name in table:
        return table[place.name]
    for thing in drill.things:
        if thing.label == place.name:
            return xy_of(thing.at, drill, rink) if thing.at != place else (0.0, 0.0)
    names = known_names(drill.things)
    raise NotFoundError(
        "no spot of that name",
        came=f"'{place.name}'",
        allowed=", ".join(names),
        hint=nearest_name(place.name, names),
        item=drill.id,
    )
