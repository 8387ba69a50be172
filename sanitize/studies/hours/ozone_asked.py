"""How long the ozone unit is to run where the file does not say: by the balance, and not in a room that bears none."""

from typing import NamedTuple

import numpy as np

from sanitize.basis.errors import InputError, NoSolutionError
from sanitize.basis.notices import Notice
from sanitize.basis.units import show
from sanitize.plant.day import DAY_S, Timer
from sanitize.plant.loop import Plant
from sanitize.studies.hours.numbers import hours_entry
from sanitize.studies.operating_point.run import injector_of
from sanitize.studies.ozone.result import Ozone
from sanitize.studies.ozone.study import study_ozone

CASES = 128


class OzoneAsked(NamedTuple):
    """The plant with the ozone unit's hours and rest in its timer, whether they are ours, and what to know of them.

    stays_off: whether the unit is to run at no time of the day.
    """

    plant: Plant
    is_ours: bool
    notices: tuple[Notice, ...]
    stays_off: bool = False


def ozone_asked(plant: Plant, seed: int) -> OzoneAsked:
    """Hours that the bathers' demand asks for, off before bathing until room and water have fallen below their limits.

    Nothing is asked for where the room does not bear what leaves the tub, at the worst end of its range: no number of
    hours brings the air under a limit that holds at every moment. Nor where the unit falls short all day: the pump then
    runs for its other needs, and the ozone with it.
    """
    timer = plant.timer or Timer()
    if plant.ozone is None or injector_of(plant) is None or timer.ozone_run_s is not None:
        return OzoneAsked(plant, False, ())
    try:
        found = study_ozone(plant, CASES, seed)
    except (NoSolutionError, InputError) as error:
        reason = str(error).split(";", 1)[0]
        return OzoneAsked(plant, False, (_notice(f"the balance of the ozone has no answer here ({reason})."),))
    if found.room_worst_ppmv is not None and found.room_worst_ppmv > found.room_limit_ppmv:
        assumed = "a shut room the size of a bathroom, assumed as the file describes none,"
        room = assumed if _assumes(found) else "this room"
        text = (
            f"{room} may come to {found.room_worst_ppmv:.2g} ppm, above {found.room_limit_ppmv:.2g} ppm, at "
            "whatever hours it runs: the plan leaves the unit off. `sanitize ozone` says what would bring it under."
        )
        return OzoneAsked(plant, False, (_notice(text),), stays_off=True)
    supply_g_per_s = 1e-3 * found.dissolved_mg_per_h.ends[1] / 3600.0
    need_g = found.oxidant_need_g_per_day.ends[1]
    wanted_s = need_g / supply_g_per_s if supply_g_per_s > 0.0 else np.inf
    if need_g <= 0.0:
        return OzoneAsked(plant, False, (_notice("no bathers are given, and without them nothing asks for ozone."),))
    if wanted_s > DAY_S:
        text = (
            f"even all day it brings {100.0 * DAY_S / wanted_s:.0f} % of what bathers bring (`sanitize ozone`), so "
            "that it asks for no run time of its own; another sanitizer carries the rest."
        )
        return OzoneAsked(plant, False, (_notice(text),))
    run_s = float(max(wanted_s, hours_entry("ozone_block_s").value))
    rest_s = timer.ozone_rest_s
    if rest_s is None:
        rest_s = max(hours_entry("ozone_rest_s").value, _wait_s(found))
    told = (
        f"{show(run_s, 'time', plant.units)} cover what bathers bring a day, by the balance of `sanitize ozone`; "
        "another sanitizer is needed all the same."
    )
    chosen = timer.model_copy(update={"ozone_run_s": run_s, "ozone_rest_s": rest_s})
    rest = f" It is off {show(rest_s, 'time', plant.units)} before anybody gets in: an estimate, never a clearance."
    return OzoneAsked(plant.model_copy(update={"timer": chosen}), True, (_notice(told + rest),))


def _assumes(found: Ozone) -> bool:
    return found.room is not None and found.room.is_assumed


def _wait_s(found: Ozone) -> float:
    """The longer of the waits for air and water, at the high end of their range [s]."""
    air = 0.0 if found.air_wait_s is None else found.air_wait_s.ends[2]
    return float(max(air, found.water_wait_s.ends[2]))


def _notice(text: str) -> Notice:
    return Notice("ozone-hours-not-given", f"The file does not say how long the ozone unit is to run: {text}")
