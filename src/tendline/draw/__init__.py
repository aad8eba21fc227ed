"""Pictures as SVG and sheets as PDF, drawn from the plain values of the layers below."""

from tendline.draw.fontfiles import font_files, font_folder, text_width
from tendline.draw.tokens import DARK, PAPER, PRINT, Paint, Palette, css_tokens

__all__ = [
    "DARK", "PAPER", "PRINT", "Paint", "Palette", "css_tokens", "font_files", "font_folder",
    "text_width",
]  # fmt: skip
