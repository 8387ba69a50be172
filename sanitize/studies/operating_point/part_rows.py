"""The rows of each kind of part."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.constants import GRAVITY_MS2
from sanitize.basis.tables import default, model_table
from sanitize.laws.hydraulics.barbs import barb_loss_coefficient
from sanitize.laws.hydraulics.bends import bend_excess_loss_coefficient
from sanitize.laws.hydraulics.nozzles import nozzle_loss_coefficient
from sanitize.laws.hydraulics.pump_curve import fit_pump_curve
from sanitize.laws.hydraulics.screens import screened_suction_loss_coefficient, strainer_loss_coefficient
from sanitize.laws.hydraulics.steps import contraction_loss_coefficient, expansion_loss_coefficient
from sanitize.plant.ends import Return, Strainer, Suction
from sanitize.plant.injector import Injector
from sanitize.plant.machines import Chiller, Filter, Pump
from sanitize.plant.part import LENGTH, Part
from sanitize.plant.pipework import Barb, Fitting, Hose, KnownDrop, KnownLoss, Pipe, Reducer, Tee
from sanitize.plant.valves import CheckValve, Valve
from sanitize.studies.draws import Array
from sanitize.studies.operating_point.bores import Bore, fitting_bore_m, injector_barb_band
from sanitize.studies.operating_point.builder import Builder, Made, PartRows
from sanitize.studies.operating_point.injector_model import injector_model
from sanitize.studies.operating_point.rows import Coil, Drive, Friction, Lift, Opening, Quadratic, Row
from sanitize.studies.operating_point.stated_drops import chiller_row, filter_row, known_drop_row, stated_square_row
from sanitize.studies.operating_point.valve_rows import valve_rows


@dataclass(frozen=True, eq=False)
class Place:
    """Where a part stands: bores of its neighbours, and the height of its outlet over the cases."""

    before: Bore | None
    behind: Bore | None
    height_m: Array


def step_row(builder: Builder, before_m: float, after_m: float) -> Row:
    """A sudden change of bore, on the smaller one, with the tables' range around the formula."""
    small, large = min(before_m, after_m), max(before_m, after_m)
    if after_m < before_m:
        law, change = contraction_loss_coefficient, "contraction"
    else:
        law, change = expansion_loss_coefficient, "expansion"

    def end(name: str) -> float:
        terms = model_table("reducer_factors")
        constant, factor = terms[change, name, "constant"].value, terms[change, name, "factor"].value
        return constant + float(law(small / large, factor))

    nominal = end("nominal")
    band = Band(min(end("low"), nominal), nominal, max(end("high"), nominal), "log")
    key = f"loss of {change}s"
    return builder.local(builder.draws.value(key, band, f"{key} (reducers and steps)"), small)


def _pipe(part: Pipe, builder: Builder, place: Place) -> Made:
    bore = builder.bore(part)
    length = builder.stated(part, "length", part.length_m, LENGTH.measure)
    return Made([Friction(bore, length, 1.0, builder.bridge(bore))])


def _hose(part: Hose, builder: Builder, place: Place) -> Made:
    bore = builder.bore(part)
    length = builder.stated(part, "length", part.length_m, LENGTH.measure)
    multiplier: Array | float = 1.0
    if part.wall == "ribbed":
        multiplier = builder.draws.value(
            "friction of ribbed hose",
            default("ribbed_hose_friction_multiplier_ratio").band,
            "friction of ribbed against smooth hose",
        )
    rows: list[Row] = []
    bore_m = float(bore[0])
    if part.coil_diameter_m is not None:
        if part.coil_diameter_m <= bore_m:
            builder.note("coil-too-tight", f"The coil of {part.name} is narrower than the hose itself.")
        rows.append(Coil(bore, length, multiplier, builder.bridge(bore), part.coil_diameter_m))
    else:
        rows.append(Friction(bore, length, multiplier, builder.bridge(bore)))
    if part.bends_count > 0.0:
        tight = None if part.bend_radius_m is None else part.bend_radius_m / bore_m
        excess = float(bend_excess_loss_coefficient(20.0 if tight is None else max(tight, 1.0), 90.0))
        scatter = builder.draws.value(
            "loss of hose bends", default("bend_excess_multiplier_ratio").band, "loss in the bends of hoses"
        )
        rows.append(builder.local(part.bends_count * excess * scatter, bore))
    _kink_notice(part, builder)
    return Made(rows)


