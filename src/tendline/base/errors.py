"""The errors tendline raises: what was asked, what came, what is allowed, what to do next."""

from __future__ import annotations


class TendlineError(Exception):
    """Base of every error that tendline raises on purpose.

    The message is built from its parts so that a page, a command and a test can use them
    one by one: ``asked`` (what was wanted), ``came`` (what was given), ``allowed`` and
    ``hint`` (what to do next); ``item`` names the player, row or line concerned.
    """

    def __init__(
        self, asked: str, *, came: str = "", allowed: str = "", hint: str = "", item: str = ""
    ) -> None:
        self.asked = asked
        self.came = came
        self.allowed = allowed
        self.hint = hint
        self.item = item
        super().__init__(self.message)

    @property
    def message(self) -> str:
        """Return the whole message as one line."""
        parts = [f"{self.item}: {self.asked}" if self.item else self.asked]
        if self.came:
            parts.append(f"got {self.came}")
        if self.allowed:
            parts.append(f"allowed: {self.allowed}")
        text = "; ".join(parts)
        return f"{text}. {self.hint}" if self.hint else f"{text}."


class InputError(TendlineError, ValueError):
    """A value that came in cannot be used."""


class NotFoundError(TendlineError, LookupError):
    """Something was asked for by a name that is not known."""


class RowError(InputError):
    """One row of an imported table cannot be used; ``item`` names the row."""


class ScriptError(InputError):
    """One line of a drill script cannot be read."""

    def __init__(
        self, asked: str, *, line: int, came: str = "", allowed: str = "", hint: str = ""
    ) -> None:
        self.line = line
        super().__init__(asked, came=came, allowed=allowed, hint=hint, item=f"line {line}")


class PlanError(TendlineError, ValueError):
    """A plan cannot be made; says which rule forbids it and the smallest change that frees it."""


class StoreError(TendlineError, OSError):
    """The club's file cannot be read or written."""


class NoConvergenceError(TendlineError, ArithmeticError):
    """An iteration reached its limit without an answer."""
