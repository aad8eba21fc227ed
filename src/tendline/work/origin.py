"""Where a number comes from, which setting changes it, and how far the answer would move.

Built once, for every page, command and sheet. A figure of a read is explained by asking the
engine again with each setting that matters at the low and at the high end of its range; nothing
is estimated. Constants that the engine does not use (limits of a practice, say) have no answer
to move, and say so by staying silent.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from difflib import get_close_matches

from tendline.base import (
    DEFAULT_SETTINGS,
    Constant,
    InputError,
    Level,
    NotFoundError,
    OriginKind,
    Settings,
    Side,
    unknown_name,
)
from tendline.play import Attacker, Defender, Read, Sensitivity
from tendline.work.reading import Question, ask
from tendline.work.registry import PACKAGES, groups, registry

__all__ = [
    "FigureOrigin",
    "OriginLine",
    "constant_figure",
    "constant_origin",
    "count_figure",
    "groups",
    "known_constant",
    "origin_line",
    "read_figure",
    "registry",
]

_ENGINE = ("ice", "body", "sight", "motion", "shot", "play")
_MOST_LINES = 8
_MOST_ASKED = 12
_ANSWERED = ("depth", "loss")


@dataclass(frozen=True, slots=True, kw_only=True)
class OriginLine:
    """One constant as shown: texts ready to print; ``kind`` is the origin's word.

    ``moves`` says how far the figure at hand goes when the setting goes to its two ends, empty
    when nothing moves or nothing was asked; ``swing`` is that distance in the figure's own unit.
    """

    key: str
    label: str
    value: str
    unit: str
    kind: str
    source: str
    note: str
    low: str
    high: str
    is_setting: bool
    changed: bool
    moves: str = ""
    swing: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureOrigin:
    """One figure: what it is, how it is worked out, and the constants behind it."""

    title: str
    value_text: str
    how: str
    lines: tuple[OriginLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Figure:
    title: str
    unit: str
    digits: int
    how: str
    scale: float
    value: Callable[[Read], float]

    def text(self, read: Read) -> str:
        return _with_unit(self.scale * self.value(read), self.digits, self.unit)


def origin_line(constant: Constant, settings: Settings = DEFAULT_SETTINGS) -> OriginLine:
    """Return a constant as shown, with the value in force; nothing is asked of the engine."""
    changed = constant.key in dict(settings.changed)
    kind = OriginKind.COACH if changed else constant.kind
    default = f"default {constant.value:g} {constant.unit}, {constant.origin}".strip()
    note = "; ".join(part for part in (constant.note, default if changed else "") if part)
    return OriginLine(
        key=constant.key,
        label=constant.label,
        value=f"{settings.value_of(constant):.4g}",
        unit=constant.unit,
        kind=kind.value,
        source="" if changed else constant.source,
        note=note,
        low=f"{constant.low:.4g}",
        high=f"{constant.high:.4g}",
        is_setting=constant.is_setting,
        changed=changed,
    )


def constant_origin(key: str, settings: Settings = DEFAULT_SETTINGS) -> OriginLine:
    """Return one constant by key as shown; raises ``NotFoundError`` with the nearest key."""
    return origin_line(known_constant(key), settings)


def constant_figure(key: str, settings: Settings = DEFAULT_SETTINGS) -> FigureOrigin:
    """Return where one constant comes from, and how far it moves the depth of an example.

    The example is a two-on-one: carrier near the left dot, a mate across, one defender between.
    """
    constant = known_constant(key)
    line = origin_line(constant, settings)
    how = "A number that the program takes as given."
    if line.is_setting:
        how = f"A setting: the program takes this number unless you change it ({line.key})."
    if _is_of_engine(constant) and constant.is_setting:
        example = _example(settings, _level_of(key))
        figure = _figure_named("depth")
        now = ask(example, detail=False)
        subject = "Depth in the example two-on-one"
        line = _moved(constant, line, example, figure, now, subject=subject)
    return FigureOrigin(
        title=constant.label, value_text=f"{line.value} {line.unit}".strip(), how=how, lines=(line,)
    )


def read_figure(question: Question, figure: str) -> FigureOrigin:
    """Return where a figure of a read comes from, the setting that moves it most first.

    ``figure`` is ``'depth'``, ``'offset'``, ``'band'``, ``'loss'``, or ``'margin:KEY'``,
    ``'goals:KEY'``, ``'comes-off:KEY'`` with the key of an option. Raises ``NotFoundError`` for
    any other.
    """
    now = ask(question, detail=True)
    wanted = _figure_named(figure, now)
    keys = dict.fromkeys(one.key for one in now.sensitivities)
    keys |= dict.fromkeys(key for reason in now.reasons for key in reason.keys)
    known = registry()
    lines = []
    answered = {one.key: one for one in now.sensitivities} if figure in _ANSWERED else {}
    for key in [one for one in keys if one in known][:_MOST_ASKED]:
        constant = known[key]
        line = origin_line(constant, question.settings)
        if key in answered:
            line = _told(constant, line, answered[key], wanted, now, figure)
        elif constant.is_setting:
            line = _moved(constant, line, question, wanted, now)
        lines.append(line)
    lines.sort(key=lambda one: (-one.swing, one.label))
    return FigureOrigin(
        title=wanted.title,
        value_text=wanted.text(now),
        how=wanted.how,
        lines=tuple(lines[:_MOST_LINES]),
    )


def count_figure(title: str, *, count: int, of: int, from_games: tuple[str, ...]) -> FigureOrigin:
    """Return where a count such as ``4 of 11`` comes from: the games it was counted in."""
    games = ", ".join(from_games) if from_games else "no game"
    number = len(from_games)
    return FigureOrigin(
        title=title,
        value_text=f"{count} of {of}",
        how=f"Counted in {number} logged game{'' if number == 1 else 's'}: {games}.",
        lines=(),
    )


def known_constant(key: str) -> Constant:
    """Return a constant by key; raises ``NotFoundError`` with the nearest keys."""
    known = registry()
    if key in known:
        return known[key]
    near = get_close_matches(key, known, n=5, cutoff=0.4)
    words = [one for one in known if key.lower() in one.lower()][:5]
    listed = list(dict.fromkeys([*words, *near]))[:6]
    raise NotFoundError(
        "no number has that key",
        came=f"'{key}'",
        allowed=f"for example {', '.join(listed)}" if listed else "",
        hint="List them all: tendline origin, or the page of all numbers.",
    )


def _moved(
    constant: Constant,
    line: OriginLine,
    question: Question,
    figure: _Figure,
    now: Read,
    *,
    subject: str = "",
) -> OriginLine:
    """Return the line with the figure asked again at both ends of the setting's range."""
    values: list[float | None] = []
    for end in (constant.low, constant.high):
        settings = question.settings.with_value(constant.key, end)
        try:
            values.append(figure.value(ask(replace(question, settings=settings), detail=False)))
        except (InputError, LookupError):
            values.append(None)
    ends = (constant.low, constant.high)
    return _worded(line, figure, now, ends, (values[0], values[1]), subject or figure.title)


