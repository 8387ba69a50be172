"""What a procedure must know of a tub: its water, how fast it turns over, and how much chlorine raises it."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.notices import Notice
from sanitize.basis.tables import model_table
from sanitize.basis.units import Family, show, significant
from sanitize.laws.chemistry.halogens import CHLORINE_GMOL
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Filter
from sanitize.studies.dosing.flow import stirred
from sanitize.studies.dosing.products import CHLORINE, STABILISED, AtHand, usable
from sanitize.studies.draws import SEED, Draws

CASES = 128


@dataclass(frozen=True)
class Facts:
    """A tub as its procedures see it.

    uses: what keeps a residual, empty where the file does not say; turnover_s: at the slow end of its range, None
    where the loop has no flow.
    """

    plant: Plant
    uses: str
    family: Family
    turnover_s: float | None
    has_filter: bool
    has_ozone: bool
    notices: tuple[Notice, ...]

    def number(self, name: str) -> float:
        """A number of the procedures."""
        return model_table("procedure_numbers")[(name,)].value

    def time_s(self, turnovers: str, least: str) -> float:
        """So many turnovers, but no less than a least time; both by their names in the table."""
        slow = 0.0 if self.turnover_s is None else self.turnover_s
        return max(self.number(turnovers) * slow, self.number(least))

    @property
    def volume(self) -> str:
        """The tub's volume in words."""
        return show(self.plant.tub.volume_m3, "volume", self.family)

    def chlorine(self, rise_mgl: float) -> str:
        """How much of the chlorine product at hand raises the whole tub by so much, in words."""
        item = self._chlorine_product()
        moles = rise_mgl / 1000.0 * 1000.0 * self.plant.tub.volume_m3 / CHLORINE_GMOL
        amount = moles / float(item.mol_per_unit[0])
        return f"{significant(amount)} {item.unit} of {item.product} ({item.strength})"

    def _chlorine_product(self) -> AtHand:
        items = [item for item in usable(self.plant, "chlorine", False, Draws(0, SEED)) if item.product in CHLORINE]
        plain = [item for item in items if item.product not in STABILISED]
        return (plain or items)[0]


def facts_of(plant: Plant, seed: int) -> Facts:
    """What the procedures need of a plant."""
    flow = stirred(plant, CASES, seed)
    slow = None
    if flow.turnover_s is not None and np.isfinite(flow.turnover_s.ends[2]):
        slow = flow.turnover_s.ends[2]
    return Facts(
        plant=plant,
        uses="" if plant.sanitizer is None else plant.sanitizer.uses,
        family=plant.units,
        turnover_s=slow,
        has_filter=any(isinstance(part, Filter) for part in walk(plant.loop)),
        has_ozone=plant.ozone is not None,
        notices=flow.notices,
    )
