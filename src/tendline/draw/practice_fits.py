"""How roomy a practice sheet is set: from large diagrams beside every drill to words alone."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.draw.tokens import SHEET_BODY_PT


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """How much a sheet shows.

    Width of diagrams beside their drill, or their height in a ``strip`` below [mm], size of the
    words [pt], which texts, space between rows and between items [em]. ``tight`` sets the
    goaltenders' lines side by side and lets short items share a paragraph; ``dense`` also puts
    the clock before the title and all goaltenders' lines into one paragraph, ``packed`` the key
    points too; ``stations`` sets those that run at the same time side by side; ``margin`` is
    that of the page [mm], ``leading`` the space between lines [em].
    """

    picture: float
    size: float = SHEET_BODY_PT
    strip: bool = False
    set_up: bool = True
    steps: bool = True
    gap: float = 0.75
    item: float = 0.62
    tight: bool = False
    dense: bool = False
    packed: bool = False
    margin: float = 12.0
    leading: float = 0.58
    shooters: bool = True
    stations: bool = True


def _dense(
    picture: float,
    *,
    shooters: bool = True,
    gap: float = 0.5,
    packed: bool = False,
    leading: float = 0.54,
    stations: bool = True,
) -> Fit:
    return Fit(picture=picture, strip=True, set_up=False, steps=False, gap=gap, item=0.48,
               tight=True, dense=True, packed=packed, margin=10.0, shooters=shooters,
               leading=leading, stations=stations)  # fmt: skip


FITS = (
    Fit(picture=82.0, size=13.0, gap=1.1),
    Fit(picture=78.0, size=12.0, gap=1.0),
    Fit(picture=74.0, size=11.25, gap=0.9),
    Fit(picture=66.0, gap=0.85),
    Fit(picture=56.0),
    Fit(picture=48.0, steps=False),
    Fit(picture=48.0, strip=True, steps=False),
    Fit(picture=46.0, strip=True, set_up=False, steps=False, item=0.56),
    Fit(picture=46.0, strip=True, set_up=False, steps=False, gap=0.65, item=0.54, tight=True),
    Fit(picture=38.0, strip=True, set_up=False, steps=False, gap=0.6, item=0.52, tight=True),
    Fit(picture=31.0, strip=True, set_up=False, steps=False, gap=0.55, item=0.48, tight=True),
    _dense(40.0, gap=0.6),
    _dense(32.0),
    _dense(27.0),
    _dense(32.0, shooters=False),
    _dense(30.0, packed=True),
    _dense(25.0, packed=True, shooters=False),
    _dense(0.0),
    _dense(0.0, packed=True),
    _dense(0.0, packed=True, shooters=False, gap=0.42),
    _dense(0.0, packed=True, shooters=False, gap=0.38, leading=0.46),
    _dense(0.0, packed=True, shooters=False, gap=0.32, leading=0.4),
    _dense(0.0, packed=True, shooters=False, gap=0.42, stations=False),
    _dense(0.0, packed=True, shooters=False, gap=0.38, leading=0.46, stations=False),
    _dense(0.0, packed=True, shooters=False, gap=0.32, leading=0.4, stations=False),
)
"""From roomy to tight: the first that fits one side is printed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Back:
    """How diagrams stand on the back: in how many columns, and no higher than ``height`` [mm]."""

    columns: int
    height: float


BACKS = (
    Back(columns=2, height=105.0),
    Back(columns=2, height=85.0),
    Back(columns=2, height=70.0),
    Back(columns=3, height=70.0),
    Back(columns=3, height=60.0),
    Back(columns=3, height=52.0),
    Back(columns=3, height=45.0),
    Back(columns=3, height=38.0),
    Back(columns=3, height=32.0),
    Back(columns=4, height=30.0),
)
"""From large to small: the first that fits the back with its legend is printed."""
LARGE_PRINT_FITS = (Fit(picture=80.0, strip=True, gap=1.0), Fit(picture=58.0, strip=True))
LARGE_PRINT_PAGES = 4
SHEET_WIDTH_MM = {"A4": 186.0, "Letter": 191.9}
