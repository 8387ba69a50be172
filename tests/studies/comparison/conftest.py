"""Files for the tests of comparisons: a loop of one way, each of its sections replaceable."""

from collections.abc import Callable, Mapping

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.studies.comparison.described import Described

GAS = """
[gas_line]
length = "1.6 m"
bore = "4 mm"
check_valve_opens_at = "1.5 kPa"
highest_point = "1.90 m"
[ozone]
output = "90 mg/h"
at_gas_flow = "8 L/min"
height = "1.80 m"
"""
TUB = """
[tub]
volume = "400 L"
water_level = "0.80 m"
rim = "0.90 m"
water_temperature = "10 degC"
place = "outdoors"
"""
SECTIONS = {
    "suction": '{part = "suction fitting", height = "0.20 m"}, '
    '{part = "flexible hose", name = "suction hose", length = "0.6 m"}',
    "pump": '{part = "pump", height = "0.10 m", '
    'curve = [["0 L/min", "5 m"], ["50 L/min", "4 m"], ["100 L/min", "0 m"]]}',
    "between": '{part = "flexible hose", name = "riser", length = "0.8 m"}',
    "injector": '{part = "injector", throat = "15 mm", height = "0.55 m", loss_ratio = 0.5}',
    "back": '{part = "flexible hose", name = "return hose", length = "3.0 m"}, {part = "return", height = "0.50 m"}',
    "ways": "",
    "top": 'size = "1 in"',
    "tub": TUB,
    "tables": GAS,
}
Changed = str | tuple[str, str]
TextOf = Callable[..., str]
FileOf = Callable[..., Described]


@pytest.fixture(scope="session")
def text_of() -> TextOf:
    """The text of a file from its sections: suction, pump, between pump and injector, injector, back; then tables.

    A section is given whole, with THIS for what stands there by default, or as what to replace in that by what.
    """

    def build(**changed: Changed) -> str:
        own = dict(SECTIONS)
        for name, value in changed.items():
            usual = SECTIONS[name]
            own[name] = value.replace("THIS", usual) if isinstance(value, str) else usual.replace(*value)
        parts = ", ".join(own[name] for name in ("suction", "pump", "between", "injector", "back") if own[name])
        return f"format = 1\n{own['top']}\nloop = [{parts}]\n{own['ways']}\n{own['tub']}\n{own['tables']}"

    return build


@pytest.fixture(scope="session")
def file_of(text_of: TextOf) -> FileOf:
    """A file by its label and its sections, or by its text and those of the files that it names."""

    def build(
        label: str = "A", *, text: str = "", others: Mapping[str, str] | None = None, **changed: Changed
    ) -> Described:
        reader = None if others is None else others.__getitem__
        loaded = read_plant(text or text_of(**changed), path=f"{label}.toml", reader=reader)
        return Described(label, f"{label}.toml", loaded.plant, loaded.written, loaded.notices)

    return build
