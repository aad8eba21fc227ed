"""What an opponent does, as counts: never a bare percentage, never from one game made a truth.

People of the other side are sweater numbers only.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from tendline.base import ScoringSituation, Side
from tendline.log.game import Game, Shot
from tendline.log.situation import pass_belongs
from tendline.log.statistics import Share, wilson
from tendline.log.vocabulary import NoteKind
from tendline.play import OptionKind

SEEN_OFTEN = 3
"""A shooter is named on the card from this many shots on; fewer show nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShooterHabit:
    """One shooter by sweater number: shots seen, from which side, in which situation most.

    ``from_left``: shots from her left of all of his; ``most``: his commonest situation.
    """

    number: str
    shots: int
    goals: int
    hand: Side | None
    from_left: Share
    most: ScoringSituation | None
    most_share: Share

    @property
    def words(self) -> str:
        """Return one line for the opponent card."""
        hand = f"shoots {self.hand.value}, " if self.hand else ""
        left = self.from_left.count
        side = (
            f"from her left {left} times of {self.shots} seen"
            if 2 * left >= self.shots
            else f"from her right {self.shots - left} times of {self.shots} seen"
        )
        most = f", {self.most.value} {self.most_share.count} of {self.shots}" if self.most else ""
        return f"{self.number}: {hand}{side}{most}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Habits:
    """One opponent over the games logged against it.

    ``options``: how often each kind of option of the engine was seen (for ``play.read``);
    ``notes``: what was written about the opponent, newest first.
    """

    opponent: str
    games: int
    shots: int
    situations: tuple[tuple[ScoringSituation, Share], ...]
    shooters: tuple[ShooterHabit, ...]
    options: tuple[tuple[OptionKind, int], ...]
    notes: tuple[str, ...]

    @property
    def words(self) -> tuple[str, ...]:
        """Return the card in lines: how much was seen, then what, then who, then notes."""
        if not self.shots:
            return (f"{self.opponent}: nothing logged yet.",)
        games = "1 game" if self.games == 1 else f"{self.games} games"
        lines = [f"{self.opponent}: {self.shots} shots seen in {games}."]
        lines += [f"{kind.value}: {share.words}" for kind, share in self.situations[:3]]
        lines += [one.words for one in self.shooters]
        return (*lines, *self.notes)


def habits(games: Sequence[Game], opponent: str) -> Habits:
    """Return what was seen of an opponent in the games against it."""
    played = [one for one in games if one.opponent == opponent]
    shots = [shot for one in played for shot in one.shots]
    kinds = Counter(one.situation for one in shots if one.situation is not None)
    told = sum(kinds.values())
    newest = sorted(played, key=lambda one: one.day, reverse=True)
    notes = [note.text for one in newest for note in one.notes if note.purpose is NoteKind.OPPONENT]
    return Habits(
        opponent=opponent,
        games=len(played),
        shots=len(shots),
        situations=tuple((kind, wilson(count, told)) for kind, count in kinds.most_common()),
        shooters=_shooters(shots),
        options=tuple(sorted(option_counts(shots).items())),
        notes=tuple(dict.fromkeys(notes)),
    )


def option_counts(shots: Sequence[Shot]) -> dict[OptionKind, int]:
    """Return how often each kind of option was seen, as ``play.read`` takes habits.

    Only shots of which the play before is known count: a pass that led to the shot (one-timed or
    settled), a net drive, or a shot by the carrier.
    """
    found: Counter[OptionKind] = Counter()
    for one in shots:
        kind = _option(one)
        if kind is not None:
            found[kind] += 1
    return dict(found)


def _option(shot: Shot) -> OptionKind | None:
    if shot.situation is None or shot.situation is ScoringSituation.REBOUND:
        return None
    if shot.situation is ScoringSituation.DEFLECTION:
        return OptionKind.TIP
    if pass_belongs(shot.context) or shot.context.crossed_middle:
        return OptionKind.ONE_TIMER if shot.context.one_timer else OptionKind.SETTLE
    if shot.situation is ScoringSituation.NET_DRIVE:
        return OptionKind.NET_DRIVE
    if shot.situation is ScoringSituation.BELOW_GOAL_LINE:
        return OptionKind.WRAP
    return OptionKind.SHOOT


def _shooters(shots: Sequence[Shot]) -> tuple[ShooterHabit, ...]:
    groups: dict[str, list[Shot]] = {}
    for one in shots:
        if one.context.shooter:
            groups.setdefault(one.context.shooter, []).append(one)
    found = [_shooter(name, group) for name, group in groups.items() if len(group) >= SEEN_OFTEN]
    return tuple(sorted(found, key=lambda one: (-one.shots, one.number)))


def _shooter(number: str, group: Sequence[Shot]) -> ShooterHabit:
    kinds = Counter(one.situation for one in group if one.situation is not None)
    most = kinds.most_common(1)[0] if kinds else (None, 0)
    hands = Counter(one.context.shooter_hand for one in group if one.context.shooter_hand)
    hand = hands.most_common(1)[0][0] if len(hands) == 1 else None
    return ShooterHabit(
        number=number,
        shots=len(group),
        goals=sum(one.is_goal for one in group),
        hand=hand,
        from_left=wilson(sum(one.y > 0 for one in group), len(group)),
        most=most[0],
        most_share=wilson(most[1], len(group)),
    )
