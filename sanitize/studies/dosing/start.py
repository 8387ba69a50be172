"""The water over the cases, from a test and from what is known of the fill water."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.errors import InputError, Problem
from sanitize.basis.notices import Notice
from sanitize.laws.chemistry.cyanurate import CYANURIC_GMOL
from sanitize.laws.chemistry.halogens import BROMINE_GMOL, CHLORINE_GMOL, PEROXIDE_GMOL
from sanitize.laws.chemistry.saturation import CALCIUM_CARBONATE_GMOL
from sanitize.plant.loop import Plant
from sanitize.studies.dosing.numbers import number
from sanitize.studies.dosing.products import STABILISED
from sanitize.studies.dosing.reading import Tested, fill_bands, solids_of
from sanitize.studies.dosing.result import Item
from sanitize.studies.dosing.water import Holds, alkalinity_eq, alkalinity_mgl, least_alkalinity
from sanitize.studies.draws import Array, Draws

_NONE = Band.exact(0.0)


def tub_water(plant: Plant, tested: Tested, draws: Draws) -> tuple[Holds, tuple[Notice, ...]]:
    """The tub's water as tested; raises InputError where pH and alkalinity cannot stand together."""
    bands, notices = dict(tested.bands), list[Notice]()
    if "calcium_hardness" not in bands:
        known = fill_bands(plant.fill_water).get("calcium_hardness") if plant.fill_water is not None else None
        bands["calcium_hardness"] = known or number("calcium_untested_mgl").band
        taken = "that of the fill water" if known else f"{number('calcium_untested_mgl').value:g} mg/L"
        notices.append(
            Notice("calcium-untested", f"Calcium hardness was not tested: {taken} stands in, and none is dosed.")
        )
    stabilised = any(item.product in STABILISED for item in plant.product)
    if not stabilised and "cyanuric_acid" in bands and bands["cyanuric_acid"].nominal == 0.0:
        bands["cyanuric_acid"] = _NONE
    if "cyanuric_acid" not in bands and plant.sanitizer is not None and plant.sanitizer.uses == "chlorine":
        bands["cyanuric_acid"] = number("cyanuric_untested_mgl").band if stabilised else _NONE
        taken = f"{bands['cyanuric_acid'].nominal:g} mg/L" if stabilised else "none"
        notices.append(
            Notice(
                "stabiliser-untested",
                f"Cyanuric acid was not tested, {taken} is taken: it decides how much of the chlorine acts.",
            )
        )
    solids = tested.solids
    if solids is None:
        solids = number("solids_untested_mgl").band
        notices.append(
            Notice("solids-untested", f"Dissolved solids were not tested: {solids.nominal:g} mg/L stand in.")
        )
    holds, raised = _holds("water_test", bands, tested.combined, solids, tested.temperature_c, draws)
    if raised[0]:
        raise InputError(
            [
                Problem(
                    "[[water_test]] total_alkalinity",
                    f"{bands['total_alkalinity'].nominal:g} mg/L cannot stand beside pH {bands['ph'].nominal:g} and "
                    "what else was read: hydroxide and weak acids alone hold more",
                    f"at least {float(alkalinity_mgl(holds.alkalinity)[0]):.2g} mg/L; test both again",
                )
            ]
        )
    if raised.any():
        notices.append(
            Notice(
                "alkalinity-near-none",
                "The reading error of the alkalinity reaches down to less than the pH allows; there the least stands.",
            )
        )
    return holds, tuple(notices)


def fill_water(plant: Plant, temperature_c: float, draws: Draws) -> Holds | None:
    """The fill water at the tub's temperature, where the file gives its pH and alkalinity."""
    if plant.fill_water is None:
        return None
    bands = fill_bands(plant.fill_water)
    if "ph" not in bands or "total_alkalinity" not in bands:
        return None
    bands.setdefault("calcium_hardness", number("calcium_untested_mgl").band)
    solids = solids_of(plant.fill_water.solids_mgl, plant.fill_water.conductivity_us_cm)
    holds, _ = _holds("fill_water", bands, _NONE, solids or number("solids_untested_mgl").band, temperature_c, draws)
    return holds


def _holds(
    key: str, bands: Mapping[Item, Band], combined: Band, solids: Band, temperature_c: float, draws: Draws
) -> tuple[Holds, np.ndarray[tuple[int, ...], np.dtype[np.bool_]]]:
    """The water, and the cases whose alkalinity had to be raised to the least that their pH allows."""

    def drawn(item: Item) -> Array:
        return draws.value(f"{key}.{item}", bands.get(item, _NONE))

    ph = draws.value(f"{key}.ph", bands["ph"])
    zero = np.zeros(draws.size)
    calcium = drawn("calcium_hardness") / (1e3 * CALCIUM_CARBONATE_GMOL)
    holds = Holds(
        temperature_c=temperature_c,
        hypobromous_pk=draws.value("hypobromous_pk", number("hypobromous_pk").band),
        alkalinity=alkalinity_eq(drawn("total_alkalinity")),
        carbon=zero,
        calcium=calcium,
        sodium=zero,
        chlorine=drawn("free_chlorine") / (1e3 * CHLORINE_GMOL),
        combined=draws.value(f"{key}.combined", combined) / (1e3 * CHLORINE_GMOL),
        bromine=drawn("bromine") / (1e3 * BROMINE_GMOL),
        bromide=zero,
        cyanuric=drawn("cyanuric_acid") / (1e3 * CYANURIC_GMOL),
        peroxide=drawn("peroxide") / (1e3 * PEROXIDE_GMOL),
        persulfate=zero,
        solids_mgl=draws.value(f"{key}.solids", solids),
    )
    least = least_alkalinity(ph, holds)
    raised = holds.alkalinity < least
    holds = replace(holds, alkalinity=np.maximum(holds.alkalinity, least))
    holds = replace(holds, sodium=np.maximum(holds.alkalinity - 2.0 * calcium, 0.0))
    return holds.with_ph(ph), raised
