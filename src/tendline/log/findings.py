"""What keeps beating her, and how sure that is: at most two themes to train.

For each theme: goals counted, goals to expect from chances that hard (:mod:`baseline`, or the
engine's answers), the excess pulled toward zero by a gamma prior (weight ``log.caution`` goals),
and how often chance alone would make *some* theme stand out as much. The last is simulated: every
shot scores with its expected chance, a few thousand seasons with a fixed seed, and the largest
excess of any theme is noted; so that looking at many themes at once is paid for.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from tendline.base import DEFAULT_SETTINGS, ScoringSituation, Settings, build
from tendline.log.baseline import Expectation, expectation
from tendline.log.constants import FindingParameters
from tendline.log.game import Shot
from tendline.log.records import rebound_control
from tendline.log.statistics import Share, wilson
from tendline.log.themes import THEMES, Theme, theme
from tendline.log.vocabulary import Cause

SEASONS = 4000
SEED = 20261125


class Weight(StrEnum):
    """What lies behind a theme's goals."""

    ERROR = "more than the chances explain"
    CHANCES = "the chances explain it"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One theme with its evidence.

    ``count`` of ``of`` goals; ``shots`` on goal of that kind; ``expected`` goals from chances so
    hard; ``excess`` goals after caution; ``chance_alone``: share of seasons in which chance alone
    makes some theme stand out as much; ``sure`` says that in words. ``ratings``: its goals rated
    0, 1, 2; ``causes``: causes named by the coach or found by the engine, with counts;
    ``evidence``: ids of its goals. ``themes`` and ``situations`` are what drills are chosen by; a
    theme that is no situation itself takes the one in which most of its goals fell;
    ``share_of_time`` of the goaltender's practice time.
    """

    theme: str
    title: str
    phrase: str
    cue: str
    themes: tuple[str, ...]
    situations: tuple[ScoringSituation, ...]
    count: int
    of: int
    shots: int
    of_shots: int
    expected: float
    excess: float
    chance_alone: float
    sure: str
    weight: Weight
    ratings: tuple[int, int, int]
    causes: tuple[tuple[Cause, int], ...]
    evidence: tuple[str, ...]
    share_of_time: float = 0.0

    @property
    def share(self) -> Share:
        """Return the goals of this kind, of all goals, with their span."""
        return wilson(self.count, self.of)

    @property
    def scored(self) -> Share:
        """Return the goals of the shots of this kind, with their span."""
        return wilson(self.count, self.shots)

    @property
    def words(self) -> str:
        """Return the finding as a sentence or two, counts first."""
        text = (
            f"{self.count} of {self.of} goals came {self.phrase} ({self.shots} such shots; chances "
            f"that hard usually cost about {self.expected:.1f}). {self.sure}."
        )
        judged = sum(self.ratings)
        if judged:
            hers = self.ratings[1] + self.ratings[2]
            text += f" Rated with an error of hers: {hers} of {judged}."
        return text


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """What the games say to train, what they say of the team, and what was left out.

    ``themes``: at most two, each with its share of the time; ``stage_share`` stays with the
    stage's planned theme. ``others``: the remaining themes, strongest first; ``chances``:
    sentences on chances the team gives up (a matter for its defending); ``refused``: themes left
    out because the coach did not want them.
    """

    games: int
    shots: int
    goals: int
    themes: tuple[Finding, ...]
    others: tuple[Finding, ...]
    chances: tuple[str, ...]
    refused: tuple[str, ...]
    stage_theme: str
    stage_share: float
    answer: tuple[str, ...]
    source: str
    rebounds: Share


def findings(
    shots: Sequence[Shot],
    *,
    costs: Mapping[str, float] | None = None,
    causes: Mapping[str, Cause] | None = None,
    refused: Collection[str] = (),
    stage_theme: str = "",
    settings: Settings = DEFAULT_SETTINGS,
) -> Findings:
    """Return what one goaltender's shots say to train.

    ``costs``: goal chance of each shot from the recommended place and set (by shot id), where the
    engine could answer; ``causes``: main cause of goals by shot id, where known (a cause named in
    a rating wins); ``refused``: names of themes the coach refused; ``stage_theme``: the season
    plan's theme, which keeps its share of the time.
    """
    limits = build(FindingParameters, settings)
    on_goal = [one for one in shots if one.on_goal]
    goals = [one for one in on_goal if one.is_goal]
    expected = expectation(on_goal, costs)
    groups = [(one, [s for s in on_goal if one.holds(s)]) for one in THEMES]
    groups = [(one, group) for one, group in groups if group]
    alone = _chance_alone(on_goal, [group for _, group in groups], expected)
    said = causes or {}
    every = [
        _finding(one, group, goals, len(on_goal), expected, p, said, limits)
        for (one, group), p in zip(groups, alone, strict=True)
    ]
    every.sort(key=_rank, reverse=True)
    enough = len(goals) >= limits.fewest_goals
    wanted = [
        one for one in every if one.theme not in refused and _stands_out(one, limits) and enough
    ]
    chosen = _shared(_at_most_two(wanted, limits), limits)
    left_out = tuple(
        one.theme for one in every if one.theme in refused and _stands_out(one, limits)
    )
    corrective = sum(one.share_of_time for one in chosen)
    names = {one.theme for one in chosen}
    result = Findings(
        games=len({one.game for one in on_goal}),
        shots=len(on_goal),
        goals=len(goals),
        themes=chosen,
        others=tuple(one for one in every if one.theme not in names),
        chances=_chances(every, len(goals), limits),
        refused=left_out,
        stage_theme=stage_theme,
        stage_share=1.0 - corrective,
        answer=(),
        source=expected.source,
        rebounds=rebound_control(on_goal),
    )
    return _answered(result, enough=enough)


def _finding(
    of_theme: Theme,
    group: Sequence[Shot],
    goals: Sequence[Shot],
    of_shots: int,
    expected: Expectation,
    alone: float,
    said: Mapping[str, Cause],
    limits: FindingParameters,
) -> Finding:
    hers = [one for one in group if one.is_goal]
    usual = expected.over(group)
    pulled = (len(hers) + limits.caution) / (usual + limits.caution)
    rated = [one.rating.rating for one in hers if one.rating is not None]
    named = [
        one.rating.cause if one.rating and one.rating.cause else said.get(one.id) for one in hers
    ]
    counts = tuple((cause, named.count(cause)) for cause in Cause if cause in named)
    blameless = bool(rated) and not any(rated)
    excess = usual * (pulled - 1.0)
    return Finding(
        theme=of_theme.name,
        title=of_theme.title,
        phrase=of_theme.phrase,
        cue=of_theme.cue,
        themes=of_theme.drills,
        situations=of_theme.situations or _where(hers),
        count=len(hers),
        of=len(goals),
        shots=len(group),
        of_shots=of_shots,
        expected=usual,
        excess=excess,
        chance_alone=float(alone),
        sure=_sure(float(alone), limits),
        weight=Weight.CHANCES if excess < limits.least_excess or blameless else Weight.ERROR,
        ratings=(rated.count(0), rated.count(1), rated.count(2)),
        causes=counts,
        evidence=tuple(one.id for one in hers),
    )


def _where(goals: Sequence[Shot]) -> tuple[ScoringSituation, ...]:
    """Return the situation in which a third or more of the goals fell, if there is one."""
    counted = Counter(one.situation for one in goals if one.situation is not None)
    return tuple(kind for kind, count in counted.most_common(1) if 3 * count >= len(goals))


def _rank(one: Finding) -> float:
    """Return expected goals above the usual, weighted by how often they were rated her error."""
    hers, judged = one.ratings[1] + one.ratings[2], sum(one.ratings)
    return one.excess * 2.0 * (hers + 1.0) / (judged + 2.0)


def _stands_out(one: Finding, limits: FindingParameters) -> bool:
    most = limits.could_be_chance if theme(one.theme).is_broad else limits.too_ordinary
    return (
        one.weight is Weight.ERROR
        and one.count >= limits.fewest_in_theme
        and one.chance_alone <= most
    )


def _at_most_two(wanted: Iterable[Finding], limits: FindingParameters) -> list[Finding]:
    chosen: list[Finding] = []
    for one in wanted:
        first = set(chosen[0].evidence) if chosen else set()
        if chosen and len(first & set(one.evidence)) > limits.same_goals * one.count:
            continue
        chosen.append(one)
        if len(chosen) == 2:
            break
    return chosen


def _shared(chosen: Sequence[Finding], limits: FindingParameters) -> tuple[Finding, ...]:
    total = sum(one.excess for one in chosen)
    return tuple(
        replace(one, share_of_time=limits.corrective_share * one.excess / total) for one in chosen
    )


def _sure(alone: float, limits: FindingParameters) -> str:
    if alone < limits.hard_to_explain:
        return "That is hard to explain by chance"
    if alone < limits.could_be_chance:
        return "That is more than chance usually gives, but not certain"
    return "With this few it could be chance"


def _chance_alone(
    shots: Sequence[Shot], groups: Sequence[Sequence[Shot]], expected: Expectation
) -> NDArray[np.float64]:
    """Return, for each group, how often chance makes the largest excess of any at least its own."""
    if not groups:
        return np.zeros(0)
    place = {one.id: index for index, one in enumerate(shots)}
    member = np.zeros((len(shots), len(groups)))
    for column, group in enumerate(groups):
        member[[place[one.id] for one in group], column] = 1.0
    chance = np.array([expected.chances[one.id] for one in shots])
    usual = chance @ member
    spread = np.sqrt((chance * (1.0 - chance)) @ member) + 0.5
    scored = np.array([float(one.is_goal) for one in shots])
    observed = (scored @ member - usual) / spread
    drawn = (np.random.default_rng(SEED).random((SEASONS, len(shots))) < chance).astype(float)
    totals = drawn.sum(axis=1, keepdims=True) / max(chance.sum(), 1e-9)
    largest = ((drawn @ member - usual * totals) / spread).max(axis=1)
    result: NDArray[np.float64] = (largest[:, None] >= observed[None, :]).mean(axis=0)
    return result


def _chances(every: Sequence[Finding], goals: int, limits: FindingParameters) -> tuple[str, ...]:
    """Return sentences on frequent hard chances that cost no more than such chances do."""
    found = []
    for one in every:
        many = goals and one.expected >= limits.many_chances * goals
        if one.situations and many and one.weight is Weight.CHANCES:
            found.append(
                f"She faces many chances {one.phrase}: {one.shots} of {one.of_shots} shots, "
                f"{one.count} of {goals} goals, no more than chances that hard cost. That is for "
                "the team's defending, not for her."
            )
    return tuple(found)


def _answered(result: Findings, *, enough: bool) -> Findings:
    stage = f"the stage's theme ({result.stage_theme})" if result.stage_theme else "the stage"
    games = f"{result.games} game" + ("" if result.games == 1 else "s")
    if not enough:
        text = (
            f"{result.goals} goals on {result.shots} shots in {games}: too few to say what to "
            f"train. Keep to {stage}."
        )
        return replace(result, answer=(text,))
    if not result.themes:
        text = (
            f"In {games} ({result.goals} goals on {result.shots} shots) nothing stands out beyond "
            f"what the chances explain. Keep to {stage}."
        )
        return replace(result, answer=(text,))
    lines = [one.words for one in result.themes]
    share = f"{100 * result.stage_share:.0f} in 100"
    lines.append(f"Train {' and '.join(one.title for one in result.themes)}; {share} of the time "
                 f"stays with {stage}.")  # fmt: skip
    return replace(result, answer=tuple(lines))
