"""Decay and bathers' demand from two or more tests, and the upkeep that follows.

Every case holds a decay, a demand of a dip and readings within their errors; cases count by how well the residual that
they carry from test to test meets the next reading.
"""

from itertools import pairwise

import numpy as np

from sanitize.basis.band import Band
from sanitize.basis.errors import InputError, NoSolutionError, Problem
from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.tables import model_table
from sanitize.laws.chemistry.cyanurate import CYANURIC_GMOL
from sanitize.laws.chemistry.halogens import BROMINE_GMOL, CHLORINE_GMOL, PEROXIDE_GMOL
from sanitize.laws.chemistry.products import BRINGS
from sanitize.laws.chemistry.residual import days_between, residual_after_mgl
from sanitize.laws.ozone.oxidant_balance import chlorine_left_to_carry_g_per_day
from sanitize.laws.ozone.reactions import OZONE_GMOL
from sanitize.plant.loop import Plant
from sanitize.plant.water import WaterTest
from sanitize.studies.dosing.cautions import HANDLING, POISONING, RULES_OF_THE_PLACE, STORAGE
from sanitize.studies.dosing.numbers import number
from sanitize.studies.dosing.products import CHLORINE, STABILISED, AtHand, usable
from sanitize.studies.dosing.reading import in_order, with_error
from sanitize.studies.dosing.result import Item
from sanitize.studies.dosing.targets import targets_of
from sanitize.studies.draws import SEED, Array, Draws
from sanitize.studies.figures import figure
from sanitize.studies.hours.replacement import replacement_of
from sanitize.studies.operating_point.run import injector_of
from sanitize.studies.ozone.study import study_ozone
from sanitize.studies.upkeep.result import Dose, Drain, Interval, Upkeep

CASES = 16384
FEW_EFFECTIVE_CASES = 100
FAR_ERRORS = 4.0
ONE_SIDED_90_PERCENT = 1.645
_FIELDS: dict[str, tuple[str, Item, float]] = {
    "chlorine": ("free_chlorine_mgl", "free_chlorine", CHLORINE_GMOL),
    "bromine": ("bromine_mgl", "bromine", BROMINE_GMOL),
    "peroxide": ("peroxide_mgl", "peroxide", PEROXIDE_GMOL),
}
"""What is read of each, what it is called, and the mass of a mole of it as it is read."""
_SERVES: dict[str, tuple[str, ...]] = {
    "chlorine": CHLORINE,
    "bromine": ("bromine tablets", *CHLORINE, "potassium monopersulfate"),
    "peroxide": ("hydrogen peroxide",),
}


class _Cases:
    """Decay, demand and tests over the cases, and how much each case counts."""

    def __init__(self, plant: Plant, tests: list[WaterTest], uses: str, cases: int, seed: int) -> None:
        field, self.item, self.gmol = _FIELDS[uses]
        draws = Draws(cases, seed)
        self.litres = 1000.0 * plant.tub.volume_m3
        self.dips = 0.0 if plant.bathers is None else plant.bathers.per_day
        decay = number("residual_decay_per_h").band
        self.decay = draws.value("decay", Band(24.0 * decay.low, 24.0 * decay.nominal, 24.0 * decay.high, "log"))
        ozone_g = model_table("ozone_water")[("bather_demand_g",)].band
        self.dip_g = draws.value("dip", ozone_g) * self.gmol / OZONE_GMOL
        self.use = self.dips * self.dip_g * 1000.0 / self.litres
        self.bands = [with_error(getattr(test, field), test.method, self.item) for test in tests]
        self.days = [_days(first, second) for first, second in pairwise(tests)]
        self.added = [test.added_mgl or 0.0 for test in tests[:-1]]
        now = draws.value("first test", self.bands[0])
        misfit, self.expected = np.zeros(draws.size), []
        for days, added, band in zip(self.days, self.added, self.bands[1:], strict=True):
            now = residual_after_mgl(now + added, self.decay, self.use, days)
            self.expected.append(now)
            misfit += ((now - band.nominal) / _error(band)) ** 2
        self.misfit = misfit
        weights = np.exp(-0.5 * (misfit[1:] - misfit[1:].min()))
        weights /= weights.sum()
        self.effective = int(1.0 / np.sum(weights**2))
        places = (np.random.default_rng(seed).random() + np.arange(weights.size)) / weights.size
        picked = np.searchsorted(np.cumsum(weights), places).clip(0, weights.size - 1)
        self.kept = np.concatenate([[int(np.argmax(weights))], picked]) + 1

    def shown(self, values: Array) -> Figure:
        """A number over the cases that explain the tests."""
        found = figure(values[self.kept])
        middle = float(np.median(values[self.kept]))
        return Figure.of(min(found.ends[0], middle), middle, max(found.ends[2], middle))


