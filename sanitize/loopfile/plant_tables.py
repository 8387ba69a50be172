"""The tables around the loop: tub, room, gas line, ozone unit, and what must fit together in them."""

import math
from collections.abc import Collection, Mapping
from typing import Any

from sanitize.basis.band import Band
from sanitize.basis.units import show, show_range
from sanitize.loopfile.fields import Fields, missing_text, read_fields, spec_of
from sanitize.loopfile.quantities import stand_in
from sanitize.loopfile.reading import Reading, table_place
from sanitize.loopfile.wording import listed, shown
from sanitize.plant.gas import GasLine, OzoneUnit
from sanitize.plant.injector import Injector
from sanitize.plant.loop import TABLES
from sanitize.plant.machines import Chiller, Filter
from sanitize.plant.part import Part

VOLUMES_AGREE_RATIO = 0.10
_DIMENSIONS = {
    "cylinder": ("inside_diameter", "water_depth"),
    "box": ("inside_length", "inside_width", "water_depth"),
}
_READ_AT_THE_INJECTOR = ("port_vacuum", "port_vacuum_open", "inlet_pressure", "outlet_pressure", "gas_flow")
_ALL_DIMENSIONS = ("inside_diameter", "inside_length", "inside_width", "water_depth")


def read_tables(doc: Mapping[str, Any], meant: Collection[str], reading: Reading) -> dict[str, Fields]:
    """The fields of every table that the file holds, checked one by one.

    meant: tables that a misspelt one most likely means.
    """
    found: dict[str, Fields] = {}
    if "tub" not in {*doc, *meant} and not reading.base_lost:
        reading.problem("[tub]", "is missing", "a table [tub] with water_level, water_temperature, and volume or shape")
    for name, record in TABLES.items():
        raw = doc.get(name)
        if raw is None:
            continue
        if not isinstance(raw, dict):
            many = isinstance(raw, list) and all(isinstance(item, dict) for item in raw)
            found_text = "stands in double brackets or as a list" if many else f"{shown(raw)} is no table"
            reading.problem(f"[{name}]", found_text, "one table", f"[{name}]")
            continue
        found[name] = read_fields(record, raw, table_place(name, reading), f"[{name}]", reading)
        if name == "tub":
            _tub(found[name], reading)
            level = found[name].values.get("water_level_m")
            reading.water_level_m = level.nominal if isinstance(level, Band) else 0.0
    if "gas_line" in found:
        _gas_line(found["gas_line"], reading)
    if "ozone" in found:
        _ozone(found["ozone"], reading)
    return found


def check_tables(
    found: Mapping[str, Fields], doc: Mapping[str, Any], lacks: Collection[type[Part]], reading: Reading
) -> None:
    """Note what does not fit together between the tables, and between them and the loop.

    lacks: of injector, filter and chiller those that the loop surely has not.
    """
    if "measured" in found:
        _measured(found["measured"], doc, lacks, reading)
    if Injector in lacks:
        for name in ("gas_line", "ozone"):
            if name in doc:
                reading.problem(
                    f"[{name}]", "there is no injector in the loop for it", "an injector in the loop, or no such table"
                )
    _hours_tables(found, reading)
    if "fitted" in found:
        _fitted(found["fitted"], reading)
    tub, ozone = found.get("tub"), found.get("ozone")
    if tub is not None and "room" in found:
        _room(found["room"], tub, reading)
    if ozone is not None and "drop" in ozone.given and not {"at_gas_flow", "outputs"} & ozone.given:
        write = 'at_gas_flow = "2 L/min"'
        reading.problem(ozone.place.at("drop"), "means nothing without `at_gas_flow`", write=write)
    if "ozone" in doc and tub is not None and "place" not in tub.given:
        reading.problem(
            tub.place.at("place"),
            "is missing, and [ozone] needs it: ozone gathers in a room",
            '"indoors", "outdoors"',
            'place = "indoors"',
        )


