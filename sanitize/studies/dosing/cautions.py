"""The cautions of those who handle the products."""

from collections.abc import Sequence

from sanitize.plant.loop import Plant
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.cautions.rule import AUTHORITY
from sanitize.studies.dosing.conflicts import all_conflicts
from sanitize.studies.dosing.numbers import number
from sanitize.studies.dosing.products import peroxide_by_weight

LABEL = "the product's label and safety data sheet"
POISON = "the poison centre and the emergency services"
HANDLING = Caution(
    code="chemicals-handling",
    severity="caution",
    text="Every product here burns eyes and skin or harms the lungs, as a dust, a fume or a splash.",
    action=(
        "Eye protection and gloves of the kind that the label names; outdoors or well aired; one product at a time; "
        "the chemical into water, never water onto the chemical; a cup or dry scoop of its own for each."
    ),
    source="maryland_pool_chemicals",
    defers_to=LABEL,
)
STORAGE = Caution(
    code="chemicals-storage",
    severity="caution",
    text="Products that leak into each other on a shelf burn or give off poison gas, also after days.",
    action=(
        "Dry, cool, aired, locked and in their own containers; acids, chlorine products and peroxide apart from each "
        "other and from anything that burns; liquids below, never above solids."
    ),
    source="",
    defers_to=LABEL,
)
POISONING = Caution(
    code="chemicals-poisoning",
    severity="caution",
    text="Swallowed, breathed or in the eye, these products do harm within seconds.",
    action=(
        "Write the number of your poison centre beside the shelf. Eye or skin: rinse with much water for a quarter of "
        "an hour, then to a doctor. Swallowed: no vomiting, call. Fumes: out into fresh air, call, do not go back in."
    ),
    source="",
    defers_to=POISON,
)
RULES_OF_THE_PLACE = Caution(
    code="chemicals-local-rules",
    severity="caution",
    text=(
        "These steps come from readings with errors; what may be used, how much may be in the water when people get "
        "in, and where water may be let out is ruled by place."
    ),
    action=(
        "Nobody in the water while chemicals go in and until a test after the last wait reads inside the range and "
        "inside the product's label; let water out by the local rules, with the chlorine gone."
    ),
    source="",
    defers_to=AUTHORITY,
)
PEROXIDE_STATUS = Caution(
    code="peroxide-alone",
    severity="caution",
    text=(
        "Hydrogen peroxide is a supplementary oxidizer: it acts slowly on germs, many places do not accept it alone, "
        "and New South Wales, for one, wants chlorine or bromine in public pools."
    ),
    action="Ask what is accepted where you are; change the water the more often; keep the bathers few and showered.",
    source="nsw_public_health_2012",
    defers_to=AUTHORITY,
)
NO_RESIDUAL = Caution(
    code="no-residual",
    severity="caution",
    text="The file keeps no residual in the water: what one bather brings stays for the next.",
    action="Chlorine or bromine, or fresh water for each use; ask what is accepted where you are.",
    source="nsw_public_health_2012",
    defers_to=AUTHORITY,
)
STRONG_PEROXIDE = Caution(
    code="strong-peroxide",
    severity="danger",
    text=(
        "Peroxide does serious harm to eyes from 8 % on, burns skin and feeds fire from 35 % on; above 12 % the "
        "European Union does not let the general public have it without a licence."
    ),
    action=(
        "Use 3 to 6 % instead; else full face protection, gloves, apron, water at hand, nothing that burns near it, a "
        "vented container."
    ),
    source="eu_2019_1148",
    defers_to=LABEL,
)


def cautions_of(plant: Plant, uses: str, used: Sequence[str]) -> tuple[Caution, ...]:
    """The cautions of this tub's products, dangers first."""
    found: list[Caution] = []
    strengths = [ratio for item in plant.product if (ratio := peroxide_by_weight(item)) is not None]
    if any(ratio > number("strong_peroxide_ratio").value for ratio in strengths):
        found.append(STRONG_PEROXIDE)
    if used or plant.product:
        found += [HANDLING, STORAGE, POISONING]
    if uses == "peroxide":
        found.append(PEROXIDE_STATUS)
    if uses == "none":
        found.append(NO_RESIDUAL)
    return (*found, RULES_OF_THE_PLACE)


def all_dosing_cautions() -> tuple[Caution, ...]:
    """Every caution that a dose may carry, conflicts between products among them."""
    conflicts = [Caution(one.code, one.severity, one.text, one.action, one.source, LABEL) for one in all_conflicts()]
    plain = (HANDLING, STORAGE, POISONING, RULES_OF_THE_PLACE, PEROXIDE_STATUS, NO_RESIDUAL, STRONG_PEROXIDE)
    return (*conflicts, *plain)
