"""The goaltenders' files of the demo club; every name, time and mark is invented."""

from __future__ import annotations

from datetime import date

from tendline.base import Level, Sex
from tendline.motion import TimedTest, TimedTestKind
from tendline.people import (
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
    Stature,
    TimedDay,
)
from tendline.work.demo_club.cast import ILSE, MILO, PETRA, RONJA, Player

_AUTUMN = date(2026, 9, 8)
_NOVEMBER = date(2026, 11, 3)
_K = TimedTestKind
_G = RatingGroup


def files() -> tuple[GoaltenderFile, ...]:
    """Return every goaltender's file."""
    return (_ronja(), _milo(), _ilse(), _petra())


def _ronja() -> GoaltenderFile:
    tests = TimedDay(
        day=date(2026, 10, 13),
        ice="first fifteen minutes, fresh ice",
        tests=(
            TimedTest(kind=_K.SHUFFLE, times=(2.55, 2.61, 2.52)),
            TimedTest(kind=_K.PUSH, times=(2.12, 2.05, 2.09)),
            TimedTest(kind=_K.SLIDE, times=(0.84, 0.88, 0.86)),
            TimedTest(kind=_K.RECOVERY, times=(3.15, 3.22, 3.08)),
        ),
    )
    form = RatingForm(
        day=_NOVEMBER,
        rater="goaltending coach",
        marks=(
            (_G.POSITIONING, 3.5), (_G.STANCE, 4.0), (_G.SKATING, 2.5), (_G.SAVES, 3.5),
            (_G.REBOUNDS, 2.5), (_G.READING, 3.5), (_G.COMPETING, 4.5),
        ),
        well="tracks long shots into the body",
        next_step="one push across, then still",
        cue="still",
    )  # fmt: skip
    return GoaltenderFile(
        id=RONJA.id,
        display_name=RONJA.name,
        catching_hand=RONJA.hand,
        birth_year=RONJA.born,
        sex=Sex.FEMALE,
        level=RONJA.level,
        teams=(RONJA.team,),
        statures=(
            Stature(metres=RONJA.stature - 0.02, day=_AUTUMN),
            Stature(metres=RONJA.stature, day=_NOVEMBER),
        ),
        timed_days=(tests,),
        forms=(form,),
        focus=FocusPlan().with_cue(FocusZone.DANGER, "still"),
        consents=_by_parent(),
        aims=(
            Aim(words="still before the shot, ten in a row", target=10, done=6,
                until=date(2026, 12, 18)),
        ),
    )  # fmt: skip


def _milo() -> GoaltenderFile:
    return _young(
        MILO,
        Sex.MALE,
        restrictions=(
            Restriction(begins=date(2026, 11, 22), ends=date(2026, 11, 29),
                        leave_out=frozenset({LeaveOut.LONG_PUSHES}), said_by=SaidBy.PARENT),
        ),
    )  # fmt: skip


def _ilse() -> GoaltenderFile:
    return _young(ILSE, Sex.FEMALE)


def _petra() -> GoaltenderFile:
    return GoaltenderFile(
        id=PETRA.id,
        display_name=PETRA.name,
        catching_hand=PETRA.hand,
        birth_year=PETRA.born,
        level=Level.ADULT,
        teams=(PETRA.team,),
        statures=(Stature(metres=PETRA.stature),),
        consents=(
            Consent(day=_AUTUMN, given_by=SaidBy.HERSELF,
                    items=frozenset({ConsentItem.FILE, ConsentItem.FILM})),
        ),
    )  # fmt: skip


def _young(
    player: Player, sex: Sex, *, restrictions: tuple[Restriction, ...] = ()
) -> GoaltenderFile:
    return GoaltenderFile(
        id=player.id,
        display_name=player.name,
        catching_hand=player.hand,
        birth_year=player.born,
        sex=sex,
        level=player.level,
        teams=(player.team,),
        statures=(Stature(metres=player.stature, day=_AUTUMN),),
        restrictions=restrictions,
        consents=_by_parent(),
    )


def _by_parent() -> tuple[Consent, ...]:
    items = frozenset({ConsentItem.FILE, ConsentItem.REPORTS})
    return (Consent(day=_AUTUMN, given_by=SaidBy.PARENT, items=items),)
