"""Tubs with water tests, their answers, and an independent program for the equilibria."""

from collections.abc import Callable
from datetime import date
from functools import cache
from typing import Any

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.plant.loop import Plant
from sanitize.studies.dosing.result import Dosing
from sanitize.studies.dosing.study import study_dosing

LOOP = """
format = 1
size = "3/4 in"
loop = [
  {part = "suction fitting", height = "0.2 m"},
  {part = "pump", height = "0.3 m", curve = [["0 L/min", "4 m"], ["50 L/min", "0 m"]]},
  {part = "return", height = "0.5 m"},
]

[tub]
volume = "VOLUME"
water_level = "0.7 m"
water_temperature = "10 degC"
TUB

[sanitizer]
uses = "USES"
scale_step = "0.1 g"
syringe_step = "0.1 mL"
"""
TODAY = date(2026, 4, 12)
BALANCED = {
    "ph": "7.4", "total_alkalinity": '"80 mg/L"', "calcium_hardness": '"150 mg/L"', "free_chlorine": '"3 mg/L"',
    "total_chlorine": '"3 mg/L"', "cyanuric_acid": '"0 mg/L"', "dissolved_solids": '"300 mg/L"', "method": '"drops"',
}  # fmt: skip
"""A test in which every item stands inside the ranges of a private cold tub."""


def plant_with(
    *products: str, uses: str = "chlorine", volume: str = "400 L", tub: str = "", more: str = "", **test: str | None
) -> Plant:
    """A 400 L tub; products: lines of a [[product]] each; test: fields that differ from BALANCED, None to leave out."""
    text = LOOP.replace("VOLUME", volume).replace("USES", uses).replace("TUB\n", f"{tub}\n") + more
    fields = {key: value for key, value in (BALANCED | test).items() if value is not None}
    text += "\n[[water_test]]\n" + "\n".join(f"{key} = {value}" for key, value in fields.items()) + "\n"
    for product in products:
        text += f"\n[[product]]\n{product}\n"
    return read_plant(text).plant


@pytest.fixture(scope="session")
def water_plant() -> Callable[..., Plant]:
    return plant_with


@pytest.fixture(scope="session")
def dosed() -> Callable[..., Dosing]:
    """The nominal answer for such a tub; with cases, its ranges."""

    @cache
    def study(*products: str, cases: int = 0, **how: str | None) -> Dosing:
        return study_dosing(plant_with(*products, **how), TODAY, cases=cases)

    return study


@pytest.fixture(scope="session")
def phreeqc() -> Callable[..., Any]:
    """A solution of PHREEQC from pure water and a recipe in mmol for each kg, at a temperature [degC]."""
    import phreeqpython

    program = phreeqpython.PhreeqPython(database="phreeqc.dat")

    def solution(recipe: dict[str, float], temperature_c: float) -> Any:
        made = program.add_solution({"temp": temperature_c})
        for formula, amount in recipe.items():
            made.add(formula, amount, "mmol")
        return made

    return solution
