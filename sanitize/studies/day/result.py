"""What the simulated day answers."""

from dataclasses import dataclass
from typing import Literal

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.plant.day import Window
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.day.schedule import Origin
from sanitize.studies.day.water import Kept

DECAYED = "decayed in the water"
"""Name of the way on which ozone decays by itself, or meets bromide."""
OzoneState = Literal["no unit", "off all day", "not drawn", "drawn"]
"""Whether ozone comes into the water: no unit in the file, never switched on, no gas drawn in any case, or drawn."""


@dataclass(frozen=True)
class WayRow:
    """Where ozone of the day went: into the water, out of it, or in the air."""

    name: str
    ozone_mg_per_day: Figure


@dataclass(frozen=True)
class Wait:
    """Time after the ozone goes off until a reading stays below a limit, the longest of the day; an estimate.

    wait_s: None at an end where it is still above when the ozone comes on again; worst_s: the longest of all cases and
    corners, None where it is still above then; source: of the limit.
    """

    what: str
    limit: float
    unit: Literal["ppm", "mg/L"]
    wait_s: Figure
    worst_s: float | None
    source: str


@dataclass(frozen=True)
class Moment:
    """The day at one time: ozone and the other oxidant in the water, ozone in the room's air, right over the open water
    and under the closed lid, haze, the water's temperature, and what is on.

    room_ppmv: None outdoors; face_ppmv, under_ppmv: None while the lid is closed or open; all three where the unit's
    ozone is not drawn.
    """

    time_s: float
    ozone_mgl: Figure
    oxidant_mgl: Figure
    fast_demand_mgl: Figure
    slow_demand_mgl: Figure
    room_ppmv: Figure | None
    face_ppmv: Figure | None
    under_ppmv: Figure | None
    haze_ntu: Figure
    water_c: Figure
    pump: bool
    ozone: bool
    bathing: bool
    lid: bool


@dataclass(frozen=True)
class Switched:
    """When what is on in the day; lid: while it is closed."""

    pump: tuple[Window, ...]
    ozone: tuple[Window, ...]
    bathing: tuple[Window, ...]
    lid: tuple[Window, ...]
    origin: Origin


@dataclass(frozen=True)
class SimulatedDay:
    """The last of the simulated days.

    days_count: simulated; repeats_share_ratio: share of the cases in which the next day would be the same;
    ozone_state: where it is "not drawn", what the unit makes seeps out elsewhere, and the air is not worked out (None);
    drawn_share_ratio: of the cases, those that draw gas, over which all figures of the air count;
    fed, dissolved, vented: of the ozone unit's output, dissolved less what the gas strips; ways: where all of it went;
    ozone_peak_mgl, ozone_at_entry_mgl: in the water; ct_mg_min_l: of all the day, in the tub; room_peak_ppmv,
    room_8h_ppmv: the room's highest, and its highest mean over 8 hours (None outdoors); room_above_s: time a day above
    the ceiling; face_ppmv: highest right over the open water while people bathe, or without bathers all day;
    over_water_ppmv: highest right over the open water at any time, None under a lid that is closed all day;
    under_lid_ppmv: highest under the closed lid, None without; waits: after the ozone goes off; oxidant_low_mgl,
    oxidant_dose_g_per_day: lowest of the other oxidant, and what brings it back each day; oxidant_need_g_per_day,
    oxidant_supply_g_per_day: what bathers bring and what of it ozone takes, both as ozone; demand_rise_g_per_day: what
    is left over from day to day; haze_peak_ntu; water_coldest_c, water_warmest_c; chiller_run_s, None without a
    chiller; imbalance_ratio: largest error of the balance of ozone over what was fed.
    """

    title: str
    units: Literal["metric", "us"]
    cases_count: int
    seed: int
    days_count: int
    repeats_share_ratio: float
    switched: Switched
    place: Literal["indoors", "outdoors"]
    room_m3: float | None
    kept: Kept
    ozone_state: OzoneState
    drawn_share_ratio: float | None
    fed_mg_per_day: Figure
    dissolved_mg_per_day: Figure
    vented_mg_per_day: Figure
    ways: tuple[WayRow, ...]
    ozone_peak_mgl: Figure
    ozone_at_entry_mgl: Figure | None
    ct_mg_min_l: Figure
    room_peak_ppmv: Figure | None
    room_8h_ppmv: Figure | None
    room_above_s: Figure | None
    face_ppmv: Figure | None
    over_water_ppmv: Figure | None
    under_lid_ppmv: Figure | None
    waits: tuple[Wait, ...]
    oxidant_low_mgl: Figure
    oxidant_dose_g_per_day: Figure
    oxidant_need_g_per_day: Figure
    oxidant_supply_g_per_day: Figure
    demand_rise_g_per_day: Figure
    haze_peak_ntu: Figure
    water_coldest_c: Figure
    water_warmest_c: Figure
    chiller_run_s: Figure | None
    imbalance_ratio: float
    moments: tuple[Moment, ...]
    notices: tuple[Notice, ...]
    cautions: tuple[Caution, ...]
