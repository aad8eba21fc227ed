"""Four readers, four texts, and no other child in any of them."""

from dataclasses import replace
from datetime import date

import pytest

from tendline.people import (
    Consent,
    ConsentItem,
    RatingForm,
    RatingGroup,
    Reader,
    SaidBy,
    Scale,
    view,
)
from tests.people.test_file import TODAY, WREN

RANKED = replace(
    WREN,
    forms=(
        *WREN.forms,
        RatingForm(
            day=date(2026, 11, 1), rater="coach", scale=Scale.RANK, of=4,
            marks=((RatingGroup.SKATING, 1), (RatingGroup.READING, 4), (RatingGroup.SAVES, 2)),
            well="You stop before the shot.", next_step="Look before you push, as Milo does.",
            cue="look",
        ),
    ),
)  # fmt: skip
OTHERS = ("milo", "Milo Fennimore", "Milo", "wren")


def text(found):
    return "\n".join([found.title, *(s.title + "\n" + "\n".join(s.lines) for s in found.sections)])


def test_the_coach_sees_marks_and_places():
    assert "Places among 4" in text(view(RANKED, Reader.COACH, TODAY, others=OTHERS))
    assert "Marks (1 to 5)" in text(view(WREN, Reader.COACH, TODAY))


@pytest.mark.parametrize("reader", [Reader.GOALTENDER, Reader.PARENT, Reader.HEAD_COACH])
def test_nobody_else_sees_a_mark_a_place_or_another_child(reader):
    found = view(RANKED, reader, TODAY, others=OTHERS)
    shown = text(found).casefold()
    for word in ("milo", "places", "marks", "among 4"):
        assert word not in shown
    assert found.left_out == (1 if reader is not Reader.HEAD_COACH else 0)


def test_her_own_name_is_no_reason_to_withhold_a_line():
    named = replace(WREN, forms=(replace(WREN.forms[0], well="Wren Tolliver stops in time."),))
    found = view(named, Reader.PARENT, TODAY, others=("wren", "Wren Tolliver", "milo"))
    assert "Wren Tolliver stops in time." in text(found)
    assert found.left_out == 0


def test_parents_get_one_thing_well_one_thing_next_and_no_blame():
    shown = text(view(WREN, Reader.PARENT, TODAY))
    assert "You stop before the shot." in shown
    assert "Look before you push." in shown
    assert "Growing fast" in shown
    assert "against her own mean" not in shown
    assert "aims" not in shown.casefold()


def test_the_goaltender_gets_her_words_aims_and_times_against_herself():
    shown = text(view(WREN, Reader.GOALTENDER, TODAY))
    assert "looks before the push: 12 of 20." in shown
    assert "Danger area: puck." in shown
    assert "Shuffle post to post and back: 2.85 s" in shown
    assert "Born" not in shown


def test_the_head_coach_gets_practice_matters_and_more_only_with_consent():
    plain = text(view(WREN, Reader.HEAD_COACH, TODAY))
    assert "Leave out until 2026-12-04: butterfly, slides." in plain
    assert "Strongest" not in plain
    assert "Born" not in plain
    consented = replace(
        WREN,
        consents=(
            Consent(day=TODAY, given_by=SaidBy.PARENT, items=frozenset({ConsentItem.REPORTS})),
        ),
    )
    assert "Strongest" in text(view(consented, Reader.HEAD_COACH, TODAY))


def test_nothing_after_the_day_is_shown():
    early = view(RANKED, Reader.COACH, date(2026, 9, 1))
    assert "Places" not in text(early)
    assert "Marks" not in text(early)
    assert "Leave out" not in text(early)


def test_empty_sections_are_not_shown():
    for reader in Reader:
        for section in view(replace(WREN, forms=(), aims=()), reader, TODAY).sections:
            assert section.lines


def test_the_coach_sees_what_moved_on_the_same_scale():
    before, *_ = WREN.forms
    after = replace(
        before, day=date(2026, 11, 10),
        marks=((RatingGroup.SKATING, 4), (RatingGroup.READING, 3), (RatingGroup.SAVES, 3)),
    )  # fmt: skip
    grown = replace(WREN, forms=(before, after))
    assert "Gained most since 2026-10-01, against her own mean: reading the play." in text(
        view(grown, Reader.COACH, TODAY)
    )
    same = replace(WREN, forms=(before, replace(before, day=date(2026, 11, 10))))
    assert "Gained most" not in text(view(same, Reader.COACH, TODAY))
    assert "Gained most" not in text(view(RANKED, Reader.COACH, TODAY))
