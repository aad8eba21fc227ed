"""A number that knows where it comes from, and the parameter objects built from such numbers.

Every figure in tendline is a :class:`Constant`: value, unit, kind of origin, source. Published
figures are read once from ``facts.toml`` beside this file, whose rows name title, section and
year. A parameter object is a frozen dataclass whose fields are made by :func:`parameter`; a
:class:`Settings` value holds what the coach changed and :func:`build` makes the object.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, fields
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import Any, TypeVar, cast

from tendline.base.checks import require_number, unknown_name

T = TypeVar("T")


class OriginKind(StrEnum):
    """Where a number comes from."""

    PUBLISHED = "published"
    PUBLISHED_WEAK = "published, weak source"
    COMPUTED = "computed from a published table"
    MEASURED = "measured by us"
    FITTED = "fitted by us on published tables"
    PRACTICE = "common practice"
    MEMORY = "from memory"
    ASSUMED = "assumed"
    COACH = "set by the coach"


@dataclass(frozen=True, slots=True, kw_only=True)
class Constant:
    """A number with its unit and origin; ``key`` is also the name of the setting that changes it.

    ``low`` and ``high`` bound what a coach may set and serve as the range over which an answer's
    sensitivity is shown; a published constant that nobody should change has ``low == high``.
    """

    key: str
    label: str
    value: float
    unit: str
    kind: OriginKind
    source: str = ""
    note: str = ""
    low: float
    high: float

    @property
    def is_setting(self) -> bool:
        """Return whether the coach may change it."""
        return self.low < self.high

    @property
    def origin(self) -> str:
        """Return the origin as one line of text."""
        return f"{self.kind.value}: {self.source}" if self.source else self.kind.value


_KIND_OF_HOW = {
    "looked_up": OriginKind.PUBLISHED,
    "looked_up_weak": OriginKind.PUBLISHED_WEAK,
    "computed": OriginKind.COMPUTED,
    "practice": OriginKind.PRACTICE,
    "memory": OriginKind.MEMORY,
}


@cache
def facts() -> Mapping[str, Any]:
    """Return the table of published facts, as nested mappings."""
    return tomllib.loads(files("tendline.base").joinpath("facts.toml").read_text("utf-8"))


def fact_table(path: str) -> Mapping[str, Any]:
    """Return the facts under a dotted ``path`` such as ``'body.cdc.stature_girls'``."""
    node: Any = facts()
    for word in path.split("."):
        if not isinstance(node, Mapping) or word not in node:
            known = list(node) if isinstance(node, Mapping) else []
            raise unknown_name("published fact", path, known)
        node = node[word]
    return cast("Mapping[str, Any]", node)


def source_text(key: str) -> str:
    """Return the full source line of a source key such as ``'IIHF22'``."""
    return str(facts()["sources"][key])


def fact(
    path: str,
    label: str,
    *,
    key: str = "",
    low: float | None = None,
    high: float | None = None,
    note: str = "",
) -> Constant:
    """Return a published figure as a :class:`Constant`; give ``low``/``high`` to let it be set."""
    row = fact_table(path)
    value = float(row["v"])
    return Constant(
        key=key or path,
        label=label,
        value=value,
        unit=str(row["unit"]),
        kind=_KIND_OF_HOW[str(row["how"])],
        source=source_text(str(row["src"])),
        note=note,
        low=value if low is None else low,
        high=value if high is None else high,
    )


def assumed(
    key: str,
    label: str,
    value: float,
    unit: str,
    *,
    low: float,
    high: float,
    note: str = "",
    kind: OriginKind = OriginKind.ASSUMED,
    source: str = "",
) -> Constant:
    """Return an editable default that nothing published backs (or another ``kind``, if said)."""
    return Constant(
        key=key, label=label, value=value, unit=unit, kind=kind, source=source, note=note,
        low=low, high=high,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Settings:
    """What a club or coach changed, by constant key; everything else keeps its default."""

    changed: tuple[tuple[str, float], ...] = ()

    @classmethod
    def of(cls, changed: Mapping[str, float]) -> Settings:
        """Return settings from a mapping of key to value."""
        return cls(tuple(sorted(changed.items())))

    def with_value(self, key: str, value: float) -> Settings:
        """Return new settings with one value changed."""
        return Settings.of({**dict(self.changed), key: value})

    def value_of(self, constant: Constant) -> float:
        """Return the value in force; raises ``InputError`` if a changed value is out of range."""
        chosen = dict(self.changed).get(constant.key)
        if chosen is None:
            return constant.value
        return require_number(
            constant.label, chosen, low=constant.low, high=constant.high, unit=constant.unit,
            item=constant.key,
        )  # fmt: skip


DEFAULT_SETTINGS = Settings()


def parameter(constant: Constant) -> Any:
    """Return a dataclass field whose default and origin are those of ``constant``."""
    return field(default=constant.value, metadata={"constant": constant})


def constants_of(kind: type) -> tuple[Constant, ...]:
    """Return the constants behind a parameter class, in field order."""
    found = (one.metadata.get("constant") for one in fields(kind))
    return tuple(one for one in found if isinstance(one, Constant))


def build(kind: type[T], settings: Settings = DEFAULT_SETTINGS) -> T:
    """Return a parameter object with the coach's settings applied."""
    values = {
        one.name: settings.value_of(one.metadata["constant"])
        for one in fields(cast("Any", kind))
        if "constant" in one.metadata
    }
    return kind(**values)


def by_key(constants: Iterable[Constant]) -> dict[str, Constant]:
    """Return constants by key; raises ``ValueError`` if two differ under one key."""
    table: dict[str, Constant] = {}
    for one in constants:
        if table.setdefault(one.key, one) != one:
            raise ValueError(f"two different constants share the key {one.key!r}")
    return table
