"""Contact sheets of the figures: every stance from every side, to be looked at.

Run: python reference/contact_sheets.py FOLDER [--stature 1.75] [--age 10] [--right] [--closed]
     [--small-goal] [--print] [--millimetres 20]

Writes one PNG for each view. ``--age`` builds a child by the growth tables; ``--print`` draws in
black and white; ``--millimetres`` makes every figure that tall at 300 dots an inch, as on a card.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from tendline.base import Sex, Side
from tendline.body import Build, Stance, build_by_age, build_goaltender
from tendline.draw import View, figure_svg, svg_to_png
from tendline.draw.tokens import PAPER, PRINT, Palette

COLUMNS = 5
DOTS_A_MILLIMETRE = 300.0 / 25.4


def sheet(
    build: Build,
    view: View,
    *,
    height: int,
    wide: float,
    glove_open: bool,
    small_goal: bool,
    palette: Palette,
) -> bytes:
    """Return one sheet of all stances as PNG bytes, every figure in a cell ``height`` pixels.

    ``wide`` is the width in CSS pixels that the figures are drawn for.
    """
    import io

    from PIL import Image, ImageDraw

    cells = []
    for stance in Stance:
        svg = figure_svg(
            build, stance, view, glove_open=glove_open, small_goal=small_goal, palette=palette,
            width=wide,
        )  # fmt: skip
        png = svg_to_png(svg, width=4 * height, background="#FFFFFF")
        picture = Image.open(io.BytesIO(png)).convert("RGB")
        share = min(height / picture.height, height / picture.width)
        size = (max(int(picture.width * share), 1), max(int(picture.height * share), 1))
        cells.append((stance.value, picture.resize(size, Image.Resampling.LANCZOS)))
    rows = -(-len(cells) // COLUMNS)
    words = 16
    page = Image.new("RGB", (COLUMNS * (height + 8), rows * (height + words + 8)), "white")
    pen = ImageDraw.Draw(page)
    for place, (name, picture) in enumerate(cells):
        left = (place % COLUMNS) * (height + 8)
        top = (place // COLUMNS) * (height + words + 8)
        page.paste(picture, (left + (height - picture.width) // 2, top + height - picture.height))
        pen.text((left + 2, top + height + 2), name, fill="black")
    out = io.BytesIO()
    page.quantize(48).save(out, "PNG", optimize=True)
    return out.getvalue()


def main() -> None:
    """Write the sheets asked for."""
    ask = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    ask.add_argument("folder", type=Path)
    ask.add_argument("--stature", type=float, default=1.75)
    ask.add_argument("--age", type=float)
    ask.add_argument("--right", action="store_true", help="catches with her right hand")
    ask.add_argument("--closed", action="store_true", help="catching glove closed")
    ask.add_argument("--small-goal", action="store_true", dest="small_goal")
    ask.add_argument("--print", action="store_true", dest="printed", help="black and white")
    ask.add_argument("--millimetres", type=float, help="height of a figure on paper")
    asked = ask.parse_args()
    hand = Side.RIGHT if asked.right else Side.LEFT
    build = (
        build_by_age(asked.age, Sex.FEMALE, catching_hand=hand)
        if asked.age
        else build_goaltender(asked.stature, hand)
    )
    wide = asked.millimetres / 25.4 * 96.0 if asked.millimetres else 360.0
    height = round(asked.millimetres * DOTS_A_MILLIMETRE) if asked.millimetres else 300
    palette = PRINT if asked.printed else PAPER
    asked.folder.mkdir(parents=True, exist_ok=True)
    for view in View:
        png = sheet(
            build, view, height=height, wide=wide, glove_open=not asked.closed,
            small_goal=asked.small_goal, palette=palette,
        )  # fmt: skip
        path = asked.folder / f"{view.value}.png"
        path.write_bytes(png)
        print(path)


if __name__ == "__main__":
    main()