def _kink_notice(part: Hose, builder: Builder) -> None:
    """Say when a bend is tighter than the hose bears."""
    if part.bend_radius_m is None:
        return
    outside_m = model_table("pipe_outside")[(part.size,)].value if part.word == "flexible hose" else (
        builder.bore(part)[0] + 0.006
    )  # fmt: skip
    name = "flexible_hose_bend_radius_ratio" if part.word == "flexible hose" else "vinyl_tube_bend_radius_ratio"
    least = default(name).value * outside_m
    if builder.water.temperature_c < default("cold_bend_temperature_c").value:
        least *= default("cold_bend_radius_multiplier_ratio").value
    if part.bend_radius_m < least:
        builder.note(
            "bend-too-tight",
            f"{part.name} is bent tighter than about {1000.0 * least:.0f} mm; cold hose kinks or flattens there, "
            "and a kink is a throttle of unknown loss.",
        )


def _fitting(part: Fitting, builder: Builder, place: Place) -> Made:
    bore = _own_bore(part, builder)
    if part.word == "threaded elbow 90":
        k = builder.table_k("elbow 90", part.size) + builder.table_k("thread", part.size)
    elif part.word in ("male adapter", "female adapter"):
        k = builder.table_k("thread", part.size)
    else:
        k = builder.table_k(part.word, part.size)
    if "elbow" in part.word:
        return Made(builder.fittings(k, bore, part.count))
    return Made([builder.local(part.count * k, bore)])


def _own_bore(part: Part, builder: Builder) -> float:
    """Bore that the part's loss coefficient stands on: the table's by size, or the one that was measured."""
    own: Band | None = getattr(part, "bore_m", None)
    return own.nominal if own is not None else fitting_bore_m(part.size)


def _tee(part: Tee, builder: Builder, place: Place) -> Made:
    return Made(builder.fittings(builder.table_k(f"tee {part.path}", part.size), _own_bore(part, builder), part.count))


def _reducer(part: Reducer, builder: Builder, place: Place) -> Made:
    return Made([step_row(builder, fitting_bore_m(part.size), fitting_bore_m(part.to_size))])


def _barb_rows(
    builder: Builder, bore: Array, size: str, before: float | None, behind: float | None, count: float = 1.0
) -> list[Row]:
    length = count * model_table("barb_lengths")[(size,)].value
    before_m = bore if before is None else np.maximum(bore, before)
    behind_m = bore if behind is None else np.maximum(bore, behind)
    k = barb_loss_coefficient(bore, before_m, behind_m, 0.0, 0.0)
    rows: list[Row] = [
        Friction(bore, np.full(builder.draws.size, length), 1.0, builder.bridge(bore)),
        builder.local(count * k, bore),
    ]
    return rows


def _barb(part: Barb, builder: Builder, place: Place) -> Made:
    bore = builder.bore(part)
    own = fitting_bore_m(part.size) if part.size in BARB_PIPE_SIZES else float(bore[0])
    before = own if place.before is None else place.before.outlet_m
    behind = own if place.behind is None else place.behind.inlet_m
    narrowest = float(bore[0]) / max(before, behind)
    if narrowest < 0.75:
        builder.note(
            "tight-barb",
            f"{part.name} narrows the bore to {narrowest:.2f} of its neighbours; a tight barb can cost more than "
            "all elbows together. Measure its bore.",
        )
    return Made(_barb_rows(builder, bore, part.size, before, behind, part.count))


BARB_PIPE_SIZES = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2")


