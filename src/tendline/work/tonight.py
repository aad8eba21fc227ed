"""The main job: from logged games to tonight's sheet.

Games are read back from the club's file; what they cost is counted theme by theme; at most two
themes are to be trained beside the season's own; the planner chooses drills and writes the sheet.
Every choice carries its reason; nothing here decides what the engine or the planner should.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, replace
from datetime import date, time, timedelta

from tendline.base import InputError, Level, NotFoundError, build
from tendline.drill import Drill
from tendline.drill.vocabulary import Family
from tendline.ice import rink
from tendline.log import Findings, Game
from tendline.people import left_out_on, level_on
from tendline.practice import (
    DrillFacts,
    IceSlot,
    Load,
    Need,
    PlanKind,
    PracticeRules,
    Request,
    Roster,
    RosterGoaltender,
    Sheet,
    Space,
    TeamSegment,
    plan_practice,
    sheet_from_dict,
    sheet_to_dict,
    space,
    stage_need,
)
from tendline.practice.season import monday_of
from tendline.practice.spaces import END_WITH_NET, FULL_ICE
from tendline.store import Practice, Store, Team
from tendline.work.cost import Cost, cost_of
from tendline.work.demo import TODAY
from tendline.work.drills import all_drills, planning_facts
from tendline.work.games import new_id
from tendline.work.goaltenders import file_of
from tendline.work.names import names
from tendline.work.season import plan_for

RECENT_PRACTICES = 3
LAST_GAMES = 6
_SKATERS, _HELPERS = 15, 1
"""Where no team says how many there are."""
Tell = Callable[[str], AbstractContextManager[None]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Evening:
    """What the coach decides for tonight; everything left out has a default.

    ``present``: ids of the goaltenders there (empty: the team's); ``focus``: whose games decide
    (empty: the one with most shots logged); ``helpers`` and ``skaters`` None: the team's numbers;
    ``nets`` None: as many as usually stand on that ice; ``also``: families of drills for special
    evenings (sledge hockey, outdoor ice, alone); ``run_by``: who runs the stations A, B, ...
    """

    team: str = ""
    day: date | None = None
    start: time = time(18, 0)
    minutes: int = 55
    kind: PlanKind = PlanKind.PRACTICE
    place: str = FULL_ICE
    block_place: str = END_WITH_NET
    nets: int | None = None
    present: tuple[str, ...] = ()
    focus: str = ""
    helpers: int | None = None
    skaters: int | None = None
    last: int = LAST_GAMES
    fixed: tuple[TeamSegment, ...] = ()
    also: frozenset[Family] = frozenset()
    run_by: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Tonight:
    """Tonight's answer: what it cost, what to train, the sheet, and what it was made from."""

    evening: Evening
    team: Team
    focus: str
    focus_name: str
    cost: Cost | None
    games: tuple[str, ...]
    needs: tuple[Need, ...]
    stage: str
    request: Request
    sheet: Sheet
    drills: tuple[DrillFacts, ...]

    @property
    def findings(self) -> Findings | None:
        """Return what the games say to train, None where none is logged."""
        return self.cost.found if self.cost else None

    @property
    def headline(self) -> str:
        """Return the answer in one short sentence: what to train, with the counts."""
        themes = self.findings.themes if self.findings else ()
        if not themes:
            return f"Train the stage's theme: {', '.join(one.name for one in self.needs) or 'any'}."
        counted = [f"{one.theme} ({one.count} of {one.of} goals)" for one in themes]
        return f"Train {' and '.join(counted)}."

    @property
    def answer(self) -> tuple[str, ...]:
        """Return the answer in sentences: what it cost, then what tonight does about it."""
        lines = self.cost.answer if self.cost else ()
        if not lines:
            lines = (f"No game of {self.focus_name} is logged yet: the stage's theme decides.",)
        drills = [one for one in self.sheet.segments if one.drill_id]
        titles = ", ".join(f"{one.title} ({one.minutes} min)" for one in drills)
        return (*lines, f"Tonight {self.sheet.start:%H:%M}-{self.sheet.end:%H:%M}: {titles}.")


@contextmanager
def silent(words: str) -> Iterator[None]:
    """Do a step without telling anybody."""
    yield


def tonight(store: Store, evening: Evening, *, tell: Tell = silent) -> Tonight:
    """Return tonight's sheet for a team and how it came about.

    ``tell`` is called with each step in words and wraps it, so that a command can show progress.
    Raises ``NotFoundError`` for a team or person that is not known, ``PlanError`` when no plan
    keeps the rules.
    """
    club = store.club.get()
    day = evening.day or (TODAY if club.is_demo else None)
    if day is None:
        raise InputError("which day is the practice?", hint="Give the day.")
    team = team_of(store, evening.team)
    settings = store.choices.settings()
    present = evening.present or team.goaltenders
    if evening.focus and not evening.team and not evening.present:
        present = present if evening.focus in present else (evening.focus,)
    if not present:
        raise InputError(
            "a practice needs a goaltender", item=team.name,
            hint="Put goaltenders on the team, or say who is there.",
        )  # fmt: skip
    with tell("Reading the games"):
        games = {one: store.games.of(one, last=evening.last, settings=settings) for one in present}
    focus = evening.focus or max(present, key=lambda one: (_shots(games[one], one), one))
    if focus not in games:
        games[focus] = store.games.of(focus, last=evening.last, settings=settings)
    stage, stage_needs = stage_of(store, day)
    cost = None
    if games[focus]:
        with tell("Working out what the games cost and why"):
            refused = tuple(one.theme for one in store.choices.refusals(focus))
            cost = cost_of(
                store, games[focus], focus, stage_theme=", ".join(one.name for one in stage_needs),
                refused=refused, settings=settings,
            )  # fmt: skip
    needs = (*stage_needs, *needs_of(cost))
    full = names(store)
    called = short_names({one: full.get(one, one) for one in present})
    request = Request(
        kind=evening.kind,
        roster=Roster(
            goaltenders=tuple(
                roster_goaltender(store, one, games[one], day, team.level, name=called[one])
                for one in present
            ),
            skaters=team.skaters if evening.skaters is None else evening.skaters,
            helpers=team.helpers if evening.helpers is None else evening.helpers,
        ),
        slot=_slot(store, evening, day),
        team=team.name,
        stage=stage,
        needs=needs,
        recent=recent_drills(store, team, day),
        week_pair=week_pair(store, team, day),
        fixed=evening.fixed,
        run_by=evening.run_by,
    )
    with tell("Running the drills on the clock"):
        drills = planning_facts(
            store,
            request,
            rules=build(PracticeRules, settings),
            also=evening.also,
            settings=settings,
        )
    with tell("Choosing drills and writing the sheet"):
        sheet = plan_practice(request, drills, settings=settings)
    return Tonight(
        evening=replace(evening, day=day), team=team, focus=focus,
        focus_name=full.get(focus, focus), cost=cost,
        games=tuple(f"{g.day:%d %b} {g.opponent}" for g in games[focus]),
        needs=needs, stage=stage, request=request, sheet=sheet, drills=drills,
    )  # fmt: skip


def needs_of(cost: Cost | None) -> tuple[Need, ...]:
    """Return what the games say to train, as the planner takes it."""
    if cost is None:
        return ()
    return tuple(
        Need(
            name=one.theme, themes=one.themes, situations=one.situations, count=one.count,
            of=one.of, sure=_in_brackets(one.sure),
        )
        for one in cost.found.themes
    )  # fmt: skip


def _in_brackets(sure: str) -> str:
    """Return a sentence on how sure something is as words for brackets."""
    words = sure.removeprefix("That is ").rstrip(".")
    return words[:1].lower() + words[1:]


def stage_of(store: Store, day: date) -> tuple[str, tuple[Need, ...]]:
    """Return the season's stage on a day and its themes, nothing when no season is set."""
    club = store.club.get()
    if club.season_start is None:
        return "", ()
    return stage_need(plan_for(start=club.season_start), day)


def keep(store: Store, made: Tonight) -> str:
    """Save tonight's sheet in the club's file and return the practice's id."""
    practice = Practice(
        id=new_id("practice"), day=made.sheet.day, team=made.team.name,
        sheet=sheet_to_dict(made.sheet),
    )  # fmt: skip
    store.practices.save(practice)
    return practice.id


def note_done(store: Store, practice: str, *, left_out: Collection[str] = ()) -> Practice:
    """Note that a kept practice was run as planned, less the drills in ``left_out``.

    What each goaltender did there then stands beside her next plans, and the drills count as used.
    Raises ``NotFoundError`` for an unknown practice and ``InputError`` for a drill not on it.
    """
    kept = store.practices.get(practice)
    sheet = sheet_from_dict(kept.sheet)
    planned = {one.drill_id for one in sheet.segments if one.drill_id}
    strange = sorted(set(left_out) - planned)
    if strange:
        raise InputError(
            "this drill is not on the sheet", came=", ".join(strange),
            allowed=", ".join(sorted(planned)), item=practice,
        )  # fmt: skip
    run = [one for one in sheet.segments if one.drill_id and one.drill_id not in left_out]
    load: dict[str, Load] = {}
    for one in run:
        for line in one.lines:
            load[line.goaltender_id] = load.get(line.goaltender_id, Load()) + line.load
    done = {
        "drills": [one.drill_id for one in run],
        "load": {
            person: {name: round(getattr(total, name)) for name in _LOAD}
            for person, total in load.items()
        },
    }
    after = replace(kept, done=done)
    store.practices.save(after)
    return after


def team_of(store: Store, name: str) -> Team:
    """Return a team by name or id; with no name, the one with most goaltenders.

    Without any team, everybody in the club's file counts as one; without a file of anybody, the
    goaltender with most logged games (an imported one, say).
    """
    if name:
        return store.club.team(name)
    known = [one for one in store.club.teams() if one.goaltenders]
    if known:
        return max(known, key=lambda one: len(one.goaltenders))
    people = store.people.ids()
    headers = store.games.headers()
    played = Counter(who for one in headers for who in one.goaltenders)
    if not people and not played:
        raise NotFoundError(
            "there is no goaltender in the club's file",
            hint="Add one: tendline goaltender add, or look at the demo club: --demo.",
        )
    level = headers[0].level if headers else Level.ADULT
    there = people or (max(sorted(played), key=lambda one: played[one]),)
    return Team(id="", name="", level=level, goaltenders=there, skaters=_SKATERS, helpers=_HELPERS)


def roster_goaltender(
    store: Store, person: str, games: tuple[Game, ...], day: date, level: Level, *, name: str
) -> RosterGoaltender:
    """Return a goaltender as the planner takes her, with her own past and what she leaves out."""
    file = file_of(store, person)
    shots = [
        sum(s.on_goal for s in one.shots if s.goaltender == person)
        for one in games
        if any(s.goaltender == person for s in one.shots)
    ]
    return RosterGoaltender(
        id=person,
        name=name,
        level=level_on(file, day) if file else level,
        game_shots=sum(shots) / len(shots) if shots else None,
        past=_past_loads(store, person, day),
        restrictions=frozenset(x.value for x in left_out_on(file, day)) if file else frozenset(),
    )


def short_names(people: Mapping[str, str]) -> dict[str, str]:
    """Return a first name for each full name by id; where two share one, an initial is added.

    Sheets get copied and hung up, so they carry no more of a minor's name than they must.
    """
    first = {one: name.split()[0] if name.split() else one for one, name in people.items()}
    double = {name for name, count in Counter(first.values()).items() if count > 1}
    return {
        one: f"{name} {people[one].split()[-1][0]}."
        if name in double and " " in people[one]
        else name
        for one, name in first.items()
    }


def recent_drills(store: Store, team: Team, day: date) -> tuple[str, ...]:
    """Return the ids of drills used in the team's last practices."""
    before = [one for one in store.practices.list(team=team.name) if one.day < day]
    found = [drill for one in before[:RECENT_PRACTICES] for drill in drills_of(one)]
    return tuple(dict.fromkeys(found))


def week_pair(store: Store, team: Team, day: date) -> tuple[str, ...]:
    """Return the block drills already used this week (a pair lasts a week), else nothing."""
    for one in store.practices.list(team=team.name):
        if monday_of(day) <= one.day < day:
            block = [s["drill_id"] for s in one.sheet.get("segments", ())
                     if s["kind"] == "goaltender block"]  # fmt: skip
            return tuple(block or drills_of(one)[:2])
    return ()


def drills_of(practice: Practice) -> tuple[str, ...]:
    """Return the drills of a practice: what was done if that was written, else its sheet's."""
    if practice.done.get("drills"):
        return tuple(str(one) for one in practice.done["drills"])
    segments = practice.sheet.get("segments", ())
    return tuple(str(one["drill_id"]) for one in segments if one["drill_id"])


def _past_loads(store: Store, person: str, day: date) -> tuple[Load, ...]:
    loads = []
    for one in store.practices.list():
        done = one.done.get("load", {}).get(person)
        if one.day < day and done and day - one.day <= timedelta(days=60):
            loads.append(Load(**{name: float(done[name]) for name in _LOAD if name in done}))
    return tuple(loads)


_LOAD = ("shots", "drops", "hard_stops", "recoveries")


def _slot(store: Store, evening: Evening, day: date) -> IceSlot:
    sheet = rink(store.club.get().rule_set)
    whole: Space = space(evening.place, sheet)
    if evening.nets is not None:
        whole = replace(whole, nets=evening.nets)
    return IceSlot(
        day=day, start=evening.start, minutes=evening.minutes, space=whole,
        block_space=space(evening.block_place, sheet),
    )  # fmt: skip


def _shots(games: tuple[Game, ...], person: str) -> int:
    return sum(s.on_goal for one in games for s in one.shots if s.goaltender == person)


def diagrams_of(store: Store, made: Tonight) -> Mapping[str, Drill]:
    """Return the drills of the sheet by id, for its diagrams."""
    wanted = {one.drill_id for one in made.sheet.segments}
    return {one.id: one for one in all_drills(store) if one.id in wanted}


def sheet_pdf(
    store: Store,
    made: Tonight,
    *,
    paper: str = "A4",
    large_print: bool = False,
    diagrams_on_back: bool = False,
) -> bytes:
    """Return tonight's sheet as a PDF, complete on one side.

    The drills' diagrams stand on it where there is room, or large on the back if wanted.
    """
    from tendline.draw import practice_sheet_pdf

    return practice_sheet_pdf(
        made.sheet, paper=paper, drills=diagrams_of(store, made), large_print=large_print,
        rink=rink(store.club.get().rule_set), diagrams_on_back=diagrams_on_back,
    )  # fmt: skip


__all__ = [
    "Evening", "Tonight", "diagrams_of", "drills_of", "keep", "needs_of",
    "note_done", "recent_drills",
    "roster_goaltender", "sheet_pdf", "stage_of", "team_of", "tonight", "week_pair",
]  # fmt: skip