def _told(
    constant: Constant,
    line: OriginLine,
    known: Sensitivity,
    figure: _Figure,
    now: Read,
    name: str,
) -> OriginLine:
    """Return the line with what the read itself has already worked out."""
    values = (
        (known.depth_low, known.depth_high)
        if name == "depth"
        else (known.loss_low, known.loss_high)
    )
    return _worded(line, figure, now, (known.low, known.high), values, figure.title)


def _worded(
    line: OriginLine,
    figure: _Figure,
    now: Read,
    ends: tuple[float, float],
    values: tuple[float | None, float | None],
    subject: str,
) -> OriginLine:
    here = figure.value(now)
    swing = max((abs(one - here) for one in values if one is not None), default=0.0)
    low, high = (f"{one:.4g} {line.unit}".strip() for one in ends)
    if figure.scale * swing < 0.5 * 10.0**-figure.digits:
        return replace(
            line, moves=f"{subject} does not move between {low} and {high}.", swing=swing
        )
    words = [
        "no answer" if one is None else _with_unit(figure.scale * one, figure.digits, figure.unit)
        for one in values
    ]
    moves = f"{subject}: {words[0]} at {low}, {figure.text(now)} now, {words[1]} at {high}."
    return replace(line, moves=moves, swing=swing)


def _figure_named(name: str, read: Read | None = None) -> _Figure:
    plain = {
        "depth": _Figure(
            title="Depth", unit="m", digits=2, scale=1.0, value=lambda r: r.depth,
            how="Metres from the middle of the goal to her, where the combined loss over all "
            "options is least.",
        ),
        "offset": _Figure(
            title="Beside the line", unit="m", digits=2, scale=1.0, value=lambda r: r.offset,
            how="Metres to the left (+) or right (-) of the line from the puck to the middle of "
            "the goal, where the combined loss is least.",
        ),
        "band": _Figure(
            title="Width of the band", unit="m", digits=2, scale=1.0,
            value=lambda r: r.band.high - r.band.low,
            how="Depths that cost almost as little as the best one; anywhere in the band will do.",
        ),
        "loss": _Figure(
            title="Chance of a goal", unit="in 100", digits=1, scale=100.0,
            value=lambda r: r.loss,
            how="All options weighed by what this opponent is known to do and by the worst of "
            "them; the less is known, the more the worst counts.",
        ),
    }  # fmt: skip
    if name in plain:
        return plain[name]
    kind, _, key = name.partition(":")
    kinds = {
        "margin": ("Set before the release", "s", 2, 1.0, "set_margin",
                   "Release time of this option less the time she needs to react, get there and "
                   "stop; minus means not set."),
        "goals": ("Goals from this option, when it comes off", "in 100", 1, 100.0, "goal_chance",
                  "What the puck sees open from the release, weighed by the shooter's aim and by "
                  "how fast her nearest limb gets there."),
        "loss": ("Goals from 100 tries of this option", "in 100", 1, 100.0, "loss",
                 "How often it comes off times how often it goes in when it does."),
        "comes-off": ("How often it comes off", "in 100", 0, 100.0, "comes_off",
                      "Lanes that defenders close, the length and the speed of the pass."),
    }  # fmt: skip
    if kind not in kinds or not key:
        allowed = [*plain, *(f"{one}:OPTION" for one in kinds)]
        raise unknown_name("figure", name, allowed)
    if read is not None and key not in {one.option.key for one in read.options}:
        raise unknown_name("option", key, [one.option.key for one in read.options])
    title, unit, digits, scale, field, how = kinds[kind]

    def value(found: Read) -> float:
        answer = next(one for one in found.options if one.option.key == key)
        return float(getattr(answer, field))

    return _Figure(title=title, unit=unit, digits=digits, scale=scale, how=how, value=value)


def _is_of_engine(constant: Constant) -> bool:
    titles = {title for name, title in PACKAGES if name in _ENGINE}
    return any(constant in found for title, found in groups() if title in titles)


def _example(settings: Settings, level: str) -> Question:
    known = {one.value: one for one in Level}
    return Question(
        attackers=(
            Attacker(name="F1", x=7.0, y=5.0, hand=Side.LEFT, vx=-4.0, vy=0.0),
            Attacker(name="F2", x=6.5, y=-4.5, hand=Side.LEFT, vx=-4.0, vy=0.0),
        ),
        defenders=(Defender(name="D1", x=5.5, y=0.5, vx=-3.0, vy=0.0),),
        level=known.get(level, Level.U18),
        settings=settings,
    )


def _level_of(key: str) -> str:
    """Return the level named at the end of a key such as ``'shot.wrist_speed.U13'``, or ''."""
    return key.rpartition(".")[2]


def _with_unit(value: float, digits: int, unit: str) -> str:
    text = f"{value:.{digits}f}"
    return f"{text} {unit}" if unit else text
