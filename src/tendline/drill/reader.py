"""What has been read of a script so far, and what was wrong with it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from tendline.base import ScriptError
from tendline.drill.phrases import Names, Wrong
from tendline.drill.places import spot_names
from tendline.drill.types import Item, Note, Person, Thing


@dataclass(slots=True)
class Reader:
    """What has been read so far, and what was wrong."""

    faults: list[ScriptError]
    header: dict[str, Any] = field(default_factory=dict)
    notes: dict[str, Note] = field(default_factory=dict)
    people: list[Person] = field(default_factory=list)
    things: list[Thing] = field(default_factory=list)
    tags: list[str] = field(default_factory=list)
    unread: list[str] = field(default_factory=list)
    play: tuple[Item, ...] = ()

    def fault(self, line: int, wrong: Wrong) -> None:
        self.faults.append(
            ScriptError(
                wrong.asked, line=line, came=wrong.came, allowed=wrong.allowed, hint=wrong.hint
            )
        )

    def names(self) -> Names:
        people = (*(one.name for one in self.people), *self.unread)
        if "G" not in people:
            people = (*people, "G")
        places = (*spot_names(), *(one.label for one in self.things))
        return Names(people, places, tuple(self.tags))
