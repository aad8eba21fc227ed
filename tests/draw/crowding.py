"""Measures in a drawn diagram where words stand on words or on signs, from the picture alone.

A label is a number, a branch's plate, a goaltender's letter, a choice diamond or a thing's name;
a sign is a person, a puck, a thing, a screen or a tip. Boxes are in CSS pixels of the nominal width.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from tendline.draw.fontfiles import text_width
from tendline.draw.labels import Box

from .svg_reading import NAMESPACE, parse, view_box

LABELS = ("tl-number", "tl-branch-tag", "tl-move-letter", "tl-choice", "tl-thing-name")
SIGNS = ("tl-sign", "tl-puck", "tl-cone", "tl-net", "tl-target", "tl-mark-line", "tl-screen",
         "tl-tip")  # fmt: skip
TOUCH = 0.35
"""Overlaps under this many CSS pixels across or down count as touching."""
CAP_HEIGHT = 0.72


@dataclass(frozen=True, slots=True)
class Seen:
    """Something drawn: what it is, the words in it, and its box [CSS px]."""

    kind: str
    words: str
    box: Box


def seen(svg: str) -> tuple[list[Seen], list[Seen], Box]:
    """Return the labels, the signs and the picture's box."""
    root = parse(svg)
    left, top, width, height = view_box(root)
    unit = float(root.get("width") or "nan") / width
    labels: list[Seen] = []
    signs: list[Seen] = []
    for one in root.iter():
        classes = (one.get("class") or "").split()
        for kind in classes:
            if kind not in LABELS and kind not in SIGNS:
                continue
            box = _box(one)
            scaled = Box(*(side * unit for side in (box.left, box.top, box.right, box.bottom)))
            found = Seen(kind, one.text or "", scaled)
            (labels if kind in LABELS else signs).append(found)
    frame = Box(left * unit, top * unit, (left + width) * unit, (top + height) * unit)
    return labels, signs, frame


def _box(one: Element) -> Box:
    tag = one.tag.removeprefix(NAMESPACE)

    def number(name: str) -> float:
        return float(one.get(name) or "nan")

    if tag == "circle":
        return Box.around((number("cx"), number("cy")), number("r"), number("r"))
    if tag == "rect":
        x, y = number("x"), number("y")
        return Box(x, y, x + number("width"), y + number("height"))
    if tag == "text":
        size = number("font-size")
        wide = text_width(one.text or "", size=size, bold=one.get("font-weight") == "700")
        x, y = number("x"), number("y")
        start = x if one.get("text-anchor") in (None, "start") else x - wide / 2.0
        return Box(start, y - CAP_HEIGHT * size, start + wide, y)
    values = [float(v) for v in re.findall(r"-?\d+\.?\d*(?:e-?\d+)?", one.get("d") or "")]
    xs, ys = values[::2], values[1::2]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _meet(a: Box, b: Box) -> bool:
    across = min(a.right, b.right) - max(a.left, b.left)
    down = min(a.bottom, b.bottom) - max(a.top, b.top)
    return across > TOUCH and down > TOUCH


def crowding(svg: str) -> list[str]:
    """Return every pair of labels, and of label and sign, that overlap, and labels cut off."""
    labels, signs, frame = seen(svg)
    found = []
    for i, one in enumerate(labels):
        name = f"{one.kind} '{one.words}'"
        found += [
            f"{name} on {other.kind} '{other.words}'"
            for other in labels[:i]
            if _meet(one.box, other.box)
        ]
        found += [f"{name} on {other.kind}" for other in signs if _meet(one.box, other.box)]
        inside = one.box.overlap(frame)
        if one.box.area - inside > TOUCH * (one.box.bottom - one.box.top):
            found.append(f"{name} outside")
    return found
