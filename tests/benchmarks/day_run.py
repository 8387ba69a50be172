"""A simulated day, alone and for a thousand cases, beside a plain scipy.integrate.solve_ivp of the same equations.

Run by hand: python tests/benchmarks/day_run.py
Both sides are given the same stretches and rates of one loop file; the plain side integrates one case after the other
with LSODA to the same tolerance. Rounds alternate, medians of the ratios count. The compute of one day from its parts
is timed besides, once everything is imported.
"""

import statistics
import time
from dataclasses import fields, replace
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp

DEMO = Path(__file__).resolve().parents[2] / "demos" / "guest_house_day.toml"
ROUNDS = 5
CASES = 1024
SCALAR_CASES = 4
TOLERANCE = 1e-3


def prepared(cases):
    """Everything that a day is made of, outside the timing; without a lid, so that both sides see plain equations."""
    from sanitize.loopfile.read import read_plant
    from sanitize.studies.day.hydraulics import hydraulics_of
    from sanitize.studies.day.ranges import Ranges
    from sanitize.studies.day.schedule import stretches_of
    from sanitize.studies.day.study import clearing_of
    from sanitize.studies.day.supply import supply_of
    from sanitize.studies.day.surroundings import air_of, warmth_of
    from sanitize.studies.day.switching import switching_of
    from sanitize.studies.day.water import chemistry_of, water_of
    from sanitize.studies.hours.cooling import chilling_of
    from sanitize.studies.hours.gains import gains_of

    plant = read_plant(
        DEMO.read_text(), path=DEMO.name, reader=lambda p: (DEMO.parent / Path(p).name).read_text()
    ).plant
    loop = hydraulics_of(plant, cases, 20)
    ranges = Ranges(loop.draws)
    gains = gains_of(plant, loop.draws, loop.flows.power_w)
    switching = replace(switching_of(plant)[0], lid=())
    return (
        stretches_of(switching),
        warmth_of(plant, gains, chilling_of(plant.chiller, loop.draws)),
        supply_of(plant, loop, ranges)[0],
        air_of(plant, ranges, gains)[0],
        chemistry_of(plant, water_of(plant)[0], ranges),
        clearing_of(plant, loop, ranges),
        plant.bathers.per_day,
    )


def ours(parts):
    """One day with all of its sums."""
    from sanitize.studies.day.simulate import simulate

    return simulate(*parts, days=1, tolerance_ratio=TOLERANCE)


def plain(parts, day, case):
    """The same day of one case by solve_ivp, stretch by stretch; the dose goes in where ours does."""
    from sanitize.studies.day.rates import rates_of
    from sanitize.studies.day.reactor import OXIDANT, Rates, slopes
    from sanitize.studies.day.simulate import start_state

    stretches, _, _, air, chemistry, _, bathers = parts
    rates = rates_of(stretches, day.ways, bathers, air, chemistry)
    own = Rates(*(np.ascontiguousarray(getattr(rates, f.name)[..., case : case + 1]) for f in fields(Rates)))
    state = start_state(day.first.shape[2], chemistry)[:, case]
    start = float(chemistry.oxidant_start_mgl[case])
    last_bathing = int(np.flatnonzero(stretches.bathing)[-1])
    begin = time.perf_counter()
    for index in range(stretches.count):
        here = own.at(index)
        found = solve_ivp(
            lambda _, y, here=here: slopes(y[:, np.newaxis], here)[0][:, 0],
            (0.0, float(stretches.length_min[index])), state, method="LSODA", rtol=TOLERANCE, atol=1e-6,
        )  # fmt: skip
        state = found.y[:, -1]
        if index == last_bathing:
            state[OXIDANT] = max(state[OXIDANT], start)
    return time.perf_counter() - begin, state


def main():
    one, many = prepared(0), prepared(CASES)
    ours(one), ours(many)
    single, batch, single_s, batch_s, apart = [], [], [], [], 0.0
    for _ in range(ROUNDS):
        begin = time.perf_counter()
        day = ours(one)
        took = time.perf_counter() - begin
        rival, state = plain(one, day, 0)
        scale = 1e-3 + np.abs(state)
        apart = max(apart, float(np.max(np.abs(day.last[-1, :, 0] - state) / scale)))
        single.append(rival / took)
        single_s.append(took)
        begin = time.perf_counter()
        day = ours(many)
        took = time.perf_counter() - begin
        each = statistics.mean(plain(many, day, case)[0] for case in range(SCALAR_CASES))
        batch.append(each * day.first.shape[2] / took)
        batch_s.append(took)
    print(f"one day, {one[0].switchings_count} switchings: {statistics.median(single_s):.3f} s")
    print(f"  beside solve_ivp: {statistics.median(single):.2f} times ({min(single):.2f} to {max(single):.2f})")
    print(f"{CASES} cases and corners in one run: {statistics.median(batch_s):.3f} s")
    print(f"  beside solve_ivp one by one: {statistics.median(batch):.0f} times ({min(batch):.0f} to {max(batch):.0f})")
    print(f"largest difference at midnight: {apart:.1e} of the value, or of 0.001")


if __name__ == "__main__":
    main()
