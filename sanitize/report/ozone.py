"""The ozone answer as text: dangers, where the ozone goes, the water, the air, what bathers bring, cautions."""

from sanitize.basis.figure import Figure
from sanitize.basis.tables import model_table
from sanitize.basis.units import Family, show, significant, to_shown
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, labelled, paragraph, table
from sanitize.report.numbers import number_line
from sanitize.report.phrases import figure, percent, sentence, share, short_share
from sanitize.report.sources import citation
from sanitize.studies.ozone.credits import FORMULA_SOURCE
from sanitize.studies.ozone.model import GAS_FLOW_C
from sanitize.studies.ozone.result import NeedleValve, Ozone, Remedy, Room

WIDTH = 100
_BEHIND = {
    "ozone_numbers": (
        "damp_feed_ratio", "dry_feed_ratio", "injector_gas_units", "dispersed_upright_ratio", "dispersed_lying_ratio",
        "slow_pipe_ratio", "bubble_mean_ratio", "eddy_film_ratio", "plume_bubble_m", "solubility_cold_ratio",
        "solubility_warm_ratio", "entry_limit_mgl",
    ),
    "ozone_water": (
        "decay_at_10c_per_min", "decay_activation_jmol", "decay_ph_slope", "bather_demand_g", "surface_film_moving_ms",
    ),
}  # fmt: skip
_BEHIND_ROOM = {
    "caution_limits": ("bathroom_volume_m3",),
    "ozone_numbers": (
        "shut_room_changes_per_h", "removal_unknown_per_h", "removal_bare_per_h", "removal_furnished_per_h",
        "still_air_m_per_min",
    ),
}  # fmt: skip
_BEHIND_OPEN = {"ozone_numbers": ("outdoor_air_m_per_min",)}


def ozone_text(result: Ozone, *, width: int = WIDTH) -> str:
    """The whole answer for people; ends with a line end."""
    dangers = [caution for caution in result.cautions if caution.severity == "danger"]
    others = [caution for caution in result.cautions if caution.severity != "danger"]
    blocks = [heading(result.title)] if result.title else []
    if dangers:
        blocks.append(heading("DANGER") + "\n" + caution_lines(dangers, width))
    blocks.append(heading("What the ozone does") + "\n" + paragraph(finding(result), width))
    blocks.append(heading("Where the ozone goes") + "\n" + labelled(_gas_rows(result), width))
    blocks.append(heading("In the air that people breathe") + "\n" + _air(result, width))
    blocks.append(heading("In the water") + "\n" + _water(result, width))
    if others:
        blocks.append(heading("Cautions") + "\n" + caution_lines(others, width))
    if result.notices:
        told = "\n".join(paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices)
        blocks.append(heading("Notices: what was assumed, and where a range was left") + "\n" + told)
    blocks.append(heading("Numbers used, and where they come from") + "\n" + _numbers(result, width))
    return "\n\n".join(blocks) + "\n"


def finding(result: Ozone) -> str:
    """The answer in a few sentences: the air first, then what is left of the oxidant."""
    family = result.units
    if result.emission_mg_per_h is None:
        return (
            "The injector draws no gas at any end of the range, so no ozone reaches the water; what the unit makes "
            f"seeps out of its line into the air where it stands. {_balance(result)}"
        )
    emission = figure(result.emission_mg_per_h, "ozone rate", family, never="nothing")
    if result.room_emission_limit_mg_per_h is None:
        air = f"{emission} of ozone go into the air over the water; outdoors the wind takes them, a still day does not."
    else:
        bears = figure(result.room_emission_limit_mg_per_h, "ozone rate", family)
        most, here = result.room_emission_limit_mg_per_h.ends[1], result.emission_mg_per_h.ends[1]
        assumed = "a small shut room (assumed)" if result.room is not None and result.room.is_assumed else "this room"
        limit = _ppm(result.room_limit_ppmv)
        if here > most:
            air = (
                f"The air is what limits it: {assumed} bears {bears} before it passes {limit}, and {emission}, "
                f"{significant(here / most)} times as much, go into it."
            )
        else:
            most_ppmv = result.room_worst_ppmv
            worst = f", and comes to {_ppm(most_ppmv)} at the worst end" if most_ppmv is not None else ""
            over = next(row.over_share_ratio for row in result.limits if row.limit_ppmv == result.room_limit_ppmv)
            passes = "" if over is None else f"; it passes in {share(over)} of the cases"
            air = (
                f"The air comes first: {assumed} bears {bears} before it passes {limit}, and {emission} go into "
                f"it{passes}{worst}."
            )
    return f"{air} {_balance(result)}"


