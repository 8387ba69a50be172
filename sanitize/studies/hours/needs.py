"""The needs, each with the time a day that the pump must run for it alone."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.tables import model_table
from sanitize.basis.units import Family, show, significant
from sanitize.laws.clarity.dilution import treatment_run_s, turnover_s, turnovers_for_pulse_count
from sanitize.plant.day import Bathers, Timer
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array, Draws
from sanitize.studies.hours.numbers import hours_entry, number
from sanitize.studies.hours.result import NeedName, NeedStanding
from sanitize.studies.hours.wishes import (
    least_run_s,
    longest_idle,
    minutes_around,
    minutes_of,
    runs_that_leave_no_gap_s,
)

MORE_FLOW = "more flow: a clean filter, wider or shorter pipe, a stronger pump"


@dataclass(frozen=True, eq=False)
class NeedCases:
    """A need over the cases: run time a day [s], inf where no run time meets it."""

    name: NeedName
    run_s: Array
    source: str
    standing: NeedStanding
    decides: str
    helps: str
    is_every_day: bool = True


@dataclass(frozen=True, eq=False)
class Moved:
    """What the needs stand on: flow through the loaded filters [m3/s], and the water that takes part [m3].

    has_own_ozone_hours: whether the ozone unit's hours are by the balance of its ozone, not by the file.
    """

    plant: Plant
    draws: Draws
    flow_m3s: Array
    clean_flow_m3s: Array
    effective_m3: Array
    has_filter: bool
    has_own_ozone_hours: bool = False

    @property
    def timer(self) -> Timer:
        """The timer's table, or an empty one."""
        return self.plant.timer or Timer()

    @property
    def family(self) -> Family:
        """Units of the answers."""
        return self.plant.units


def water_needs(moved: Moved) -> list[NeedCases]:
    """What the water itself asks for, in the order of the answer."""
    found = [turnovers(moved)]
    bathers = moved.plant.bathers
    if bathers is not None and bathers.per_day > 0.0:
        found += [treated_water(moved, bathers), clarity(moved, bathers)]
    found.append(idle_gaps(moved))
    if bathers is not None and bathers.times:
        found.append(bathing_times(moved, bathers))
    if moved.timer.ozone_run_s:
        found.append(ozone(moved, moved.timer.ozone_run_s))
    return found


def _times(value: float) -> str:
    return f"{value:g}"


def turnovers(moved: Moved) -> NeedCases:
    """So many volumes of all the water a day."""
    bathers = moved.plant.bathers
    daily = bathers is not None and bathers.per_day >= 1.0
    name = "turnovers_a_day_in_use_count" if daily else "turnovers_a_day_count"
    wanted = number(moved.draws, moved.timer.turnovers_count, name, "turnovers a day")
    volume = moved.plant.tub.volume_m3
    why = "" if wanted.standing == "stated" else ", used every day" if daily else ", not used every day"
    return NeedCases(
        "turnovers",
        np.asarray(wanted.values * turnover_s(volume, moved.flow_m3s)),
        wanted.source,
        wanted.standing,
        f"{_times(wanted.nominal)} turnovers a day of {show(volume, 'volume', moved.family)}{why}",
        f"{MORE_FLOW}; fewer turnovers where the water stays clear",
    )


def treated_water(moved: Moved, bathers: Bathers) -> NeedCases:
    """So much filtered water for every bather."""
    each = number(moved.draws, bathers.treated_each_m3, "treated_water_per_bather_m3", "treated water for each bather")
    run = treatment_run_s(bathers.per_day, each.values, moved.flow_m3s)
    return NeedCases(
        "treated water",
        run if moved.has_filter else np.full_like(run, np.inf),
        each.source,
        each.standing,
        f"{_times(bathers.per_day)} bathers a day, {show(each.nominal, 'volume', moved.family)} through the filter for "
        "each" + ("" if moved.has_filter else "; the loop has no filter"),
        f"{MORE_FLOW}; fewer bathers a day" if moved.has_filter else "a filter",
    )


