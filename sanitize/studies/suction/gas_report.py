"""The gas figures of the answer, with the range that a device never measured with gas must carry."""

from typing import TypedDict

import numpy as np

from sanitize.basis.figure import Figure
from sanitize.basis.figure_words import share
from sanitize.basis.notices import Notice
from sanitize.basis.tables import default
from sanitize.basis.units import show
from sanitize.laws.injector.energy import DOUBTFUL_EFFICIENCY_RATIO
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Array, Draws, Mask
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.run import Run
from sanitize.studies.suction.gas_flow import TRICKLE_RATIO, GasAnswer, gas_answer
from sanitize.studies.suction.result import GasDraw
from sanitize.studies.suction.states import GasSide

LARGEST_PUBLISHED_RATIO = 0.24
"""Largest gas-to-water ratio for which measurements on a tub-size injector were read."""
VAPOUR_NOTICE_C = 30.0
"""Water temperature above which the vapour in the bubbles, which is neglected, passes a few percent."""


class GasFigures(TypedDict):
    """The fields of the answer that hold with the gas line open."""

    gas_draw: GasDraw
    flow_m3s: Figure
    injector_flow_m3s: Figure
    port_pressure_open_pa_gauge: Figure
    gas_flow_m3s: Figure
    gas_to_water_ratio: Figure
    gas_efficiency_ratio: Figure
    gas_flow_wanted_m3s: float | None


def gas_report(plant: Plant, draws: Draws, running: Run, gas: GasSide) -> tuple[GasFigures, list[Notice]]:
    """Figures and notices of the state with the gas line open."""
    answer, notices = gas_answer(plant, draws, running, gas)
    found, told = gas_words(plant, running, answer)
    return found, notices + told


def gas_words(plant: Plant, running: Run, answer: GasAnswer) -> tuple[GasFigures, list[Notice]]:
    """Figures and notices of an answer with the gas line open."""

    def shown(values: Array) -> Figure:
        return figure(np.where(answer.solved, values, np.nan))

    water = np.maximum(answer.injector_flow_m3s, 1e-12)
    flow = widened(shown(answer.gas_flow_m3s))
    wanted = None if plant.ozone is None else plant.ozone.at_gas_flow_m3s
    least = None if plant.ozone is None else plant.ozone.least_gas_flow_m3s
    found: GasFigures = {
        "gas_draw": kind_of_draw(flow, wanted, least),
        "flow_m3s": shown(answer.flow_m3s),
        "injector_flow_m3s": shown(answer.injector_flow_m3s),
        "port_pressure_open_pa_gauge": shown(answer.port_pa_gauge),
        "gas_flow_m3s": flow,
        "gas_to_water_ratio": widened(shown(answer.gas_flow_m3s / water)),
        "gas_efficiency_ratio": shown(answer.efficiency_ratio),
        "gas_flow_wanted_m3s": wanted,
    }
    return found, _notices(plant, found, answer.is_hole_choked, bool(answer.solved[running.solved].all()))


def widened(drawn: Figure) -> Figure:
    """A gas figure of a device that was never measured with gas: at least the table's factor either way."""
    if drawn.low is None or drawn.nominal is None or drawn.high is None:
        return drawn
    factor = default("gas_draw_factor_ratio").value
    return Figure(min(drawn.low, drawn.nominal / factor), drawn.nominal, max(drawn.high, drawn.nominal * factor))


def kind_of_draw(flow: Figure, wanted_m3s: float | None, least_m3s: float | None) -> GasDraw:
    """Nothing, a trickle or a draw, by the nominal gas flow against what the ozone unit needs and wants."""
    nominal = flow.nominal or 0.0
    if nominal <= 0.0:
        return "none"
    needed = max(least_m3s or 0.0, TRICKLE_RATIO * (wanted_m3s or 0.0))
    return "trickle" if nominal < needed else "draws"


def _notices(plant: Plant, found: GasFigures, is_hole_choked: Mask, all_solved: bool) -> list[Notice]:
    notices: list[Notice] = []
    if found["gas_flow_m3s"].ends[2] > 0.0:
        notices.append(
            Notice(
                "gas-draw-uncalibrated",
                "The gas flow rests on theory: for an injector never measured with gas it may lie a factor of "
                f"{default('gas_draw_factor_ratio').value:.0f} either way, more likely lower. A gas flow meter on the "
                "open line settles it.",
            )
        )
    if found["gas_efficiency_ratio"].ends[1] > DOUBTFUL_EFFICIENCY_RATIO:
        notices.append(
            Notice(
                "gas-efficiency-implausible",
                f"The injector would turn {100.0 * found['gas_efficiency_ratio'].ends[1]:.0f} % of the water's work "
                "into work on the gas; measured devices stay below 45 to 50 %. Less gas is likely.",
            )
        )
    if found["gas_to_water_ratio"].ends[1] > LARGEST_PUBLISHED_RATIO:
        notices.append(
            Notice(
                "gas-ratio-beyond-data",
                "More gas is drawn per litre of water than was measured on such devices (0.24): big bubbles leave "
                "with most of their ozone. A needle valve in the gas line lowers it.",
            )
        )
    wanted = found["gas_flow_wanted_m3s"]
    if wanted is not None and found["gas_flow_m3s"].ends[1] > 3.0 * wanted:
        notices.append(
            Notice(
                "gas-flow-above-wanted",
                f"More gas is drawn than the ozone unit is rated for ({show(wanted, 'gas flow', plant.units)}): its "
                "ozone is thinned, and a needle valve brings it back.",
            )
        )
    if is_hole_choked.any():
        notices.append(
            Notice(
                "gas-hole-choked",
                f"In {share(float(np.mean(is_hole_choked)))} of the cases the hole in the port is choked: gas enters "
                "as fast as sound lets it, and no deeper vacuum draws more. Only a wider hole does.",
            )
        )
    if plant.tub.temperature_c > VAPOUR_NOTICE_C and found["gas_flow_m3s"].ends[2] > 0.0:
        notices.append(
            Notice(
                "vapour-in-bubbles",
                "In water this warm the vapour in the bubbles, which is neglected, is a few percent of their volume.",
            )
        )
    if not all_solved:
        notices.append(
            Notice(
                "gas-cases-without-answer",
                "In some cases the gas flow does not settle; its range leaves them out.",
            )
        )
    return notices