def _balance(result: Ozone) -> str:
    need = _grams(result.oxidant_need_g_per_day)
    supply = _grams(result.oxidant_supply_g_per_day)
    text = f"Bathers bring work for {need} of ozone a day; {supply} dissolve in {_hours(result)}"
    short = result.undersized_ratio
    if short.nominal is None:
        text += ", so nothing of it is met."
    elif short.nominal > 1.0:
        text += f": too little by a factor of {_plain(short)}."
    else:
        text += f", {_plain(short)} of it is asked for, before the water itself takes its share."
    return (
        f"{text} With {_run_time(result)} of ozone a day the other sanitizer must carry "
        f"{_grams(result.other_chlorine_g_per_day)} of chlorine a day, or its equal, and hold the residual at all "
        "times: ozone alone never keeps such a tub."
    )


def _hours(result: Ozone) -> str:
    """The time a day over which sums of the ozone count."""
    if result.ozone_run_from == "assumed":
        return f"{_run_time(result)} a day (assumed, as the file does not say how long the ozone runs)"
    return f"the {_run_time(result)} a day that it runs"


def _run_time(result: Ozone) -> str:
    return "0 h" if result.ozone_run_s == 0.0 else show(result.ozone_run_s, "time", result.units)


def _grams(value: Figure) -> str:
    return f"{_plain(value)} g"


def _plain(value: Figure, never: str = "no end") -> str:
    low, nominal, high = (never if end is None else significant(end) for end in (value.low, value.nominal, value.high))
    return nominal if low == high == nominal else f"{nominal} ({low} to {high})"


def _ppm(value: float) -> str:
    return f"{significant(value)} ppm"


def _ppm_of(value: Figure) -> str:
    low, nominal, high = ("-" if end is None else significant(end) for end in (value.low, value.nominal, value.high))
    return f"{nominal} ppm" if low == high == nominal else f"{nominal} ppm ({low} to {high})"


def _mgl_of(value: Figure) -> str:
    return f"{_plain(value)} mg/L"


def _space(value: Figure, family: Family) -> str:
    unit = "m3" if family == "metric" else "ft3"
    ends = [to_shown(end, "volume", unit) for end in value.ends]
    return f"{_plain(Figure(ends[0], ends[1], ends[2]))} {unit}"


def _gas_rows(result: Ozone) -> list[tuple[str, str]]:
    family = result.units
    rated = show(result.rated_mg_per_h, "ozone rate", family)
    at = "" if result.rated_gas_flow_m3s is None else f" at {show(result.rated_gas_flow_m3s, 'gas flow', family)}"
    drawn, stated_at = figure(result.gas_flow_m3s, "gas flow", family), show(GAS_FLOW_C, "temperature", family)
    rows = [
        (
            "Gas drawn",
            f"{drawn} at local air pressure and {stated_at}, gas line open; {_plain(result.gas_to_water_ratio)} of the "
            "injector's water by volume.",
        ),
        (
            "Made",
            f"{figure(result.feed_mg_per_h, 'ozone rate', family)} at that flow, fed with {result.feed_kind}; rated "
            f"{rated}{at}. In the gas: {_plain(result.feed_gm3)} g/m3, {_ppm_of(result.feed_ppmv)} by volume, "
            f"{percent(result.feed_weight_ratio)} by weight.",
        ),
    ]
    if result.transfer_ratio.nominal is None:
        return rows
    destruct = " behind the destruct unit" if result.destruct_ratio > 0.0 else ""
    emission = result.emission_mg_per_h
    into_air = "not worked out" if emission is None else figure(emission, "ozone rate", family)
    rows += [
        (
            "Dissolves",
            f"{percent(result.transfer_ratio)}, {figure(result.dissolved_mg_per_h, 'ozone rate', family)}: in the pipe "
            f"{percent(result.pipe_transfer_ratio)}, from bubbles in the tub {percent(result.plume_transfer_ratio)}. "
            f"Endless contact would dissolve {percent(result.equilibrium_ratio)}.",
        ),
        (
            "Contact",
            f"{figure(result.contact_length_m, 'head', family)} of pipe behind the injector, "
            f"{figure(result.contact_s, 'time', family)}.",
        ),
        (
            "Into the air",
            f"{figure(result.vented_mg_per_h, 'ozone rate', family)} with the gas, "
            f"{figure(result.surface_mg_per_h, 'ozone rate', family)} through the surface; in all "
            f"{into_air}{destruct}.",
        ),
        (
            "Ozone off",
            "An injector that draws on with the unit off strips "
            f"{figure(result.strips_mg_per_h, 'ozone rate', family)} out of the water into the air at first.",
        ),
    ]
    if result.needle_valve is not None:
        rows.append(("Needle valve", _needle(result.needle_valve, result, family)))
    return rows


