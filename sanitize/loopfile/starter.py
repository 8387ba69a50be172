"""A commented loop file to start from, generated from the declarations of its fields."""

import textwrap
from collections.abc import Iterator, Mapping

from sanitize.loopfile.top_level import BASED_ON, FORMAT_SPEC, LOOP, PARTS_FILE, SIZE, TITLE, UNITS, WAY
from sanitize.plant.loop import PART_TYPES, ROW_TABLES, TABLES
from sanitize.plant.part import Part
from sanitize.plant.spec import Record, Spec, specs

_WIDE = 110
_TITLE = "Orchard larch tub"
_CURVE = '[["0 L/min", "4.6 m"], ["25 L/min", "3.6 m"], ["50 L/min", "0 m"]]'
_LOOP: tuple[tuple[str, Mapping[str, str]], ...] = (
    ("suction fitting", {"height": '"0.15 m"', "cover_rated_flow": '"120 L/min"'}),
    ("flexible hose", {"name": '"suction hose"', "length": '"1.2 m"'}),
    ("pump", {"height": '"0.10 m"', "power": '"60 W"', "curve": _CURVE}),
    ("filter", {"drop": '"5 kPa"', "at_flow": '"40 L/min"', "media_area": '"2.8 m2"'}),
    ("pipe", {"length": '"0.6 m"'}),
    ("elbow 90", {"count": "2"}),
    ("split", {"ways": '["side stream", "bypass"]', "straight": '"bypass"'}),
    ("flexible hose", {"name": '"return hose"', "length": '"1.4 m"'}),
    ("return", {"height": '"0.45 m"'}),
)  # fmt: skip
_WAYS: dict[str, tuple[tuple[str, Mapping[str, str]], ...]] = {
    '"side stream"': (("injector", {"throat": '"8 mm"', "height": '"0.80 m"'}),),
    "bypass": (("throttle valve", {"handle": '"60 deg"'}),),
}
_TABLES: dict[str, Mapping[str, str]] = {
    "tub": {
        "volume": '"380 L"',
        "water_level": '"0.70 m"',
        "rim": '"0.82 m"',
        "water_temperature": '"7 degC"',
        "place": '"outdoors"',
    },
    "gas_line": {
        "length": '"1.5 m"',
        "bore": '"4 mm"',
        "check_valve_opens_at": '"unknown"',
        "highest_point": '"1.40 m"',
    },
    "ozone": {"output": '"60 mg/h"', "at_gas_flow": '"1.5 L/min"', "height": '"1.30 m"'},
}
_FOR_HOURS = dict.fromkeys(("bathers", "timer", "chiller", "surroundings"), "it serves `sanitize hours`")
_FOR_DOSE = dict.fromkeys(
    ("fill_water", "sanitizer", "water_test", "product"), "fill it in when you want to know what to add to the water"
)
_LEFT_OUT = {
    "room": "this tub stands outdoors",
    "measured": "nothing was measured so far",
    "fitted": "`sanitize fit` writes it",
    **_FOR_HOURS,
    **_FOR_DOSE,
}
_INTRODUCTION = (
    "A loop file: the parts that the water meets, in their order, and the tub around them.",
    "The tub of this file is invented; put your own in its place and take out what you do not have.",
    'Quantities stand in quotes with a unit, metric or US, as you like: "5.5 m", "3/4 in", "8 gpm", "43 degF".',
    'A value may say how sure it is: "2.2 m +- 5 cm", "2.2 m +- 3 %", "2.2 m (2.0 m to 2.5 m)".',
    'Where this file says so, "unknown" may stand: a wide range is then taken, and the answer tells what to measure.',
    "Heights are all measured upward from one mark, usually the floor, to the middle of the part at its outlet.",
)


def starter_file() -> str:
    """The text of a loop file that reads without problems, with every table and field explained."""
    lines = [line for sentence in _INTRODUCTION for line in _comment(sentence)]
    lines.append("")
    for spec, value in (
        (FORMAT_SPEC, FORMAT_SPEC.example),
        (TITLE, f'"{_TITLE}"'),
        (UNITS, '"metric"'),
        (SIZE, SIZE.example),
    ):
        lines += _field(spec, value)
    for spec in (BASED_ON, PARTS_FILE):
        lines += _field(spec, "")
    lines += ["", *_comment(LOOP.help), *_comment("It stands above the first [table], and so do the ways."), "loop = ["]
    lines += [f"  {_part(word, values)}," for word, values in _LOOP]
    lines += ["]", *_comment(WAY.help)]
    for name, parts in _WAYS.items():
        lines.append(f"way.{name} = [{', '.join(_part(word, values) for word, values in parts)}]")
    for name, record in TABLES.items():
        lines += ["", *_table(name, record)]
    for name, record in ROW_TABLES.items():
        lines += ["", *_table(name, record, several=True)]
    lines += ["", *_comment("Every part that may stand in the loop, with its fields; first those that all parts have.")]
    lines += _fields_of_part(Part, needs_height=False)
    for record in PART_TYPES:
        lines += _kind_of_part(record)
    return "\n".join(lines) + "\n"


def _comment(text: str, mark: str = "# ") -> list[str]:
    return textwrap.wrap(text, _WIDE, initial_indent=mark, subsequent_indent=mark, break_long_words=False)


def _part(word: str, values: Mapping[str, str]) -> str:
    return "{" + ", ".join([f'part = "{word}"', *(f"{key} = {value}" for key, value in values.items())]) + "}"


def _field(spec: Spec, value: str) -> Iterator[str]:
    """A field with its help above it; without a value its example stands as a comment."""
    unknown = ' May be "unknown".' if spec.unknown else ""
    yield from _comment(spec.help + unknown)
    yield f"{spec.key} = {value}" if value else f"# {spec.key} = {spec.example}"


def _table(name: str, record: type[Record], *, several: bool = False) -> Iterator[str]:
    values = _TABLES.get(name)
    why = "" if values is not None else f" Left out here: {_LEFT_OUT[name]}."
    yield from _comment((record.__doc__ or name).strip().partition("\n")[0] + why)
    header = f"[[{name}]]" if several else f"[{name}]"
    yield header if values is not None else f"# {header}"
    for spec in specs(record).values():
        yield from _field(spec, (values or {}).get(spec.key, ""))


def _kind_of_part(record: type[Part]) -> Iterator[str]:
    yield "#"
    yield from _comment(f"{', '.join(record.words)}: {record.help}")
    yield from _fields_of_part(record, needs_height=record.needs_height)


def _fields_of_part(record: type[Part], *, needs_height: bool) -> Iterator[str]:
    """The fields of a kind of part that other parts do not have, and the height where it must be given."""
    common = specs(Part)
    for attribute, spec in specs(record).items():
        required = spec.required or (needs_height and spec.key == "height")
        if record is Part or attribute not in common or required:
            yield from _comment(f"{spec.key} = {spec.example}{' (required)' if required else ''}: {spec.help}", "#   ")
