"""The study of the simulated day: from a plant to what its switch times bring in water and air."""

from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.tables import model_table
from sanitize.laws.ozone.oxidant_balance import oxidant_need_g_per_day
from sanitize.plant.loop import Plant
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.cautions.rule import AUTHORITY, limit
from sanitize.studies.cautions.rules import fire
from sanitize.studies.day.cautions import DayFacts, cautions_of_day, entry_limit_mgl
from sanitize.studies.day.hydraulics import Hydraulics, hydraulics_of
from sanitize.studies.day.masses import Masses
from sanitize.studies.day.notes import notices_of_day
from sanitize.studies.day.parts import AirSide, Chemistry, Clearing
from sanitize.studies.day.ranges import CORNERS, Ranges
from sanitize.studies.day.reactor import FAST, SLOW
from sanitize.studies.day.readings import Seen, entries, highest, highest_mean, lowest, seen_in, time_above_s, wait_s
from sanitize.studies.day.result import DECAYED, Moment, OzoneState, SimulatedDay, Switched, Wait, WayRow
from sanitize.studies.day.schedule import MINUTE_S, Switching, stretches_of
from sanitize.studies.day.simulate import Day, simulate
from sanitize.studies.day.supply import supply_of
from sanitize.studies.day.surroundings import air_of, warmth_of
from sanitize.studies.day.switching import is_planned, plan_of, switching_of
from sanitize.studies.day.water import Kept, chemistry_of, water_of
from sanitize.studies.dosing.conflicts import conflicts_of
from sanitize.studies.draws import SEED, Array, Mask
from sanitize.studies.figures import figure
from sanitize.studies.hours.cooling import chilling_of
from sanitize.studies.hours.gains import gains_of

HOURS_OF_MEAN = 8.0
_WAYS = {
    "fed": "made by the unit",
    "vented": "left the water with the gas",
    "destroyed": "destroyed before it reached the air",
    "surfaced": "left through the surface",
    "decayed": DECAYED,
    "with_fast": "went to the fast demand",
    "with_slow": "went to the slow demand",
    "with_oxidant": "went to the other oxidant",
    "removed": "decayed in the room",
    "carried": "left with the air",
}


@dataclass(frozen=True, eq=False)
class Ran:
    """A plant's day over the nominal case, the drawn ones and the two corners, with what it was made of."""

    loop: Hydraulics
    switching: Switching
    kept: Kept
    air: AirSide
    chemistry: Chemistry
    day: Day
    seen: Seen
    notices: tuple[Notice, ...]

    @property
    def draws_gas(self) -> Mask:
        """The cases in which the injector draws what the unit makes; all of them where nothing is made."""
        fed = self.day.masses.fed.sum(0)
        return np.asarray((fed > 0.0) | ~self.day.stretches.ozone.any())

    def in_air(self, values: Array) -> Figure:
        """A figure of the air, over the cases that draw gas: in the others ozone seeps out elsewhere."""
        return shown(np.where(self.draws_gas, values, np.nan))


def run_day(plant: Plant, cases: int, seed: int = SEED, days: int | None = None) -> Ran:
    """Simulate a plant's day by its switch times, until it repeats itself or for so many days.

    Raises InputError for a reading that no case comes near, NoSolutionError when the nominal case has no operating
    point or no water passes the filter.
    """
    loop = hydraulics_of(plant, cases, seed)
    ranges = Ranges(loop.draws)
    switching, switching_notices = switching_of(plant, plan_of(plant) if is_planned(plant) else None)
    tested, tested_notices = water_of(plant)
    gains = gains_of(plant, loop.draws, loop.flows.power_w)
    chiller = None if plant.chiller is None else chilling_of(plant.chiller, loop.draws)
    air, air_notices = air_of(plant, ranges, gains)
    supply, supply_notices = supply_of(plant, loop, ranges)
    chemistry = chemistry_of(plant, tested, ranges)
    clearing = clearing_of(plant, loop, ranges)
    day = simulate(
        stretches_of(switching), warmth_of(plant, gains, chiller), supply, air, chemistry, clearing,
        _bathers(plant), days,
    )  # fmt: skip
    notices = (*loop.notices, *switching_notices, *tested_notices, *air_notices, *supply_notices)
    return Ran(loop, switching, tested.kept, air, chemistry, day, seen_in(day, air), notices)


