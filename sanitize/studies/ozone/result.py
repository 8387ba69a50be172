"""What the ozone study answers."""

from dataclasses import dataclass
from typing import Literal

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.studies.cautions.caution import Caution

RunFrom = Literal["ozone_times", "ozone_hours", "pump_times", "assumed"]
"""Where the hours of the ozone come from: a key of [timer], or all day assumed where the file says nothing."""


@dataclass(frozen=True)
class LimitRow:
    """One published limit of ozone in air, and the air of this tub against it.

    over_share_ratio: share of the cases that draw gas in which the room passes it, outdoors the air over the water.
    None where the injector draws nothing, as for `Ozone`.
    """

    body: str
    averaged: str
    limit_ppmv: float
    room_ppmv: Figure | None
    over_water_ppmv: Figure | None
    over_share_ratio: float | None
    source: str


@dataclass(frozen=True)
class Room:
    """The room as it was counted; `is_assumed`: a small shut room stands in where the file describes none."""

    is_assumed: bool
    volume_m3: Figure
    changes_per_h: Figure
    removal_per_h: Figure


@dataclass(frozen=True)
class Remedy:
    """What would bring the room under its limit, each by itself; an end is None where nothing of the kind does.

    changes_per_h: air changes; destruct_ratio: share of the off-gas that a destruct unit must take;
    output_mg_per_h: rated output of the unit.
    """

    changes_per_h: Figure
    destruct_ratio: Figure
    output_mg_per_h: Figure


@dataclass(frozen=True)
class NeedleValve:
    """The same with the gas held back to a flow: what dissolves and what goes to the air then."""

    gas_flow_m3s: float
    gas_to_water_ratio: Figure
    transfer_ratio: Figure
    dissolved_mg_per_h: Figure
    emission_mg_per_h: Figure


@dataclass(frozen=True)
class CreditRow:
    """What drinking-water guidance asks of ozone for one organism, against one pass of this pipe and the tub.

    asked_ct_mg_min_l: the larger of formula and table; pass_share_ratio, tub_share_ratio: computed CT over it.
    """

    organism: str
    log_count: float
    asked_ct_mg_min_l: float
    pass_share_ratio: Figure
    tub_share_ratio: Figure
    source: str


@dataclass(frozen=True)
class Water:
    """The water as it was counted, and where each number comes from: `tested` or `assumed`."""

    ph: Figure
    ph_from: Literal["tested", "assumed"]
    free_chlorine_mgl: Figure
    bromine_mgl: Figure
    bromide_mgl: Figure
    peroxide_mgl: Figure
    decay_per_min: Figure
    half_life_s: Figure


@dataclass(frozen=True)
class Ozone:
    """The answer for pump and ozone unit running on and on, nobody in the tub unless said.

    gas_flow_m3s: drawn, at local atmosphere and 20 degC; feed_mg_per_h: made at that flow; feed_gm3: in that gas;
    transfer_ratio: share of the feed that dissolves, net of what is stripped; vented_mg_per_h: leaves with the gas,
    before a destruct unit that takes destruct_ratio of it; surface_mg_per_h: leaves through the water's surface;
    emission_mg_per_h: into the air.
    feed = dissolved + vented, and dissolved = decayed + surface.
    residual_mgl: with the bathers' matter used up, as at its highest before people get in; residual_in_use_mgl: while
    the bathers' matter of a day is spread over the ozone hours.
    Where the injector draws no gas, what the unit makes seeps out elsewhere: emission, air and the wait for it count
    over the cases that draw gas, drawn_share_ratio of all, and are None where gas is drawn at no end of its range.
    room_ppmv: None outdoors too; over_water_ppmv: where a bather breathes, over_water_per_emission_ppmv: what each mg/h
    adds there to the room; under_cover_ppmv: under a closed cover.
    room_limit_ppmv: the strictest published limit; room_ceiling_ppmv: at no moment to be passed.
    air_wait_s: from the unit's stop, the injector drawing on, until the room and the air over the water are below
    room_limit_ppmv; None outdoors; water_wait_s: until the residual is below what drinking water may hold; the two
    _worst_s: at the ends that are worst for those who breathe, and for those who get in.
    ozone_run_s: counted for a day's sums, ozone_run_from: where the file says it;
    oxidant figures: as ozone, a day of so much run time; undersized_ratio: need over supply; other_chlorine_g_per_day:
    what the other sanitizer must carry, as chlorine.
    """

    title: str
    units: Literal["metric", "us"]
    cases_count: int
    seed: int
    place: Literal["indoors", "outdoors"]
    feed_kind: Literal["room air", "dried air", "oxygen"]
    rated_mg_per_h: float
    rated_gas_flow_m3s: float | None
    destruct_ratio: float
    gas_flow_m3s: Figure
    gas_to_water_ratio: Figure
    drawn_share_ratio: float
    feed_mg_per_h: Figure
    feed_gm3: Figure
    feed_ppmv: Figure
    feed_weight_ratio: Figure
    solubility_ratio: Figure
    equilibrium_ratio: Figure
    contact_length_m: Figure
    contact_s: Figure
    pipe_transfer_ratio: Figure
    plume_transfer_ratio: Figure
    transfer_ratio: Figure
    dissolved_mg_per_h: Figure
    decayed_mg_per_h: Figure
    vented_mg_per_h: Figure
    surface_mg_per_h: Figure
    emission_mg_per_h: Figure | None
    strips_mg_per_h: Figure
    needle_valve: NeedleValve | None
    water: Water
    residual_mgl: Figure
    residual_in_use_mgl: Figure
    residual_entry_high_mgl: float
    pass_ct_mg_min_l: Figure
    tub_ct_mg_min_l: Figure
    credits: tuple[CreditRow, ...]
    room: Room | None
    room_ppmv: Figure | None
    over_water_ppmv: Figure | None
    over_water_per_emission_ppmv: Figure
    under_cover_ppmv: Figure | None
    room_limit_ppmv: float
    room_ceiling_ppmv: float
    room_emission_limit_mg_per_h: Figure | None
    room_worst_ppmv: float | None
    over_water_worst_ppmv: float | None
    limits: tuple[LimitRow, ...]
    remedy: Remedy | None
    air_wait_s: Figure | None
    air_wait_worst_s: float | None
    water_wait_s: Figure
    water_wait_worst_s: float
    bathers_per_day: float
    ozone_run_s: float
    ozone_run_from: RunFrom
    oxidant_need_g_per_day: Figure
    oxidant_supply_g_per_day: Figure
    undersized_ratio: Figure
    other_chlorine_g_per_day: Figure
    notices: tuple[Notice, ...]
    cautions: tuple[Caution, ...]
