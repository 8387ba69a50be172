"""The gas that the injector draws, in words."""

from sanitize.basis.units import show
from sanitize.report.phrases import against_air, figure
from sanitize.studies.suction.result import Suction


def gas_rows(result: Suction) -> list[tuple[str, str]]:
    """Labelled lines for the state with the gas line open; never a gas flow without its range."""
    family = result.units
    if result.gas_flow_m3s.ends[2] <= 0.0:
        return [("Gas drawn", "None, at any end of the range.")]
    drawn = figure(result.gas_flow_m3s, "gas flow", family)
    text = f"{drawn} at local air pressure and 20 degC, gas line open."
    if result.gas_draw == "none":
        text = f"None in the likeliest case; {text}"
    if result.gas_draw == "trickle":
        text = f"Only a trickle: {text}"
    if result.gas_flow_wanted_m3s is not None:
        text += f" The ozone unit is rated at {show(result.gas_flow_wanted_m3s, 'gas flow', family)}."
    ratio = result.gas_to_water_ratio
    return [
        ("Gas drawn", text),
        (
            "With gas flowing",
            f"Water {figure(result.flow_m3s, 'flow', family)}, through the injector "
            f"{figure(result.injector_flow_m3s, 'flow', family)}; a gauge at the open port reads "
            f"{against_air(result.port_pressure_open_pa_gauge, family)}; gas over the injector's water, by volume: "
            f"{ratio.ends[1]:.2g} ({ratio.ends[0]:.2g} to {ratio.ends[2]:.2g}).",
        ),
    ]
