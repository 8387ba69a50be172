"""An independent program for the equilibria, shared by the tests of this family."""

from collections.abc import Callable
from typing import Any

import phreeqpython
import pytest

Recipe = dict[str, float]


@pytest.fixture(scope="session")
def phreeqc() -> Callable[..., Any]:
    """A solution of PHREEQC from pure water and a recipe in mmol for each kg, at a temperature [degC]."""
    program = phreeqpython.PhreeqPython(database="phreeqc.dat")

    def solution(recipe: Recipe, temperature_c: float) -> Any:
        made = program.add_solution({"temp": temperature_c})
        for formula, amount in recipe.items():
            made.add(formula, amount, "mmol")
        return made

    return solution
