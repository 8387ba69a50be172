"""The simulated day as text, dangers first."""

from collections.abc import Sequence

from sanitize.basis.figure import Figure
from sanitize.basis.tables import model_table
from sanitize.basis.units import show, significant, to_shown
from sanitize.plant.day import Window, together_s
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, labelled, paragraph, table
from sanitize.report.numbers import number_line
from sanitize.report.phrases import figure, sentence, share
from sanitize.report.sources import citation
from sanitize.studies.day.result import DECAYED, SimulatedDay, Wait

WIDTH = 100
LEAST_SHOWN = 1e-4
"""Smaller numbers are shown as 0."""
NEVER = "not before it runs again"
_NOT_DRAWN = "Not worked out, as no gas is drawn: what the unit makes seeps into the air, and may end there whole."
_ORIGINS = {
    "stated": "as the file's [timer] states",
    "planned": "as `sanitize hours` plans it",
    "all day": "the pump all day, as the file states no times",
}
_KEPT = {"chlorine": "free chlorine", "bromine": "bromine", "peroxide": "peroxide", "none": "other oxidant"}


def day_text(result: SimulatedDay, *, width: int = WIDTH) -> str:
    """The whole answer for people, no line longer than `width` unless a word is; ends with a line end."""
    dangers = [caution for caution in result.cautions if caution.severity == "danger"]
    others = [caution for caution in result.cautions if caution.severity != "danger"]
    blocks = [heading(result.title)] if result.title else []
    if dangers:
        blocks.append(heading("DANGER") + "\n" + caution_lines(dangers, width))
    blocks.append(heading("The day") + "\n" + labelled(_day(result), width))
    if result.ways:
        blocks.append(heading("Ozone in the water") + "\n" + labelled(_water(result), width))
        blocks.append(heading("Ozone in the air") + "\n" + labelled(_air(result), width))
        blocks.append(heading("Where the ozone of a day goes") + "\n" + _ways(result, width))
    elif result.ozone_state == "not drawn":
        blocks.append(heading("Ozone in the air") + "\n" + labelled([("The air", _NOT_DRAWN)], width))
    blocks.append(heading("What bathers bring") + "\n" + labelled(_bathers(result), width))
    if others:
        blocks.append(heading("Cautions") + "\n" + caution_lines(others, width))
    if result.notices:
        lines = [paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices]
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + "\n".join(lines))
    blocks.append(heading("Numbers used, and where they come from") + "\n" + _numbers(result, width))
    return "\n\n".join(blocks) + "\n"


def amount(value: Figure, unit: str) -> str:
    """A figure without a family of units, in two significant figures.

    >>> amount(Figure(0.01, 0.02, 0.05), "mg/L"), amount(Figure(0.0, 0.0, 0.0), "mg/L")
    ('0.020 mg/L (0.010 to 0.050)', '0 mg/L')
    """
    low, nominal, high = (_number(end) for end in value.ends)
    return f"{nominal} {unit}" if low == nominal == high else f"{nominal} {unit} ({low} to {high})"


def _number(value: float) -> str:
    """Two significant figures, and 0 for what rounding alone leaves."""
    return "0" if abs(value) < LEAST_SHOWN else significant(value)


def ppm(value: Figure) -> str:
    """Ozone in air; what no meter shows is told as such.

    >>> ppm(Figure(0.0, 0.0002, 0.02)), ppm(Figure(0.0, 1e-5, 1e-4))
    ('less than 0.001 ppm (to 0.020)', 'less than 0.001 ppm')
    """
    return _from(value, 1e-3, "ppm")


def residual(value: Figure) -> str:
    """Ozone in water; what no test shows is told as such.

    >>> residual(Figure(0.0, 0.0, 0.04))
    'less than 0.001 mg/L (to 0.040)'
    """
    return _from(value, 1e-3, "mg/L")


def _from(value: Figure, least: float, unit: str) -> str:
    _, nominal, high = value.ends
    if nominal >= least:
        return amount(value, unit)
    return f"less than {least:g} {unit}" + (f" (to {significant(high)})" if high >= least else "")


