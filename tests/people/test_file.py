"""The goaltender's file: ages, restrictions, consent, growth, round trip, erasing."""

import json
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.base import InputError, Level, Settings, Sex, Side
from tendline.motion import TimedTest, TimedTestKind
from tendline.people import (
    REMOVED_NAME,
    Aim,
    Consent,
    ConsentItem,
    FocusPlan,
    FocusZone,
    GoaltenderFile,
    LeaveOut,
    RatingForm,
    RatingGroup,
    Restriction,
    SaidBy,
    Scale,
    Stature,
    TimedDay,
    age_class,
    consent_words,
    erasure,
    from_mapping,
    growth,
    has_consent,
    is_minor,
    left_out_on,
    level_on,
    mentions,
    newest_tests,
    noted,
    playing_on,
    speaks_of,
    stature_on,
    to_mapping,
)

TODAY = date(2026, 11, 25)
WREN = GoaltenderFile(
    id="wren",
    display_name="Wren Tolliver",
    catching_hand=Side.RIGHT,
    birth_year=2013,
    sex=Sex.FEMALE,
    teams=("u15-a",),
    statures=(
        Stature(metres=1.52, day=date(2026, 5, 20)),
        Stature(metres=1.57, day=date(2026, 11, 20)),
    ),
    timed_days=(
        TimedDay(
            day=date(2026, 10, 6),
            ice="north end",
            tests=(TimedTest(kind=TimedTestKind.SHUFFLE, times=(2.9, 2.85, 2.95)),),
        ),
    ),
    forms=(
        RatingForm(
            day=date(2026, 10, 1),
            rater="coach",
            marks=(
                (RatingGroup.SKATING, 4.0),
                (RatingGroup.READING, 2.0),
                (RatingGroup.SAVES, 3.0),
            ),
            well="You stop before the shot.",
            next_step="Look before you push.",
            cue="look",
        ),
    ),
    restrictions=(
        Restriction(
            begins=date(2026, 11, 20),
            ends=date(2026, 12, 4),
            leave_out=frozenset({LeaveOut.BUTTERFLY, LeaveOut.SLIDES}),
            said_by=SaidBy.PARENT,
        ),
    ),
    consents=(
        Consent(day=date(2026, 9, 1), given_by=SaidBy.PARENT, items=frozenset({ConsentItem.FILE})),
    ),
    aims=(Aim(words="looks before the push", target=20, done=12),),
)


@pytest.mark.parametrize(
    ("born", "day", "level"),
    [
        # By hand: the age reached in the year in which the season starts.
        (2013, date(2026, 9, 1), Level.U15),  # turns 13
        (2014, date(2026, 9, 1), Level.U13),  # turns 12
        (2014, date(2027, 3, 1), Level.U13),  # the same season
        (2014, date(2027, 8, 1), Level.U15),  # the next one
        (2014, date(2027, 6, 30), Level.U13),  # its last day
        (2014, date(2027, 7, 1), Level.U15),  # the first of the next
        (2018, date(2026, 12, 31), Level.U9),
        (2009, date(2026, 10, 1), Level.U18),
        (2008, date(2026, 10, 1), Level.ADULT),
    ],
)
def test_age_class_by_hand(born, day, level):
    assert age_class(born, day) is level


def test_the_season_may_turn_in_another_month():
    turned = Settings.of({"people.season_turns": 5.0})
    assert age_class(2014, date(2027, 6, 1)) is Level.U13
    assert age_class(2014, date(2027, 6, 1), turned) is Level.U15


def test_her_own_level_comes_before_her_age():
    assert level_on(WREN, TODAY) is Level.U15
    assert level_on(replace(WREN, level=Level.U18), TODAY) is Level.U18
    assert level_on(GoaltenderFile(id="x", display_name="X"), TODAY) is Level.ADULT


def test_a_restriction_holds_from_its_first_to_its_last_day():
    assert left_out_on(WREN, date(2026, 11, 19)) == frozenset()
    assert left_out_on(WREN, date(2026, 12, 4)) == {LeaveOut.BUTTERFLY, LeaveOut.SLIDES}
    assert left_out_on(WREN, date(2026, 12, 5)) == frozenset()
    lifted = Restriction(begins=TODAY, leave_out=frozenset({LeaveOut.SHOTS}), said_by=SaidBy.DOCTOR)
    assert left_out_on(WREN.with_restriction(lifted), date(2030, 1, 1)) == {LeaveOut.SHOTS}


def test_a_restriction_has_no_place_for_a_reason():
    fields = set(Restriction.__dataclass_fields__)
    assert fields == {"begins", "ends", "leave_out", "said_by"}