def _room(room: Fields, tub: Fields, reading: Reading) -> None:
    """A room must hold the tub: a slip of the unit would else pass for a room of a few litres."""
    air_m3, water_m3 = room.values.get("volume_m3"), tub.values.get("volume_m3")
    if air_m3 is not None and water_m3 is not None and air_m3 <= water_m3:
        air, water = (show(value, "volume", reading.family, 3) for value in (air_m3, water_m3))
        reading.problem(
            room.place.at("volume"),
            f"{air} is no room for a tub of {water}",
            "the volume of the room's air, more than the tub's water",
            'volume = "38 m3"',
        )


def _measured(fields: Fields, doc: Mapping[str, Any], lacks: Collection[type[Part]], reading: Reading) -> None:
    """Readings of parts that are not there."""
    read_at: tuple[tuple[type[Part], str, tuple[str, ...]], ...] = (
        (Filter, "a filter", ("filter_drop",)),
        (Injector, "an injector", _READ_AT_THE_INJECTOR),
        (Chiller, "a chiller", ("chiller_drop",)),
    )
    for part, what, keys in read_at:
        for key in keys:
            if part in lacks and key in fields.given:
                found = f"there is no {what.split()[1]} in the loop for it"
                reading.problem(fields.place.at(key), found, f"{what} in the loop")
    if "chiller_drop" in fields.given and "chiller" not in doc:
        where = fields.place.at("chiller_drop")
        reading.problem(where, "there is no [chiller] for it", "a table [chiller]", '[chiller] with capacity = "900 W"')


def _fitted(fields: Fields, reading: Reading) -> None:
    unknowns, cases = fields.values.get("unknowns"), fields.values.get("cases")
    if unknowns is not None and cases is not None and len(cases[0]) != len(unknowns):
        reading.problem(
            fields.place.at("cases"),
            f"its rows have {len(cases[0])} numbers for {len(unknowns)} unknowns",
            "as many as there are unknowns; fit again rather than mend this by hand",
        )


def _hours_tables(found: Mapping[str, Fields], reading: Reading) -> None:
    """What must fit together in the tables behind the run time and the timer."""
    timer, chiller, around = found.get("timer"), found.get("chiller"), found.get("surroundings")
    if timer is not None and {"price", "prices"} <= timer.given:
        reading.problem(timer.place.at("prices"), "cannot stand together with `price`", "one of the two")
    if timer is not None and "two_timers" in timer.given and "ozone" not in found:
        reading.problem(timer.place.at("two_timers"), "there is no [ozone] for it", "a table [ozone], or no such line")
    if timer is not None and "ozone_hours" in timer.given and "ozone" not in found:
        reading.problem(timer.place.at("ozone_hours"), "there is no [ozone] for it", "a table [ozone], or no such line")
    if timer is not None and "ozone_times" in timer.given:
        where = timer.place.at("ozone_times")
        if "ozone" not in found:
            reading.problem(where, "there is no [ozone] for it", "a table [ozone], or no such line")
        if "pump_times" not in timer.given:
            reading.problem(timer.place.at("pump_times"), "is missing: `ozone_times` needs it", "when the pump runs")
    if chiller is not None and not {"capacity", "power"} & chiller.given:
        where = chiller.place.at("capacity")
        reading.problem(where, "is missing, and `power` too", "`capacity`, `power` or both", 'capacity = "900 W"')
    for what in ("wall", "lid"):
        thickness = f"{what}_thickness"
        if around is not None and (what in around.given) != (thickness in around.given):
            missing = what if thickness in around.given else thickness
            reading.problem(around.place.at(missing), f"is missing: `{what}` and `{thickness}` belong together")


def _tub(fields: Fields, reading: Reading) -> None:
    _volume(fields, reading)
    rim, level = fields.values.get("rim_m"), fields.values.get("water_level_m")
    if rim is not None and level is not None and rim.nominal < level.nominal:
        heights = [show(value.nominal, "length", reading.family, 3) for value in (rim, level)]
        reading.problem(
            fields.place.at("rim"),
            f"{heights[0]} lies below the water level ({heights[1]})",
            "a rim at or above the water level, from the same mark",
        )


