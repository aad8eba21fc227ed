"""What a goaltender's games cost and why, with the engine asked about each goal where it can."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from tendline.base import DEFAULT_SETTINGS, Settings
from tendline.log import Findings, Game, findings


def cost_of(
    games: Sequence[Game],
    person: str,
    *,
    stage_theme: str = "",
    refused: Collection[str] = (),
    settings: Settings = DEFAULT_SETTINGS,
) -> Findings:
    """Return what one goaltender's games say to train (at most two themes, with counts)."""
    shots = [
        one
        for game in games
        for one in game.shots
        if one.goaltender == person and not one.context.empty_net
    ]
    return findings(shots, refused=refused, stage_theme=stage_theme, settings=settings)
