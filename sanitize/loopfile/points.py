"""Lists of quantities: pump curves, drops at flows, bench rows."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from sanitize.basis.units import QuantityError, parse
from sanitize.loopfile.ask import Ask
from sanitize.loopfile.quantities import LONGEST_QUANTITY, UNKNOWN, parse_text, unknown_band
from sanitize.loopfile.wording import shown
from sanitize.plant.injector import BenchRow, DropAtFlow
from sanitize.plant.machines import Points

LARGEST_FLOW_M3S = 0.1
LARGEST_HEAD_M = 200.0
LARGEST_PRESSURE_PA = 1e6
LARGEST_VACUUM_PA = 101325.0
LARGEST_GAS_FLOW_M3S = 0.01
LARGEST_OUTPUT_MG_PER_H = 1e6
MOST_ROWS = 200
MOST_LIFT_M = 8.0
"""Height to which a port can be seen to lift water; beyond it air comes out of the water (common practice)."""

_Rows = Sequence[list[float] | None]
_LIMITS = {
    "flow": (0.0, LARGEST_FLOW_M3S, "0 to 6000 L/min"),
    "head": (0.0, LARGEST_HEAD_M, "0 to 200 m"),
    "pressure": (-LARGEST_PRESSURE_PA, LARGEST_PRESSURE_PA, "-10 to 10 bar"),
    "gas flow": (0.0, LARGEST_GAS_FLOW_M3S, "0 to 600 L/min"),
    "ozone rate": (0.0, LARGEST_OUTPUT_MG_PER_H, "0 to 1000 g/h"),
    "vacuum": (-LARGEST_PRESSURE_PA, LARGEST_VACUUM_PA, "up to one atmosphere"),
}


def read_pump_points(raw: object, ask: Ask) -> Points | None:
    """A pump's pairs of flow and head; None when there was a problem."""
    rows = _rows(raw, ("flow", "head"), ask)
    if rows is None:
        return None
    right = [row for row in rows if row is not None]
    whole = _rising_flows(rows, ask) and len(right) == len(rows)
    for number, before, after in _pairs(rows):
        if after[1] > before[1]:
            _pair(ask, number).wrong("the head rises with the flow", "heads that fall, or stay, as the flow rises")
            whole = False
    if not whole:
        return None
    if len(right) == 1 and 0.0 in right[0]:
        ask.wrong("a single pair needs a flow and a head above 0", "the rated flow with the head there, or more pairs")
        return None
    if right[0][1] == 0.0:
        ask.wrong("the curve has no head at all", "a first pair with a head above 0")
        return None
    return tuple((flow, head) for flow, head in right)


def read_lift_rows(raw: object, ask: Ask) -> tuple[tuple[float, ...], ...] | None:
    """Three or more pairs of height and flow, the flow falling as the height rises; None when there was a problem."""
    rows = _rows(raw, ("head", "flow"), ask)
    if rows is None:
        return None
    right = [row for row in rows if row is not None]
    if len(right) < len(rows):
        return None
    if len(rows) < 3:
        ask.wrong(f"there {'is only one pair' if len(rows) == 1 else 'are only two pairs'}", "three pairs or more")
        return None
    right.sort()
    for number, (before, after) in enumerate(pairwise(right), start=2):
        if after[1] >= before[1] or after[0] <= before[0]:
            _pair(ask, number).wrong(
                "of the pairs in the order of their heights it has no smaller flow than the one below it",
                "flows that fall as the hose's end rises; take the odd one again",
            )
            return None
    return tuple(tuple(row) for row in right)


def read_column_rows(raw: object, ask: Ask) -> tuple[tuple[float, ...], ...] | None:
    """Rows of flow and two heights of water, all above 0; None when there was a problem."""
    rows = _rows(raw, ("flow", "head", "head"), ask)
    if rows is None:
        return None
    right = [row for row in rows if row is not None]
    whole = len(right) == len(rows)
    for number, row in enumerate(rows, start=1):
        if row is not None and (row[0] <= 0.0 or row[1] <= 0.0):
            _pair(ask, number).wrong("its flow or its inlet's column is 0", "a flow and a column above 0")
            whole = False
        elif row is not None and row[2] > MOST_LIFT_M:
            _pair(ask, number).wrong("its port lifts water higher than air can press it", f"at most {MOST_LIFT_M:g} m")
            whole = False
    return tuple(tuple(row) for row in right) if whole else None


def read_drop_points(raw: object, ask: Ask) -> Points | None:
    """Two or more pairs of flow and drop; None when there was a problem."""
    rows = _rows(raw, ("flow", "pressure"), ask)
    if rows is None:
        return None
    if len(rows) < 2:
        ask.wrong("there is only one pair", write="`drop` and `at_flow` for a single pair")
        return None
    right = [row for row in rows if row is not None]
    whole = _rising_flows(rows, ask) and len(right) == len(rows)
    for number, row in enumerate(rows, start=1):
        if row is not None and (row[0] == 0.0 or row[1] <= 0.0):
            _pair(ask, number).wrong("its flow or its drop is not above 0", "flows and drops above 0")
            whole = False
    for number, before, after in _pairs(rows):
        if after[1] < before[1]:
            _pair(ask, number).wrong("the drop falls as the flow rises", "drops that rise with the flow")
            whole = False
    return tuple((flow, drop) for flow, drop in right) if whole else None


