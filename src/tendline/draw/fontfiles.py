"""The shipped font: its files for browsers and printers, and the width of a text set in it."""

from __future__ import annotations

from functools import cache
from importlib.resources import as_file, files
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.ImageFont import FreeTypeFont

_UNITS_PER_EM = 1000


@cache
def font_files() -> dict[str, bytes]:
    """Return the web fonts, keyed ``fonts/NAME.woff2`` as :func:`css_tokens` addresses them."""
    folder = files("tendline.draw").joinpath("fonts")
    found = {
        f"fonts/{one.name}": one.read_bytes()
        for one in folder.iterdir()
        if one.name.endswith(".woff2")
    }
    return dict(sorted(found.items()))


@cache
def font_folder() -> Path:
    """Return the folder of the TrueType files, for typst, resvg and Pillow."""
    with as_file(files("tendline.draw").joinpath("fonts")) as folder:
        return Path(folder)


@cache
def truetype_paths() -> tuple[str, ...]:
    """Return the paths of the TrueType files, regular before bold."""
    return tuple(
        str(font_folder() / f"AtkinsonHyperlegibleNext-{name}.ttf") for name in ("Regular", "Bold")
    )


@cache
def _face(bold: bool) -> FreeTypeFont:
    from PIL import ImageFont

    return ImageFont.truetype(truetype_paths()[1 if bold else 0], size=_UNITS_PER_EM)


@cache
def _width_at_one(text: str, bold: bool) -> float:
    return float(_face(bold).getlength(text)) / _UNITS_PER_EM


def text_width(text: str, *, size: float, bold: bool = False) -> float:
    """Return the width of ``text`` set at ``size``, in the unit of ``size``."""
    return _width_at_one(text, bold) * size
