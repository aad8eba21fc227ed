"""Every constant of every package, found by looking: nothing has to be listed by hand."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterator, Mapping
from dataclasses import is_dataclass
from functools import cache
from types import ModuleType

import tendline
from tendline.base import Constant, OriginKind, by_key, constants_of

PACKAGES: tuple[tuple[str, str], ...] = (
    ("ice", "The ice"),
    ("body", "The goaltender's body and gear"),
    ("sight", "What the puck sees"),
    ("motion", "How she moves"),
    ("shot", "Shots and saves"),
    ("play", "Attack and decision"),
    ("people", "People"),
    ("drill", "Drills on the clock"),
    ("log", "Games and counts"),
    ("practice", "Practices"),
    ("teach", "Handouts and exercises"),
)
"""Package and its title, from the ice up; a package that is not there yet is passed over."""


@cache
def registry() -> Mapping[str, Constant]:
    """Return every constant by key; where packages share a key, as the lowest layer words it."""
    return by_key(one for _, constants in groups() for one in constants)


@cache
def groups() -> tuple[tuple[str, tuple[Constant, ...]], ...]:
    """Return (title, constants) for each package that has any, in the order of the layers."""
    seen: set[str] = set()
    made = []
    for package, title in PACKAGES:
        found = [one for one in _constants_in(package) if one.key not in seen]
        seen.update(one.key for one in found)
        if found:
            made.append((title, tuple(found)))
    return tuple(made)


def assumed_constants() -> tuple[Constant, ...]:
    """Return every constant that nothing published or measured backs."""
    return tuple(one for one in registry().values() if one.kind is OriginKind.ASSUMED)


def parameter_classes() -> tuple[type, ...]:
    """Return every class whose fields come from constants."""
    found: dict[type, None] = {}
    for package, _ in PACKAGES:
        for module in modules_of(package):
            for value in vars(module).values():
                if isinstance(value, type) and is_dataclass(value) and constants_of(value):
                    found[value] = None
    return tuple(found)


def modules_of(package: str) -> tuple[ModuleType, ...]:
    """Return the modules of one of tendline's packages, none if there is no such package."""
    names = {one.name for one in pkgutil.iter_modules(tendline.__path__)}
    if package not in names:
        return ()
    top = importlib.import_module(f"tendline.{package}")
    below = pkgutil.walk_packages(top.__path__, f"{top.__name__}.")
    return (top, *(importlib.import_module(one.name) for one in below if "library" not in one.name))


def clashes() -> tuple[tuple[Constant, Constant], ...]:
    """Return pairs of constants that share a key and are not the same (there should be none)."""
    first: dict[str, Constant] = {}
    pairs: dict[str, tuple[Constant, Constant]] = {}
    for package, _ in PACKAGES:
        for module in modules_of(package):
            for name, value in vars(module).items():
                for one in () if name.startswith("__") else _walk(value):
                    other = first.setdefault(one.key, one)
                    if other != one:
                        pairs.setdefault(one.key, (other, one))
    return tuple(pairs.values())


def _constants_in(package: str) -> tuple[Constant, ...]:
    found: dict[str, Constant] = {}
    for module in modules_of(package):
        for name, value in vars(module).items():
            if name.startswith("__"):
                continue
            for one in _walk(value):
                found.setdefault(one.key, one)
    return tuple(found.values())


def _walk(value: object, depth: int = 0) -> Iterator[Constant]:
    if isinstance(value, Constant):
        yield value
    elif isinstance(value, type) and is_dataclass(value):
        yield from constants_of(value)
    elif depth < 4 and isinstance(value, Mapping):
        for one in value.values():
            yield from _walk(one, depth + 1)
    elif depth < 4 and isinstance(value, tuple | list | frozenset | set):
        for one in value:
            yield from _walk(one, depth + 1)