def times(windows: Sequence[Window]) -> str:
    """Parts of the day as people write them.

    >>> times([Window(start_s=21600.0, end_s=27000.0)]), times([Window(start_s=0.0, end_s=86400.0)]), times([])
    ('06:00-07:30', 'all day', 'never')
    """
    if not windows:
        return "never"
    if any(window.length_s >= 86400.0 for window in windows):
        return "all day"
    return ", ".join(f"{_clock(window.start_s)}-{_clock(window.end_s)}" for window in windows)


def _clock(time_s: float) -> str:
    minutes = round(time_s / 60.0) % 1440
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def _day(result: SimulatedDay) -> list[tuple[str, str]]:
    switched = result.switched
    cases = "the one case computed" if result.cases_count == 0 else f"{result.cases_count} cases (seed {result.seed})"
    repeats = result.repeats_share_ratio
    same = "in all cases the next day is the same" if repeats == 1.0 else (
        f"in {share(repeats)} of the cases the next day would be the same")  # fmt: skip
    rows = [
        ("Switched", f"{sentence(_ORIGINS[switched.origin])}."),
        ("Pump", times(switched.pump)),
        ("Ozone unit", times(switched.ozone)),
        ("Bathing", times(switched.bathing)),
        ("Lid closed", times(switched.lid)),
        ("Simulated", f"day {result.days_count} is shown, from fresh water on; {same}. Ranges: {cases}."),
        ("Haze", f"up to {amount(result.haze_peak_ntu, 'NTU')} over that of the fill water."),
        ("Water", _temperatures(result)),
    ]
    if result.chiller_run_s is not None:
        rows.append(("Chiller runs", f"{figure(result.chiller_run_s, 'time', result.units)} a day."))
    return rows


def _temperatures(result: SimulatedDay) -> str:
    coldest = figure(result.water_coldest_c, "temperature", result.units)
    warmest = figure(result.water_warmest_c, "temperature", result.units)
    return f"{coldest} all day." if coldest == warmest else f"at the coldest {coldest}, at the warmest {warmest}."


def _run_time(result: SimulatedDay) -> str:
    return show(together_s(result.switched.ozone, result.switched.pump), "time", result.units)


def _water(result: SimulatedDay) -> list[tuple[str, str]]:
    rows = [
        ("Made", f"{amount(result.fed_mg_per_day, 'mg')} a day, in the {_run_time(result)} that the unit runs."),
        ("Dissolves", f"{amount(result.dissolved_mg_per_day, 'mg')} a day, less what the gas strips out again."),
        ("Highest", residual(result.ozone_peak_mgl)),
    ]
    if result.ozone_at_entry_mgl is not None:
        rows.append(("When people get in", residual(result.ozone_at_entry_mgl)))
    rows.append(
        (
            "CT of all day",
            f"{amount(result.ct_mg_min_l, 'mg min/L')} in the tub: a sum for comparison only. No rule credits it, as "
            "no residual is held over a known time.",
        )
    )
    rows += [(f"Below {_limit(wait)}", _wait(result, wait)) for wait in result.waits if wait.unit == "mg/L"]
    return rows


def _air(result: SimulatedDay) -> list[tuple[str, str]]:
    rows = []
    if result.drawn_share_ratio is not None and result.drawn_share_ratio < 1.0:
        rows.append(
            (
                "Counted",
                f"Over {share(result.drawn_share_ratio)} of the cases, in which gas is drawn; in the others what the "
                "unit makes seeps out of its line, and may end in this air whole.",
            )
        )
    if result.room_peak_ppmv is not None and result.room_8h_ppmv is not None and result.room_above_s is not None:
        room = "" if result.room_m3 is None else f", a room of {_space(result.room_m3, result)}"
        rows += [
            ("Room, highest", f"{ppm(result.room_peak_ppmv)}{room}."),
            ("Room, worst 8 hours", f"{ppm(result.room_8h_ppmv)} on average."),
            ("Above 0.1 ppm", _above(result.room_above_s, result)),
        ]
    when = "while people bathe, where they breathe" if result.switched.bathing else "while it lies open"
    if result.face_ppmv is not None:
        rows.append(("Over the water", f"{ppm(result.face_ppmv)} at the most {when}."))
    if result.switched.bathing and result.over_water_ppmv is not None:
        rows.append(("At any time", f"{ppm(result.over_water_ppmv)} over the open water at the most."))
    if result.under_lid_ppmv is not None:
        rows.append(("Under the lid", f"{ppm(result.under_lid_ppmv)} at the most while it is closed."))
    rows += [(f"Below {_limit(wait)}", _wait(result, wait)) for wait in result.waits if wait.unit == "ppm"]
    return rows


