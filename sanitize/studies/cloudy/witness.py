"""What the loop file itself implies: the model as a witness on signs that nobody has answered."""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from scipy.special import ndtr

from sanitize.basis.notices import Notice
from sanitize.basis.units import show
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Chiller, Filter
from sanitize.studies.cloudy.causes import CAUSES
from sanitize.studies.cloudy.readings import without_readings
from sanitize.studies.cloudy.result import HeatRates
from sanitize.studies.cloudy.tested import limit
from sanitize.studies.cloudy.told import Told
from sanitize.studies.cloudy.warmth import warmth_of
from sanitize.studies.draws import Draws
from sanitize.studies.figures import figure
from sanitize.studies.hours.replacement import replacement_of
from sanitize.studies.hours.study import study_needs
from sanitize.studies.loading.filters import growths
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import Run, injector_of, refuse_without_answer, run
from sanitize.studies.suction.onset import draws_share
from sanitize.studies.suction.predicted import error_of
from sanitize.studies.suction.states import gas_side, levels

DAY_S = 86400.0


@dataclass(frozen=True, eq=False)
class Sound:
    """The loop with nothing wrong, as the file describes it, without the readings of it."""

    plant: Plant
    draws: Draws
    running: Run


def solved(plant: Plant, cases: int, seed: int) -> Sound:
    """The loop solved with nothing wrong; raises NoSolutionError when its nominal case has no operating point."""
    bare = without_readings(plant)
    draws = Draws.of_plant(bare, cases, seed)
    running = run(bare, draws, Condition(levels(bare, draws)["normal"]))
    refuse_without_answer(running, bare)
    return Sound(bare, draws, running)


def absent_causes(plant: Plant) -> dict[str, str]:
    """Causes that this tub cannot have, each with what it lacks: a part, or chlorine."""
    have = {
        "injector": injector_of(plant) is not None,
        "filter": any(isinstance(part, Filter) for part in walk(plant.loop)),
        "chlorine": plant.sanitizer is None or plant.sanitizer.uses == "chlorine",
        "chiller": plant.chiller is not None or any(isinstance(part, Chiller) for part in walk(plant.loop)),
    }
    return {code: need for code, cause in CAUSES.items() for need in cause.needs if not have[need]}


def absent_notices(plant: Plant) -> list[Notice]:
    """Which causes are left out."""
    missing = absent_causes(plant)
    return [
        Notice(
            "causes-left-out",
            f"{_lacks(plant, need)}, so these cannot be the cause: "
            f"{'; '.join(CAUSES[code].name for code, other in missing.items() if other == need)}.",
        )
        for need in dict.fromkeys(missing.values())
    ]


def _lacks(plant: Plant, need: str) -> str:
    if need == "chlorine" and plant.sanitizer is not None:
        return f"The sanitizer of the file is {plant.sanitizer.uses}"
    return f"The loop has no {need}"


@dataclass(frozen=True)
class Ages:
    """How long the pump runs each day, and how long ago fill and cleaning of the filter were; None: nobody said."""

    runs_s: float | None = None
    water_s: float | None = None
    filter_s: float | None = None


def told_by_model(sound: Sound, ages: Ages) -> tuple[Told, ...]:
    """Everything that the model can say."""
    runs_s, water_age_s, filter_age_s = ages.runs_s, ages.water_s, ages.filter_s
    makers: tuple[Callable[[], list[Told]], ...] = (
        lambda: _injector(sound),
        lambda: _chillers(sound),
        lambda: _warm(sound, runs_s),
        lambda: [] if runs_s is None else _hours(sound, runs_s),
        lambda: [] if water_age_s is None else _age(sound, water_age_s),
        lambda: [] if filter_age_s is None else _filter(sound, filter_age_s),
    )
    return tuple(told for make in makers for told in make())


def _injector(sound: Sound) -> list[Told]:
    port = sound.running.port
    if port is None:
        return []
    gas = gas_side(sound.plant, sound.draws, port.height_m)
    share = 1.0 - draws_share(sound.running, gas.opens_at_pa)
    verb = "cannot draw" if share > 0.5 else "draws"
    return [
        Told("no_vacuum", "injector_not_drawing", share, f"with nothing broken, {port.name} {verb}", may_break=True)
    ]


def _chillers(sound: Sound) -> list[Told]:
    """The chiller that most often gets less than its maker's least flow."""
    found = []
    for part in walk(sound.plant.loop):
        if isinstance(part, Chiller) and part.min_flow_m3s is not None:
            flow = np.where(sound.running.solved, sound.running.station(part.name).flow_m3s, 0.0)
            share = float(np.mean(flow < part.min_flow_m3s))
            least = show(part.min_flow_m3s, "flow", sound.plant.units)
            verb = "gets less than" if share > 0.5 else "gets"
            text = f"with nothing broken, {part.name} {verb} the {least} that it needs"
            found.append(Told("chiller_flow_alarm", "chiller_low_flow", share, text, may_break=True))
    return sorted(found, key=lambda told: -told.share_ratio)[:1]