def _needle(held: NeedleValve, result: Ozone, family: Family) -> str:
    return (
        f"Held back to {show(held.gas_flow_m3s, 'gas flow', family)} of gas ({_plain(held.gas_to_water_ratio)} of the "
        f"water), {percent(held.transfer_ratio)} would dissolve, "
        f"{figure(held.dissolved_mg_per_h, 'ozone rate', family)} instead of "
        f"{figure(result.dissolved_mg_per_h, 'ozone rate', family)}, and "
        f"{figure(held.emission_mg_per_h, 'ozone rate', family)} would go into the air."
    )


def _air(result: Ozone, width: int) -> str:
    family = result.units
    rows: list[tuple[str, str]] = []
    if result.room is not None:
        rows.append(("Room", _room(result.room, family)))
    if result.over_water_ppmv is None or result.under_cover_ppmv is None:
        text = "not worked out, as no gas is drawn: what the unit makes seeps into the air, and may end there whole."
        return labelled([*rows, ("The air", sentence(text))], width)
    if result.drawn_share_ratio < 1.0:
        rows.append(("Counted", _drawn_only(result)))
    if result.room_ppmv is not None:
        worst = _worst(result.room_worst_ppmv)
        rows.append(("Its air", f"{_ppm_of(result.room_ppmv)} with the ozone running on and on{worst}."))
    rows.append(
        (
            "Over the water",
            f"{_ppm_of(result.over_water_ppmv)} where a bather breathes{_worst(result.over_water_worst_ppmv)}.",
        )
    )
    rows.append(("Under a cover", f"{_ppm_of(result.under_cover_ppmv)} where it is shut while the ozone runs."))
    if result.remedy is not None:
        rows.append((f"Below {_ppm(result.room_limit_ppmv)}", _remedy(result.remedy, result, family)))
    if result.air_wait_s is not None:
        rows.append(("Wait", _air_wait(result.air_wait_s, result)))
    return labelled(rows, width) + "\n\n" + _limits(result, width)


def _drawn_only(result: Ozone) -> str:
    return (
        f"Over {share(result.drawn_share_ratio)} of the cases, in which gas is drawn; in the others what the unit "
        "makes seeps out of its line, and may end in this air whole."
    )


def _worst(value_ppmv: float | None) -> str:
    return "" if value_ppmv is None else f"; at the worst end {_ppm(value_ppmv)}"


def _air_wait(wait: Figure, result: Ozone) -> str:
    family, limit = result.units, _ppm(result.room_limit_ppmv)
    ends = f"{_worst_time(result.air_wait_worst_s, result)}: an estimate, never a clearance; a meter decides."
    if wait.ends[2] <= 0.0:
        return f"Within the range the room and the air over the water are below {limit} once it is off{ends}"
    if wait.ends[1] <= 0.0:
        return (
            f"In the likeliest case the room and the air over the water are below {limit} once it is off; at the high "
            f"end, the injector drawing on, that takes {show(wait.ends[2], 'time', family)}{ends}"
        )
    return (
        f"About {figure(wait, 'time', family)} from switching off, the injector drawing on, until the room and the air "
        f"over the water are below {limit}{ends}"
    )


def _worst_time(time_s: float | None, result: Ozone) -> str:
    if not time_s:
        return ""
    return f"; at the worst end it takes {show(time_s, 'time', result.units)}"


def _room(room: Room, family: Family) -> str:
    assumed = "assumed, as the file describes none: " if room.is_assumed else ""
    return sentence(
        f"{assumed}{_space(room.volume_m3, family)}, {_plain(room.changes_per_h)} air changes an hour, and "
        f"{_plain(room.removal_per_h)} an hour that its surfaces take."
    )


def _remedy(found: Remedy, result: Ozone, family: Family) -> str:
    high = found.output_mg_per_h.ends[0]
    if found.destruct_ratio.ends[2] <= 0.0:
        worst = _ppm(result.room_worst_ppmv) if result.room_worst_ppmv is not None else "not known"
        return (
            f"Within the range it stays there, with a unit of up to {show(high, 'ozone rate', family)}; at the worst "
            f"end it comes to {worst}: an estimate, never a clearance."
        )
    destruct = found.destruct_ratio
    if destruct.nominal == 0.0:
        share_high = min(destruct.ends[2], 1.0)
        return (
            f"In the likeliest case it stays there. At the high end any one of: "
            f"{significant(found.changes_per_h.ends[2])} air changes an hour; a destruct unit that takes "
            f"{percent(Figure(share_high, share_high, share_high))} of the gas that is parted from the water; or a "
            f"unit of {show(high, 'ozone rate', family)}."
        )
    taken = "no destruct unit is enough" if destruct.nominal is None else (
        f"a destruct unit that takes {percent(Figure(*(1.0 if end > 1.0 else end for end in destruct.ends)))} of the "
        "gas that is parted from the water"
    )  # fmt: skip
    return (
        f"Any one of: {_plain(found.changes_per_h)} air changes an hour; {taken}; or a unit of "
        f"{figure(found.output_mg_per_h, 'ozone rate', family)} instead of "
        f"{show(result.rated_mg_per_h, 'ozone rate', family)}."
    )


