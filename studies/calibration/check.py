"""One row of the validation: our figure beside one from outside the project."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from tendline.base import fact_table


class Role(StrEnum):
    """Whether a row was used to choose our numbers, and whether its outside figure is sure.

    A row counts as a check only if it chose none of our numbers, is not implied by rows that did,
    and stands on figures that are sure (``sure`` in ``facts.toml``) or on the open data.
    """

    FITTED = "fitted"
    CHECKED = "checked"
    SHOWN = "shown only"


@dataclass(frozen=True)
class Check:
    """``ours`` must lie within ``low`` .. ``high``; ``theirs`` is the outside figure."""

    group: str
    name: str
    ours: float
    theirs: float
    low: float
    high: float
    unit: str
    source: str
    role: Role = Role.CHECKED
    note: str = ""

    @property
    def holds(self) -> bool:
        return self.low <= self.ours <= self.high


def near(
    group: str,
    name: str,
    ours: float,
    theirs: float,
    within: float,
    unit: str,
    source: str,
    role: Role = Role.CHECKED,
    note: str = "",
) -> Check:
    """Return a check that our figure is ``within`` so much of the outside one."""
    return Check(
        group,
        name,
        float(ours),
        float(theirs),
        theirs - within,
        theirs + within,
        unit,
        source,
        role,
        note,
    )


def sure_value(path: str) -> float:
    """Return a published figure that a check may stand on; raises for one that is not sure."""
    row = fact_table(path)
    if row.get("sure") is not True:
        raise ValueError(f"{path} is not sure ({row.get('how')}): show it, do not check with it")
    return float(row["v"])
