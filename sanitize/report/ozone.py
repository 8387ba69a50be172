"""The ozone answer as text: dangers, where the ozone goes, the water, the air, what bathers bring, cautions."""

from sanitize.basis.tables import model_table
from sanitize.basis.units import Family, show, significant
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, labelled, paragraph, table
from sanitize.report.numbers import number_line
from sanitize.report.ozone_air import air_block
from sanitize.report.ozone_words import grams, mgl_of, plain, ppm, ppm_of, worst_time
from sanitize.report.phrases import figure, percent, sentence, share, short_share
from sanitize.report.sources import citation
from sanitize.studies.ozone.credits import FORMULA_SOURCE
from sanitize.studies.ozone.model import GAS_FLOW_C
from sanitize.studies.ozone.result import NeedleValve, Ozone

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
    blocks.append(heading("In the air that people breathe") + "\n" + air_block(result, width))
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
        limit = ppm(result.room_limit_ppmv)
        if here > most:
            air = (
                f"The air is what limits it: {assumed} bears {bears} before it passes {limit}, and {emission}, "
                f"{significant(here / most)} times as much, go into it."
            )
        else:
            most_ppmv = result.room_worst_ppmv
            worst = f", and comes to {ppm(most_ppmv)} at the worst end" if most_ppmv is not None else ""
            over = next(row.over_share_ratio for row in result.limits if row.limit_ppmv == result.room_limit_ppmv)
            passes = "" if over is None else f"; it passes in {share(over)} of the cases"
            air = (
                f"The air comes first: {assumed} bears {bears} before it passes {limit}, and {emission} go into "
                f"it{passes}{worst}."
            )
    return f"{air} {_balance(result)}"


def _balance(result: Ozone) -> str:
    need = grams(result.oxidant_need_g_per_day)
    supply = grams(result.oxidant_supply_g_per_day)
    text = f"Bathers bring work for {need} of ozone a day; {supply} dissolve in {_hours(result)}"
    short = result.undersized_ratio
    if short.nominal is None:
        text += ", so nothing of it is met."
    elif short.nominal > 1.0:
        text += f": too little by a factor of {plain(short)}."
    else:
        text += f", {plain(short)} of it is asked for, before the water itself takes its share."
    return (
        f"{text} With {_run_time(result)} of ozone a day the other sanitizer must carry "
        f"{grams(result.other_chlorine_g_per_day)} of chlorine a day, or its equal, and hold the residual at all "
        "times: ozone alone never keeps such a tub."
    )


def _hours(result: Ozone) -> str:
    """The time a day over which sums of the ozone count."""
    if result.ozone_run_from == "assumed":
        return f"{_run_time(result)} a day (assumed, as the file does not say how long the ozone runs)"
    return f"the {_run_time(result)} a day that it runs"


def _run_time(result: Ozone) -> str:
    return "0 h" if result.ozone_run_s == 0.0 else show(result.ozone_run_s, "time", result.units)


def _gas_rows(result: Ozone) -> list[tuple[str, str]]:
    family = result.units
    rated = show(result.rated_mg_per_h, "ozone rate", family)
    at = "" if result.rated_gas_flow_m3s is None else f" at {show(result.rated_gas_flow_m3s, 'gas flow', family)}"
    drawn, stated_at = figure(result.gas_flow_m3s, "gas flow", family), show(GAS_FLOW_C, "temperature", family)
    rows = [
        (
            "Gas drawn",
            f"{drawn} at local air pressure and {stated_at}, gas line open; {plain(result.gas_to_water_ratio)} of the "
            "injector's water by volume.",
        ),
        (
            "Made",
            f"{figure(result.feed_mg_per_h, 'ozone rate', family)} at that flow, fed with {result.feed_kind}; rated "
            f"{rated}{at}. In the gas: {plain(result.feed_gm3)} g/m3, {ppm_of(result.feed_ppmv)} by volume, "
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
        f"Held back to {show(held.gas_flow_m3s, 'gas flow', family)} of gas ({plain(held.gas_to_water_ratio)} of the "
        f"water), {percent(held.transfer_ratio)} would dissolve, "
        f"{figure(held.dissolved_mg_per_h, 'ozone rate', family)} instead of "
        f"{figure(result.dissolved_mg_per_h, 'ozone rate', family)}, and "
        f"{figure(held.emission_mg_per_h, 'ozone rate', family)} would go into the air."
    )


def _water(result: Ozone, width: int) -> str:
    family, water = result.units, result.water
    others = [
        f"{name} {mgl_of(value)}"
        for name, value in (
            ("free chlorine", water.free_chlorine_mgl), ("bromine", water.bromine_mgl),
            ("bromide", water.bromide_mgl), ("peroxide", water.peroxide_mgl),
        )
        if value.ends[2] > 0.0
    ]  # fmt: skip
    rows = [
        (
            "Counted as",
            f"pH {plain(water.ph)} ({water.ph_from}){''.join(', ' + text for text in others)}; half of its ozone is "
            f"gone in {figure(water.half_life_s, 'time', family)}.",
        ),
        (
            "Residual",
            f"{mgl_of(result.residual_mgl)} once all that bathers brought is used up; "
            f"{mgl_of(result.residual_in_use_mgl)} while it is being used up.",
        ),
        (
            "At entry",
            f"At the worst end {significant(result.residual_entry_high_mgl)} mg/L right after the ozone ran. "
            f"{_water_wait(result)}",
        ),
        (
            "Germs",
            f"Concentration times time is {plain(result.pass_ct_mg_min_l)} mg min/L in one pass of the pipe and "
            f"{plain(result.tub_ct_mg_min_l)} mg min/L in one stay in the tub.",
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
    wait, worst = result.water_wait_s, worst_time(result.water_wait_worst_s, result)
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
