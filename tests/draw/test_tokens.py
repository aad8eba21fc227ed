"""Inks keep their contrast and their difference; the style sheet names every token; fonts are whole."""

from __future__ import annotations

import hashlib
import re

import pytest

from tendline.draw import DARK, PAPER, PRINT, Paint, Palette, css_tokens, font_files, text_width
from tendline.draw.fontfiles import font_folder, truetype_paths

from .colour import VISION, contrast, difference, lightness

TEXT_INKS = (Paint.INK, Paint.INK_SOFT, Paint.RISK, Paint.ADVICE)
AAA = 7.0  # published: W3C, WCAG 2.2, success criterion 1.4.6
AA = 4.5  # published: W3C, WCAG 2.2, success criterion 1.4.3


def test_measures_agree_with_published_values() -> None:
    # published: W3C, WCAG 2.2, contrast ratio of black on white is 21:1
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21.0)
    # by hand: #777777 on white, the well-known near miss of AA
    assert contrast("#777777", "#FFFFFF") == pytest.approx(4.48, abs=0.01)


@pytest.mark.parametrize("palette", [PAPER, DARK, PRINT], ids=lambda p: p.name)
@pytest.mark.parametrize("ink", TEXT_INKS)
def test_text_reaches_aaa_on_paper_and_sheet(palette: Palette, ink: Paint) -> None:
    for ground in (Paint.PAPER, Paint.SHEET, Paint.ICE):
        assert contrast(palette[ink], palette[ground]) >= AAA


@pytest.mark.parametrize("palette", [PAPER, DARK, PRINT], ids=lambda p: p.name)
def test_text_reaches_aa_on_every_wash(palette: Palette) -> None:
    for ink in TEXT_INKS:
        for ground in (Paint.RISK_WASH, Paint.ADVICE_WASH, Paint.CREASE, Paint.GEAR):
            assert contrast(palette[ink], palette[ground]) >= AA


@pytest.mark.parametrize("vision", list(VISION))
@pytest.mark.parametrize("palette", [PAPER, DARK], ids=lambda p: p.name)
def test_the_two_accents_stay_apart_in_every_vision(palette: Palette, vision: str) -> None:
    assert difference(palette[Paint.RISK], palette[Paint.ADVICE], vision) >= 20.0
    assert difference(palette[Paint.RISK], palette[Paint.INK], vision) >= 20.0
    assert difference(palette[Paint.ADVICE], palette[Paint.INK], vision) >= 15.0


@pytest.mark.parametrize("palette", [PAPER, PRINT], ids=lambda p: p.name)
def test_rink_lines_recede_behind_ink_in_grey(palette: Palette) -> None:
    ink = lightness(palette[Paint.INK])
    for line in (Paint.RINK_RED, Paint.RINK_BLUE, Paint.LINE):
        assert lightness(palette[line]) >= ink + 45.0
        assert lightness(palette[line]) <= lightness(palette[Paint.ICE]) - 15.0


def test_every_palette_has_every_paint_as_a_plain_colour() -> None:
    for palette in (PAPER, DARK, PRINT):
        assert set(palette.inks) == set(Paint)
        assert all(re.fullmatch("#[0-9A-F]{6}", colour) for colour in palette.inks.values())
    assert all(c[1:3] == c[3:5] == c[5:7] for c in PRINT.inks.values())


def test_style_sheet_names_every_token_and_no_other_host() -> None:
    css = css_tokens()
    for name in ("small", "body", "lead", "heading", "answer"):
        assert f"--size-{name}:" in css
    for i in range(1, 7):
        assert f"--space-{i}:" in css
    for name in ("--font", "--target", "--target-gap"):
        assert css.count(f"{name}:") == 1
    for paint in Paint:
        assert css.count(f"--{paint.value}:") == 3
        assert f".tl-fill-{paint.value}{{" in css
    assert "--size-body:1.125rem" in css
    assert '[data-theme="dark"]{' in css
    assert "//" not in css
    assert css.count("{") == css.count("}")


def test_every_font_address_in_the_style_sheet_is_served() -> None:
    addresses = set(re.findall(r"url\(([^)]*)\)", css_tokens()))
    assert addresses
    assert addresses <= set(font_files())
    assert (font_folder() / "OFL.txt").is_file()


def test_font_files_are_the_ones_listed() -> None:
    lines = (font_folder() / "SHA256SUMS").read_text().splitlines()
    listed = {name: digest for digest, name in (line.split() for line in lines)}
    present = {
        one.name: hashlib.sha256(one.read_bytes()).hexdigest()
        for one in font_folder().iterdir()
        if one.suffix in (".ttf", ".woff2")
    }
    assert present == listed
    assert len(truetype_paths()) == 2


def test_text_width_follows_the_font() -> None:
    # other tool: fontTools reads advance 648/1000 for "0" and 919/1000 for "%" (regular)
    assert text_width("0", size=100.0) == pytest.approx(64.8, abs=0.1)
    assert text_width("%", size=100.0) == pytest.approx(91.9, abs=0.1)
    assert text_width("", size=100.0) == 0.0
    assert text_width("Set", size=10.0, bold=True) > text_width("Set", size=10.0)
