"""What the games pages show."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import ScoringSituation, ShotResult, counted
from tendline.draw import rink_svg, zone_window
from tendline.ice import rink
from tendline.log import Game, Record, Records, Share, Shot, event_kind
from tendline.store import GameHeader, Store
from tendline.work.day import today
from tendline.work.imports import known_mappings
from tendline.work.names import names

RESULT_ORDER = (
    ShotResult.SAVE_HELD,
    ShotResult.SAVE_SAFE_REBOUND,
    ShotResult.SAVE_DANGEROUS_REBOUND,
    ShotResult.GOAL,
    ShotResult.WIDE,
    ShotResult.BLOCKED,
)


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer to tap."""

    value: str
    label: str


@dataclass(frozen=True, slots=True)
class Named:
    """A person to choose."""

    id: str
    name: str


@dataclass(frozen=True, slots=True)
class ShotRow:
    """One shot in a list."""

    id: str
    number: int
    period: int
    place: str
    situation: str
    result: str
    goal: bool
    rating: str


@dataclass(frozen=True, slots=True)
class GameRow:
    """One game in the list."""

    id: str
    day: str
    team: str
    opponent: str
    goaltenders: str
    state: str


@dataclass(frozen=True, slots=True)
class GamesPage:
    """The list of games and what a new one needs."""

    games: tuple[GameRow, ...]
    goaltenders: tuple[Named, ...]
    teams: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LogPage:
    """The page on which a game is logged, shot by shot."""

    id: str
    title: str
    tally: str
    said: str
    undoable: str
    ice: str
    shots: tuple[ShotRow, ...]
    warnings: tuple[str, ...]
    period: int
    next_period: int
    others: tuple[Named, ...]
    situations: tuple[Choice, ...]
    results: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class RecordRow:
    """One line of a record: counts first, then the span."""

    name: str
    shots: int
    goals: int
    counts: str
    span: str
    low: float
    value: float
    high: float


@dataclass(frozen=True, slots=True)
class GamePage:
    """One game: shots, records, goals against."""

    id: str
    title: str
    tally: str
    shots: tuple[ShotRow, ...]
    zones: tuple[RecordRow, ...]
    situations: tuple[RecordRow, ...]
    notes: tuple[str, ...]
    ended: bool


def games_page(store: Store) -> GamesPage:
    """Return the list of games."""
    known = names(store)
    teams = tuple(one.name for one in store.club.teams())
    rows = tuple(_game_row(one, known) for one in store.games.headers())
    return GamesPage(rows, tuple(Named(i, n) for i, n in sorted(known.items())), teams)


def _game_row(one: GameHeader, known: dict[str, str]) -> GameRow:
    people = ", ".join(known.get(who, who) for who in one.goaltenders)
    state = "finished" if one.ended else "open"
    return GameRow(one.id, one.day.isoformat(), one.team, one.opponent, people, state)


def log_page(store: Store, game: Game) -> LogPage:
    """Return the page for logging a game as it now stands."""
    known = names(store)
    the_rink = rink(game.rule_set, game.ice_format)
    last = game.can_undo
    others = tuple(Named(i, n) for i, n in sorted(known.items()) if i != game.goaltender)
    return LogPage(
        id=game.id,
        title=title_of(game),
        tally=tally_of(game, known),
        said=said_of(game),
        undoable="" if last is None else last.id,
        ice=rink_svg(the_rink, window=zone_window(the_rink)),
        shots=shot_rows(game)[::-1],
        warnings=game.warnings,
        period=max(game.period, 1),
        next_period=game.period + 1,
        others=others[:4],
        situations=tuple(Choice(one.value, one.value) for one in ScoringSituation),
        results=tuple(Choice(one.value, one.value) for one in RESULT_ORDER),
    )


def title_of(game: Game) -> str:
    """Return what a game is called."""
    return f"{game.team} against {game.opponent}, {game.day.isoformat()}"


def tally_of(game: Game, known: dict[str, str]) -> str:
    """Return the count so far in one sentence."""
    shots = [one for one in game.shots if one.on_goal]
    goals = sum(one.is_goal for one in shots)
    who = known.get(game.goaltender, game.goaltender) or "nobody"
    return (
        f"Period {max(game.period, 1)}, {who} in the net: "
        f"{counted(len(shots), 'shot')} on goal, {counted(len(shots) - goals, 'save')}, "
        f"{counted(goals, 'goal')}."
    )


def said_of(game: Game) -> str:
    """Return what was saved last, in words."""
    last = game.can_undo
    if last is None:
        return "Nothing to take back."
    shot = next((one for one in game.shots if one.id == last.id), None)
    if shot is None:
        return f"Saved: {event_kind(last)}."
    return f"Saved: {shot.number}. {place_of(shot)}, {situation_of(shot)}, {shot.result.value}."


def place_of(shot: Shot) -> str:
    """Return where a shot came from, in words and metres."""
    return f"{shot.zone.value}, {shot.distance:.0f} m"


def situation_of(shot: Shot) -> str:
    """Return how a shot came, in words."""
    return shot.situation.value if shot.situation else "not said"


def shot_rows(game: Game) -> tuple[ShotRow, ...]:
    """Return a game's shots in order."""
    return tuple(
        ShotRow(
            id=one.id,
            number=one.number,
            period=one.period,
            place=place_of(one),
            situation=situation_of(one),
            result=one.result.value,
            goal=one.is_goal,
            rating="" if one.rating is None else str(one.rating.rating),
        )
        for one in game.shots
    )


def game_page(store: Store, game: Game, record: Records) -> GamePage:
    """Return one game's page."""
    return GamePage(
        id=game.id,
        title=title_of(game),
        tally=tally_of(game, names(store)),
        shots=shot_rows(game),
        zones=tuple(record_row(one) for one in record.zones if one.shots),
        situations=tuple(record_row(one) for one in record.situations if one.shots),
        notes=tuple(f"{one.purpose.value}: {one.text}" for one in game.notes),
        ended=game.ended,
    )


def record_row(one: Record) -> RecordRow:
    """Return a record as a line: goals of shots with the span of the share."""
    share: Share = one.scored
    span = f"{100 * share.low:.0f} to {100 * share.high:.0f} in 100"
    return RecordRow(
        one.name, one.shots, one.goals, f"{one.goals} of {one.shots}", span,
        share.low, share.value, share.high,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class ImportPage:
    """What an import needs, and what the last one did."""

    mappings: tuple[str, ...]
    day: str
    outcome: str


def import_page(store: Store, outcome: str = "") -> ImportPage:
    """Return the page on which games are brought in."""
    known = tuple(one.name for one in known_mappings(store))
    return ImportPage(known, today(store).isoformat(), outcome)
