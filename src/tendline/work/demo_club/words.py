"""The words of the demo club: notes after games, about opponents, after practice."""

from __future__ import annotations

from datetime import date

from tendline.log import Cause

PAIRS: tuple[tuple[str, str, str], ...] = (
    ("tracked long shots all the way into the body", "stop before the release", "still"),
    ("talked to the defence on every rim", "look across before the push", "look"),
    ("stayed on her feet on the rush", "first puck to the corner", "corner"),
    ("calm after the goal, back in her routine", "one push, not two", "push"),
    ("good stick on low shots", "up with the leg that pushes first", "up"),
)
OPPONENT_NOTES: dict[str, tuple[str, ...]] = {
    "Cold Spring Mills": (
        "14 shoots left, cut in from the right side 3 times of 4 seen",
        "power play: three across the top, pass goes low to the far side",
    ),
    "Harrow Lake": ("they throw pucks in from the corner and drive the net",),
    "Stonebridge": ("9 waits for the pass across, always on his forehand",),
    "Eastferry": ("point shots on every face-off won",),
}
RATING_WORDS: dict[Cause, str] = {
    Cause.CHANCE_QUALITY: "nothing to do differently",
    Cause.TIMING: "still moving when it left the stick",
    Cause.POSITION: "off the line, short side open",
    Cause.READ: "went with the pass that did not come",
    Cause.EXECUTION: "set and there; the hole opened",
}
PRACTICE_NOTES: tuple[tuple[date, str, str], ...] = (
    (date(2026, 11, 10), "ronja", "set better on the left; still late coming back"),
    (date(2026, 11, 12), "ronja", "same pair, one notch harder; tick"),
    (date(2026, 11, 17), "ronja", "rebounds to the corner 7 of 10 from her glove side"),
    (date(2026, 11, 17), "milo", "quiet hands on long shots"),
    (date(2026, 11, 19), "ilse", "enjoyed the post game; stands tall on it"),
    (date(2026, 11, 19), "petra", "short session after work, edges only"),
)