def test_a_child_cannot_consent_for_herself():
    own = Consent(day=TODAY, given_by=SaidBy.HERSELF, items=frozenset({ConsentItem.FILM}))
    assert has_consent(WREN, ConsentItem.FILE, TODAY)
    assert not has_consent(replace(WREN, consents=(own,)), ConsentItem.FILM, TODAY)
    grown = replace(WREN, birth_year=1993, consents=(own,))
    assert has_consent(grown, ConsentItem.FILM, TODAY)
    assert consent_words(WREN, TODAY) == ""
    assert "parent or guardian" in consent_words(replace(WREN, consents=()), TODAY)
    assert "ask her" in consent_words(replace(grown, consents=()), TODAY)


def test_unknown_age_counts_as_a_child():
    assert is_minor(GoaltenderFile(id="x", display_name="X"), TODAY)
    assert not is_minor(replace(WREN, birth_year=1993), TODAY)
    assert not is_minor(GoaltenderFile(id="x", display_name="X", level=Level.ADULT), TODAY)


def test_growth_by_hand():
    # By hand: 0.05 m in 184 days is 0.0992 m a year.
    grown = growth(WREN, TODAY)
    assert grown.rate == pytest.approx(0.05 / (184 / 365.25))
    assert grown.fast
    assert "hips and knees" in grown.caution
    slow = replace(
        WREN,
        statures=(
            Stature(metres=1.60, day=date(2025, 11, 20)),
            Stature(metres=1.62, day=date(2026, 11, 20)),
        ),
    )
    assert not growth(slow, TODAY).fast
    assert growth(slow, TODAY).caution == ""
    near = replace(
        WREN,
        statures=(
            Stature(metres=1.60, day=date(2026, 11, 1)),
            Stature(metres=1.61, day=date(2026, 11, 20)),
        ),
    )
    assert growth(near, TODAY) is None


def test_stature_between_after_and_from_the_table():
    middle = stature_on(WREN, date(2026, 8, 20))  # by hand: 92 of 184 days
    assert middle.metres == pytest.approx(1.545)
    assert stature_on(WREN, TODAY).metres == 1.57
    late = stature_on(WREN, date(2027, 11, 20))
    assert "measure again" in late.words
    unknown = replace(WREN, statures=())
    from_table = stature_on(unknown, TODAY)
    assert not from_table.measured
    assert 1.4 < from_table.metres < 1.75
    both = stature_on(replace(unknown, sex=None), TODAY).metres
    boys = stature_on(replace(unknown, sex=Sex.MALE), TODAY).metres
    assert both == pytest.approx(0.5 * (from_table.metres + boys))  # by hand: mean of the columns
    level_only = GoaltenderFile(id="x", display_name="X", level=Level.U9)
    assert "her level" in stature_on(level_only, TODAY).words
    assert stature_on(level_only, TODAY).metres < 1.4
    assert stature_on(GoaltenderFile(id="x", display_name="X", level=Level.ADULT), TODAY) is None
    assert "measured later" in stature_on(WREN, date(2026, 1, 1)).words


def test_what_is_not_known_is_said():
    nobody = GoaltenderFile(id="x", display_name="X")
    playing = playing_on(nobody, TODAY)
    assert "Height not known" in playing.words[0]
    assert consent_words(nobody, TODAY).startswith("No consent noted")
    assert "parent or guardian" in consent_words(nobody, TODAY)


def test_the_newest_day_of_each_test_counts_and_days_add_up():
    shuffle = TimedTest(kind=TimedTestKind.SHUFFLE, times=(2.5,))
    out = TimedTest(kind=TimedTestKind.OUT, times=(1.6,))
    later = TimedDay(day=date(2026, 11, 1), tests=(shuffle, shuffle))
    grown = WREN.with_tests(later).with_tests(TimedDay(day=date(2026, 9, 9), tests=(out,)))
    found = newest_tests(grown, TODAY)
    assert sorted(found, key=lambda one: one.kind) == [out, shuffle, shuffle]
    assert newest_tests(grown, date(2026, 10, 10)) == (WREN.timed_days[0].tests[0], out)
    assert grown.with_form(WREN.forms[0]).forms == (*WREN.forms, WREN.forms[0])


def test_a_stature_far_from_the_last_is_refused():
    assert noted(WREN, 1.58, TODAY).statures[-1] == Stature(metres=1.58, day=TODAY)
    with pytest.raises(InputError, match="Wren Tolliver"):
        noted(WREN, 1.85, TODAY)


def test_the_engine_gets_her_own_height_hand_and_pace():
    playing = playing_on(WREN, TODAY)
    assert playing.goaltender.build.stature == pytest.approx(1.57)
    assert playing.goaltender.build.catching_hand is Side.RIGHT
    assert playing.refit is not None
    assert any("Shuffle pace" in line for line in playing.words)
    late = playing_on(WREN, date(2028, 11, 25))  # a growing goaltender's old tests do not count
    assert late.refit is None
    assert any("default pace" in line for line in late.words)


