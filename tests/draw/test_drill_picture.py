"""Diagrams of drills: the notation, the order, the branches, and always a legend."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tendline import ice
from tendline.draw import PAPER, PRINT, drill_svg, legend_svg
from tendline.draw.drill_scene import StrokeKind, scene_of
from tendline.drill import library, parse_drill
from tendline.drill.vocabulary import Role

from .plays import BRANCHING, HOSTILE, branching_drill, library_drill
from .svg_reading import assert_embeddable, parse, texts, view_box, with_class


def test_every_sign_used_stands_in_the_legend() -> None:
    root = parse(drill_svg(branching_drill()))
    legend = [one.text for one in with_class(root, "tl-legend")[0].iter() if one.text]
    for words in ("attacker", "defender", "goaltender", "cone", "pucks", "skating",
                  "skating with the puck", "pass", "shot", "branch", "order",
                  "he reads and chooses"):  # fmt: skip
        assert words in legend
    assert "skating backward" not in legend
    assert "coach" not in legend


def test_lines_are_told_apart_without_colour() -> None:
    root = parse(drill_svg(branching_drill()))
    diagram = with_class(root, "tl-strokes")[0]
    passes = with_class(diagram, "tl-pass")
    shots = with_class(diagram, "tl-shot")
    assert passes[0][0].get("stroke-dasharray")
    assert [part.get("stroke-dasharray") for part in shots[0]] == [None, None, None]
    bodies = [part for part in shots[0] if part.get("fill") == "none"]
    assert len(bodies) == 2  # a double line
    inks = {one.get("stroke") for one in diagram.iter() if one.get("stroke")}
    assert inks == {PAPER[list(PAPER.inks)[2]]}


def test_what_starts_together_shares_a_number_and_branches_carry_letters() -> None:
    scene = scene_of(branching_drill(), ice.rink())
    assert [(s.who, s.number, s.branch) for s in scene.strokes] == [
        ("F1", 1, ""), ("F2", 1, ""), ("F1", 2, "a"), ("F1", 2, "b"), ("F2", 3, "b"),
    ]  # fmt: skip
    words = texts(parse(drill_svg(branching_drill())))
    for tag in ("2a", "2b", "3b"):
        assert tag in words
    assert "alone: nobody comes" in words


def test_a_pass_goes_to_where_the_receiver_is_by_then() -> None:
    scene = scene_of(branching_drill(), ice.rink())
    dot = ice.spot(ice.rink(), "left dot")
    passed = next(s for s in scene.strokes if s.kind is StrokeKind.PASS)
    assert passed.points[-1] == pytest.approx((dot.x, dot.y))
    cone = next(t for t in scene.things if t.name == "A")
    assert passed.points[0] == pytest.approx(cone.at)


def test_everybody_is_inside_the_picture() -> None:
    for drill in (branching_drill(), library_drill("L01"), library_drill("E08")):
        svg = drill_svg(drill)
        assert_embeddable(svg)
        left, top, width, height = view_box(parse(svg))
        for x, y in scene_of(drill, ice.rink()).places():
            assert left <= -y <= left + width
            assert top <= -x <= top + height


def test_a_stop_and_a_backward_skater_have_their_own_signs() -> None:
    text = BRANCHING.replace(
        "meanwhile: F2 skates to left dot", "meanwhile: F2 skates backward to left dot\n  F2 stops"
    )
    scene = scene_of(parse_drill(text), ice.rink())
    kinds = {s.kind: s.stops for s in scene.strokes if s.who == "F2"}
    assert kinds[StrokeKind.BACKWARD]
    words = texts(parse(drill_svg(parse_drill(text))))
    assert "skating backward" in words
    assert "stop" in words


def test_hostile_titles_and_names_stay_words() -> None:
    drill = replace(branching_drill(), title=HOSTILE * 30, purpose=HOSTILE)
    svg = drill_svg(drill)
    assert_embeddable(svg)
    assert "<b>" not in svg


def test_print_uses_black_and_greys_only() -> None:
    svg = drill_svg(branching_drill(), palette=PRINT)
    for one in parse(svg).iter():
        for name in ("fill", "stroke"):
            value = one.get(name)
            if value and value.startswith("#"):
                assert value[1:3] == value[3:5] == value[5:7]


def test_the_legend_alone_has_the_same_words() -> None:
    alone = texts(parse(legend_svg(branching_drill())))
    assert {"attacker", "shot", "pass"} <= set(alone)
    assert Role.GOALTENDER.name.lower() in alone


def test_every_drill_of_the_library_is_drawn_whole() -> None:
    rink = ice.rink()
    for drill in library():
        svg = drill_svg(drill, width=360)
        assert_embeddable(svg)
        assert len(svg) < 80_000, drill.id
        root = parse(svg)
        left, top, width, height = view_box(root)
        scene = scene_of(drill, rink)
        for x, y in scene.places():
            assert left - 0.01 <= -y <= left + width + 0.01, drill.id
            assert top - 0.01 <= -x <= top + height + 0.01, drill.id
        assert len(with_class(root, "tl-sign")) >= len(scene.people), drill.id


ALL_SIGNS = BRANCHING.split("play\n")[0].replace(
    "G at mid-crease",
    "H at (7, 3)\n  C at (15, 0)\n  net A at (3, 8)\n  G at mid-crease",
)


def test_every_sign_of_the_notation_has_its_own_drawing() -> None:
    text = (
        ALL_SIGNS
        + """play
  at the whistle: F1 carries backward to cone A
  H tosses to G
  F2 screens at (3, 1)
  D1 tips
  G shuffles to left post
  G drops
  G recovers
  G sets 1 s
  F1 passes to F2
  F2 skates backward to left dot
  F2 stops
  F1 shoots
"""
    )
    root = parse(drill_svg(parse_drill(text)))
    words = texts(root)
    for sign in ("backward with the puck", "toss", "screen", "tip", "goaltender's move", "net",
                 "helper", "coach", "skating backward", "stop", "butterfly", "shuffle",
                 "set: stopped, square", "recover to feet"):  # fmt: skip
        assert sign in words, sign
    assert with_class(root, "tl-tip")
