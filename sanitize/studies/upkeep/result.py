"""What the study of the upkeep answers."""

from dataclasses import dataclass

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.tables import Standing
from sanitize.basis.units import Family
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.dosing.result import Item


@dataclass(frozen=True)
class Interval:
    """Two tests and what lies between: days, what was added after the first, both readings, what the fit expects."""

    days: float
    added_mgl: float
    first_mgl: Figure
    second_mgl: Figure
    expected_mgl: Figure


@dataclass(frozen=True)
class Dose:
    """What is added of one product for one purpose, with its range; unit: g or mL."""

    product: str
    strength: str
    unit: str
    amount: Figure


@dataclass(frozen=True)
class Drain:
    """When one thing calls for a change of the water: days from a fresh filling, and why."""

    days: Figure
    why: str
    source: str
    standing: Standing


@dataclass(frozen=True)
class Upkeep:
    """Daily use of the residual, what to add and how often, and when to drain.

    decay_per_day and dip_demand_g, of chlorine or what else is used, before and after the tests; use at the target in
    the middle; every_days: from the high to the low end of the target; left_to_carry_g_per_day: by the ozone study's
    balance, None without ozone; never_bathers: whether the file names none.
    """

    title: str
    units: Family
    uses: str
    item: Item
    target_low_mgl: float
    target_mgl: float
    target_high_mgl: float
    intervals: tuple[Interval, ...]
    decay_per_day_before: Figure
    decay_per_day: Figure
    dip_demand_g_before: Figure
    dip_demand_g: Figure
    dips_per_day: float
    use_mgl_per_day: Figure
    use_g_per_day: Figure
    one_dip_mgl: Figure
    every_days: Figure
    daily_dose: Dose
    dose_to_top: Dose
    after_dip_dose: Dose | None
    left_to_carry_g_per_day: Figure | None
    drains: tuple[Drain, ...]
    effective_cases_count: int
    cases_count: int
    seed: int
    notices: tuple[Notice, ...]
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
