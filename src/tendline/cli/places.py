"""Places and people as words on the command line: ``"left dot"``, ``6,5``, ``6,5:right@-3,0``."""

from __future__ import annotations

import re

from tendline.base import InputError, Side, unknown_name
from tendline.ice import Rink, spots
from tendline.play import Attacker, Defender

_PERSON = re.compile(
    r"(?P<place>[^:@]+?)\s*(:\s*(?P<hand>[a-z]+))?\s*(@\s*(?P<vx>[-+.\d]+)\s*,\s*(?P<vy>[-+.\d]+))?"
)
_XY = re.compile(r"\(?\s*(?P<x>[-+]?[\d.]+)\s*,\s*(?P<y>[-+]?[\d.]+)\s*\)?")
ALLOWED = "a spot such as 'left dot', or x,y in metres; then :left or :right for the hand, @vx,vy"


def place(text: str, rink: Rink, *, item: str) -> tuple[float, float]:
    """Return (x, y) [m] from the name of a spot or from ``x,y``."""
    found = _XY.fullmatch(text.strip())
    if found:
        return float(found["x"]), float(found["y"])
    known = spots(rink)
    name = text.strip().lower()
    if name not in known:
        raise unknown_name("spot", text.strip(), known, item=item)
    return known[name].x, known[name].y


def attacker(text: str, rink: Rink, *, name: str) -> Attacker:
    """Return an attacker from words; a hand not given is left."""
    (x, y), hand, (vx, vy) = _person(text, rink, name)
    return Attacker(name=name, x=x, y=y, hand=hand or Side.LEFT, vx=vx, vy=vy)


def defender(text: str, rink: Rink, *, name: str) -> Defender:
    """Return a defender from words."""
    (x, y), hand, (vx, vy) = _person(text, rink, name)
    if hand is not None:
        raise InputError("a defender's hand is not used", came=text, allowed="a place, @vx,vy",
                         item=name)  # fmt: skip
    return Defender(name=name, x=x, y=y, vx=vx, vy=vy)


def _person(
    text: str, rink: Rink, name: str
) -> tuple[tuple[float, float], Side | None, tuple[float, float]]:
    found = _PERSON.fullmatch(text.strip())
    if not found:
        raise InputError("this place cannot be read", came=f"'{text}'", allowed=ALLOWED, item=name)
    hand = None
    if found["hand"]:
        hands = {one.value: one for one in Side}
        if found["hand"] not in hands:
            raise unknown_name("hand", found["hand"], hands, item=name)
        hand = hands[found["hand"]]
    speed = (_number(found["vx"], text, name), _number(found["vy"], text, name))
    return place(found["place"], rink, item=name), hand, speed


def _number(word: str | None, text: str, name: str) -> float:
    if word is None:
        return 0.0
    try:
        return float(word)
    except ValueError:
        raise InputError(
            "this speed cannot be read", came=f"'{text}'", allowed=ALLOWED, item=name
        ) from None
