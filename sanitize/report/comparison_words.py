"""The measures of a comparison in words: what every file has, and how much more or less that is."""

from dataclasses import dataclass

from sanitize.basis.figure import Figure
from sanitize.basis.units import Family, show
from sanitize.report.phrases import against_air, figure, short_share
from sanitize.studies.comparison.result import Change, Comparison, Measure


@dataclass(frozen=True, slots=True)
class Telling:
    """How a measure is told: its title, the kind of quantity, and the words for more and for less of it."""

    title: str
    kind: str
    more: str = "more"
    less: str = "less"


INJECTOR_FLOW, _PORT, _ONSET = "injector_flow_port_closed_m3s", "port_pressure_closed_pa_gauge", "onset_flow_m3s"
WATER_FLOW, GAS_FLOW = "flow_port_closed_m3s", "gas_flow_m3s"
TELLINGS = {
    WATER_FLOW: Telling("Water flow, gas line closed", "flow"),
    INJECTOR_FLOW: Telling("Of it through the injector", "flow"),
    _PORT: Telling("Pressure at the port, gas line closed", "vacuum", "less deep", "deeper"),
    _ONSET: Telling("Flow through the injector from which it draws", "flow", "higher", "lower"),
    "injector_inlet_pressure_pa_gauge": Telling("Pressure before the injector", "pressure", "higher", "lower"),
    "injector_outlet_pressure_pa_gauge": Telling("Pressure behind the injector", "pressure", "higher", "lower"),
    "pump_head_m": Telling("Head of the pump", "head"),
    GAS_FLOW: Telling("Gas flow, gas line open", "gas flow"),
    "turnover_s": Telling("Tub volume passes in", "time", "longer", "shorter"),
}


def told_by_file(measure: Measure, result: Comparison) -> list[str]:
    """A measure in every file, and behind the first how it differs from that."""
    telling = TELLINGS[measure.name]
    family, first = result.units, result.files[0].label
    values = [_value(measure.name, value, telling, family) for value in measure.values]
    behind = [
        f"{value}; {change_words(change, telling, family, first)}"
        for value, change in zip(values[1:], measure.changes, strict=True)
    ]
    return [values[0], *behind]


def _value(name: str, value: Figure, telling: Telling, family: Family) -> str:
    if name == _PORT:
        return against_air(value, family)
    text = figure(value, telling.kind, family, never="never")
    if name == _ONSET:
        text = "any flow" + text.removeprefix(text.split(" (")[0]) if value.nominal == 0.0 else text
        text = text.replace("(0 to", "(any to")
    return text


def change_words(change: Change, telling: Telling, family: Family, first: str) -> str:
    """How much more or less than the first file, and how surely.

    >>> surely = Change(Figure(1.2e-4, 1.5e-4, 1.8e-4), 1.0, 0.0, 1.0, "more")
    >>> change_words(surely, Telling("flow", "flow"), "metric", "A")
    '9.0 L/min (7.2 to 11) more than A, in >99 % of the cases'
    >>> unsure = Change(Figure(-1e-5, 2e-5, 4e-5), 0.8, 0.2, 1.0, "either")
    >>> print(change_words(unsure, Telling("flow", "flow"), "metric", "A").replace("; ", ";\\n"))
    1.2 L/min more than A, within the range: from 0.60 L/min less to 2.4 L/min more;
    more in 80 %, less in 20 % of the cases
    """
    low, nominal, high = change.difference.ends
    only = (
        f", of the {short_share(change.compared_ratio)} in which both have it" if change.compared_ratio < 0.99 else ""
    )
    if change.tendency == "none":
        return f"in no case do both this and {first} have it"
    if change.tendency == "same":
        return f"as {first}"
    if change.tendency == "more":
        amount = figure(change.difference, telling.kind, family)
        return f"{amount} {telling.more} than {first}, in {short_share(change.more_ratio)} of the cases{only}"
    if change.tendency == "less":
        amount = figure(Figure(-high, -nominal, -low), telling.kind, family)
        return f"{amount} {telling.less} than {first}, in {short_share(change.less_ratio)} of the cases{only}"
    more, less = short_share(change.more_ratio), short_share(change.less_ratio)
    often = f"{telling.more} in {more}, {telling.less} in {less} of the cases{only}"
    if low == high == 0.0:
        return f"mostly as {first}; {often}"
    side = telling.more if nominal > 0.0 else telling.less
    middle = f"as {first}" if nominal == 0.0 else f"{_show(nominal, telling, family)} {side} than {first}"
    ends = [f"{_show(end, telling, family)} {telling.more if end > 0.0 else telling.less}" for end in (low, high)]
    return f"{middle}, within the range: from {ends[0]} to {ends[1]}; {often}"


def _show(value: float, telling: Telling, family: Family) -> str:
    return show(abs(value), telling.kind, family)
