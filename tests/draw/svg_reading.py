"""Reading pictures back in tests: elements, classes, bounds, and what the content policy forbids."""

from __future__ import annotations

import re
from xml.etree import ElementTree

NAMESPACE = "{http://www.w3.org/2000/svg}"


def parse(svg: str) -> ElementTree.Element:
    """Return the root element; fails if the text is no well-formed XML."""
    return ElementTree.fromstring(svg)


def with_class(root: ElementTree.Element, name: str) -> list[ElementTree.Element]:
    """Return all elements that carry a class."""
    return [one for one in root.iter() if name in (one.get("class") or "").split()]


def texts(root: ElementTree.Element) -> list[str]:
    """Return the words of all text elements, in drawing order."""
    return [one.text or "" for one in root.iter(f"{NAMESPACE}text")]


def view_box(root: ElementTree.Element) -> tuple[float, float, float, float]:
    """Return left, top, width, height of the view box."""
    left, top, width, height = (float(one) for one in (root.get("viewBox") or "").split())
    return left, top, width, height


def numbers_of(element: ElementTree.Element, *names: str) -> tuple[float, ...]:
    """Return numeric attributes."""
    return tuple(float(element.get(name) or "nan") for name in names)


def assert_embeddable(svg: str) -> None:
    """Check that a picture may stand inside a page under a strict content policy."""
    root = parse(svg)
    assert root.tag == f"{NAMESPACE}svg"
    assert root.get("aria-label")
    assert root.get("role") in ("img", "group")
    assert "tl-picture" in (root.get("class") or "")
    for one in root.iter():
        assert one.tag.removeprefix(NAMESPACE) not in ("style", "script", "foreignObject", "image")
        for name, value in one.attrib.items():
            assert name != "style"
            assert name != "id"
            assert not name.startswith("on")
            assert "javascript:" not in value
            assert "url(" not in value
            assert "nan" not in value.lower().split()
            assert "inf" not in value.lower().split()


def normalised(svg: str) -> str:
    """Return a picture with one element a line and coordinates to two decimals, for golden files."""
    text = re.sub(r"-?\d+\.\d+", lambda match: f"{float(match[0]):.2f}", svg)
    return text.replace("><", ">\n<") + "\n"