def _known_loss(part: KnownLoss, builder: Builder, place: Place) -> Made:
    return Made([builder.local(builder.stated(part, "k", part.k_ratio), _own_bore(part, builder))])


def _known_drop(part: KnownDrop, builder: Builder, place: Place) -> Made:
    return Made([known_drop_row(part, builder)])


def _check_valve(part: CheckValve, builder: Builder, place: Place) -> Made:
    rows: list[Row] = []
    bore = _own_bore(part, builder)
    if part.drop_pa is not None and part.at_flow_m3s is not None:
        rows.append(stated_square_row(part, part.drop_pa, part.at_flow_m3s, builder))
    else:
        rows += builder.fittings(builder.table_k(f"{part.style} check", part.size), bore, 1.0)
    if part.opens_at_pa is not None:
        rows.append(Opening(builder.stated(part, "opens_at", part.opens_at_pa, "with a water column")))
    elif part.style == "spring" and part.drop_pa is None:
        opening = builder.draws.value(
            "opening of spring check valves",
            default("spring_check_opening_pressure_pa_diff").band,
            "opening pressure of the check valve in the water",
            "with a water column",
        )
        rows.append(Opening(opening))
    return Made(rows)


def _suction(part: Suction, builder: Builder, place: Place) -> Made:
    bore = _own_bore(part, builder)
    entrance = builder.table_k(f"suction {part.mounting}", part.size)
    covered = part.clogged_ratio + (1.0 - part.clogged_ratio) * builder.condition.suction_blocked_ratio
    if part.cover_free_ratio is not None and part.cover_face_m is not None:
        k = screened_suction_loss_coefficient(part.cover_free_ratio, covered, part.cover_face_m, bore, entrance)
    else:
        clean = builder.table_k("suction cover", part.size) if part.cover_rated_flow_m3s is not None else entrance
        with np.errstate(divide="ignore"):
            k = clean / np.square(1.0 - np.asarray(covered))
    return Made(builder.opening(k, bore))


def _strainer(part: Strainer, builder: Builder, place: Place) -> Made:
    bore = _own_bore(part, builder)
    if part.free_ratio is not None and part.basket_area_m2 is not None:
        k = strainer_loss_coefficient(part.free_ratio, part.clogged_ratio, part.basket_area_m2, bore)
    else:
        k = builder.table_k("strainer", part.size) / (1.0 - part.clogged_ratio) ** 2
    return Made([builder.local(k, bore)])


def _filter(part: Filter, builder: Builder, place: Place) -> Made:
    return Made([filter_row(part, builder)])


def _chiller(part: Chiller, builder: Builder, place: Place) -> Made:
    return Made([chiller_row(part, builder)])


def _pump(part: Pump, builder: Builder, place: Place) -> Made:
    if not part.running:
        k = builder.draws.value(
            "loss of a stopped pump", default("stopped_pump_loss_ratio").band, "loss of a stopped pump in the way"
        )
        return Made([builder.local(k, fitting_bore_m(part.size))])
    factor = builder.draws.value(
        f"{part.name}.head",
        default("rated_pump_head_ratio").band if part.head_ratio is None else part.head_ratio,
        f"real head of {part.name} against its curve",
        "with a bucket and a watch at the return",
    )
    return Made([Drive(pump_curve(part), part.speed_ratio, factor * builder.condition.pump_head_ratio)])


def pump_curve(part: Pump) -> Any:
    """The pump's curve as fitted to its points."""
    return fit_pump_curve([flow for flow, _ in part.curve], [head for _, head in part.curve])


def high_shut_off_head_m(part: Pump) -> float:
    """Head of a pump with nothing moving, at the high end of its curve; 0 where it does not run [m]."""
    if not part.running:
        return 0.0
    return float(pump_curve(part).shut_off_head_m * part.speed_ratio**2 * default("pump_high_curve_ratio").value)