def study_upkeep(plant: Plant, cases: int = CASES, seed: int = SEED, notices: tuple[Notice, ...] = ()) -> Upkeep:
    """Daily use of the residual, fitted to two or more tests; how much to add, how often, and when to drain.

    plant: the checked loop with [sanitizer] and tests; cases: a power of two; seed: of the draw; notices: what reading
    the file left. Raises InputError where the tests do not allow an answer.
    """
    uses, tests = _tests_of(plant)
    found = _Cases(plant, tests, uses, cases, seed)
    _refuse_far(found)
    sanitizer = plant.sanitizer
    assert sanitizer is not None
    wanted = targets_of(plant, sanitizer)[found.item].band
    use = found.use + found.decay * wanted.nominal
    product = _product(plant, uses)

    def dose(mgl: Figure) -> Dose:
        factor = found.litres / 1000.0 / found.gmol / float(product.mol_per_unit[0])
        ends = [end * factor for end in mgl.ends]
        return Dose(product.product, product.strength, product.unit, Figure(*ends))

    one_dip = found.dip_g * 1000.0 / found.litres
    every = days_between(wanted.high, wanted.low, found.decay, found.use)
    span = wanted.high - wanted.low
    before = figure(found.decay), figure(found.dip_g)
    drains = _drains(plant, found, use, product)
    left = _left_to_carry(plant)
    cautions = (HANDLING, STORAGE, POISONING, RULES_OF_THE_PLACE)
    keys = {drain.source for drain in drains} | {caution.source for caution in cautions}
    return Upkeep(
        title=plant.title,
        units=plant.units,
        uses=uses,
        item=found.item,
        target_low_mgl=wanted.low,
        target_mgl=wanted.nominal,
        target_high_mgl=wanted.high,
        intervals=tuple(
            Interval(days, added, _ends(first), _ends(second), found.shown(expected))
            for days, added, first, second, expected in zip(
                found.days, found.added, found.bands, found.bands[1:], found.expected, strict=False
            )
        ),
        decay_per_day_before=before[0],
        decay_per_day=found.shown(found.decay),
        dip_demand_g_before=before[1],
        dip_demand_g=found.shown(found.dip_g),
        dips_per_day=found.dips,
        use_mgl_per_day=found.shown(use),
        use_g_per_day=found.shown(use * found.litres / 1000.0),
        one_dip_mgl=found.shown(one_dip),
        every_days=found.shown(every),
        daily_dose=dose(found.shown(use)),
        dose_to_top=dose(Figure(span, span, span)),
        after_dip_dose=None if found.dips <= 0.0 else dose(found.shown(one_dip)),
        left_to_carry_g_per_day=left,
        drains=drains,
        effective_cases_count=found.effective,
        cases_count=cases,
        seed=seed,
        notices=(*notices, *_notices(plant, found, span)),
        cautions=cautions,
        sources=tuple(sorted(keys - {""})),
    )


def _tests_of(plant: Plant) -> tuple[str, list[WaterTest]]:
    """What keeps the residual, and the dated tests that read it in their order; raises InputError with every reason."""
    problems: list[Problem] = []
    uses = "" if plant.sanitizer is None else plant.sanitizer.uses
    if uses not in _FIELDS:
        found = "keeps no residual whose use could be fitted" if uses else "is missing: what keeps a residual"
        raise InputError([Problem("[sanitizer]", found, "chlorine, bromine or peroxide", 'uses = "chlorine"')])
    field, item, _ = _FIELDS[uses]
    tests = [test for test in in_order(plant.water_test) if getattr(test, field) is not None]
    if len(tests) < 2:
        problems.append(
            Problem(
                "[[water_test]]",
                f"{len(tests)} test reads" if len(tests) == 1 else "no test reads",
                f"two tests or more with {item} and date",
                f'{item} = "2 mg/L"',
            )
        )
    if any(test.date is None for test in tests):
        problems.append(Problem("[[water_test]]", "a test has no date", "a date for each", "date = 2026-03-14"))
    days = [test.date for test in tests if test.date is not None]
    if len(set(days)) < len(days):
        problems.append(
            Problem("[[water_test]]", "two tests have the same date", "tests that lie at least a day apart")
        )
    if problems:
        raise InputError(problems)
    return uses, tests