def _bathers(plant: Plant) -> float:
    return 0.0 if plant.bathers is None else plant.bathers.per_day


def study_day(
    plant: Plant, cases: int, seed: int = SEED, days: int | None = None, notices: tuple[Notice, ...] = ()
) -> SimulatedDay:
    """One day of a plant by its switch times, simulated until it repeats itself or for so many days.

    plant: the checked loop; cases: a power of two, or 0; seed: of the draw; notices: what reading the file left.
    Raises InputError for a reading that no case comes near, NoSolutionError when the nominal case has no operating
    point or no water passes the filter.
    """
    ran = run_day(plant, cases, seed, days)
    loop, switching, air, chemistry, day, seen = ran.loop, ran.switching, ran.air, ran.chemistry, ran.day, ran.seen
    bathers, state = _bathers(plant), _ozone_state(plant, day)
    facts = _facts(plant, day, seen, air, chemistry, ran.kept, bathers)
    return SimulatedDay(
        title=plant.title,
        units=plant.units,
        cases_count=cases,
        seed=seed,
        days_count=day.days_count,
        repeats_share_ratio=float(np.mean(day.repeats[:-CORNERS])),
        switched=Switched(switching.pump, switching.ozone, switching.bathing, switching.lid, switching.origin),
        place="outdoors" if plant.tub.place == "outdoors" else "indoors",
        room_m3=float(air.room_m3[0]) if air.indoors else None,
        kept=ran.kept,
        ozone_state=state,
        drawn_share_ratio=float(np.mean(ran.draws_gas[:-CORNERS])) if state == "drawn" else None,
        **_ozone(state, ran),
        oxidant_low_mgl=shown(lowest(seen.oxidant_mgl)),
        oxidant_dose_g_per_day=shown(1e-3 * chemistry.volume_l * day.dosed_mgl),
        oxidant_need_g_per_day=shown(oxidant_need_g_per_day(bathers, 1e-3 * chemistry.demand_each_mg.sum(0))),
        oxidant_supply_g_per_day=shown(1e-3 * (day.masses.with_fast + day.masses.with_slow).sum(0)),
        demand_rise_g_per_day=shown(1e-3 * chemistry.volume_l * day.demand_rise_mgl),
        haze_peak_ntu=shown(day.haze_ntu.max(axis=0)),
        water_coldest_c=shown(day.water_c.min(axis=0)),
        water_warmest_c=shown(day.water_c.max(axis=0)),
        chiller_run_s=None if plant.chiller is None else shown(MINUTE_S * day.chiller_min),
        imbalance_ratio=float(day.masses.imbalance_ratio.max()),
        moments=_moments(ran, state != "not drawn"),
        notices=(
            *notices, *loop.running.assembly.notices, *ran.notices, *notices_of_day(plant, day, state),
        ),
        cautions=tuple(
            sorted((*cautions_of_day(facts), *_meetings(plant, ran.kept), *fire(loop.facts)), key=_gravest_first)
        ),
    )  # fmt: skip


def _meetings(plant: Plant, kept: Kept) -> list[Caution]:
    """What ozone and the other oxidant do to each other."""
    return [
        Caution(item.code, item.severity, item.text, item.action, item.source, AUTHORITY)
        for item in conflicts_of(plant, kept, (), {})
        if "ozone" in item.between
    ]


def _gravest_first(caution: Caution) -> bool:
    return caution.severity != "danger"