def _limits(result: Ozone, width: int) -> str:
    where = "over the water" if result.place == "outdoors" else "in the room"
    rows = [
        (row.body, row.averaged, significant(row.limit_ppmv), short_share(row.over_share_ratio))
        for row in result.limits
        if row.over_share_ratio is not None
    ]
    told = paragraph(
        f"Above it: share of the cases in which the air {where} passes the limit for somebody who stays all that time.",
        width,
    )
    return table(("who sets it", "averaged", "limit ppm", "above it"), rows, width, left=2) + "\n" + told


def _water(result: Ozone, width: int) -> str:
    family, water = result.units, result.water
    others = [
        f"{name} {_mgl_of(value)}"
        for name, value in (
            ("free chlorine", water.free_chlorine_mgl), ("bromine", water.bromine_mgl),
            ("bromide", water.bromide_mgl), ("peroxide", water.peroxide_mgl),
        )
        if value.ends[2] > 0.0
    ]  # fmt: skip
    rows = [
        (
            "Counted as",
            f"pH {_plain(water.ph)} ({water.ph_from}){''.join(', ' + text for text in others)}; half of its ozone is "
            f"gone in {figure(water.half_life_s, 'time', family)}.",
        ),
        (
            "Residual",
            f"{_mgl_of(result.residual_mgl)} once all that bathers brought is used up; "
            f"{_mgl_of(result.residual_in_use_mgl)} while it is being used up.",
        ),
        (
            "At entry",
            f"At the worst end {significant(result.residual_entry_high_mgl)} mg/L right after the ozone ran. "
            f"{_water_wait(result)}",
        ),
        (
            "Germs",
            f"Concentration times time is {_plain(result.pass_ct_mg_min_l)} mg min/L in one pass of the pipe and "
            f"{_plain(result.tub_ct_mg_min_l)} mg min/L in one stay in the tub.",
        ),
    ]
    asked = [
        (
            row.organism,
            f"{row.log_count:g} log",
            significant(row.asked_ct_mg_min_l),
            short_share(row.pass_share_ratio.ends[1]),
            short_share(row.tub_share_ratio.ends[1]),
        )
        for row in result.credits
    ]
    least = significant(model_table("ozone_numbers")[("credit_from_mgl",)].value)
    told = paragraph(
        "What guidance for drinking water asks of ozone [mg min/L], and how much of it one pass of the pipe and one "
        "stay in the tub come to. It is no credit here: a credit wants a measured residual of at least "
        f"{least} mg/L where the water leaves a vessel made for it, all of the water through it, and nobody bathing.",
        width,
    )
    return (
        labelled(rows, width)
        + "\n\n"
        + table(("organism", "asked for", "mg min/L", "one pass", "one stay"), asked, width, left=2)
        + "\n"
        + told
    )


def _water_wait(result: Ozone) -> str:
    limit = f"{significant(model_table('ozone_numbers')[('entry_limit_mgl',)].value)} mg/L"
    wait, worst = result.water_wait_s, _worst_time(result.water_wait_worst_s, result)
    if wait.ends[2] <= 0.0:
        if worst:
            return f"Within the range it stays below {limit}{worst} to come down to it: an estimate, never a clearance."
        return f"There too it stays below {limit}: an estimate, never a clearance."
    if wait.ends[1] <= 0.0:
        high = show(wait.ends[2], "time", result.units)
        return (
            f"In the likeliest case it stays below {limit}, at the high end it takes {high} from switching off to come "
            f"down to it{worst}: an estimate, never a clearance."
        )
    return (
        f"Down to {limit} takes about {figure(wait, 'time', result.units)} from switching off{worst}: an estimate, "
        "never a clearance."
    )


def _numbers(result: Ozone, width: int) -> str:
    lines = [
        paragraph(
            "What the file states comes first; where it says nothing, these stand in (value, low to high; all of them: "
            "the tables command).",
            width,
        )
    ]
    keys = {caution.source for caution in result.cautions} | {row.source for row in result.limits} | {FORMULA_SOURCE}
    around = _BEHIND_OPEN if result.place == "outdoors" else _BEHIND_ROOM
    for name, wanted in (*_BEHIND.items(), *around.items()):
        for key in wanted:
            entry = model_table(name)[(key,)]
            lines.append(paragraph(number_line(key, entry), width, "- ", "  "))
            keys.add(entry.source)
    return "\n".join([*lines, *(citation(key, width) for key in sorted(keys - {""}))])