def _days(first: WaterTest, second: WaterTest) -> float:
    assert first.date is not None
    assert second.date is not None
    return float((second.date - first.date).days)


def _error(band: Band) -> float:
    return max((band.high - band.low) / (2.0 * ONE_SIDED_90_PERCENT), 0.02)


def _ends(band: Band) -> Figure:
    return Figure(band.low, band.nominal, band.high)


def _refuse_far(found: _Cases) -> None:
    """Raise for a test that no case comes near."""
    problems = []
    for index, (expected, band) in enumerate(zip(found.expected, found.bands[1:], strict=True)):
        miss = np.abs(expected[1:] - band.nominal) / _error(band)
        if miss.min() > FAR_ERRORS:
            nearest = float(expected[1:][int(np.argmin(miss))])
            rises = band.nominal > found.bands[index].nominal + found.added[index]
            why = "more than there was and what was added" if rises else "no decay and no bathers explain it"
            problems.append(
                Problem(
                    f"[[water_test]] number {index + 2}",
                    f"it reads {band.nominal:.2g} mg/L, the nearest case {nearest:.2g}: {why}",
                    "what was added after the test before it, as `added`; the bathers as they were; or a new test",
                    'added = "2 mg/L"',
                )
            )
    if problems:
        raise InputError(problems)


def _product(plant: Plant, uses: str) -> AtHand:
    """The product that keeps the residual up: one at hand before one to buy, a plain one before a stabilised one."""
    items = [item for item in usable(plant, uses, False, Draws(0, SEED)) if item.product in _SERVES[uses]]
    return sorted(items, key=lambda item: (not item.at_hand, item.product in STABILISED))[0]


def _left_to_carry(plant: Plant) -> Figure | None:
    """Chlorine, or its equal, that ozone running all day leaves to the residual [g/d]; None without ozone."""
    if plant.ozone is None or injector_of(plant) is None:
        return None
    try:
        ozone = study_ozone(plant, 128)
    except NoSolutionError:
        return None
    need, supply = ozone.oxidant_need_g_per_day.ends, ozone.oxidant_supply_g_per_day.ends
    low, nominal, high = (
        float(chlorine_left_to_carry_g_per_day(a, b)) for a, b in zip(need, reversed(supply), strict=True)
    )
    return Figure(low, nominal, high)


def _drains(plant: Plant, found: _Cases, use: Array, product: AtHand) -> tuple[Drain, ...]:
    """Each reason to change the water, in days from a fresh filling."""
    drains = []
    replaced = replacement_of(plant)
    if replaced is not None:
        days = Figure(replaced.interval_d, replaced.interval_d, replaced.interval_d)
        drains.append(Drain(days, "replacement by volume and bathers", replaced.source, replaced.standing))
    brings, mol_per_day = BRINGS[product.product], use / 1000.0 / found.gmol
    if brings.solids_g > 0.0:
        limit = number("solids_over_fill_mgl")
        days_to = limit.value / np.maximum(mol_per_day * brings.solids_g * 1000.0, 1e-9)
        drains.append(
            Drain(found.shown(days_to), f"salts that {product.product} leaves behind", limit.source, limit.standing)
        )
    if brings.cyanuric > 0.0:
        most = model_table("water_targets")[("private cold tub", "cyanuric_acid")]
        days_to = most.high / np.maximum(mol_per_day * brings.cyanuric * CYANURIC_GMOL * 1000.0, 1e-9)
        why = f"stabiliser that {product.product} leaves behind"
        drains.append(Drain(found.shown(days_to), why, most.source, most.standing))
    return tuple(sorted(drains, key=lambda drain: drain.days.ends[1]))


def _notices(plant: Plant, found: _Cases, span: float) -> list[Notice]:
    notices = []
    if plant.bathers is None:
        notices.append(
            Notice("bathers-unknown", "The file names no bathers, so all of the use counts as decay: state [bathers].")
        )
    if found.effective < FEW_EFFECTIVE_CASES:
        notices.append(
            Notice("few-cases-fit-tests", "Few cases fit the tests together: the ranges behind them are rough.")
        )
    if found.dips > 0.0 and found.shown(found.dip_g).ends[2] * 1000.0 / found.litres > span:
        notices.append(
            Notice(
                "one-dip-may-use-it-up",
                "A single dip may use up more than the target's whole range: test and add after every dip.",
            )
        )
    return notices
