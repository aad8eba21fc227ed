"""What a goaltender's games cost and why: counts, and the engine's answer to each shot."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from tendline.base import DEFAULT_SETTINGS, Settings
from tendline.log import Costs, Findings, Game, findings
from tendline.store import Store
from tendline.work.why import why


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What games say to train, and how the goals split by cause where the log knows enough."""

    found: Findings
    costs: Costs

    @property
    def answer(self) -> tuple[str, ...]:
        """Return it in sentences: what to train with its counts, then why the goals were goals."""
        total = self.costs.total()
        return (*self.found.answer, total.words) if total.shots else self.found.answer


def cost_of(
    store: Store,
    games: Sequence[Game],
    person: str,
    *,
    stage_theme: str = "",
    refused: Collection[str] = (),
    settings: Settings = DEFAULT_SETTINGS,
) -> Cost:
    """Return what one goaltender's games cost and say to train (at most two themes).

    Chances are compared with what the engine says such a shot costs from the recommended place,
    where it can answer, else with published rates.
    """
    shots = [
        one
        for game in games
        for one in game.shots
        if one.goaltender == person and not one.context.empty_net
    ]
    asked = why(store, person, games)
    found = findings(
        shots,
        costs=asked.chances,
        causes=asked.causes,
        refused=refused,
        stage_theme=stage_theme,
        settings=settings,
    )
    return Cost(found=found, costs=asked)
