"""The heat of a tub as text: side by side, and what the chiller makes of it."""

from sanitize.basis.figure import Figure
from sanitize.basis.units import show, significant
from sanitize.report.columns import labelled, paragraph, table
from sanitize.report.phrases import bare, figure
from sanitize.studies.hours.result import Heat, Hours

KELVIN_DEGF = 1.8


def heat_block(result: Hours, width: int) -> str:
    """The gains as a table, and the chiller's figures."""
    heat = result.heat
    rows = [(row.name, bare(row.heat_w, "power", "W")) for row in heat.gains]
    rows.append(("all together", bare(heat.gain_w, "power", "W")))
    legend = (
        f"Into the water at {show(heat.water_c, 'temperature', result.units)} in air of "
        f"{figure(heat.air_c, 'temperature', result.units)}, a mean over a day with that run time; below zero it "
        "leaves the water. Pipes count as bare."
    )
    lines = labelled(_lines(result, heat), width)
    return f"{table(('heat from', 'W'), rows, width)}\n{paragraph(legend, width)}\n\n{lines}"


def _lines(result: Hours, heat: Heat) -> list[tuple[str, str]]:
    family = result.units
    rows = [("With all off", f"The water {_drift(heat.warming_k_per_h, result)} at first.")]
    if heat.capacity_w is None or heat.chiller_run_s is None or heat.warmest_air_c is None:
        left = (
            "nothing in the file takes this heat out."
            if heat.gain_w.ends[1] > 0.0
            else "the tub cools by itself, and what heats it is not counted."
        )
        return [*rows, ("Chiller", f"None is described: {left}")]
    set_point = show(heat.water_c, "temperature", family)
    rows.append(
        (
            "Chiller",
            f"Takes out {figure(heat.capacity_w, 'power', family)} at this water and air; it runs "
            f"{_hours(heat.chiller_run_s)} a day to hold {set_point}.",
        )
    )
    if heat.reach_s is not None and heat.start_c is not None:
        start = show(heat.start_c, "temperature", family)
        if heat.start_c <= heat.water_c:
            rows.append(("To cool down", f"Nothing: {start} is no warmer than {set_point}."))
        else:
            rows.append(
                (
                    "To cool down",
                    f"From {start} to {set_point}, nobody in it, pump and chiller running: {_hours(heat.reach_s)}.",
                )
            )
    rows.append(("Holds in air up to", _warmest(heat.warmest_air_c, result)))
    return rows


def _hours(time_s: Figure) -> str:
    low, nominal, high = ("never" if end is None else significant(end / 3600.0) for end in _ends(time_s))
    text = nominal if nominal == "never" else f"{nominal} h"
    return text if low == high == nominal else f"{text} ({low} to {high})"


def _ends(value: Figure) -> tuple[float | None, float | None, float | None]:
    return value.low, value.nominal, value.high


def _drift(rate_k_per_h: Figure, result: Hours) -> str:
    factor, unit = (KELVIN_DEGF, "degF") if result.units == "us" else (1.0, "K")
    low, nominal, high = (factor * end for end in rate_k_per_h.ends)
    if nominal >= 0.0:
        return f"warms by {significant(nominal)} {unit} an hour ({significant(low)} to {significant(high)})"
    return f"cools by {significant(-nominal)} {unit} an hour ({significant(-high)} to {significant(-low)})"


def _warmest(warmest_c: Figure, result: Hours) -> str:
    beyond = "more than 50 degC" if result.units == "metric" else "more than 120 degF"
    shown = ["more" if end is None else show(end, "temperature", result.units) for end in _ends(warmest_c)]
    nominal = beyond if warmest_c.nominal is None else shown[1]
    low = beyond if warmest_c.low is None else shown[0].split()[0]
    high = beyond if warmest_c.high is None else shown[2].split()[0]
    spread = "" if low == high else f" ({low} to {high})"
    return f"{nominal}{spread}, with pump and chiller running all day."
