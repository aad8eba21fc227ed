"""Pieces of ice by the name a coach gives them, with their size from the rink."""

from __future__ import annotations

from tendline.base import OriginKind, assumed, unknown_name
from tendline.ice import Rink
from tendline.practice.types import Space

PATCH_SIDE = assumed(
    "practice.patch_side", "side of the patch a block is given", 10, "m", low=4, high=20,
    kind=OriginKind.PRACTICE,
)  # fmt: skip

FULL_ICE = "full ice"
HALF_ICE = "half ice"
END_ZONE = "one end zone"
END_WITH_NET = "one end, with a net"
CORNER = "one corner, no net"


def spaces(rink: Rink) -> dict[str, Space]:
    """Return every named space on a rink; nets as they usually stand (change them with care)."""
    side = PATCH_SIDE.value
    patch = f"{side:g} x {side:g} m"
    behind = rink.goal_line_to_boards
    zone = rink.blue_line_x + behind
    return {
        FULL_ICE: Space(name=FULL_ICE, length=rink.length, width=rink.width, nets=2),
        HALF_ICE: Space(name=HALF_ICE, length=rink.length / 2, width=rink.width, nets=1),
        END_ZONE: Space(name=END_ZONE, length=zone, width=rink.width, nets=1),
        END_WITH_NET: Space(name=f"one end with a net, {patch}", length=side, width=side, nets=1),
        CORNER: Space(name=f"one corner without a net, {patch}", length=side, width=side, nets=0),
    }


def space(name: str, rink: Rink) -> Space:
    """Return a space by name; raises ``NotFoundError`` with the names there are."""
    known = spaces(rink)
    if name not in known:
        raise unknown_name("piece of ice", name, known)
    return known[name]
