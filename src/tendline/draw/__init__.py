"""Pictures as SVG and sheets as PDF, drawn from the plain values of the layers below."""

from tendline.draw.animation import Painter
from tendline.draw.card_pdf import drill_booklet_pdf, drill_card_pdf
from tendline.draw.depth_curve import depth_curve_svg
from tendline.draw.drill_page import Way, drill_page, drill_player, drill_player_script
from tendline.draw.drill_picture import drill_svg, legend_svg
from tendline.draw.figure import View, figure_svg
from tendline.draw.film import FILM_KINDS, drill_film
from tendline.draw.fontfiles import font_files, font_folder, text_width
from tendline.draw.forms_pdf import shot_chart_pdf, timed_test_sheet_pdf
from tendline.draw.goaltender_eye import goaltender_eye_svg, read_goaltender_eye_svg
from tendline.draw.handout_pdf import play_handout_pdf
from tendline.draw.ice_picture import Window, close_window, sheet_window, window_for, zone_window
from tendline.draw.interval import interval_svg
from tendline.draw.moments import Moment, moments_of
from tendline.draw.moving_ice import moving_ice_svg
from tendline.draw.practice_pdf import practice_sheet_pdf
from tendline.draw.puck_eye import Opening, openings_of, puck_eye_svg, read_puck_eye_svg
from tendline.draw.raster import svg_to_png
from tendline.draw.rink_picture import rink_svg
from tendline.draw.shot_map import shot_map_svg
from tendline.draw.situation_picture import situation_svg, situation_window
from tendline.draw.time_line import time_line_svg
from tendline.draw.tokens import DARK, PAPER, PRINT, Paint, Palette, css_tokens
from tendline.draw.zone_map import MapShows, zone_map_svg

__all__ = [
    "DARK", "FILM_KINDS", "PAPER", "PRINT", "MapShows", "Moment", "Opening", "Paint", "Painter",
    "Palette", "View", "Way", "Window", "close_window", "css_tokens", "depth_curve_svg",
    "drill_booklet_pdf", "drill_card_pdf", "drill_film", "drill_page", "drill_player",
    "drill_player_script", "drill_svg", "figure_svg",
    "font_files", "font_folder", "goaltender_eye_svg", "interval_svg", "legend_svg", "moments_of",
    "moving_ice_svg", "openings_of", "play_handout_pdf", "practice_sheet_pdf", "puck_eye_svg",
    "read_goaltender_eye_svg", "read_puck_eye_svg", "rink_svg", "sheet_window", "shot_chart_pdf",
    "shot_map_svg", "situation_svg", "situation_window", "svg_to_png", "text_width",
    "time_line_svg", "timed_test_sheet_pdf", "window_for", "zone_map_svg", "zone_window",
]  # fmt: skip