def _injector(part: Injector, builder: Builder, place: Place) -> Made:
    model = injector_model(part, builder)
    ahead: list[Row] = []
    behind: list[Row] = []
    if part.ends == "threaded":
        k = builder.table_k("thread", part.size)
        ahead.append(builder.local(k, fitting_bore_m(part.size)))
        behind.append(builder.local(k, fitting_bore_m(part.size)))
    elif part.ends == "barbed":
        key, band = injector_barb_band(part)
        bore = builder.draws.value(key, band, f"bore of the barbs of {part.name}", LENGTH.measure)
        hose = fitting_bore_m(part.size)
        before = hose if place.before is None else place.before.outlet_m
        after = hose if place.behind is None else place.behind.inlet_m
        ahead += _barb_rows(builder, bore, part.size, before, None)
        behind += _barb_rows(builder, bore, part.size, None, after)
    core = Quadratic(model.total_pa_s2m6)
    return Made([*ahead, core, *behind], behind, core, model)


def _return(part: Return, builder: Builder, place: Place) -> Made:
    bore = _own_bore(part, builder)
    rows: list[Row] = []
    left = 1.0 - np.asarray(builder.condition.return_blocked_ratio, dtype=np.float64)
    if part.nozzle_bore_m is None and np.all(left == 1.0):
        rows.append(builder.local(1.0, bore))
    elif part.nozzle_bore_m is None:
        sharp = builder.draws.value(
            "discharge of a sharp nozzle",
            model_table("nozzle_discharge")[("sharp",)].band,
            "discharge coefficient of what is left open of the return",
        )
        rows += builder.opening(_part_left(np.ones_like(left), left, sharp), bore)
    else:
        nozzle = builder.stated(part, "nozzle_bore", part.nozzle_bore_m, "with a drill shank")
        discharge = builder.draws.value(
            f"discharge of a {part.nozzle_shape} nozzle",
            model_table("nozzle_discharge")[(part.nozzle_shape,)].band,
            "discharge coefficient of the return nozzle",
        )
        together = np.minimum(nozzle * np.sqrt(part.jets_count), bore)
        rows += builder.opening(_part_left(together / bore, left, discharge), bore)
    lift = np.maximum(place.height_m - builder.condition.level_m, 0.0)
    rows.append(Lift(builder.water.density_kgm3 * GRAVITY_MS2 * lift))
    return Made(rows)


def _part_left(bore_ratio: Array, left_ratio: Array, discharge_ratio: Array) -> Array:
    """Loss coefficient of a return of which a share is left open; infinite where none is."""
    opened = left_ratio > 0.0
    narrowed = bore_ratio * np.sqrt(np.where(opened, left_ratio, 1.0))
    return np.where(opened, nozzle_loss_coefficient(narrowed, discharge_ratio), np.inf)


def _valve(part: Valve, builder: Builder, place: Place) -> Made:
    return Made(valve_rows(part, builder, _own_bore(part, builder)))


_MAKERS: dict[type[Part], Callable[[Any, Builder, Place], Made]] = {
    Pipe: _pipe, Hose: _hose, Fitting: _fitting, Tee: _tee, Reducer: _reducer, Barb: _barb, KnownLoss: _known_loss,
    KnownDrop: _known_drop, CheckValve: _check_valve, Valve: _valve, Suction: _suction, Strainer: _strainer,
    Filter: _filter, Chiller: _chiller, Pump: _pump, Injector: _injector, Return: _return,
}  # fmt: skip


def open_leg_end(made: PartRows, builder: Builder) -> list[Row]:
    """Rows that end a leg at a hump: the water is lifted there, keeps its velocity head, and falls free behind it."""
    lift = builder.water.density_kgm3 * GRAVITY_MS2 * (made.height_m - builder.condition.level_m)
    return [builder.local(1.0, made.bore.outlet_m), Lift(lift)]


def make(part: Part, builder: Builder, place: Place) -> Made:
    """Losses and drives of one part."""
    return _MAKERS[type(part)](part, builder, place)