def shown(values: Array) -> Figure:
    """A figure of an array over the cases, without the two corners."""
    return figure(values[:-CORNERS])


def clearing_of(plant: Plant, loop: Hydraulics, ranges: Ranges) -> Clearing:
    """Haze as the filters clear it at the end of their cleaning interval; none where the loop has none."""
    bathers, around = plant.bathers, plant.surroundings
    volume = plant.tub.volume_m3
    efficiency = np.zeros(ranges.size)
    if loop.flows.has_filter:
        particles = "4 to 10 um" if bathers is None else bathers.particles
        band = model_table("filter_efficiencies")[(particles,)].band
        efficiency = ranges.cases(ranges.draws.value("filter efficiency", band, "particles that the filter keeps"))
    each = None if bathers is None else bathers.haze_each_m3
    haze = ranges.stated(each, "hours_numbers", "haze_per_bather_m3", "haze that a bather brings") / volume
    fresh_m3 = 0.0 if around is None else around.fresh_water_m3
    flow = Ranges.cases(loop.flows.loaded_m3s)
    return Clearing(haze, MINUTE_S * efficiency * flow / volume, np.full(ranges.size, fresh_m3 / volume / 1440.0))


def _ozone_state(plant: Plant, day: Day) -> OzoneState:
    if plant.ozone is None:
        return "no unit"
    if not day.stretches.ozone.any():
        return "off all day"
    return "drawn" if shown(day.masses.fed.sum(0)).ends[2] > 0.0 else "not drawn"


def _ozone(state: OzoneState, ran: Ran) -> dict[str, Any]:
    """The figures of ozone in water and air."""
    day, seen, air, in_air = ran.day, ran.seen, ran.air, ran.in_air
    stretches, masses = day.stretches, day.masses
    totals = masses.total()
    enter = entries(stretches)
    is_found = state != "not drawn"
    indoors, has_lid = is_found and air.indoors, is_found and bool(stretches.lid.any())
    return {
        "fed_mg_per_day": shown(totals["fed"]),
        "dissolved_mg_per_day": shown(masses.dissolved.sum(0)),
        "vented_mg_per_day": shown(totals["vented"]),
        "ways": _ways(masses) if state == "drawn" else (),
        "ozone_peak_mgl": shown(highest(seen.ozone_mgl)),
        "ozone_at_entry_mgl": shown(seen.ozone_mgl[enter, 0].max(axis=0)) if enter.any() else None,
        "ct_mg_min_l": shown(day.seen[:, 0].sum(0)),
        "room_peak_ppmv": in_air(highest(seen.room_ppmv)) if indoors else None,
        "room_8h_ppmv": in_air(highest_mean(seen.room_ppmv, stretches, HOURS_OF_MEAN)) if indoors else None,
        "room_above_s": (
            in_air(time_above_s(seen.room_ppmv, stretches, limit("ozone_ceiling_ppmv"))) if indoors else None
        ),
        "face_ppmv": (
            in_air(highest(seen.face_ppmv, stretches.bathing if stretches.bathing.any() else None))
            if is_found
            else None
        ),
        "over_water_ppmv": (
            in_air(highest(seen.face_ppmv, ~stretches.lid)) if is_found and not stretches.lid.all() else None
        ),
        "under_lid_ppmv": in_air(highest(seen.under_ppmv)) if has_lid else None,
        "waits": _waits(ran) if state == "drawn" else (),
    }


def _ways(masses: Masses) -> tuple[WayRow, ...]:
    totals = masses.total()
    return tuple(
        WayRow(words, shown(totals[name])) for name, words in _WAYS.items() if np.any(np.abs(totals[name]) > 1e-9)
    )