def _above(time_s: Figure, result: SimulatedDay) -> str:
    return "never." if time_s.ends[2] == 0.0 else f"{figure(time_s, 'time', result.units)} a day."


def _space(volume_m3: float, result: SimulatedDay) -> str:
    unit = "m3" if result.units == "metric" else "ft3"
    return f"{significant(to_shown(volume_m3, 'volume', unit))} {unit}"


def _limit(wait: Wait) -> str:
    return f"{significant(wait.limit, 1)} {wait.unit}"


def _wait(result: SimulatedDay, wait: Wait) -> str:
    source = f" [{wait.source}]" if wait.source else ""
    nominal = wait.wait_s.ends[1]
    time = figure(wait.wait_s, "time", result.units, never=NEVER)
    if wait.worst_s == 0.0:
        return f"{sentence(wait.what)} is never above it while the ozone is off; an estimate, no clearance.{source}"
    worst = NEVER if wait.worst_s is None else show(wait.worst_s, "time", result.units)
    if nominal == 0.0 and wait.wait_s.ends[2] == 0.0:
        return (
            f"Within the range {wait.what} is not above it while the ozone is off; at the worst end it is below from "
            f"{worst} after; an estimate, no clearance: a meter decides.{source}"
        )
    return (
        f"{sentence(wait.what)} stays below it from {time} after the ozone goes off, at the worst end {worst}; an "
        f"estimate, no clearance: a meter decides.{source}"
    )


def _ways(result: SimulatedDay, width: int) -> str:
    bromide = " or went to bromide" if result.kept == "bromine" else ""
    rows = [(row.name + bromide * (row.name == DECAYED), _mg(row.ozone_mg_per_day)) for row in result.ways]
    legend = (
        "In brackets, low to high. What left through the surface is below 0 where air rich in ozone gives some back. "
        f"The sums close to {result.imbalance_ratio:.0e} of what was made, at worst."
    )
    return f"{table(('ozone', 'mg a day'), rows, width)}\n{paragraph(legend, width)}"


def _mg(value: Figure) -> str:
    low, nominal, high = (_number(end) for end in value.ends)
    return nominal if low == nominal == high else f"{nominal} ({low} to {high})"


def _bathers(result: SimulatedDay) -> list[tuple[str, str]]:
    rows = [
        ("They ask for", f"{amount(result.oxidant_need_g_per_day, 'g')} of oxidant a day, counted as ozone."),
        ("Ozone takes", f"{amount(result.oxidant_supply_g_per_day, 'g')} of it."),
        ("Left over", f"{amount(result.demand_rise_g_per_day, 'g')} a day stay in the water to the next day."),
    ]
    kept = _KEPT[result.kept]
    if result.kept == "none":
        return [*rows, ("Other oxidant", "None is counted on.")]
    return [
        *rows,
        (sentence(kept), f"falls to {amount(result.oxidant_low_mgl, 'mg/L')} at the lowest."),
        ("Dose", f"{amount(result.oxidant_dose_g_per_day, 'g')} of {kept} after bathing bring it back."),
    ]


def _numbers(result: SimulatedDay, width: int) -> str:
    """The numbers of the tables behind the day, and the citations of those and of the cautions."""
    names = {"ozone_water": None, "day_numbers": None} if result.ways else {"day_numbers": None}
    found = [(key[0], entry) for name in names for key, entry in model_table(name).entries.items()]
    intro = (
        "What the file states comes first; where it says nothing, these stand in (value, low to high); the rest: the "
        "tables command."
    )
    lines = [paragraph(intro, width)]
    lines += [paragraph(number_line(name, entry), width, "- ", "  ") for name, entry in found]
    keys = {entry.source for _, entry in found} | {caution.source for caution in result.cautions}
    keys |= {wait.source for wait in result.waits}
    lines += [citation(key, width) for key in sorted(keys - {""})]
    return "\n".join(lines)
