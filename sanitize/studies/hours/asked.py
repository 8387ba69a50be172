"""What a plan of the day must keep, gathered from the file and the tables."""

from sanitize.studies.draws import Array
from sanitize.studies.hours.cooling import Chilling
from sanitize.studies.hours.flows import Flows
from sanitize.studies.hours.money import Shown
from sanitize.studies.hours.needs import Moved, NeedCases
from sanitize.studies.hours.numbers import hours_entry
from sanitize.studies.hours.result import Wishes
from sanitize.studies.hours.wishes import least_run_s, longest_idle, prices_of, segment_s


def wishes_of(
    moved: Moved,
    in_frost: NeedCases | None,
    flows: Flows,
    chiller: Chilling | None,
    chilled_s: Array,
    shown: Shown,
    *,
    has_ozone: bool,
) -> Wishes:
    """The wishes; in_frost: the need in frost, where there is one; chilled_s: the chiller's run time [s].

    has_ozone: whether an ozone unit takes part in the day.
    """
    plant, draws, timer = moved.plant, moved.draws, moved.timer
    bathers = plant.bathers

    def wished(stated: float | None, name: str) -> float:
        return hours_entry(name).value if stated is None else stated

    idle = longest_idle(plant, draws, timer).nominal
    if in_frost is not None and in_frost.is_every_day:
        idle = min(idle, hours_entry("frost_idle_s").value)
    unit = plant.chiller
    return Wishes(
        segment_s=segment_s(timer),
        least_run_s=least_run_s(plant, timer),
        most_runs_count=timer.runs_count,
        longest_idle_s=idle,
        quiet=timer.quiet,
        bathing=bathers.times if bathers is not None else (),
        run_before_s=wished(timer.run_before_s, "run_before_bathing_s"),
        run_during=timer.public_profile is not None,
        run_after_s=wished(timer.run_after_s, "run_after_bathing_s"),
        has_ozone=has_ozone,
        two_timers=timer.two_timers,
        clocks_apart_s=wished(timer.clocks_apart_s, "timer_apart_s") if timer.two_timers else 0.0,
        ozone_run_s=timer.ozone_run_s or 0.0,
        ozone_least_run_s=hours_entry("ozone_block_s").value,
        ozone_rest_s=wished(timer.ozone_rest_s, "ozone_rest_s"),
        chiller_run_s=None if chiller is None else shown(chilled_s),
        chiller_least_on_s=wished(unit.least_on_s if unit else None, "chiller_least_on_s"),
        chiller_least_off_s=wished(unit.least_off_s if unit else None, "chiller_least_off_s"),
        pump_power_w=shown(flows.power_w),
        chiller_power_w=None if chiller is None else shown(chiller.electric_w),
        prices=prices_of(timer),
    )
