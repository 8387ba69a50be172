"""Tables in double brackets, water tests and products, and what must fit together in each of them."""

from collections.abc import Mapping
from typing import Any

from sanitize.loopfile.fields import Fields, read_fields
from sanitize.loopfile.reading import Reading, row_place
from sanitize.loopfile.wording import listed, shown
from sanitize.plant.loop import ROW_TABLES
from sanitize.plant.spec import specs
from sanitize.plant.water import HYPOCHLORITE_SOLUTION, LIQUIDS, WaterTest

MOST_ROWS = 200


def read_rows(doc: Mapping[str, Any], reading: Reading) -> dict[str, list[Fields]]:
    """The fields of every table in double brackets, checked one by one."""
    found: dict[str, list[Fields]] = {}
    for name, record in ROW_TABLES.items():
        raw = doc.get(name)
        if raw is None:
            continue
        if not isinstance(raw, list) or not raw or not all(isinstance(item, dict) for item in raw):
            stands = "stands in single brackets" if isinstance(raw, dict) else f"{shown(raw)} is no list of tables"
            reading.problem(f"[[{name}]]", stands, "tables in double brackets, one or several", f"[[{name}]]")
            continue
        if len(raw) > MOST_ROWS:
            reading.problem(f"[[{name}]]", f"there are {len(raw)} of them", f"at most {MOST_ROWS}")
            continue
        found[name] = [
            read_fields(record, item, row_place(name, number, reading), f"[[{name}]]", reading)
            for number, item in enumerate(raw, start=1)
        ]
    for fields in found.get("water_test", []):
        _check_test(fields, reading)
    for fields in found.get("product", []):
        _check_product(fields, reading)
    return found


def _check_test(fields: Fields, reading: Reading) -> None:
    tested = [
        spec.key for spec in specs(WaterTest).values() if spec.key not in ("date", "method", "temperature", "added")
    ]
    if not fields.given.intersection(tested):
        reading.problem(fields.place.at("ph"), "nothing was tested", listed(tested), "ph = 7.4")
    free, total = fields.values.get("free_chlorine_mgl"), fields.values.get("total_chlorine_mgl")
    if free is not None and total is not None and total.nominal < free.nominal:
        reading.problem(
            fields.place.at("total_chlorine"),
            f"{total.nominal:g} mg/L lies below the free chlorine ({free.nominal:g} mg/L), which is a part of it",
            "at least the free chlorine; test both again from one sample",
        )
    if "bromine" in fields.given and fields.given & {"free_chlorine", "total_chlorine"}:
        reading.problem(
            fields.place.at("bromine"),
            "stands beside chlorine, and the tests cannot tell the two apart",
            "bromine in a tub that holds bromide, else chlorine",
        )
    if {"dissolved_solids", "conductivity"} <= fields.given:
        reading.problem(fields.place.at("conductivity"), "stands beside dissolved_solids", "one of the two")


def _check_product(fields: Fields, reading: Reading) -> None:
    word = fields.values.get("product")
    if word is None:
        return
    liquid = word in LIQUIDS
    if liquid and "strength_percent" not in fields.given:
        reading.problem(
            fields.place.at("strength_percent"),
            f"is missing, and {word} is sold in strengths that differ by a factor of ten",
            "the percentage on its label",
            "strength_percent = 12.5",
        )
    if word == HYPOCHLORITE_SOLUTION and "strength_by" not in fields.given:
        reading.problem(
            fields.place.at("strength_by"),
            "is missing: of chlorine by volume or of hypochlorite by weight, which differ by a tenth or more",
            '"volume" for percent as chlorine in g in 100 mL, "weight" for percent NaOCl in g in 100 g',
            'strength_by = "volume"',
        )
    if not liquid and "strength_by" in fields.given:
        reading.problem(fields.place.at("strength_by"), f"{word} is no liquid", "no such line")
    if word != HYPOCHLORITE_SOLUTION and "age" in fields.given:
        reading.problem(
            fields.place.at("age"), f"only a hypochlorite solution is reckoned by its age, not {word}", "no such line"
        )
