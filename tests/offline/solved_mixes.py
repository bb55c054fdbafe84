"""Mixed laying as a solver would do it, for comparison only; needs ortools."""

from itertools import product

from ortools.sat.python import cp_model

Size = tuple[int, int]


def solved(side: int, numbers: dict[Size, int], limit: int, seconds: float) -> bool:
    """Whether a square of modules is laid within the time by CP-SAT on one worker."""
    model = cp_model.CpModel()
    turned = sorted({way for size in numbers for way in (size, size[::-1])})
    laid = {
        (x, y, a, b): model.new_bool_var("")
        for a, b in turned
        for x, y in product(range(side - a + 1), range(side - b + 1))
    }
    over: dict[tuple[int, int], list[object]] = {}
    corners: dict[tuple[int, int], list[object]] = {}
    across: dict[tuple[int, int, int], list[object]] = {}
    for (x, y, a, b), var in laid.items():
        for i, k in product(range(a), range(b)):
            over.setdefault((x + i, y + k), []).append(var)
        for i, k in product((0, a), (0, b)):
            corners.setdefault((x + i, y + k), []).append(var)
        for i, k in product(range(1, a), range(b)):
            across.setdefault((0, x + i, y + k), []).append(var)
        for i, k in product(range(a), range(1, b)):
            across.setdefault((1, y + k, x + i), []).append(var)
    for cell in over.values():
        model.add_exactly_one(cell)
    for point in corners.values():
        model.add(sum(point) <= 3)
    for way, line, start in product((0, 1), range(1, side), range(side - limit)):
        model.add_bool_or([var for k in range(limit + 1) for var in across.get((way, line, start + k), [])])
    for size, number in numbers.items():
        model.add(sum(var for spot, var in laid.items() if size in (spot[2:], spot[:1:-1])) == number)
    checker = cp_model.CpSolver()
    checker.parameters.max_time_in_seconds = seconds
    checker.parameters.num_workers = 1
    return checker.solve(model) in (cp_model.OPTIMAL, cp_model.FEASIBLE)
