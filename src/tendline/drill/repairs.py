"""Repairs computed, not listed: each is a new drill, run and checked again, with its price.

The coach decides. A repair says what it mends, what it leaves, and what it costs in shots a
minute and in waiting; it never hides what still stands against the drill.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from tendline.base import DEFAULT_SETTINGS, InputError, Settings, ShotType
from tendline.drill.check import check_drill, standing
from tendline.drill.edits import CLEARED, after_each_shot, mapped, only_last_shot, shot_count
from tendline.drill.findings import Finding
from tendline.drill.places import xy_of
from tendline.drill.rules import drill_limits
from tendline.drill.run_types import Run
from tendline.drill.simulate import simulate
from tendline.drill.types import Action, Branch, Choice, Drill, Item, Person, Place, Trigger
from tendline.drill.vocabulary import DrillKind, Sides, TriggerKind, Verb
from tendline.drill.world import world_of

STAGGER_STEP, STAGGER_MOST = 0.5, 12.0
"""Waits that are tried between shots [s]; numerical."""
FURTHER = (1.15, 1.3, 1.5, 1.75)
"""Shares by which a start spot is moved out; numerical."""
TIMING = ("V1", "V2", "V3", "V4")
PARTNER_ASIDE = 5.0
"""How far beside the shooter a partner is put [m]; ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """What a repair costs: before and after. Times in seconds."""

    shots_per_minute: tuple[float, float]
    shots_total: tuple[float, float]
    set_share: tuple[float, float]
    skater_wait: tuple[float, float]
    goaltender_rest: tuple[float, float]

    @property
    def words(self) -> str:
        """Return the price in words."""
        a, b = self.shots_per_minute
        c, d = self.skater_wait
        e, f = self.set_share
        return (
            f"{a:.0f} to {b:.0f} shots a minute; skaters wait {c:.0f} to {d:.0f} s; "
            f"set for {100 * e:.0f} to {100 * f:.0f} % of the shots"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """One repair: what it changes, the new drill and its run, what it mends, leaves and costs."""

    name: str
    text: str
    drill: Drill
    run: Run
    mends: tuple[str, ...]
    leaves: tuple[str, ...]
    price: Price

    @property
    def complete(self) -> bool:
        """Return whether nothing stands against the drill any more."""
        return not self.leaves


def repairs(
    drill: Drill,
    *,
    settings: Settings = DEFAULT_SETTINGS,
    minutes: float | None = None,
    skaters: int | None = None,
) -> tuple[Repair, ...]:
    """Return the repairs that mend something, those that mend everything first.

    Among equals the one that leaves most shots a minute comes first. An empty answer means that
    nothing stands against the drill, or that none of the repairs helps.
    """
    shop = _Shop(drill, settings, minutes, skaters)
    if not shop.broken:
        return ()
    found = [one for one in (make() for make in shop.makers()) if one is not None]
    unique: dict[Drill, Repair] = {}
    for one in found:
        unique.setdefault(one.drill, one)
    ordered = sorted(
        unique.values(),
        key=lambda one: (len(one.leaves), -one.price.shots_per_minute[1], one.name),
    )
    return tuple(ordered)


class _Shop:
    """The drill as it came, and the repairs that are tried on it."""

    def __init__(
        self, drill: Drill, settings: Settings, minutes: float | None, skaters: int | None
    ) -> None:
        self.drill = drill
        self.settings = settings
        self.minutes = minutes
        self.skaters = skaters
        self.limits = drill_limits(settings)
        self.run, self.findings = self._tried(drill)
        self.broken = _rules(self.findings)

    def makers(self) -> list[Callable[[], Repair | None]]:
        """Return the repairs worth trying for what is broken."""
        made: list[Callable[[], Repair | None]] = []
        if set(TIMING) & set(self.broken):
            made += [
                self.on_cleared, self.cleared_two_nets, self.stagger, self.two_nets,
                self.one_puck, self.shot_to_pass, self.when_set, self.further_out,
            ]  # fmt: skip
        if "V5" in self.broken:
            made.append(self.equal_sides)
        if "V6" in self.broken:
            made.append(self.more_rest)
        return made

    def _tried(self, drill: Drill) -> tuple[Run, tuple[Finding, ...]]:
        run = simulate(drill, settings=self.settings, minutes=self.minutes, skaters=self.skaters)
        return run, check_drill(drill, run, self.limits, settings=self.settings)

    def _repair(self, name: str, text: str, drill: Drill) -> Repair | None:
        """Return the repair if it mends something and breaks nothing new of the timing rules."""
        if drill == self.drill:
            return None
        try:
            run, findings = self._tried(drill)
        except InputError:
            return None
        left = _rules(findings)
        mends = tuple(one for one in self.broken if one not in left)
        fewer = len(standing(findings)) < len(standing(self.findings))
        if not mends and not fewer:
            return None
        price = Price(
            shots_per_minute=(self.run.shots_per_minute, run.shots_per_minute),
            shots_total=(self.run.shots_total, run.shots_total),
            set_share=(self.run.set_share, run.set_share),
            skater_wait=(self.run.waiting.skater_wait, run.waiting.skater_wait),
            goaltender_rest=(self.run.rest, run.rest),
        )
        return Repair(
            name=name, text=text, drill=drill, run=run, mends=mends, leaves=left, price=price
        )

    # The repairs --------------------------------------------------------------------------------

    def _on_cleared(self) -> Drill:
        play = after_each_shot(self.drill.play, CLEARED)
        return replace(self.drill, play=play, next_rep=self._next(CLEARED))

    def on_cleared(self) -> Repair | None:
        """Everything that follows a shot starts when its rebound is cleared."""
        return self._repair(
            "start on rebound cleared",
            "One puck: whatever follows a shot, and the next skater, start when the rebound is "
            "cleared.",
            self._on_cleared(),
        )

    def cleared_two_nets(self) -> Repair | None:
        """The same, with both nets in use and the line halved."""
        return self._repair(
            "start on rebound cleared, two nets",
            "Start when the rebound is cleared, use both nets and halve the line.",
            replace(self._on_cleared(), nets=max(2, 2 * self.drill.nets), by_turns=False),
        )

    def two_nets(self) -> Repair | None:
        """The repetitions alternate between two nets."""
        return self._repair(
            "two nets",
            "Use two nets by turns: each goaltender faces every second repetition.",
            replace(self.drill, nets=max(2, 2 * self.drill.nets), by_turns=True),
        )

    def stagger(self) -> Repair | None:
        """The smallest wait after every shot with which the timing rules pass."""
        low, high = 0, round(STAGGER_MOST / STAGGER_STEP)
        if not self._passes(self._staggered(high * STAGGER_STEP)):
            return None
        while high - low > 1:
            middle = (low + high) // 2
            if self._passes(self._staggered(middle * STAGGER_STEP)):
                high = middle
            else:
                low = middle
        wait = high * STAGGER_STEP
        return self._repair(
            f"stagger by {wait:g} s",
            f"Whatever follows a shot, and the next skater, start {wait:g} s after it: the "
            "smallest such wait with which the timing rules pass.",
            self._staggered(wait),
        )

    def _staggered(self, wait: float) -> Drill:
        trigger = Trigger(kind=TriggerKind.SHOT, delay=wait)
        play = after_each_shot(self.drill.play, trigger)
        return replace(self.drill, play=play, next_rep=self._next(trigger))

    def _next(self, trigger: Trigger) -> Trigger:
        """Return when the next repetition starts: as before if the last shot had its time."""
        last = {one.key: len(one.releases) for one in self.run.branches}
        short = any(
            one.stands and one.rule in TIMING and one.release == last.get(one.branch)
            and one.rule != "V1"
            for one in self.findings
        )  # fmt: skip
        return trigger if short else self.drill.next_rep

    def _passes(self, drill: Drill) -> bool:
        try:
            _, findings = self._tried(drill)
        except InputError:
            return False
        return not set(TIMING) & set(_rules(findings))

    def one_puck(self) -> Repair | None:
        """Keep the skating; only the last of the shots is taken."""
        return self._repair(
            "shoot only the last",
            "One puck a turn: keep the skating, feint the earlier shots, shoot only the last.",
            replace(self.drill, play=only_last_shot(self.drill.play)),
        )

    def shot_to_pass(self) -> Repair | None:
        """The first of several shots becomes a pass to a partner who shoots or returns it."""
        if shot_count(self.drill.play) < 2 or len(self.drill.people) > 8:
            return None
        made = self._with_partner()
        if made is None:
            return None
        return self._repair(
            "turn a shot into a pass",
            "The first shot becomes a pass to a partner who shoots or gives it back: she has "
            "something to read. The next skater starts when the rebound is cleared.",
            made,
        )

    def _with_partner(self) -> Drill | None:
        before: list[Item] = []
        shot: Action | None = None
        for item in self.drill.play:
            if isinstance(item, Choice):
                return None
            if item.verb is Verb.SHOOT:
                shot = item
                break
            before.append(item)
        if shot is None:
            return None
        place = self._shot_place(shot.who)
        side = -1.0 if place[1] > 0.0 else 1.0
        used = {one.name for one in self.drill.people}
        partner = next(f"F{k}" for k in range(1, 40) if f"F{k}" not in used)
        spot = Place("", round(max(2.0, place[0] - 2.0), 1), round(side * PARTNER_ASIDE, 1))
        shoots = replace(shot, trigger=Trigger(), target=None, tag="")
        choice = Choice(
            who=partner, reading="whether she is square to him", told=False,
            branches=(
                Branch(name="shoot", when="she is late",
                       items=(Action(who=partner, verb=Verb.SHOOT,
                                     trigger=Trigger(kind=TriggerKind.HAS_PUCK, who=partner)),)),
                Branch(name="return", when="she is square to him",
                       items=(Action(who=partner, verb=Verb.PASS, partner=shot.who),
                              replace(shoots, trigger=Trigger(kind=TriggerKind.HAS_PUCK,
                                                              who=shot.who)))),
            ),
        )  # fmt: skip
        passing = Action(who=shot.who, verb=Verb.PASS, partner=partner, trigger=shot.trigger)
        kind = DrillKind.READ if self.drill.kind is DrillKind.TECHNIQUE else self.drill.kind
        return replace(self.drill,
            play=(*before, passing, choice), next_rep=CLEARED, kind=kind,
            sides=Sides.EACH_REP,
            people=(*self.drill.people, Person(name=partner, at=spot, words="partner")),
        )  # fmt: skip

    def _shot_place(self, who: str) -> tuple[float, float]:
        for one in self.run.releases:
            if one.shooter == who:
                return one.x, one.y
        return 9.0, 0.0

    def when_set(self) -> Repair | None:
        """Shooters wait for her: every shot waits until she is set."""
        if "V1" not in self.broken:
            return None
        sight = world_of(self.run.level, self.settings).sight_time
        waits = Trigger(kind=TriggerKind.SET, delay=sight)

        def wait(action: Action) -> Action:
            if action.verb is not Verb.SHOOT:
                return action
            shot = None if action.shot is ShotType.ONE_TIMER else action.shot
            return replace(action, trigger=waits, shot=shot)

        changed = mapped(self.drill.play, wait)
        return self._repair(
            "shoot when she is set",
            f"The shooter holds the puck until {sight:g} s after she stands still on his line.",
            replace(self.drill, play=changed),
        )

    def further_out(self) -> Repair | None:
        """Move the spots from which the failing shots come outward until the timing rules pass."""
        names = {
            one.shooter for branch in self.run.branches for one in branch.releases
            if any(f.branch == branch.key and f.release == one.number and f.stands
                   for f in self.findings)
        }  # fmt: skip
        if not names:
            return None
        for share in FURTHER:
            moved = self._moved(names, share)
            if moved is not None and self._passes(moved):
                return self._repair(
                    "move the start spot",
                    f"{', '.join(sorted(names))}: spots {100 * (share - 1):.0f} % further from "
                    "the goal, the least of those tried with which the timing rules pass.",
                    moved,
                )
        return None

    def _moved(self, names: set[str], share: float) -> Drill | None:
        rink = world_of(self.run.level, self.settings).rink

        def out(place: Place) -> Place:
            x, y = xy_of(place, self.drill, rink)
            if x <= 0.0:
                return place
            return Place("", round(x * share, 1), round(y * min(share, 1.15), 1))

        def change(action: Action) -> Action:
            if action.who not in names or action.to is None or action.verb is Verb.PASS:
                return action
            return replace(action, to=out(action.to), via=tuple(out(one) for one in action.via))

        people = tuple(
            replace(one, at=out(one.at)) if one.name in names else one for one in self.drill.people
        )
        for one in people:
            x, y = xy_of(one.at, self.drill, rink)
            if not rink.contains(x, y) or x > rink.red_line_x:
                return None
        return replace(self.drill, people=people, play=mapped(self.drill.play, change))

    def equal_sides(self) -> Repair | None:
        """Share the repetitions equally between the drill and its mirror image."""
        repeats = self.drill.repeats
        sides = Sides.EACH_SET
        if repeats.reps and repeats.sets % 2:
            if repeats.reps * repeats.sets % 2 == 0:
                sides = Sides.EACH_REP
            else:
                repeats = replace(repeats, sets=repeats.sets + 1)
        words = "every repetition" if sides is Sides.EACH_REP else "every set"
        return self._repair(
            "equalise the sides",
            f"Change sides after {words}: as many from her left as from her right.",
            replace(self.drill, sides=sides, repeats=repeats),
        )

    def more_rest(self) -> Repair | None:
        """Rest after each repetition until work and rest are as the rule wants, fewer in a turn."""
        repeats = self.drill.repeats
        missing = self.limits.rest_per_work * self.run.work - self.run.rest
        each = repeats.rest_each + max(0.0, math.ceil(missing))
        reps = repeats.reps
        if reps and self.run.work * reps > self.limits.turn_limit:
            reps = max(1, int(self.limits.turn_limit / self.run.work))
        made = replace(repeats, reps=reps, rest_each=each)
        return self._repair(
            "rest",
            f"{each:g} s of rest after each repetition"
            + (f", {reps} repetitions in a turn." if reps else "."),
            replace(self.drill, repeats=made),
        )


def _rules(findings: tuple[Finding, ...]) -> tuple[str, ...]:
    """Return the rules that stand broken, each once."""
    return tuple(dict.fromkeys(one.rule for one in standing(findings)))
