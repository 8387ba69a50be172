"""Wishes of a timer's plan in words: what each asks, and where the loop file says so."""

from sanitize.basis.units import show
from sanitize.plant.day import Window, clock
from sanitize.studies.hours.result import Hours
from sanitize.studies.timer.result import WishName

_KEYS: dict[WishName, str] = {
    "run time": "what asks for the run time",
    "longest idle time": "`longest_idle` in [timer]",
    "quiet hours": "`quiet` in [timer]",
    "run before bathing": "`run_before` in [timer]",
    "run after bathing": "`run_after` in [timer]",
    "run while bathing": "`times` in [bathers]",
    "shortest run": "`least_run` in [timer]",
    "most runs": "`most_runs` in [timer]",
    "ozone hours": "`ozone_hours` in [timer]",
    "ozone rest": "`times` in [bathers]",
    "shortest ozone run": "`ozone_hours` in [timer]",
    "clocks apart": "`clocks_apart` in [timer], with better clocks",
    "chiller hours": "what warms the water",
    "shortest chiller run": "`least_on` in [chiller], if its maker allows",
    "shortest chiller rest": "`least_off` in [chiller], if its maker allows",
}


def loosened(name: WishName) -> str:
    """Where the loop file says what may be loosened.

    >>> loosened("quiet hours")
    '`quiet` in [timer]'
    """
    return _KEYS[name]


def asked(name: WishName, hours: Hours) -> str:
    """What a wish asks, with its figure."""
    wishes, family = hours.wishes, hours.units

    def time(value_s: float) -> str:
        return show(value_s, "time", family)

    chiller_s = 0.0 if wishes.chiller_run_s is None else min(wishes.chiller_run_s.ends[1], hours.run_s.ends[1])
    what: dict[WishName, str] = {
        "run time": f"{time(hours.run_s.ends[1])} of pump a day",
        "longest idle time": f"no gap longer than {time(wishes.longest_idle_s)}",
        "quiet hours": f"the pump stands {_times(wishes.quiet)}",
        "run before bathing": f"it runs {time(wishes.run_before_s)} before bathing",
        "run after bathing": f"it runs {time(wishes.run_after_s)} after bathing",
        "run while bathing": f"it runs while people bathe ({_times(wishes.bathing)})",
        "shortest run": f"no run of the pump shorter than {time(wishes.least_run_s)}",
        "most runs": f"at most {wishes.most_runs_count} runs of the pump a day",
        "ozone hours": f"{time(wishes.ozone_run_s)} of ozone a day",
        "ozone rest": f"no ozone from {time(wishes.ozone_rest_s)} before bathing until its end",
        "shortest ozone run": f"no run of the ozone unit shorter than {time(wishes.ozone_least_run_s)}",
        "clocks apart": f"clocks {time(wishes.clocks_apart_s)} apart",
        "chiller hours": f"{time(chiller_s)} of chiller a day",
        "shortest chiller run": f"no run of the chiller shorter than {time(wishes.chiller_least_on_s)}",
        "shortest chiller rest": f"no rest of the chiller shorter than {time(wishes.chiller_least_off_s)}",
    }
    return f"{name} ({what[name]})"


def _times(windows: tuple[Window, ...]) -> str:
    return " and ".join(f"{clock(window.start_s)} to {clock(window.end_s)}" for window in windows)