def with_timer(ages: Ages, plant: Plant) -> Ages:
    """The pump's hours by the timer of the file where nobody told them otherwise."""
    times = () if plant.timer is None else plant.timer.pump_times
    if ages.runs_s is not None or not times:
        return ages
    return replace(ages, runs_s=min(sum(window.length_s for window in times), DAY_S))


def _warm(sound: Sound, runs_s: float | None) -> list[Told]:
    """Whether the chiller keeps the tub at its set temperature in the pump's hours; nothing without a chiller."""
    warmth = warmth_of(sound.plant, sound.draws, sound.running, runs_s)
    if warmth is None:
        return []
    water = warmth.with_loop(sound.running)
    water = water[~np.isnan(water)]
    share = float(np.mean(water > warmth.set_c + limit("water_warm_k")))
    settles = show(figure(water).ends[1], "temperature", sound.plant.units)
    wanted = show(warmth.set_c, "temperature", sound.plant.units)
    hours = "as long as it takes" if runs_s is None else f"{runs_s / 3600.0:.2g} h a day"
    text = f"with nothing broken and the pump running {hours} the water settles at {settles}, set to {wanted}"
    return [Told("water_warm", "too_few_hours", share, text, may_break=True)]


def told_by_thermometer(plant: Plant) -> list[Told]:
    """Whether the water was read warmer than the file has it, by the reading's error; nothing without a reading."""
    read = None if plant.measured is None else plant.measured.water_temperature_c
    if read is None:
        return []
    above = read.nominal - plant.tub.temperature_c - limit("water_warm_k")
    share = float(ndtr(above / error_of("water_temperature_c", read)))
    shown, stated = (show(value, "temperature", plant.units) for value in (read.nominal, plant.tub.temperature_c))
    text = f"the thermometer of [measured] shows {shown}, [tub] states {stated}"
    moves = "low_sanitizer" if "chiller_not_cooling" in absent_causes(plant) else "chiller_not_cooling"
    return [Told("water_warm", moves, share, text, "thermometer")]


def heat_rates(sound: Sound, runs_s: float | None) -> HeatRates | None:
    """What a thermometer should show with nothing wrong; None without a chiller."""
    warmth = warmth_of(sound.plant, sound.draws, sound.running, runs_s)
    if warmth is None:
        return None
    cooling, warming = warmth.rates_k_per_h()
    return HeatRates(warmth.set_c, figure(warmth.with_loop(sound.running)), figure(cooling), figure(warming))


def _hours(sound: Sound, runs_s: float) -> list[Told]:
    """Where the time that the tub needs lies against the time that the pump runs, by its range."""
    needed = study_needs(sound.plant, sound.draws.cases, sound.draws.seed).run_s
    share = share_above(needed.ends, runs_s)
    nominal = needed.ends[1]
    return [
        Told(
            "short_runs",
            "too_few_hours",
            share,
            f"the tub needs about {nominal / 3600.0:.2g} h a day and the pump runs {runs_s / 3600.0:.2g} h",
        )
    ]


def share_above(ends: tuple[float, float, float], value: float) -> float:
    """Share of a range (5 %, median, 95 %) above a value: half of the cases on either side of the middle, evenly.

    >>> share_above((2.0, 4.0, 8.0), 4.0), share_above((2.0, 4.0, 8.0), 6.0), share_above((2.0, 4.0, 8.0), 1.0)
    (0.5, 0.275, 1.0)
    """
    low, middle, high = ends
    if value < low:
        return 1.0
    if value > high:
        return 0.0
    if low == high:
        return 0.5
    return float(np.interp(value, (low, middle, high), (0.95, 0.5, 0.05)))


def _age(sound: Sound, water_age_s: float) -> list[Told]:
    rule = replacement_of(sound.plant)
    if rule is None:
        return []
    days = water_age_s / DAY_S
    return [
        Told(
            "solids_high",
            "old_water",
            1.0 if days > rule.interval_d else 0.0,
            f"the water is {days:.2g} days old, and by the rule for these bathers it lasts {rule.interval_d:.2g} days",
        )
    ]


def _filter(sound: Sound, filter_age_s: float) -> list[Told]:
    """Whether the filter is loaded by its days, and whether it is called old; nothing without a filter."""
    found, loadings, _ = growths(sound.running, Draws(sound.draws.cases, sound.draws.seed + 1))
    if not found:
        return []
    shares = {
        loading.name: float(np.mean(found[loading.name].time_s(loading.loaded_drop_ratio) < filter_age_s))
        for loading in loadings
    }
    worst = max(loadings, key=lambda loading: shares[loading.name])
    days, loaded_d, old_d = filter_age_s / DAY_S, worst.loaded_time_s.ends[1] / DAY_S, limit("filter_age_s") / DAY_S
    since = f"{worst.name} was cleaned {days:.2g} days ago"
    return [
        Told(
            "filter_drop_high",
            "clogged_filter",
            shares[worst.name],
            f"{since} and is loaded after about {loaded_d:.2g} days",
        ),
        Told(
            "filter_old",
            "clogged_filter",
            1.0 if days > old_d else 0.0,
            f"{since}, more than {old_d:.2g} count as long",
        ),
    ]
