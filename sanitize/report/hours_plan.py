"""The timer's plan as text: switch times as a person sets them, what they keep, power cuts, energy."""

from sanitize.basis.figure import Figure
from sanitize.basis.units import significant
from sanitize.plant.day import DAY_S, Window, clock
from sanitize.report.columns import labelled, paragraph, table
from sanitize.report.hours_energy import KWH_J, apart_table
from sanitize.report.plan_words import asked, loosened
from sanitize.studies.hours.result import Hours
from sanitize.studies.timer.result import Broken, Plan, PlanRun, PowerCut


def plan_block(hours: Hours, plan: Plan, width: int) -> str:
    """When what runs, what the plan keeps or breaks, what a power cut does, and what the plan takes."""
    head = ("what", "on", "off", "runs")
    rows = [(run.what, clock(run.start_s), stop_clock(run), _length(run)) for run in plan.runs]
    told = [*_kept(hours, plan), *_clocks(hours, plan)]
    return f"{table(head, rows, width)}\n\n{labelled(told, width)}\n\n{_spent(hours, plan, width)}"


def stop_clock(run: PlanRun) -> str:
    """When a run stops, midnight as the day's end.

    >>> stop_clock(PlanRun("pump", 75600.0, 86400.0)), stop_clock(PlanRun("pump", 75600.0, 3600.0))
    ('24:00', '01:00')
    """
    return "24:00" if run.stop_s == DAY_S else clock(run.stop_s)


def exactly(time_s: float) -> str:
    """A time as a timer is set, to the minute.

    >>> exactly(900.0), exactly(7200.0), exactly(24300.0)
    ('15 min', '2 h', '6 h 45 min')
    """
    hours, minutes = divmod(round(time_s / 60.0), 60)
    return " ".join([*([f"{hours} h"] if hours else []), *([f"{minutes} min"] if minutes or not hours else [])])


def _length(run: PlanRun) -> str:
    return exactly(Window(start_s=run.start_s, end_s=run.stop_s).length_s)


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _kept(hours: Hours, plan: Plan) -> list[tuple[str, str]]:
    total = f"{exactly(plan.run_s)} of pump a day in steps of {exactly(plan.segment_s)}"
    if not plan.conflict:
        return [("Keeps", f"Every wish, at the least cost that they allow: {total}.")]
    wishes = [asked(name, hours) for name in plan.conflict]
    together = "No plan keeps this" if len(wishes) == 1 else "No plan keeps these together"
    rows = [
        ("Conflict", f"{together}: {_listed(wishes)}."),
        ("Loosen", f"{_listed([loosened(name) for name in plan.conflict])}."),
    ]
    if plan.clocks_count == 1 and "ozone rest" in plan.conflict:
        rows.append(
            ("Or", "a timer of its own for the ozone unit (`two_timers = true`): then the pump runs without it.")
        )
    broken = _listed([_broken(item) for item in plan.broken])
    rows.append(("Nearest plan", f"The times above, with {total}; they break {broken}. (Weights: table plan_weights.)"))
    return rows


def _broken(item: Broken) -> str:
    if item.short_s is None:
        return f"{item.wish} by {item.extra_count}"
    return f"{item.wish} by {exactly(item.short_s)}"


def _clocks(hours: Hours, plan: Plan) -> list[tuple[str, str]]:
    wishes = hours.wishes
    missed = {item.wish for item in plan.broken}
    rows = []
    if plan.clocks_count == 2 and "clocks apart" not in missed:
        text = (
            f"Two timers, whose clocks may be {exactly(wishes.clocks_apart_s)} apart either way: the "
            "ozone unit still runs only while the pump does"
        )
        if wishes.bathing and "ozone rest" not in missed:
            text += f", and is off {exactly(wishes.ozone_rest_s)} before people get in"
        rows.append(("Clocks", text + "."))
    if hours.ozone_stays_off:
        rows.append(
            (
                "Ozone unit",
                "Off all day: this room does not bear it. Unplug it; on the pump's timer it would run whenever the "
                "pump does.",
            )
        )
    elif plan.clocks_count == 1 and wishes.has_ozone and plan.ozone_run_s > 0.0:
        rows.append(("Clock", "One timer: the ozone unit runs whenever the pump does."))
    cuts = [_cut(cut) for cut in plan.cuts if cut.breaks is not None]
    if cuts:
        rows.append(("Power cut", " ".join(cuts) + " Set the clocks after each power cut."))
    if plan.needs_interlock:
        rows.append(
            (
                "Interlock",
                "Required: timers alone cannot keep ozone out of standing water once a power cut has stopped one of "
                "them. Feed the ozone unit through the pump's own contact or a flow switch; a licensed electrician "
                "decides how.",
            )
        )
    return rows


_STOPS = {"pump": "only the pump's clock", "ozone": "only the ozone unit's clock", "both": "every clock"}
_BREAKS = {
    "flow": "the ozone unit runs into standing water",
    "rest": "the ozone unit runs within its rest before bathing",
}


def _cut(cut: PowerCut) -> str:
    if cut.breaks is None or cut.holds_up_to_s is None:
        return ""
    length = "Of any length" if cut.holds_up_to_s == 0.0 else f"Of more than {exactly(cut.holds_up_to_s)}"
    return f"{length} that stops {_STOPS[cut.stops]}: {_BREAKS[cut.breaks]}."


def _spent(hours: Hours, plan: Plan, width: int) -> str:
    spent = plan.spent
    tables = [apart_table("kWh", spent.energy_j, spent.energy_year_j, KWH_J, width)]
    if spent.cost is not None and spent.cost_year is not None:
        tables.append(apart_table("cost", spent.cost, spent.cost_year, 1.0, width))
    legend = (
        "Of this plan, on every day as on this one; the ozone unit's own power is left out. It stands on the nominal "
        f"run time of {_hours(hours.run_s)}."
    )
    asked = hours.wishes.chiller_run_s
    if asked is not None and asked.nominal is None:
        legend += " The chiller cannot hold the temperature; it runs for as long as the pump must."
    elif plan.chiller_run_s > 0.0:
        legend += " The chiller's thermostat may stop it sooner."
    return "\n\n".join(tables) + f"\n{paragraph(legend, width)}"


def _hours(run_s: Figure) -> str:
    return f"{significant(run_s.ends[1] / 3600.0)} h"
