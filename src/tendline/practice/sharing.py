"""Who stands where in the team part: the second choice behind a sheet.

For each segment the number of nets and the size of the group at each is fixed by the drill; the
solver deals the goaltenders to them so that everybody ends with the same shots, as nearly as it
can. Who has no net has a task, and the tasks go round.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tendline.practice.constants import PracticeRules
from tendline.practice.fitting import nets_used
from tendline.practice.program import Builder, Solver
from tendline.practice.repetitions import Stint, stint
from tendline.practice.types import DrillFacts, Load, Space

_MOST_SHARING = 3
_TASK_PENALTY = 1000
_SHOT_PENALTY = 10
_LOAD_PENALTY = 3
_PER_CENT = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """A net (or the task list) in one segment: how many stand there and what each does."""

    station: str
    size: int
    stint: Stint | None

    @property
    def is_task(self) -> bool:
        """Return whether this group has a task instead of a net."""
        return self.stint is None


def groups_of(
    drill: DrillFacts,
    *,
    space: Space,
    goaltenders: int,
    barred: int,
    minutes: int,
    rules: PracticeRules,
    nets: int = 0,
    rhythm: float = 1.0,
) -> tuple[Group, ...]:
    """Return the groups of a team segment: nets as evenly filled as they go, then the task.

    ``goaltenders`` may stand in a net; ``barred`` more leave this drill out and have a task.
    ``nets``: how many are played on, 0 for all that there are.
    """
    nets = max(1, nets or nets_used(drill, space, goaltenders))
    each = max(1, min(drill.goaltenders_high, _MOST_SHARING))
    placed = min(goaltenders, nets * each)
    sizes = [placed // nets + (1 if at < placed % nets else 0) for at in range(nets)]
    made = [
        Group(
            station=f"net {chr(ord('A') + at)}" if drill.needs_net else "patch",
            size=size,
            stint=stint(
                drill, minutes=minutes, sharing=size, with_team=True, rules=rules, rhythm=rhythm
            ),
        )
        for at, size in enumerate(sizes)
        if size
    ]
    tasks = goaltenders - placed + barred
    if tasks:
        made.append(Group(station="task", size=tasks, stint=None))
    return tuple(made)


def deal(
    segments: Sequence[tuple[Group, ...]],
    *,
    start: Sequence[Load],
    barred: Sequence[frozenset[int]] = (),
    most: Sequence[Load] = (),
    solver: Solver,
) -> tuple[tuple[int, ...], ...]:
    """Return, for each segment, the group number of each goaltender.

    ``start`` holds the load each goaltender already has from the block. Every shot by which two
    goaltenders differ costs, and so does a task beyond somebody's share: when the numbers do not
    divide, the least unequal deal is taken. ``barred`` holds, for each segment, who leaves it out;
    ``most`` what is usual for each goaltender: going beyond it costs, in per cent of it.
    """
    count = len(start)
    builder = Builder()
    variable = {
        (at, one, group): builder.variable(1 if group == one else 0)
        for at, groups in enumerate(segments)
        for one in range(count)
        for group in range(len(groups))
    }
    for at, groups in enumerate(segments):
        for one in range(count):
            builder.row(
                "goaltenders",
                ((variable[at, one, g], 1) for g in range(len(groups))),
                low=1,
                high=1,
            )
        for one in barred[at] if barred else ():
            builder.row("V22", ((variable[at, one, len(groups) - 1], 1),), low=1)
        for g, group in enumerate(groups):
            builder.row(
                "goaltenders", ((variable[at, i, g], 1) for i in range(count)),
                low=group.size, high=group.size,
            )  # fmt: skip
    shots = {
        key: round(group.stint.load.shots) if (group := segments[key[0]][key[2]]).stint else 0
        for key in variable
    }
    for one in range(count):
        for other in range(count):
            if one == other:
                continue
            terms = [(v, shots[k]) for k, v in variable.items() if k[1] == one]
            terms += [(v, -shots[k]) for k, v in variable.items() if k[1] == other]
            builder.row(
                "V14",
                terms,
                high=round(start[other].shots - start[one].shots),
                penalty=_SHOT_PENALTY,
            )
    for one, usual in enumerate(most):
        for kind in Load.KINDS:
            limit = usual.of(kind)
            if limit <= 0.0:
                continue
            terms = [
                (v, round(_PER_CENT * done.load.of(kind) / limit))
                for k, v in variable.items()
                if k[1] == one and (done := segments[k[0]][k[2]].stint)
            ]
            room = round(_PER_CENT * (limit - start[one].of(kind)) / limit)
            builder.row("usual load", terms, high=room, penalty=_LOAD_PENALTY)
    tasks = sum(g.size for groups in segments for g in groups if g.is_task)
    for one in range(count):
        terms = [
            (v, 1) for k, v in variable.items() if k[1] == one and segments[k[0]][k[2]].is_task
        ]
        builder.row("V13", terms, high=-(-tasks // count), penalty=_TASK_PENALTY)
    choice = solver.choose(builder.program())
    return tuple(
        tuple(
            next((g for g in range(len(groups)) if variable[at, one, g] in choice.chosen), 0)
            for one in range(count)
        )
        for at, groups in enumerate(segments)
    )
