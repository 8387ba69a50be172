"""Notices of the run time: what was assumed, and what was left out."""

from sanitize.basis.notices import Notice
from sanitize.basis.units import show
from sanitize.plant.heat import Surroundings
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Chiller
from sanitize.studies.hours.flows import Flows, pumps_without_power
from sanitize.studies.hours.gains import Gains
from sanitize.studies.hours.numbers import heat_entry


def notices_of_hours(plant: Plant, flows: Flows, gains: Gains) -> tuple[Notice, ...]:
    """Everything that a reader of the run time must know beside it."""
    return (
        *_about_water(plant, flows),
        *_about_machines(plant),
        *_about_heat(plant, gains),
    )


def _about_water(plant: Plant, flows: Flows) -> list[Notice]:
    found = []
    if not flows.has_filter:
        found.append(
            Notice("no-filter", "The loop has no filter: turnovers mix the water and clear nothing out of it.")
        )
    if plant.bathers is None:
        found.append(
            Notice(
                "no-bathers",
                "No [bathers] are given: what they ask for is left out, as are haze and the days until draining.",
            )
        )
    elif plant.bathers.per_day > 0.0 and plant.bathers.haze_each_m3 is None:
        found.append(
            Notice(
                "haze-assumed",
                "The haze that a bather brings is an assumption that nobody measured; a turbidity meter before and "
                "after bathing tells it (`haze_each` in [bathers]).",
            )
        )
    return found


def _about_machines(plant: Plant) -> list[Notice]:
    found = []
    for name in pumps_without_power(plant):
        found.append(
            Notice(
                "pump-power-assumed",
                f"The electric power of {name} is not given; it is taken from what it gives the water.",
            )
        )
    has_part = any(isinstance(part, Chiller) for part in walk(plant.loop))
    if plant.chiller is None:
        text = (
            "The loop has a chiller, but no table [chiller] says what it takes out of the water: cooling is left out."
            if has_part
            else "No [chiller] is given: cooling asks for no run time."
        )
        found.append(Notice("no-chiller", text))
    elif not has_part:
        found.append(
            Notice(
                "chiller-not-in-loop",
                'No part = "chiller" stands in the loop: its pressure drop is not counted.',
            )
        )
    if any(isinstance(part, Injector) for part in walk(plant.loop)):
        found.append(
            Notice(
                "flows-with-gas",
                "Where the injector draws, the flows hold with the gas line open: less water moves, the less the more "
                "gas. How much gas is drawn is uncertain; a bucket at the return tells the water.",
            )
        )
    return found


def _about_heat(plant: Plant, gains: Gains) -> list[Notice]:
    around = plant.surroundings or Surroundings()
    found = []
    if gains.areas.is_assumed:
        found.append(
            Notice(
                "areas-assumed",
                "Walls and surface are those of a round tub as deep as it is wide: give `shape` in [tub], or the areas "
                "in [surroundings].",
            )
        )
    missing = [
        words
        for words, value in (
            ("the air's temperature", around.air_c),
            ("its humidity", around.humidity_ratio),
            ("the wall", around.wall),
            ("the lid", around.lid),
            ("the time under the lid", around.covered_s),
        )
        if value is None
    ]
    if missing:
        found.append(
            Notice(
                "surroundings-assumed",
                f"Not given in [surroundings]: {', '.join(missing)}; wide ranges stand in, and the heat is rough.",
            )
        )
    if float(gains.sweating_wm2(plant.tub.temperature_c, gains.air_c)[0]) > 0.0:
        found.append(
            Notice(
                "walls-sweat",
                "The outside of the walls lies below the dew point of the air: it sweats, and drips on what stands "
                "below.",
            )
        )
    found += _about_room(plant)
    if plant.tub.place == "outdoors":
        found.append(
            Notice(
                "sun-left-out",
                "Sun on the water and the walls is left out, and the sky counts as warm as the air: full sun on an "
                "open surface may double the heat, a clear night may take it away.",
            )
        )
        if around.coldest_air_c is None:
            found.append(Notice("coldest-air-not-given", "Frost is judged by the mean air only: give `coldest_air`."))
    elif plant.tub.place is None:
        found.append(Notice("place-assumed", "The file does not say where the tub stands: its heat is that of a room."))
    if plant.chiller is not None and plant.chiller.start_c is None:
        set_point = show(plant.tub.temperature_c, "temperature", plant.units)
        found.append(
            Notice(
                "start-not-given",
                f"The time to cool down to {set_point} needs `start_temperature` in [chiller].",
            )
        )
    return found


def _about_room(plant: Plant) -> list[Notice]:
    """A chiller that warms the room in which it takes the heat out of the water."""
    unit, room = plant.chiller, plant.room
    if unit is None or room is None or plant.tub.place == "outdoors":
        return []
    ratio = heat_entry("chiller_cop_ratio").value
    capacity = unit.capacity_w if unit.capacity_w is not None else ratio * (unit.electric_w or 0.0)
    least = heat_entry("chiller_room_m3_per_w").value * capacity
    if room.volume_m3 >= least:
        return []
    return [
        Notice(
            "chiller-warms-room",
            "An air-cooled chiller in the room gives the room all that it takes out of the water, and its own power: "
            f"without ventilation a room of less than {show(least, 'volume', plant.units)} grows warm, and the "
            "chiller weak.",
        )
    ]
