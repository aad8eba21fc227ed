"""Shots on the ice, each where it was sent from: a dot, or a cross for a goal."""

from __future__ import annotations

from collections.abc import Sequence

from tendline.base import counted
from tendline.draw.ice_picture import IcePicture, window_for, zone_window
from tendline.draw.svg import path_data
from tendline.draw.tokens import PAPER, Paint, Palette
from tendline.ice import Rink

DOT_PX, CROSS_PX = 4.0, 6.0
MOST_DRAWN = 400
"""More shots than this would only be one blot; the first ones are drawn, the words say so."""


def shot_map_svg(
    rink: Rink,
    shots: Sequence[tuple[float, float, bool]],
    *,
    width: float = 420.0,
    palette: Palette = PAPER,
) -> str:
    """Return the ice with every shot (x, y, whether it was a goal; metres, the net's frame)."""
    drawn = shots[:MOST_DRAWN]
    goals = sum(one[2] for one in shots)
    far = any(x > zone_window(rink).x_high for x, _, _ in drawn)
    window = (
        window_for(rink, [(x, y) for x, y, _ in drawn] + [(0.0, 0.0)]) if far else zone_window(rink)
    )
    left = sum(y > 0 for _, y, _ in shots)
    more = f" The first {len(drawn)} are drawn." if len(shots) > len(drawn) else ""
    picture = IcePicture(
        rink, window, width=width, palette=palette, kind="tl-shots",
        title=f"{counted(len(shots), 'shot')}, {counted(goals, 'goal')}, where they came from",
        description=f"{left} from her left, {len(shots) - left} from her right or the middle. "
        f"A dot is a shot, a cross a goal.{more}",
    )  # fmt: skip
    picture.draw_ice()
    with picture.group(classes="tl-shot-places"):
        for x, y, is_goal in drawn:
            at = picture.at(x, y)
            if not is_goal:
                picture.circle(at, picture.px(DOT_PX), fill=Paint.INK)
                continue
            arm = picture.px(CROSS_PX)
            for turn in (1.0, -1.0):
                line = [(at[0] - arm, at[1] - turn * arm), (at[0] + arm, at[1] + turn * arm)]
                picture.path(path_data(line), stroke=Paint.RISK, width=picture.px(2.4))
    picture.draw_frame()
    return picture.svg()
