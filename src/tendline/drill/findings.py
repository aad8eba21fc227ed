"""What the checks of a drill say: each finding with evidence, limit, and the limit's owner."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import Constant
from tendline.drill.rules import BY_ID, RuleLevel
from tendline.drill.vocabulary import MarkKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """A rule that the drill breaks, or breaks on purpose (``on_purpose``), or a note.

    ``evidence`` holds the numbers from the run; ``limit`` the limit in words; ``owner`` who set
    it; ``key`` the setting that changes it. ``branch`` and ``release`` name the shot concerned.
    """

    rule: str
    level: RuleLevel
    text: str
    evidence: str = ""
    limit: str = ""
    owner: str = ""
    key: str = ""
    branch: str = ""
    release: int = 0
    on_purpose: str = ""

    @property
    def stands(self) -> bool:
        """Return whether the drill breaks the rule without saying so."""
        return not self.on_purpose and self.level is not RuleLevel.INFORM

    @property
    def words(self) -> str:
        """Return the finding as one line."""
        parts = [f"{self.rule}: {self.text}"]
        if self.evidence:
            parts.append(self.evidence)
        if self.limit:
            parts.append(f"limit {self.limit} ({self.owner})" if self.owner else self.limit)
        line = "; ".join(parts).rstrip(".")
        return f"{line}. On purpose: {self.on_purpose}." if self.on_purpose else f"{line}."


def finding(
    rule: str,
    level: RuleLevel,
    text: str,
    *,
    evidence: str = "",
    limit: Constant | None = None,
    value: float | None = None,
    branch: str = "",
    release: int = 0,
    on_purpose: str = "",
) -> Finding:
    """Return a finding whose limit's owner and key come from its constant."""
    words = owner = key = ""
    if limit is not None:
        shown = limit.value if value is None else value
        words, owner, key = f"{shown:g} {limit.unit}", limit.origin, limit.key
    else:
        owner = BY_ID[rule].origin
    return Finding(
        rule=rule, level=level, text=text, evidence=evidence, limit=words, owner=owner, key=key,
        branch=branch, release=release, on_purpose=on_purpose,
    )  # fmt: skip


PURPOSE_OF: dict[str, tuple[MarkKind, ...]] = {
    "V1": (MarkKind.LATE, MarkKind.BATTLE),
    "V2": (MarkKind.SECOND_SAVE, MarkKind.BATTLE),
    "V3": (MarkKind.SECOND_SAVE, MarkKind.BATTLE),
    "V4": (MarkKind.NO_AFTER_PART, MarkKind.BATTLE, MarkKind.SECOND_SAVE),
    "V5": (MarkKind.ONE_SIDE,),
    "V6": (MarkKind.LONG_TURN, MarkKind.BATTLE),
    "V10": (MarkKind.NO_READ,),
    "AGE": (MarkKind.OLD_FOR_AGE,),
    "V18": (MarkKind.OLD_FOR_AGE,),
}
"""Which marks say that a rule is broken on purpose."""