def _volume(fields: Fields, reading: Reading) -> None:
    """Volume from the dimensions inside, where the file gives a shape."""
    given, place = fields.given, fields.place
    if "shape" not in given:
        dimensions = [key for key in _ALL_DIMENSIONS if key in given]
        if dimensions:
            found = f"is missing, and {listed(dimensions)} mean nothing without it"
            reading.problem(place.at("shape"), found, '"cylinder", "box"', 'shape = "cylinder"')
        elif "volume" not in given:
            reading.problem(
                place.at("volume"), "is missing", "`volume`, or `shape` with its inside dimensions", 'volume = "430 L"'
            )
        return
    shape_m3 = _shape_volume_m3(fields, reading)
    if shape_m3 is None:
        return
    stated_m3 = fields.values.get("volume_m3")
    if "volume" not in given:
        fields.values["volume_m3"] = shape_m3
    elif stated_m3 is not None and abs(stated_m3 - shape_m3) > VOLUMES_AGREE_RATIO * stated_m3:
        stated, inside = (show(value, "volume", reading.family, 3) for value in (stated_m3, shape_m3))
        reading.problem(
            place.at("volume"),
            f"{stated} and the inside dimensions ({inside}) are more than 10 % apart",
            "one of the two, or both in agreement",
        )


def _shape_volume_m3(fields: Fields, reading: Reading) -> float | None:
    """The volume of the stated shape; None when there was a problem."""
    shape = fields.values.get("shape")
    if shape is None:
        return None
    needed = _DIMENSIONS[shape]
    for key in _ALL_DIMENSIONS:
        where = fields.place.at(key)
        if key in fields.given and key not in needed:
            reading.problem(where, f"is no dimension of a {shape}", listed(needed))
        elif key in needed and key not in fields.given:
            reading.problem(where, f"is missing, and a {shape} needs it", listed(needed), f'{key} = "0.80 m"')
    sides = [fields.values[f"{key}_m"] for key in needed if f"{key}_m" in fields.values]
    if len(sides) < len(needed):
        return None
    return math.pi / 4.0 * float(sides[0]) ** 2 * float(sides[1]) if shape == "cylinder" else math.prod(sides)


def _gas_line(fields: Fields, reading: Reading) -> None:
    """The opening pressure of the check valve, where the file does not give it."""
    spec = spec_of(GasLine, "check_valve_opens_at")
    assert spec is not None
    none = fields.values.get("check_valve") is False
    if none:
        if spec.key in fields.given:
            reading.problem(
                fields.place.at(spec.key), "cannot stand together with check_valve = false", "one of the two"
            )
        fields.values["opens_at_pa"] = Band.exact(0.0)
    elif spec.key not in fields.given:
        band = stand_in(spec, 0.0)
        fields.values["opens_at_pa"] = band
        text = show_range(band.low, band.nominal, band.high, spec.kind, reading.family)
        reading.notice(
            "assumed-check-valve",
            f"{fields.place.at(spec.key)} is not given; {text} stands in. Measure it {spec.measure}.",
        )


def _ozone(fields: Fields, reading: Reading) -> None:
    """The rated point of an ozone unit from its outputs, where the file gives those."""
    given, values = fields.given, fields.values
    if "outputs" not in given:
        if "output" not in given:
            spec = spec_of(OzoneUnit, "output")
            assert spec is not None
            reading.problem(fields.place.at("output"), missing_text(spec), write=f"output = {spec.example}")
        return
    for key in ("output", "at_gas_flow"):
        if key in given:
            reading.problem(fields.place.at(key), "cannot stand together with `outputs`", "one of the two")
    if "outputs" in values:
        values["at_gas_flow_m3s"], values["output_mg_per_h"] = max(values["outputs"], key=lambda point: point[1])
