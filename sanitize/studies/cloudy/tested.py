"""What the water tests of the file say of signs that nobody has answered, each reading with its error."""

from collections.abc import Callable
from datetime import date

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.notices import Notice
from sanitize.basis.tables import model_table
from sanitize.laws.chemistry.saturation import calcite_index
from sanitize.plant.loop import Plant
from sanitize.plant.water import WaterTest
from sanitize.studies.cloudy.told import Told
from sanitize.studies.dosing.numbers import number
from sanitize.studies.dosing.reading import Tested, in_order, solids_of, with_error
from sanitize.studies.dosing.result import Item
from sanitize.studies.dosing.start import tub_water
from sanitize.studies.dosing.targets import targets_of
from sanitize.studies.draws import Array, Draws, Mask

_RESIDUALS: dict[str, tuple[str, Item, str]] = {
    "chlorine": ("free_chlorine_mgl", "free_chlorine", "free chlorine"),
    "bromine": ("bromine_mgl", "bromine", "bromine"),
    "peroxide": ("peroxide_mgl", "peroxide", "peroxide"),
}
_BALANCE: dict[str, Item] = {
    "ph": "ph",
    "alkalinity_mgl": "total_alkalinity",
    "calcium_mgl": "calcium_hardness",
    "free_chlorine_mgl": "free_chlorine",
    "bromine_mgl": "bromine",
    "cyanuric_mgl": "cyanuric_acid",
}


def limit(name: str) -> float:
    """The nominal value of a row of the table of limits of clouded water."""
    return model_table("cloudy_limits")[(name,)].value


def told_by_sanitizer(plant: Plant) -> list[Told]:
    """A tub that is kept without a residual has none, whatever is tested."""
    if plant.sanitizer is None or plant.sanitizer.uses != "none":
        return []
    return [Told("residual_low", "low_sanitizer", 1.0, "[sanitizer] keeps no residual in the water", "loop file")]


def told_by_tests(plant: Plant, cases: int, seed: int) -> tuple[list[Told], list[Notice]]:
    """Signs by the latest water test, and what to know of it; nothing without a test.

    Raises InputError where a test's pH and alkalinity cannot stand together.
    """
    if not plant.water_test:
        return [], []
    notices = []
    if plant.sanitizer is None:
        notices.append(
            Notice(
                "sanitizer-not-named",
                "The file has a water test and no [sanitizer], so neither the residual nor the saturation index is "
                "weighed.",
            )
        )
    test = in_order(plant.water_test)[-1]
    draws = Draws(cases, seed)
    makers: tuple[Callable[[], list[Told]], ...] = (
        lambda: _above(draws, test, "ph", "ph", "ph_high", "chalk", "pH", limit("ph")),
        lambda: _above(
            draws, test, "cyanuric_mgl", "cyanuric_acid", "cyanuric_acid_high", "overstabilised",
            "cyanuric acid of", limit("cyanuric_acid_mgl"),
        ),
        lambda: _combined(draws, test),
        lambda: _residual(draws, plant, test),
        lambda: _solids(draws, plant, test),
        lambda: _chalk(draws, plant, test),
    )  # fmt: skip
    told = [item for make in makers for item in make()]
    if not told:
        notices.append(Notice("test-says-nothing", "The water test reads nothing that is weighed here."))
    return told, notices


def _drawn(draws: Draws, test: WaterTest, field: str, item: Item) -> Array | None:
    band = getattr(test, field)
    return None if band is None else draws.value(f"tested {field}", with_error(band, test.method, item))


def _when(test: WaterTest) -> str:
    return f" of {test.date.isoformat()}" if isinstance(test.date, date) else ""


def _told(test: WaterTest, sign: str, moves: str, where: Mask, reads: str) -> Told:
    return Told(sign, moves, float(np.mean(where[1:] if where.size > 1 else where)), f"the water test{_when(test)} "
                f"{reads}", "water test")  # fmt: skip


def _above(
    draws: Draws, test: WaterTest, field: str, item: Item, sign: str, moves: str, words: str, most: float
) -> list[Told]:
    values = _drawn(draws, test, field, item)
    if values is None:
        return []
    unit = "" if item == "ph" else " mg/L"
    return [
        _told(test, sign, moves, values > most, f"reads {words} {values[0]:.2g}{unit}, the limit is {most:g}{unit}")
    ]


def _combined(draws: Draws, test: WaterTest) -> list[Told]:
    """Total less free chlorine, each with its own error."""
    free = _drawn(draws, test, "free_chlorine_mgl", "free_chlorine")
    total = _drawn(draws, test, "total_chlorine_mgl", "free_chlorine")
    if free is None or total is None:
        return []
    combined, most = total - free, limit("combined_chlorine_mgl")
    reads = f"reads combined chlorine of {max(combined[0], 0.0):.2g} mg/L, the limit is {most:g} mg/L"
    return [_told(test, "combined_chlorine_high", "combined_chlorine", combined > most, reads)]


def _residual(draws: Draws, plant: Plant, test: WaterTest) -> list[Told]:
    """The residual of the sanitizer that the file names, against the lower end of its target."""
    if plant.sanitizer is None or plant.sanitizer.uses == "none":
        return []
    field, item, words = _RESIDUALS[plant.sanitizer.uses]
    values, wanted = _drawn(draws, test, field, item), targets_of(plant, plant.sanitizer).get(item)
    if values is None or wanted is None:
        return []
    least = wanted.band.low
    reads = f"reads {words} of {values[0]:.2g} mg/L, the target begins at {least:.2g} mg/L"
    return [_told(test, "residual_low", "low_sanitizer", values < least, reads)]


def _solids(draws: Draws, plant: Plant, test: WaterTest) -> list[Told]:
    tub = solids_of(test.solids_mgl, test.conductivity_us_cm)
    fill = None
    if plant.fill_water is not None:
        fill = solids_of(plant.fill_water.solids_mgl, plant.fill_water.conductivity_us_cm)
    if tub is None or fill is None:
        return []
    rise = draws.value("tested solids", tub) - draws.value("fill solids", fill)
    most = number("solids_over_fill_mgl").value
    reads = f"and that of the fill water differ by {rise[0]:.2g} mg/L of dissolved solids, the limit is {most:g} mg/L"
    return [_told(test, "solids_high", "old_water", rise > most, reads)]


def _chalk(draws: Draws, plant: Plant, test: WaterTest) -> list[Told]:
    """The saturation index of calcite, worked out as `dose` does."""
    if plant.sanitizer is None or test.ph is None or test.alkalinity_mgl is None or test.calcium_mgl is None:
        return []
    bands: dict[Item, Band] = {
        item: with_error(getattr(test, field), test.method, item)
        for field, item in _BALANCE.items()
        if getattr(test, field) is not None
    }
    temperature_c = plant.tub.temperature_c if test.temperature_c is None else test.temperature_c
    solids = solids_of(test.solids_mgl, test.conductivity_us_cm)
    holds, _ = tub_water(
        plant, Tested(plant.sanitizer, bands, Band.exact(0.0), solids, temperature_c, test.date, ()), draws
    )
    index, most = calcite_index(holds.ph, holds.carbon, holds.water), limit("chalk_index")
    reads = f"gives a saturation index of {index[0]:+.2g}, the limit is {most:+g}"
    return [_told(test, "chalk_index_high", "chalk", index > most, reads)]
