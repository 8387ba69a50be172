"""A small loop file as text, with one or more parts of the test's own in it."""

from collections.abc import Callable

import pytest

LoopText = Callable[..., str]

_SUCTION = '{part = "suction fitting", height = "0.20 m"}'
_PUMP = '{part = "pump", height = "0.30 m", curve = [["30 L/min", "3 m"]]}'
_RETURN = '{part = "return", height = "0.55 m"}'
_TUB = '[tub]\nvolume = "430 L"\nwater_level = "0.80 m"\nwater_temperature = "6 degC"\n'


@pytest.fixture(scope="session")
def loop_text() -> LoopText:
    """Suction fitting, pump, the given parts, return; size "" leaves the file's size out."""

    def build(*parts: str, size: str = "3/4 in", ways: str = "", suction: str = _SUCTION, tail: str = "") -> str:
        rows = "".join(f"  {part},\n" for part in (suction, _PUMP, *parts, _RETURN))
        top = f'size = "{size}"\n' if size else ""
        return f"format = 1\n{top}loop = [\n{rows}]\n{ways}\n{_TUB}{tail}"

    return build
