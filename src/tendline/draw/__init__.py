"""Pictures as SVG and sheets as PDF, drawn from the plain values of the layers below."""

from tendline.draw.drill_picture import drill_svg, legend_svg
from tendline.draw.figure import View, figure_svg
from tendline.draw.fontfiles import font_files, font_folder, text_width
from tendline.draw.ice_picture import Window, close_window, sheet_window, window_for, zone_window
from tendline.draw.practice_pdf import practice_sheet_pdf
from tendline.draw.rink_picture import rink_svg
from tendline.draw.tokens import DARK, PAPER, PRINT, Paint, Palette, css_tokens

__all__ = [
    "DARK", "PAPER", "PRINT", "Paint", "Palette", "View", "Window", "close_window", "css_tokens",
    "drill_svg", "figure_svg", "font_files", "font_folder", "legend_svg", "practice_sheet_pdf",
    "rink_svg", "sheet_window", "text_width", "window_for", "zone_window",
]  # fmt: skip
