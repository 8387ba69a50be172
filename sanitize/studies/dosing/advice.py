"""What lining, metals, index and fill water say beside the steps, and what the tests cannot see."""

from collections.abc import Sequence

from sanitize.basis.units import significant
from sanitize.plant.loop import Plant
from sanitize.studies.dosing.numbers import number
from sanitize.studies.dosing.plan import Plan
from sanitize.studies.dosing.products import ACIDS, harms_lining
from sanitize.studies.dosing.reading import Tested
from sanitize.studies.dosing.result import Drift, Expected
from sanitize.studies.dosing.targets import calcium_matters

_METALS = (("iron", "iron_mgl", "brown"), ("manganese", "manganese_mgl", "black"), ("copper", "copper_mgl", "green"))


def advice_of(
    plant: Plant, uses: str, plan: Plan, before: Expected, after: Expected, fill_known: bool
) -> tuple[str, ...]:
    """Sentences that depend on this tub."""
    found = [*_index(plant, after), *_materials(plant, plan)]
    low, high = before.hocl_mgl.ends[0], before.hocl_mgl.ends[2]
    if uses == "chlorine" and before.free_chlorine_mgl.ends[1] > 0.0 and high > 0.0:
        found.append(
            f"Of the free chlorine as tested, {significant(before.hocl_mgl.ends[1])} mg/L ({significant(low)} to "
            f"{significant(high)}) is hypochlorous acid, the form that acts; the colder the water, the slower it does."
        )
    if plant.fill_water is not None:
        for metal, field, colour in _METALS:
            band = getattr(plant.fill_water, field)
            if band is not None and band.high >= number(f"metal_in_fill_{metal}_mgl").value:
                found.append(
                    f"The fill water holds {metal}: an oxidizer can turn it {colour}. Fill through a filter that takes "
                    "metals, or a few hours before anything is added, and rinse the cartridge after."
                )
    if not fill_known:
        found.append("Test the fill water too and write [fill_water]: then a change of water can be worked out.")
    return tuple(found)


def leaves_range(drift: Sequence[Drift], highest_ph: float) -> tuple[str, ...]:
    """When the loss of carbon dioxide carries the pH past its range, and what slows that."""
    day = next((one for one in drift if one.ph.ends[1] > highest_ph), None)
    if day is None:
        return ()
    return (
        f"Within about {day.days:.0f} d the loss of carbon dioxide alone takes the pH above {highest_ph:.1f}, where "
        "chlorine acts less: test it every day or two, keep the alkalinity near the low end of its range, and add acid "
        "in small portions.",
    )


def by_itself(plan: Plan, drift: Sequence[Drift]) -> tuple[str, ...]:
    """Soda may be spared where the loss of carbon dioxide raises the pH of the water as it is."""
    if "sodium carbonate" not in plan.used:
        return ()
    day = drift[0]
    low, middle, high = day.ph.ends
    return (
        f"Soda may be spared: while the pump runs, carbon dioxide leaves, and within {day.days:.0f} d that alone may "
        f"bring the pH to {middle:.1f} ({low:.1f} to {high:.1f}). Wait a day, test, add soda only if it is still low.",
    )


def _index(plant: Plant, after: Expected) -> list[str]:
    index, least = after.saturation_index.ends[1], number("aggressive_index_low").value
    matters = calcium_matters(plant)
    if index < least and matters:
        return [
            f"After the steps the saturation index is still {index:.1f}: such water attacks cement, copper, brass and "
            "zinc. Raise calcium or alkalinity within their ranges, never the pH above its range."
        ]
    if index < least and matters is False:
        return [
            f"After the steps the saturation index is {index:.1f}, which is usual in cold soft water; with this lining "
            "and these metals it is for information, and no calcium is added for it."
        ]
    if index < least:
        return [
            f"After the steps the saturation index is {index:.1f}: that matters to cement, copper, brass and zinc. "
            "Write lining and wetted_metals into [tub], and the advice becomes definite."
        ]
    if index > number("scaling_index_high").value:
        return [
            f"After the steps the saturation index is {index:.1f}: chalk settles on the warmest surface and in the "
            "injector. Lower pH within its range first, then alkalinity or calcium by changing water."
        ]
    return []


def _materials(plant: Plant, plan: Plan) -> list[str]:
    found, used = [], set(plan.used)
    metals, lining = set(plant.tub.wetted_metals), plant.tub.lining or ""
    if {"stainless steel", "aluminium"} & {*metals, lining} and used & {"hydrochloric acid", "calcium chloride"}:
        found.append(
            "Chloride pits stainless steel and aluminium: spread it far from metal, with the pump running, and prefer "
            "sodium bisulfate as the acid."
        )
    spared = {item.product for item in plant.product if harms_lining(item.product, lining)}
    if "sodium bisulfate" in spared and used & set(ACIDS):
        found.append("The sodium bisulfate at hand is left out: sulfate attacks cement and grout.")
    if "hydrochloric acid" in spared and used & set(ACIDS):
        found.append("The hydrochloric acid at hand is left out: its chloride pits the steel of the tub.")
    if metals & {"copper", "brass", "bronze", "galvanized steel"} and used & set(ACIDS):
        found.append("Acid dissolves copper and zinc: never through the skimmer, the filter or the chiller.")
    if lining == "wood":
        found.append("Wood takes up chlorine and gives off tannin: expect a higher demand and brown water at first.")
    return found


def blind_spots_of(plant: Plant, uses: str, used: Sequence[str], tested: Tested) -> tuple[str, ...]:
    """What the tests of this tub cannot see or read wrongly."""
    have = {*used, *(item.product for item in plant.product)}
    found = []
    if uses == "peroxide" or "hydrogen peroxide" in have:
        found.append("Peroxide reads as chlorine in the usual colour tests: use strips made for peroxide.")
    if "potassium monopersulfate" in have:
        found.append("Monopersulfate reads as combined chlorine, in some tests as free: wait a day, or test before it.")
    if plant.ozone is not None:
        found.append(
            "Ozone reads as chlorine: take the sample with the ozone unit off for half an hour; a residual of ozone "
            "cannot be told apart beside chlorine or bromine."
        )
    if tested.temperature_c < number("cold_reagents_c").value:
        found.append(
            "Cold reagents and strips develop slowly and read low: let the sample come to room temperature in a full, "
            "closed vial, not in an open cup, whose pH rises."
        )
    if uses in ("chlorine", "bromine"):
        found.append(
            f"From about {number('bleaching_from_mgl').value:g} mg/L the colour bleaches and looks like none: if it "
            "flashes and fades, or the tub smells strongly, thin the sample with fill water and multiply."
        )
    combined = tested.combined.nominal > 0.0
    if (
        uses == "chlorine"
        and not combined
        and "cyanuric_acid" in tested.bands
        and tested.bands["cyanuric_acid"].nominal
    ):
        found.append("The free chlorine of a test holds all that is bound to cyanuric acid and hardly acts.")
    if "total_alkalinity" in tested.bands and uses == "chlorine":
        found.append(
            "Chlorine bleaches the indicator of alkalinity and pH: a drop of thiosulfate first, where the kit has it."
        )
    return tuple(found)