def read_ozone_points(raw: object, ask: Ask) -> Points | None:
    """Two or more pairs of gas flow and output; None when there was a problem."""
    rows = _rows(raw, ("gas flow", "ozone rate"), ask)
    if rows is None:
        return None
    if len(rows) < 2:
        ask.wrong("there is only one pair", write="`output` and `at_gas_flow` for a single pair")
        return None
    right = [row for row in rows if row is not None]
    whole = _rising_flows(rows, ask) and len(right) == len(rows)
    for number, row in enumerate(rows, start=1):
        if row is not None and (row[0] == 0.0 or row[1] == 0.0):
            _pair(ask, number).wrong("its gas flow or its output is not above 0", "gas flows and outputs above 0")
            whole = False
    return tuple((flow, output) for flow, output in right) if whole else None


def read_drop_at_flow(raw: object, ask: Ask) -> DropAtFlow | None:
    """A pair of pressure difference and flow; None when there was a problem."""
    row = _row(raw, ("pressure", "flow"), ask)
    if row is None:
        return None
    if row[1] == 0.0:
        ask.wrong("the flow is 0", "a flow above 0")
        return None
    if ask.spec.above is not None and row[0] <= ask.spec.above:
        ask.wrong("the pressure difference is not above 0", "a pressure difference above 0")
        return None
    return DropAtFlow(drop_pa=row[0], flow_m3s=row[1])


def read_bench_rows(raw: object, ask: Ask) -> tuple[BenchRow, ...] | None:
    """Rows of a bench test; None when there was a problem."""
    rows = _rows(raw, ("flow", "pressure", "pressure", "vacuum"), ask)
    if rows is None:
        return None
    found = []
    for number, row in enumerate(rows, start=1):
        if row is None:
            continue
        flow, inlet, outlet, vacuum = row
        place, order = _pair(ask, number), "flow, inlet, outlet, vacuum in this order"
        if flow == 0.0:
            place.wrong("the flow is 0", "a flow above 0")
        elif inlet <= outlet:
            place.wrong("the inlet pressure is not above the outlet pressure", order)
        elif inlet <= -vacuum:
            place.wrong("the inlet pressure is not above the port pressure", order)
        else:
            found.append(BenchRow(flow_m3s=flow, inlet_pa_gauge=inlet, outlet_pa_gauge=outlet, port_vacuum_pa=vacuum))
    return tuple(found) if len(found) == len(rows) else None


def _pair(ask: Ask, number: int) -> Ask:
    return replace(ask, where=f"{ask.where}[{number}]")


def _pairs(rows: _Rows) -> Iterator[tuple[int, list[float], list[float]]]:
    """Each row that could be read with the row before it, by its number."""
    for number, (before, after) in enumerate(pairwise(rows), start=2):
        if before is not None and after is not None:
            yield number, before, after


def _rising_flows(rows: _Rows, ask: Ask) -> bool:
    whole = True
    for number, before, after in _pairs(rows):
        if after[0] == before[0]:
            _pair(ask, number).wrong("its flow repeats the flow before", "flows that rise from pair to pair")
            whole = False
        elif after[0] < before[0]:
            _pair(ask, number).wrong("its flow is below the flow before", "flows that rise from pair to pair")
            whole = False
    return whole


def _rows(raw: object, kinds: Sequence[str], ask: Ask) -> _Rows | None:
    if isinstance(raw, str) and raw.strip().casefold() == UNKNOWN:
        unknown_band(ask)
        return None
    if not isinstance(raw, list) or not raw:
        ask.wrong("the list is empty" if isinstance(raw, list) else f"{shown(raw)} is no list")
        return None
    if len(raw) > MOST_ROWS:
        ask.wrong(f"the list has {len(raw)} rows", f"at most {MOST_ROWS} rows")
        return None
    if len(raw) == len(kinds) and all(isinstance(item, str) for item in raw):
        ask.wrong("one pair of brackets is missing around the list")
        return None
    return [_row(item, kinds, _pair(ask, number)) for number, item in enumerate(raw, start=1)]


def _row(raw: object, kinds: Sequence[str], ask: Ask) -> list[float] | None:
    wanted = f"{', '.join(kinds[:-1])} and {kinds[-1]}"
    if not isinstance(raw, list):
        ask.wrong(f"{shown(raw)} is no list of {wanted}")
        return None
    if len(raw) != len(kinds):
        ask.wrong(f"it has {len(raw)} values instead of {len(kinds)} ({wanted})")
        return None
    numbers = [shown(item) for item in raw if isinstance(item, int | float) and not isinstance(item, bool)]
    if numbers:
        ask.wrong(f"{' and '.join(numbers)} {'has' if len(numbers) == 1 else 'have'} no unit")
        return None
    if len(kinds) == 2 and _is_quantity(raw[0], kinds[1]) and _is_quantity(raw[1], kinds[0]):
        ask.wrong(f"{shown(raw[0])} and {shown(raw[1])} stand the wrong way round", f"first {wanted}")
        return None
    values = [_value(item, kind, ask) for item, kind in zip(raw, kinds, strict=True)]
    right = [value for value in values if value is not None]
    return right if len(right) == len(values) else None


def _is_quantity(raw: object, kind: str) -> bool:
    try:
        parse(raw if isinstance(raw, str) and len(raw) <= LONGEST_QUANTITY else "", kind)
    except QuantityError:
        return False
    return True


def _value(raw: object, kind: str, ask: Ask) -> float | None:
    if not isinstance(raw, str):
        ask.wrong(f"{shown(raw)} is no {kind}")
        return None
    stated = parse_text(raw, kind, ask)
    if stated is None:
        return None
    if stated.low is not None:
        ask.wrong(f"{shown(raw)} states a range, and this list holds single values", "values without a range")
        return None
    low, high, limits = _LIMITS[kind]
    if not low <= stated.value <= high:
        found = (
            "is negative"
            if kind in ("flow", "head", "gas flow", "ozone rate") and stated.value < 0.0
            else "lies outside the limits"
        )
        ask.wrong(f"{shown(raw)} {found}", f"{kind} {limits}")
        return None
    return stated.value