def clarity(moved: Moved, bathers: Bathers) -> NeedCases:
    """The haze of all the day's bathers at once stays below a limit, once the days repeat."""
    each = number(moved.draws, bathers.haze_each_m3, "haze_per_bather_m3", "haze that a bather brings")
    limit = number(moved.draws, bathers.haze_limit_ntu, "haze_limit_ntu", "limit of the haze")
    entry = model_table("filter_efficiencies")[(bathers.particles,)]
    kept = moved.draws.value(
        f"filter efficiency {bathers.particles}", entry.band, f"share of particles {bathers.particles} that is kept"
    )
    pulse = bathers.per_day * each.values / moved.effective_m3
    count = turnovers_for_pulse_count(pulse, limit.values, kept if moved.has_filter else 0.0)
    share = f"{100.0 * kept[0]:.0f} %"
    keeps = f"the filter keeps {share} of particles {bathers.particles}" if moved.has_filter else "there is no filter"
    too_many = bool(pulse[0] >= limit.values[0])
    return NeedCases(
        "clarity",
        _product(count, turnover_s(moved.effective_m3, moved.flow_m3s)),
        limit.source,
        entry.standing,
        f"the day's bathers bring {significant(float(pulse[0]))} NTU at once, the limit is "
        f"{significant(limit.nominal)} NTU right after them; {keeps} in a pass",
        "fewer bathers or more water: filtering alone cannot keep this limit"
        if too_many
        else f"a finer filter; {MORE_FLOW}; fewer bathers",
    )


def _product(count: Array, each_s: Array) -> Array:
    """Turnovers times their time, where none are needed 0 even of endless ones."""
    return np.where(count > 0.0, np.where(count > 0.0, count, 1.0) * each_s, 0.0)


def idle_gaps(moved: Moved) -> NeedCases:
    """The fewest shortest runs that leave no longer gap."""
    idle, least = longest_idle(moved.plant, moved.draws, moved.timer), least_run_s(moved.plant, moved.timer)
    run = runs_that_leave_no_gap_s(idle.values, least)
    return NeedCases(
        "idle gaps",
        run,
        idle.source,
        idle.standing,
        f"no gap longer than {show(idle.nominal, 'time', moved.family)}: {run[0] / least:.0f} runs of "
        f"{show(least, 'time', moved.family)}",
        "shorter runs",
    )


def bathing_times(moved: Moved, bathers: Bathers) -> NeedCases:
    """Before and after people are in the tub, in a public one while they are in it too."""
    timer = moved.timer
    before = number(moved.draws, timer.run_before_s, "run_before_bathing_s", "run before bathing")
    after = number(moved.draws, timer.run_after_s, "run_after_bathing_s", "run after bathing")
    if timer.public_profile is None:
        minutes = minutes_around(bathers.times, before.nominal, after.nominal)
    else:
        minutes = minutes_of(bathers.times, before.nominal, after.nominal)
    both_stated = before.standing == after.standing == "stated"
    during = "" if timer.public_profile is None else ", and while people are in it"
    return NeedCases(
        "bathing times",
        np.full(moved.draws.size, 60.0 * float(minutes.sum())),
        "",
        "stated" if both_stated else (after if before.standing == "stated" else before).standing,
        f"{show(before.nominal, 'time', moved.family)} before and {show(after.nominal, 'time', moved.family)} after "
        f"bathing{during}",
        "fewer or shorter bathing times",
    )


def ozone(moved: Moved, run_s: float) -> NeedCases:
    """A time for the ozone unit, given or by the balance of its ozone; it draws only while the pump runs."""
    return NeedCases(
        "ozone",
        np.full(moved.draws.size, run_s),
        "",
        "estimate" if moved.has_own_ozone_hours else "stated",
        f"the ozone unit is to run {show(run_s, 'time', moved.family)} a day, and draws only while the pump runs",
        "a stronger ozone unit",
    )


def frost(moved: Moved, air_c: float) -> NeedCases | None:
    """The least circulation in air below 0 degC; none where it never gets so cold."""
    around = moved.plant.surroundings
    coldest = air_c if around is None or around.coldest_air_c is None else around.coldest_air_c
    if min(coldest, air_c) >= 0.0:
        return None
    entry = hours_entry("frost_idle_s")
    idle = number(moved.draws, None, "frost_idle_s", "time that pipes may stand in frost")
    least = least_run_s(moved.plant, moved.timer)
    run = runs_that_leave_no_gap_s(idle.values, least)
    return NeedCases(
        "frost",
        run,
        entry.source,
        entry.standing,
        f"on days of frost no gap longer than {show(entry.value, 'time', moved.family)}: {run[0] / least:.0f} runs of "
        f"{show(least, 'time', moved.family)}; drain pump, pipes and chiller if the power fails",
        "heated or drained pipes",
        is_every_day=air_c < 0.0,
    )
