"""The products at hand in the tests of dosing, and how much of one a plan takes."""

from sanitize.studies.dosing.result import Dosing, Step

HYPOCHLORITE = 'product = "sodium hypochlorite"\nstrength_percent = 12.5\nstrength_by = "volume"'
BISULFATE = 'product = "sodium bisulfate"\nstrength_percent = 93'
BICARBONATE = 'product = "sodium bicarbonate"\nstrength_percent = 100'
SODA = 'product = "sodium carbonate"\nstrength_percent = 100'
CALCIUM = 'product = "calcium chloride"\nstrength_percent = 77'
ALL = (HYPOCHLORITE, BISULFATE, BICARBONATE, SODA, CALCIUM)


def amount(step: Step) -> float:
    return step.mass_g if step.mass_g is not None else step.volume_ml or 0.0


def total(result: Dosing, product: str) -> float:
    """What is planned of a product, the portions left over among it."""
    steps = [step for step in result.steps if step.product == product]
    return steps[0].portions_count * amount(steps[0]) if steps else 0.0
