"""Energy, cost and other speeds as text."""

from sanitize.basis.figure import Figure
from sanitize.basis.units import significant
from sanitize.report.columns import paragraph, table
from sanitize.report.phrases import bare, sentence, short_share, unit_of
from sanitize.studies.hours.result import Apart, Hours

KWH_J = 3.6e6


def energy_block(result: Hours, width: int) -> str:
    """Pump and chiller apart, a day and a year, in energy and in money."""
    legend = "Of the run time with its range, spread over the day, on every day of the year as on this one."
    tables = [apart_table("kWh", result.spread_energy_j, result.spread_energy_year_j, KWH_J, width)]
    if result.spread_cost is None:
        legend += " Cost needs `price` or `prices` in [timer]."
    else:
        tables.append(apart_table("cost", result.spread_cost.day, result.spread_cost.year, 1.0, width))
        price = significant(result.spread_cost.price_per_kwh)
        legend += f" Cost at {price} a kWh, the mean of the day, in the money of the file."
    return "\n\n".join(tables) + f"\n{paragraph(legend, width)}"


def apart_table(what: str, day: Apart, year: Apart, unit: float, width: int) -> str:
    """Pump and chiller apart and together, a day and a year."""
    rows = [
        (name, *(energy_cell(getattr(values, name), unit) for values in (day, year)))
        for name in ("pump", "chiller", "both")
    ]
    return table((what, "a day", "a year"), rows, width)


def energy_cell(value: Figure, unit: float) -> str:
    """Energy or cost for the cell of a table.

    >>> energy_cell(Figure(3.6e6, 7.2e6, 9e6), 3.6e6)
    '2.0 (1.0 to 2.5)'
    """
    low, nominal, high = (significant(end / unit) for end in value.ends)
    return nominal if low == high == nominal else f"{nominal} ({low} to {high})"


def speeds_block(result: Hours, width: int) -> str:
    """The same volume a day at other speeds of the pump."""
    speeds = result.speeds
    if speeds is None:
        return ""
    flow = unit_of("flow", result.units)
    has_injector = any(row.draws_share_ratio is not None for row in speeds.rows)
    head = ("  speed rpm", f"flow {flow}", "W", "hours a day", "kWh a day", *(("draws",) if has_injector else ()))
    rows = []
    for row in speeds.rows:
        late = row.run_s.ends[1] > 86400.0
        moves = row.flow_m3s.ends[1] > 0.0
        cells = (
            ("! " if row.too_little_for else "  ") + significant(60.0 * row.speed_per_s, 4),
            bare(row.flow_m3s, "flow", flow) if moves else "none",
            significant(row.power_w.ends[1]),
            bare(row.run_s, "time", "h") if moves else "-",
            "more than a day" if late else _energy(row.energy_j),
        )
        share = row.draws_share_ratio
        rows.append((*cells, *((short_share(share),) if share is not None else ())))
    legend = (
        f"{sentence(speeds.pump)} moves the same water a day, with loaded filters; power with the cube of the "
        "speed, of which small motors save less. "
    )
    if result.heat.capacity_w is not None:
        legend += "Fewer watts are less heat for the chiller too, which is not counted here. "
    if has_injector:
        legend += "Draws: share of the cases in which the injector draws. " + _from(
            speeds.draws_from_per_s, speeds.rows[-1].speed_per_s
        )
    starved = sorted({name for row in speeds.rows for name in row.too_little_for})
    if starved:
        legend += f" ! gives {' and '.join(starved)} less water than the maker allows, and ice may burst it."
    return f"{table(head, rows, width)}\n{paragraph(legend, width)}"


def _energy(value: Figure) -> str:
    low, nominal, high = (
        "-" if end is None else significant(end / KWH_J) for end in (value.low, value.nominal, value.high)
    )
    return nominal if low == high == nominal else f"{nominal} ({low} to {high})"


def _from(draws_from_per_s: Figure | None, slowest_per_s: float) -> str:
    if draws_from_per_s is None or draws_from_per_s.low is None:
        return "It draws at none of these speeds."
    ends = (draws_from_per_s.low, draws_from_per_s.nominal, draws_from_per_s.high)
    low, nominal, high = ("never" if end is None else significant(60.0 * end, 3) for end in ends)
    if draws_from_per_s.high is not None and draws_from_per_s.high <= slowest_per_s:
        return f"It draws down to the slowest of these, {low} rpm."
    return f"Below {nominal} rpm ({low} to {high}) it stops drawing."
