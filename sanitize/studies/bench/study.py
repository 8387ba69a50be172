"""From heights, bucket flows and water columns on the bench to a pump curve and an injector's constants."""

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.constants import GRAVITY_MS2, ONE_SIDED_90_PERCENT, STANDARD_ATMOSPHERE_PA_ABS
from sanitize.basis.errors import InputError, Problem
from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.tables import default
from sanitize.basis.units import Family, show
from sanitize.laws.hydraulics.friction import pipe_loss
from sanitize.laws.hydraulics.pump_curve import fit_pump_curve, pump_head
from sanitize.laws.injector import bench as laws
from sanitize.laws.water import density_kgm3, viscosity_pas
from sanitize.plant.bench import Bench
from sanitize.studies.bench.result import BenchInjector, BenchResult, PumpPoint
from sanitize.studies.draws import SEED, Array, Draws
from sanitize.studies.figures import figure

CASES = 1024


def study_bench(bench: Bench, units: Family = "metric", cases: int = CASES, seed: int = SEED) -> BenchResult:
    """The pump's head at each flow that the bucket gave, with what the hose took, and the injector's constants.

    bench: the checked readings; cases: a power of two; seed: of the draw. Raises InputError where the heights that the
    pump must have given do not fall as the flow rises.
    """
    draws = Draws(cases, seed)
    density, viscosity = float(density_kgm3(bench.water_temperature_c)), float(viscosity_pas(bench.water_temperature_c))
    flows, heads = _heads(bench, draws, density, viscosity)
    order = np.argsort(flows[:, 0])
    flows, heads = flows[order], heads[order]
    nominal = heads[:, 0]
    for lower, higher in zip(range(len(nominal) - 1), range(1, len(nominal)), strict=True):
        if nominal[higher] >= nominal[lower]:
            flow, head, before = (
                show(float(flows[higher, 0]), "flow", units),
                show(float(nominal[higher]), "head", units),
                show(float(nominal[lower]), "head", units),
            )
            raise InputError(
                [
                    Problem(
                        "[bench] flows",
                        f"with what the hose took the pump would give {head} at {flow}, and {before} at a smaller flow",
                        "a head that falls as the flow rises: check the hose's bore and length, and take the odd flow "
                        "again",
                    )
                ]
            )
    curve = fit_pump_curve(flows[:, 0], nominal)
    share = np.mean(heads[1:] / pump_head(curve, flows[1:])[0], axis=0)
    return BenchResult(
        units=units,
        curve=tuple(PumpPoint(float(flow), figure(head)) for flow, head in zip(flows[:, 0], heads, strict=True)),
        head_share_ratio=figure(np.asarray(share) / share[0]),
        injector=_injector(bench, density),
        cases_count=cases,
        seed=seed,
        notices=tuple(_notices(bench)),
        cautions=(),
    )


def _heads(bench: Bench, draws: Draws, density: float, viscosity: float) -> tuple[Array, Array]:
    """Flows and the pump's heads over the barrel's water, shape (points, cases); the first point is that of no flow."""
    bore = draws.value("hose bore", bench.hose_bore_m)
    length = draws.value("hose length", bench.hose_length_m)
    roughness = draws.value("roughness", default("smooth_plastic_roughness_m").band)
    tape, share = default("tape_tolerance_m").value, default("measured_tolerance_ratio").value
    flows, heads = [np.zeros(draws.size)], [draws.value("no flow height", bench.no_flow_height_m)]
    area = np.pi * bore**2 / 4.0
    for number, (height, flow) in enumerate(bench.flows):
        q = draws.value(f"flow {number}", Band(flow * (1.0 - share), flow, flow * (1.0 + share)))
        end = draws.value(f"height {number}", Band(height - tape, height, height + tape))
        loss, _ = pipe_loss(q, bore, length, roughness, density, viscosity)
        flows.append(q)
        heads.append(end + loss / (density * GRAVITY_MS2) + (q / area) ** 2 / (2.0 * GRAVITY_MS2))
    return np.stack(flows), np.stack(heads)


def _injector(bench: Bench, density: float) -> BenchInjector | None:
    """The injector's constants by least squares; a single row carries its reading error instead of a scatter."""
    if not bench.injector:
        return None
    weight = density * GRAVITY_MS2
    flow, inlet, port = (np.array(column) for column in zip(*bench.injector, strict=True))
    air = np.full(flow.size, STANDARD_ATMOSPHERE_PA_ABS)
    fit = laws.fit_constants(flow, air + weight * inlet, air, air - weight * port)

    def spread(value: float, error: float) -> Figure:
        tolerance = default("measured_tolerance_ratio").value * abs(value)
        half = max(ONE_SIDED_90_PERCENT * error, tolerance) if np.isfinite(error) else 2.0 * tolerance
        return Figure(value - half, value, value + half)

    ratio = float(fit.loss_ratio)
    return BenchInjector(
        rows=tuple(
            (float(q), float(weight * column), float(weight * lift))
            for q, column, lift in zip(flow, inlet, port, strict=True)
        ),
        inlet_to_port_pa_s2m6=spread(float(fit.constants.nozzle_pa_s2m6), float(fit.nozzle_error_pa_s2m6)),
        outlet_to_port_pa_s2m6=spread(float(fit.constants.recovery_pa_s2m6), float(fit.recovery_error_pa_s2m6)),
        loss_ratio=spread(ratio, float(fit.loss_ratio_error)),
    )


def _notices(bench: Bench) -> list[Notice]:
    found = [
        Notice(
            "bench-suction-in-curve",
            "What stood before the pump on the bench is part of this curve: a short wide suction, or the pump in the "
            "barrel, changes it little.",
        )
    ]
    if len(bench.injector) == 1:
        found.append(
            Notice(
                "bench-one-row",
                "One row tells nothing of its own scatter: twice the usual reading error stands for it. Take it again "
                "at two other flows.",
            )
        )
    return found
