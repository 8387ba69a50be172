"""Which throat to take: the one with most gas among those that leave enough water."""

from sanitize.basis.notices import Notice
from sanitize.basis.units import show
from sanitize.plant.loop import Plant
from sanitize.studies.advice.checks import lacking_with_gas, objections
from sanitize.studies.advice.edit import the_injector
from sanitize.studies.advice.result import ThroatRow, Throats
from sanitize.studies.advice.throats import LEAST_THROAT_M, STEP_M, fits_injector, throat_m, with_throat
from sanitize.studies.advice.tried import Examined, Glance, examine, glance
from sanitize.studies.draws import SEED
from sanitize.studies.operating_point.run import refuse_without_answer, refuse_without_injector
from sanitize.studies.suction.readings import narrowed
from sanitize.studies.suction.study import DOES_NOT_DRAW_TO_RATIO, DRAWS_FROM_RATIO

CASES = 256
LEAST_FLOW_RATIO = 0.8
"""Water flow that a throat must leave, over that at the present one (a choice of this project: turnover suffers less
than what the stated drops are uncertain by)."""
SAME_GAS_RATIO = 0.98
"""Gas flow over the best from which a wider throat is preferred (a choice of this project: it clogs later)."""
DOWN, UP = 5, 4
"""Sizes below and above the present throat that are tried (a choice of this project)."""


def study_throats(plant: Plant, cases: int = CASES, seed: int = SEED, notices: tuple[Notice, ...] = ()) -> Throats:
    """The trade-off between gas and water over the throat, and the throat to take.

    A throat is acceptable when it leaves `LEAST_FLOW_RATIO` of the present water flow, keeps every chiller in its
    window, brings no new caution or flood, and draws in as many cases as the present one or surely. Raises InputError
    when the loop has no injector, NoSolutionError when its nominal case has no operating point.
    """
    refuse_without_injector(plant)
    draws, _, reading_notices = narrowed(plant, cases, seed)
    now = glance(plant, draws)
    refuse_without_answer(now.running, plant)
    port = now.running.port
    if port is None:
        raise ValueError("the loop has no injector")
    here = throat_m(the_injector(plant), port.model)
    water = now.gas_flow()[1].ends[1]
    examined = examine(now)
    rows = []
    for steps in range(-DOWN, UP + 1):
        size = here + steps * STEP_M
        changed = with_throat(plant, size / here)
        if size < LEAST_THROAT_M or not fits_injector(changed, size):
            continue
        seen = now if steps == 0 else glance(changed, now.draws)
        if seen.moves:
            rows.append(_row(size, seen, now, water, examined, present=steps == 0))
    taken = _taken(rows)
    return Throats(
        title=plant.title,
        units=plant.units,
        cases_count=cases,
        seed=seed,
        here_m=here,
        least_flow_ratio=LEAST_FLOW_RATIO,
        rows=tuple(rows),
        take_m=None if taken is None else taken.throat_m,
        why=_why(plant, rows, taken, here),
        cautions=examined.cautions,
        notices=(*notices, *reading_notices),
    )


def _row(size_m: float, seen: Glance, now: Glance, water_m3s: float, examined: Examined, *, present: bool) -> ThroatRow:
    gas, water = seen.gas_flow()
    ratio = water.ends[1] / water_m3s
    then = examined if present else examine(seen)
    found = [*objections(examined, then), *lacking_with_gas(then, seen.flow.ends[1], water.ends[1])]
    if ratio < LEAST_FLOW_RATIO:
        found.append(f"It leaves {100.0 * ratio:.0f} % of the present water flow.")
    share = seen.share
    if share < min(now.share, DRAWS_FROM_RATIO) or share <= DOES_NOT_DRAW_TO_RATIO:
        found.append("It draws in fewer cases." if share < now.share else "It does not draw.")
    return ThroatRow(size_m, share, water, ratio, gas, tuple(found))


def _taken(rows: list[ThroatRow]) -> ThroatRow | None:
    """Most gas among the acceptable; of throats that draw nearly the same, the widest."""
    fit = [row for row in rows if not row.objections and row.gas_flow_m3s.ends[1] > 0.0]
    if not fit:
        return None
    most = max(row.gas_flow_m3s.ends[1] for row in fit)
    return max((row for row in fit if row.gas_flow_m3s.ends[1] >= SAME_GAS_RATIO * most), key=lambda row: row.throat_m)


def _why(plant: Plant, rows: list[ThroatRow], taken: ThroatRow | None, here_m: float) -> str:
    family = plant.units
    if taken is None:
        return (
            f"No throat from {show(rows[0].throat_m, 'bore', family)} to {show(rows[-1].throat_m, 'bore', family)} "
            "draws gas and is acceptable on this loop."
        )
    gas = show(taken.gas_flow_m3s.ends[1], "gas flow", family)
    kept = f"{100.0 * taken.flow_ratio:.0f} % of the present water flow"
    if taken.throat_m == here_m:
        return f"The present throat draws {gas}; no other acceptable one draws more."
    return f"A throat of {show(taken.throat_m, 'bore', family)} draws {gas} and leaves {kept}."
