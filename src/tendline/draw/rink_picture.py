"""The bare ice, for backgrounds, shot charts and the editor."""

from __future__ import annotations

from tendline.draw.ice_picture import IcePicture, Window, sheet_window
from tendline.draw.tokens import PAPER, Palette
from tendline.ice import Rink


def rink_svg(
    rink: Rink, *, window: Window | None = None, width: float = 520.0, palette: Palette = PAPER
) -> str:
    """Return the ice of ``rink`` as SVG; ``window`` defaults to the whole playing area."""
    shown = window or sheet_window(rink)
    picture = IcePicture(
        rink, shown, width=width, palette=palette, kind="tl-rink-only",
        title=f"The ice, {rink.ice_format.value}, {rink.rule_set.value} markings",
        description="The defended net is at the bottom; the picture looks out from it.",
    )  # fmt: skip
    picture.draw_ice()
    return picture.svg()
