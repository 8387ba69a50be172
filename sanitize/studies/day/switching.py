"""What is switched when: as the file states it, else as `sanitize hours` plans it, else the pump all day."""

from sanitize.basis.notices import Notice
from sanitize.basis.tables import model_table
from sanitize.plant.day import DAY_S, Window
from sanitize.plant.loop import Plant
from sanitize.studies.day.schedule import Origin, Switching, rest_of_day
from sanitize.studies.hours.study import study_needs
from sanitize.studies.timer.result import Device, Plan
from sanitize.studies.timer.study import solve_plan

ALL_DAY = (Window(start_s=0.0, end_s=DAY_S),)
USUAL_BATHING = (Window(start_s=64800.0, end_s=68400.0),)
"""One evening hour, where the file has bathers and no times for them."""


def is_planned(plant: Plant) -> bool:
    """Whether the file leaves the pump's times to the plan of `sanitize hours`: it has [timer] without them."""
    return plant.timer is not None and not plant.timer.pump_times


def plan_of(plant: Plant) -> Plan:
    """The plan that `sanitize hours` gives a file, from its nominal case.

    Raises NoSolutionError when that has no operating point or no water passes the filter.
    """
    needs = study_needs(plant, 0)
    return solve_plan(needs.wishes, needs.run_s.ends[1])


def switching_of(plant: Plant, plan: Plan | None = None) -> tuple[Switching, tuple[Notice, ...]]:
    """The day's switch times, and what was assumed for them; plan: where the file states none."""
    notices: list[Notice] = []
    timer = plant.timer
    bathing = _bathing(plant, notices)
    if timer is not None and timer.pump_times:
        pump, ozone = timer.pump_times, timer.ozone_times or timer.pump_times
        origin: Origin = "stated"
    elif plan is not None:
        pump, ozone, origin = _runs(plan, "pump"), _runs(plan, "ozone"), "planned"
        if plan.clocks_count == 1 or not ozone:
            ozone = pump
        if plan.ozone_run_s == 0.0 and plant.ozone is not None:
            notices.append(
                Notice(
                    "plan-without-ozone",
                    "The plan of `sanitize hours` leaves the ozone unit off all day; here it runs whenever the pump "
                    "does, as it would on the pump's timer. `ozone_hours` in [timer] gives it hours.",
                )
            )
        if plan.conflict:
            notices.append(
                Notice(
                    "plan-breaks-wishes",
                    "No plan keeps all that the file wishes of the timer: the nearest one runs here. `sanitize hours` "
                    "tells what it breaks.",
                )
            )
    else:
        pump, ozone, origin = ALL_DAY, ALL_DAY, "all day"
        notices.append(
            Notice(
                "no-switch-times",
                "The file does not say when the pump runs: it runs all day here, and the ozone unit with it. "
                "`pump_times` and `ozone_times` in [timer] say it.",
            )
        )
    chiller = pump if plant.chiller is not None else ()
    if plan is not None and plant.chiller is not None:
        chiller = _runs(plan, "chiller")
    ozone = ozone if plant.ozone is not None else ()
    return Switching(pump, ozone, chiller, bathing, _lid(plant, bathing, notices), origin), tuple(notices)


def _runs(plan: Plan, what: Device) -> tuple[Window, ...]:
    return tuple(Window(start_s=run.start_s, end_s=run.stop_s) for run in plan.runs if run.what == what)


def _bathing(plant: Plant, notices: list[Notice]) -> tuple[Window, ...]:
    bathers = plant.bathers
    if bathers is None or bathers.per_day == 0.0:
        return ()
    if bathers.times:
        return bathers.times
    notices.append(
        Notice(
            "bathing-times-assumed",
            "The file does not say when people bathe: from 18:00 to 19:00 stands in. `times` in [bathers] says it.",
        )
    )
    return USUAL_BATHING


def _lid(plant: Plant, bathing: tuple[Window, ...], notices: list[Notice]) -> tuple[Window, ...]:
    """While the lid is closed: outside of the times given, else outside of bathing, and never without a lid."""
    around = plant.surroundings
    has_lid = around is not None and (around.lid is not None or bool(around.covered_s) or bool(around.lid_off))
    if around is None or not has_lid or around.covered_s == 0.0:
        if around is None or (around.covered_s is None and not has_lid):
            notices.append(Notice("lid-not-given", "The file tells of no lid: the water lies open all day here."))
        return ()
    if around.lid_off:
        return rest_of_day(around.lid_off)
    before_s = model_table("day_numbers")[("lid_opened_before_s",)].value
    notices.append(
        Notice(
            "lid-times-assumed",
            f"The file does not say when the lid is off: from {before_s / 60.0:.0f} min before people bathe until "
            "they leave stands in. `lid_off` in [surroundings] says it.",
        )
    )
    return rest_of_day(bathing, before_s)
