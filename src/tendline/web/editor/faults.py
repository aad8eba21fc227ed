"""A script's faults as the page shows them: at their line, with the word that would be right."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from tendline.base import ScriptError

MOST_SHOWN = 12
"""Faults shown at once; a script with more has one cause in common."""
_NEAR = re.compile(r"Did you mean '(.+)'\?")
_CAME = re.compile(r"'(.+)'")


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultLine:
    """One fault at its line; ``mended`` is the line as it would be right, where that is known."""

    line: int
    asked: str
    came: str
    allowed: str
    hint: str
    mended: str = ""


def fault_lines(script: str, faults: Iterable[ScriptError]) -> tuple[FaultLine, ...]:
    """Return the faults with, where a nearest word is known, the line as it would be right."""
    lines = script.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    return tuple(_fault(lines, one) for one in list(faults)[:MOST_SHOWN])


def _fault(lines: list[str], fault: ScriptError) -> FaultLine:
    return FaultLine(
        line=fault.line, asked=fault.asked, came=fault.came, allowed=fault.allowed,
        hint=fault.hint, mended=_mended(lines, fault),
    )  # fmt: skip


def _mended(lines: list[str], fault: ScriptError) -> str:
    near, came = _NEAR.fullmatch(fault.hint.strip()), _CAME.fullmatch(fault.came)
    if not near or not came or not 1 <= fault.line <= len(lines):
        return ""
    line = lines[fault.line - 1]
    return line.replace(came[1], near[1], 1) if line.count(came[1]) == 1 else ""
