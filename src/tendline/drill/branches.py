"""Every way through the choices of a play, as plain lists of lines."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.drill.types import Action, Choice, Drill, Item


@dataclass(frozen=True, slots=True)
class Decision:
    """A choice taken: who, which branch, and before which line of the path."""

    who: str
    branch: str
    line: int
    told: bool


@dataclass(frozen=True, slots=True)
class Path:
    """One way: its key ('across', or 'across/return' where choices follow each other)."""

    key: str
    words: str
    share: float
    actions: tuple[Action, ...]
    decisions: tuple[Decision, ...]


def paths_of(drill: Drill) -> tuple[Path, ...]:
    """Return every way through the play; shares by weight, adding up to 1."""
    ways = _walk(drill.play)
    names = [_key(one) for one in ways]
    return tuple(
        Path(name, one.words, one.share, one.actions, one.decisions)
        for name, one in zip(names, ways, strict=True)
    )


def _key(path: Path) -> str:
    return "/".join(one.branch for one in path.decisions) or "play"


def _walk(items: tuple[Item, ...]) -> list[Path]:
    ways = [Path("", "", 1.0, (), ())]
    for item in items:
        if isinstance(item, Action):
            ways = [
                Path("", one.words, one.share, (*one.actions, item), one.decisions) for one in ways
            ]
            continue
        ways = [_joined(one, item, more) for one in ways for more in _choices(item)]
    return ways


def _choices(choice: Choice) -> list[Path]:
    total = sum(branch.weight for branch in choice.branches)
    found: list[Path] = []
    for branch in choice.branches:
        taken = Decision(choice.who, branch.name, 0, choice.told)
        words = f"{branch.name}: {branch.when}" if branch.when else branch.name
        found.extend(
            Path(
                "",
                "; ".join(one for one in (words, inner.words) if one),
                inner.share * branch.weight / total,
                inner.actions,
                (taken, *inner.decisions),
            )
            for inner in _walk(branch.items)
        )
    return found


def _joined(before: Path, choice: Choice, after: Path) -> Path:
    count = len(before.actions)
    moved = tuple(
        Decision(one.who, one.branch, one.line + count, one.told) for one in after.decisions
    )
    return Path(
        "",
        "; ".join(one for one in (before.words, after.words) if one),
        before.share * after.share,
        before.actions + after.actions,
        before.decisions + moved,
    )
