"""The two solvers behind one interface: CP-SAT for the work, an exhaustive twin for the tests.

CP-SAT (ortools) is imported only when a plan is made. One worker, a fixed seed and a limit in
deterministic time give the same answer on every run. The twin looks at every choice that the
rows still allow; it is for problems of up to about twenty variables and proves what it returns.
"""

from __future__ import annotations

from dataclasses import dataclass

from tendline.practice.program import Choice, Program, Row, Status, Stretch

_SEED = 20
_TWIN_LIMIT = 26


@dataclass(frozen=True, slots=True, kw_only=True)
class CpSatSolver:
    """The working solver. ``limit`` is CP-SAT's deterministic time, about seconds of one core."""

    limit: float = 8.0

    def choose(self, program: Program) -> Choice:
        """Return the best choice that keeps every row that must hold."""
        status, chosen = self._run(program, None)
        if status in (Status.BEST, Status.GOOD):
            return Choice(status=status, chosen=chosen, value=program.value_of(chosen))
        return Choice(status=status)

    def stretch(self, program: Program, rules: frozenset[str]) -> Stretch:
        """Return the choice that breaks the rows of ``rules`` least and keeps all the others."""
        status, chosen = self._run(program, rules)
        if status in (Status.BEST, Status.GOOD):
            return Stretch(status=status, amount=_stretched(program, rules, chosen), chosen=chosen)
        return Stretch(status=status)

    def _run(
        self, program: Program, stretched: frozenset[str] | None
    ) -> tuple[Status, frozenset[int]]:
        from ortools.sat.python import cp_model

        model = cp_model.CpModel()
        variables = [model.new_bool_var("") for _ in program.gain]
        worth: list[tuple[object, int]] = []
        if stretched is None:
            worth = [(v, g) for v, g in zip(variables, program.gain, strict=True) if g]
        for row in program.rows:
            gives_way = stretched is not None and row.rule in stretched
            soft = row.penalty is not None
            if soft and stretched is not None:
                continue
            total = cp_model.LinearExpr.weighted_sum(
                [variables[index] for index, _ in row.terms],
                [coefficient for _, coefficient in row.terms],
            )
            spread = sum(abs(coefficient) for _, coefficient in row.terms)
            bound = spread + abs(row.low or 0) + abs(row.high or 0)
            slack = model.new_int_var(0, bound, "") if soft or gives_way else 0
            if row.low is not None:
                model.add(total + slack >= row.low)
            if row.high is not None:
                model.add(total - slack <= row.high)
            if not isinstance(slack, int):
                worth.append((slack, -(row.penalty or 0) if stretched is None else -1))
        if worth:
            model.maximize(
                cp_model.LinearExpr.weighted_sum([one for one, _ in worth], [p for _, p in worth])
            )
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = _SEED
        solver.parameters.linearization_level = 2
        solver.parameters.cp_model_probing_level = 0
        solver.parameters.max_deterministic_time = self.limit
        status = {
            cp_model.OPTIMAL: Status.BEST,
            cp_model.FEASIBLE: Status.GOOD,
            cp_model.INFEASIBLE: Status.IMPOSSIBLE,
        }.get(solver.solve(model), Status.UNKNOWN)
        if status not in (Status.BEST, Status.GOOD):
            return status, frozenset()
        return status, frozenset(i for i, v in enumerate(variables) if solver.value(v))


@dataclass(frozen=True, slots=True)
class ExhaustiveSolver:
    """The twin: tries every choice, cutting only branches that some row already forbids."""

    def choose(self, program: Program) -> Choice:
        """Return the best choice that keeps every row that must hold."""
        must = [row for row in program.rows if row.penalty is None]
        best: tuple[int, frozenset[int]] | None = None
        for chosen in _allowed(program, must):
            value = program.value_of(chosen)
            if best is None or value > best[0]:
                best = (value, chosen)
        if best is None:
            return Choice(status=Status.IMPOSSIBLE)
        return Choice(status=Status.BEST, chosen=best[1], value=best[0])

    def stretch(self, program: Program, rules: frozenset[str]) -> Stretch:
        """Return the choice that breaks the rows of ``rules`` least and keeps all the others."""
        must = [r for r in program.rows if r.penalty is None and r.rule not in rules]
        best: tuple[int, frozenset[int]] | None = None
        for chosen in _allowed(program, must):
            amount = _stretched(program, rules, chosen)
            if best is None or amount < best[0]:
                best = (amount, chosen)
        if best is None:
            return Stretch(status=Status.IMPOSSIBLE)
        return Stretch(status=Status.BEST, amount=best[0], chosen=best[1])


def _stretched(program: Program, rules: frozenset[str], chosen: frozenset[int]) -> int:
    return sum(
        row.broken_by(chosen) for row in program.rows if row.penalty is None and row.rule in rules
    )


def _allowed(program: Program, must: list[Row]) -> list[frozenset[int]]:
    """Return every choice that keeps the rows ``must``, by depth-first search."""
    size = program.size
    if size > _TWIN_LIMIT:
        raise ValueError(f"the exhaustive twin takes at most {_TWIN_LIMIT} variables, got {size}")
    coefficients = [[0] * size for _ in must]
    for at, row in enumerate(must):
        for index, coefficient in row.terms:
            coefficients[at][index] += coefficient
    least = [_tails([min(c, 0) for c in row]) for row in coefficients]
    most = [_tails([max(c, 0) for c in row]) for row in coefficients]
    found: list[frozenset[int]] = []

    def walk(index: int, chosen: tuple[int, ...], totals: tuple[int, ...]) -> None:
        for at, row in enumerate(must):
            if row.high is not None and totals[at] + least[at][index] > row.high:
                return
            if row.low is not None and totals[at] + most[at][index] < row.low:
                return
        if index == size:
            found.append(frozenset(chosen))
            return
        walk(index + 1, chosen, totals)
        taken = tuple(t + coefficients[at][index] for at, t in enumerate(totals))
        walk(index + 1, (*chosen, index), taken)

    walk(0, (), (0,) * len(must))
    return found


def _tails(row: list[int]) -> list[int]:
    """Return, for each start, the sum of the rest of a row (and 0 at the end)."""
    sums = [0]
    for coefficient in reversed(row):
        sums.append(sums[-1] + coefficient)
    return sums[::-1]
