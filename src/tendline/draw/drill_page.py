"""One drill as a single HTML file that plays without a network, to be sent and opened anywhere."""

from __future__ import annotations

import base64
import json
import math
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.resources import files
from typing import Any

from tendline.base import InputError
from tendline.body import Build
from tendline.draw.animation import shown_puck
from tendline.draw.card_pdf import CAUTIONS, facts_words
from tendline.draw.drill_picture import drill_svg, drill_window
from tendline.draw.drill_scene import scene_of
from tendline.draw.fontfiles import font_files
from tendline.draw.moments import Moment
from tendline.draw.moving_ice import moving_ice_svg
from tendline.draw.pdf import sentence
from tendline.draw.svg import escape
from tendline.draw.tokens import css_tokens
from tendline.drill.types import Drill
from tendline.ice import Rink
from tendline.ice import rink as make_rink

WIDTH = 460.0
"""Width that the pictures are made for [CSS pixels]: a phone held upright."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way through a drill's choices: its words and its moments, evenly spaced in time."""

    words: str
    moments: Sequence[Moment]


def drill_page(
    drill: Drill,
    ways: Sequence[Way],
    build: Build,
    *,
    rate: float = 12.5,
    hidden: bool = False,
    rink: Rink | None = None,
) -> str:
    """Return a whole HTML page with the drill's animation, diagram and words.

    ``rate`` is in frames a second. ``hidden`` adds a choice that plays a way by lot without naming
    it. Nothing is fetched: font, script and data stand inside, under a content policy that forbids
    every other source. Raises ``InputError`` for a way without moments.
    """
    ground = rink or make_rink()
    player = drill_player(drill, ways, build, rate=rate, hidden=hidden, rink=ground)
    script = drill_player_script().replace("export function", "function")
    parts = [
        "<!doctype html>",
        '<html lang="en"><head><meta charset="utf-8">',
        '<meta name="viewport" content="width=device-width,initial-scale=1">',
        '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; '
        "script-src 'unsafe-inline'; style-src 'unsafe-inline'; font-src data:; img-src data:\">",
        f"<title>{escape(drill.title)}</title>",
        f"<style>{_inlined_tokens()}{_file('drill_page.css')}</style></head><body>",
        f"<h1>{escape(drill.title)}</h1>",
        f'<p class="soft">{escape(facts_words(drill))}</p>',
        f"<p>{escape(sentence(drill.purpose))}</p>",
        player,
        _words(drill),
        "<h2>Diagram</h2>",
        drill_svg(drill, rink=ground, width=WIDTH),
        f'<p class="soft">{escape(CAUTIONS)}</p>',
        f'<script type="module">{script}</script></body></html>',
    ]
    return "\n".join(parts)


def drill_player(
    drill: Drill,
    ways: Sequence[Way],
    build: Build,
    *,
    rate: float = 12.5,
    hidden: bool = False,
    rink: Rink | None = None,
    width: float = WIDTH,
) -> str:
    """Return the moving ice, its controls and its data as one piece of HTML, for any page.

    It has no style, no handler and no script of its own: the page loads what
    :func:`drill_player_script` returns. Raises ``InputError`` for a way without moments.
    """
    if not ways or any(not one.moments for one in ways):
        raise InputError("a page needs at least one moment for every way", item=drill.title)
    ground = rink or make_rink()
    window = drill_window(drill, scene_of(drill, ground), ground)
    data = {"hidden": hidden, "ways": [_way(one, rate, width / window.across) for one in ways]}
    packed = json.dumps(data, separators=(",", ":"), ensure_ascii=True).replace("<", "\\u003c")
    moments = [moment for one in ways for moment in one.moments]
    return "\n".join(
        (
            moving_ice_svg(drill, moments, build, rink=ground, width=width),
            _controls(ways, hidden),
            f'<script type="application/json" id="run">{packed}</script>',
        )
    )


def drill_player_script() -> str:
    """Return the script that plays what :func:`drill_player` returns, as a JavaScript module."""
    return _file("drill_player.js")


def _file(name: str) -> str:
    return files("tendline.draw").joinpath("pages", name).read_text("utf-8")


def _inlined_tokens() -> str:
    """Return the shared style sheet with its fonts inside."""
    css = css_tokens()
    for name, content in font_files().items():
        packed = base64.b64encode(content).decode("ascii")
        css = css.replace(f"url({name})", f"url(data:font/woff2;base64,{packed})")
    return css


def _way(one: Way, rate: float, scale: float) -> dict[str, Any]:
    names = [name for name, _ in one.moments[0].people]
    people: dict[str, list[float]] = {name: [] for name in names}
    for moment in one.moments:
        for name, (x, y) in moment.people:
            people.setdefault(name, []).extend((round(x, 2), round(y, 2)))
    lines: list[list[Any]] = []
    for index, moment in enumerate(one.moments):
        if moment.words and (not lines or lines[-1][1] != moment.words):
            lines.append([index, moment.words])
    return {
        "words": one.words,
        "lines": lines,
        "wanted": [
            round(v, 2)
            for moment in one.moments
            for v in (moment.wanted or (moment.pose.x, moment.pose.y))
        ],
        "rate": rate,
        "times": len(one.moments),
        "people": people,
        "puck": [round(v, 2) for moment in one.moments for v in shown_puck(moment, scale)],
        "her": [
            round(v, 2)
            for moment in one.moments
            for v in (moment.pose.x, moment.pose.y, math.degrees(moment.pose.facing))
        ],
        "stances": [moment.pose.stance.value for moment in one.moments],
        "isSet": [1 if moment.is_set else 0 for moment in one.moments],
    }


def _controls(ways: Sequence[Way], hidden: bool) -> str:
    speeds = "".join(
        f'<option value="{value}"{" selected" if value == "1" else ""}>{words}</option>'
        for value, words in (("0.25", "quarter speed"), ("0.5", "half speed"), ("1", "full speed"))
    )
    longest = max(len(one.moments) for one in ways)
    choice = ""
    if len(ways) > 1:
        by_lot = '<option value="">by lot, not told</option>' if hidden else ""
        listed = "".join(
            f'<option value="{i}">{escape(one.words)}</option>' for i, one in enumerate(ways)
        )
        choice = f'<select id="way" aria-label="Which way">{by_lot}{listed}</select>'
    return (
        '<div class="controls"><button type="button" id="play">Play</button>'
        '<button type="button" id="back" aria-label="One step back">−</button>'
        '<button type="button" id="on" aria-label="One step on">+</button>'
        f'<input id="time" type="range" min="0" max="{longest - 1}" step="0.1" '
        'value="0" aria-label="Time"><span id="clock">0.0 s</span><span id="state"></span>'
        f'<select id="speed" aria-label="Speed">{speeds}</select>{choice}</div>'
        '<p id="words" aria-live="polite"></p><p id="line" class="soft"></p>'
    )


def _words(drill: Drill) -> str:
    parts = []
    for head, words in (("Goaltender", drill.goaltender_aim), ("Shooters", drill.shooters_aim)):
        if words:
            parts.append(f"<p><strong>{head}:</strong> {escape(sentence(words))}</p>")
    for head, lines, tag in (
        ("Set-up", drill.set_up, "ul"),
        ("Run", drill.steps, "ol"),
        ("Key points", drill.key_points[:3], "ol"),
    ):
        if lines:
            items = "".join(f"<li>{escape(sentence(one))}</li>" for one in lines)
            parts.append(f"<h2>{head}</h2><{tag}>{items}</{tag}>")
    return "".join(parts)