def _waits(ran: Ran) -> tuple[Wait, ...]:
    """Times to wait after the ozone goes off; none where it never does."""
    stretches, seen, air = ran.day.stretches, ran.seen, ran.air
    if not stretches.ozone.any() or stretches.ozone.all():
        return ()
    table = model_table("caution_limits")
    found = []
    for name in ("ozone_ceiling_ppmv", "ozone_target_ppmv"):
        entry = table[(name,)]
        where = ("the room's air", seen.room_ppmv) if air.indoors else ("the air over the water", seen.face_ppmv)
        waits_s = np.where(ran.draws_gas, wait_s(where[1], stretches, entry.value), np.nan)
        found.append(_wait(where[0], entry.value, "ppm", waits_s, entry.source))
    most = entry_limit_mgl()
    found.append(_wait("the water", most, "mg/L", wait_s(seen.ozone_mgl, stretches, most), ""))
    return tuple(found)


def _wait(what: str, most: float, unit: Literal["ppm", "mg/L"], waits_s: Array, source: str) -> Wait:
    longest = float(np.nanmax(waits_s))
    return Wait(what, most, unit, shown(waits_s), longest if np.isfinite(longest) else None, source)


def _facts(
    plant: Plant, day: Day, seen: Seen, air: AirSide, chemistry: Chemistry, kept: Kept, bathers: float
) -> DayFacts:
    """What the rules look at: the worse of the corners and of all drawn cases."""
    stretches = day.stretches

    def worst(values: Array) -> float:
        return float(np.nanmax(values)) if not np.isnan(values).all() else 0.0

    enter = entries(stretches)
    return DayFacts(
        family=plant.units,
        has_ozone=plant.ozone is not None,
        kept=kept,
        indoors=air.indoors,
        face_ppmv=worst(highest(seen.face_ppmv, stretches.bathing)),
        room_ppmv=worst(highest(seen.room_ppmv)),
        room_above_s=worst(time_above_s(seen.room_ppmv, stretches, limit("ozone_ceiling_ppmv"))),
        under_lid_ppmv=worst(highest(seen.under_ppmv)),
        entry_mgl=worst(seen.ozone_mgl[enter, 0].max(axis=0)) if enter.any() else 0.0,
        oxidant_low_mgl=float(lowest(seen.oxidant_mgl)[:-CORNERS].min()),
        brought_g=worst(bathers * 1e-3 * chemistry.demand_each_mg.sum(0)),
        left_over_g=worst(np.maximum(1e-3 * chemistry.volume_l * day.demand_rise_mgl, 0.0)),
    )


def _moments(ran: Ran, is_air_found: bool) -> tuple[Moment, ...]:
    """The day at the start of every stretch, and at its end; is_air_found: whether the ozone in it was worked out."""
    day, seen, in_air = ran.day, ran.seen, ran.in_air
    stretches = day.stretches
    found = []
    for index in range(stretches.count + 1):
        last = index == stretches.count
        at, side = (index - 1, 1) if last else (index, 0)
        states = day.last if last else day.first
        lid = bool(stretches.lid[at])
        found.append(
            Moment(
                time_s=MINUTE_S * float(stretches.end_min[at] if last else stretches.start_min[at]),
                ozone_mgl=shown(seen.ozone_mgl[at, side]),
                oxidant_mgl=shown(seen.oxidant_mgl[at, side]),
                fast_demand_mgl=shown(states[at, FAST]),
                slow_demand_mgl=shown(states[at, SLOW]),
                room_ppmv=in_air(seen.room_ppmv[at, side]) if ran.air.indoors and is_air_found else None,
                face_ppmv=in_air(seen.face_ppmv[at, side]) if is_air_found and not lid else None,
                under_ppmv=in_air(seen.under_ppmv[at, side]) if is_air_found and lid else None,
                haze_ntu=shown(day.haze_ntu[index]),
                water_c=shown(day.water_c[index]),
                pump=bool(stretches.pump[at]),
                ozone=bool(stretches.ozone[at]),
                bathing=bool(stretches.bathing[at]),
                lid=lid,
            )
        )
    return tuple(found)