def test_a_file_goes_out_and_comes_back_whole():
    text = json.dumps(to_mapping(WREN))
    assert from_mapping(json.loads(text)) == WREN


@settings(max_examples=40, deadline=None)
@given(
    st.builds(
        GoaltenderFile,
        id=st.text(min_size=1).filter(str.strip),
        display_name=st.text(min_size=1).filter(str.strip),
        catching_hand=st.sampled_from(Side),
        birth_year=st.none() | st.integers(1940, 2022),
        sex=st.none() | st.sampled_from(Sex),
        level=st.none() | st.sampled_from(Level),
        teams=st.lists(st.text(max_size=5), max_size=3).map(tuple),
        statures=st.lists(
            st.builds(Stature, metres=st.floats(0.9, 2.2), day=st.none() | st.dates()), max_size=3
        ).map(tuple),
        restrictions=st.lists(
            st.builds(
                Restriction,
                begins=st.dates(max_value=date(2020, 1, 1)),
                ends=st.none() | st.dates(min_value=date(2020, 1, 1)),
                leave_out=st.frozensets(st.sampled_from(LeaveOut), min_size=1),
                said_by=st.sampled_from(SaidBy),
            ),
            max_size=3,
        ).map(tuple),
    )
)
def test_any_file_survives_the_round_trip(file):
    assert from_mapping(json.loads(json.dumps(to_mapping(file)))) == file


def test_a_short_mapping_is_enough():
    file = from_mapping({"id": "a", "display_name": "A. B.", "stature": 1.6, "level": "U13"})
    assert file.statures == (Stature(metres=1.6),)
    assert file.focus == FocusPlan()
    assert stature_on(file, TODAY).metres == 1.6


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"display_name": " "}, "needs a display name"),
        ({"birth_year": 1800}, "year of birth"),
        ({"catching_hand": "middle"}, "cannot be read"),
        ({"statures": [{"metres": 3.4}]}, "stature is out of range"),
        ({"statures": [{"day": "2026-01-01"}]}, "cannot be read"),
        (
            {"restrictions": [{"begins": "2026-01-01", "leave_out": [], "said_by": "coach"}]},
            "names what to leave out",
        ),
        ({"forms": [{"day": "x", "rater": "coach"}]}, "cannot be read"),
        (
            {
                "restrictions": [
                    {
                        "begins": "2026-02-01",
                        "ends": "2026-01-01",
                        "leave_out": ["shots"],
                        "said_by": "coach",
                    }
                ]
            },
            "before it begins",
        ),
        ({"aims": [{"words": " ", "target": 1}]}, "says what she does"),
        ({"format": 99}, "newer tendline"),
        ({"aims": [{"words": "a", "target": 1}] * 3}, "too many aims"),
    ],
)
def test_a_broken_mapping_is_refused_in_words(changed, words):
    with pytest.raises(InputError, match=words):
        from_mapping({**to_mapping(WREN), **changed})


def test_erasing_names_every_record_and_the_check_finds_what_is_left():
    plan = erasure(WREN, 7)
    assert plan.names == ("wren", "Wren Tolliver")
    assert plan.id_after == "removed-7"
    text = " ".join(plan.words)
    for word in ("file", "notes about her", "games", "backups"):
        assert word in text
    left = {"events": [{"goaltender": "wren"}, {"note": "Good saves, wren tolliver!"}]}
    assert mentions(left, plan.names) == ("/events/0/goaltender", "/events/1/note")
    clean = {"events": [{"goaltender": plan.id_after, "name": REMOVED_NAME, "w": "wrench"}]}
    assert mentions(clean, plan.names) == ()
    assert mentions({"wren": 3}, plan.names)


def test_names_are_found_as_whole_words_only():
    assert speaks_of("Ask Milo, then shoot.", ("Milo",))
    assert not speaks_of("Milometre", ("Milo",))
    assert speaks_of("ask o'neill twice", ("O'Neill",))
    assert not speaks_of("anything", ("", "  "))


def test_a_focus_plan_takes_her_own_words():
    plan = FocusPlan().with_cue(FocusZone.DANGER, "still")
    assert plan.cue(FocusZone.DANGER) == "still"
    assert plan.cue(FocusZone.FAR) == "rest"  # published shape, typical word
    with pytest.raises(InputError, match="one short word"):
        plan.with_cue(FocusZone.FAR, "think about the weak side")
    with pytest.raises(InputError, match="parking"):
        FocusPlan(parking=(" ",))
    with pytest.raises(InputError, match="stands twice"):
        FocusPlan(zones=(*plan.zones, plan.zones[0]))


def test_a_rank_needs_the_size_of_the_group():
    with pytest.raises(InputError, match="number of goaltenders"):
        RatingForm(day=TODAY, rater="coach", scale=Scale.RANK, marks=((RatingGroup.SAVES, 1),))
