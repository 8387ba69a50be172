"""The study of the doses: from a plant with its water test to the steps."""

from collections.abc import Mapping
from datetime import date
from math import inf

from sanitize.basis.band import Band
from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.plant.loop import Plant
from sanitize.studies.dosing.advice import advice_of, blind_spots_of, by_itself, leaves_range
from sanitize.studies.dosing.cautions import cautions_of
from sanitize.studies.dosing.change import amount_of, change_water, surely, too_high
from sanitize.studies.dosing.conflicts import conflicts_of, destroyer_of
from sanitize.studies.dosing.drift import drift_of
from sanitize.studies.dosing.flow import stirred
from sanitize.studies.dosing.least import unopposed_doses
from sanitize.studies.dosing.notes import destroyed_of, plan_notices, unreached_of
from sanitize.studies.dosing.numbers import number
from sanitize.studies.dosing.plan import Plan, Tools, make_plan
from sanitize.studies.dosing.products import usable
from sanitize.studies.dosing.reading import read_tests
from sanitize.studies.dosing.result import FIELDS, Dosing, Expected, Item, Place, Target
from sanitize.studies.dosing.start import fill_water, tub_water
from sanitize.studies.dosing.targets import Wanted, targets_of
from sanitize.studies.dosing.water import Holds, alkalinity_mgl
from sanitize.studies.draws import SEED, Draws
from sanitize.studies.figures import figure

CASES = 128


def study_dosing(
    plant: Plant,
    today: date | None = None,
    max_age_days: float = inf,
    notices: tuple[Notice, ...] = (),
    *,
    cases: int = CASES,
    seed: int = SEED,
) -> Dosing:
    """What to add to the water, how much, in which order and how long apart.

    plant: the checked loop; today: the day of the question, None where the age of the test does not matter;
    notices: what reading the file left; cases: a power of two or 0.
    Raises InputError where test or targets do not allow an answer.
    """
    tested = read_tests(plant, today, max_age_days)
    sanitizer, uses = tested.sanitizer, tested.sanitizer.uses
    draws = Draws(cases, seed)
    start, start_notices = tub_water(plant, tested, draws)
    wanted = targets_of(plant, sanitizer)
    if "calcium_hardness" not in tested.bands:
        wanted.pop("calcium_hardness")
    error = number("volume_error_ratio").value
    litres = 1000.0 * plant.tub.volume_m3
    volume_l = draws.value("tub.volume", Band((1.0 - error) * litres, litres, (1.0 + error) * litres))
    fill = fill_water(plant, start.temperature_c, draws)
    combined = wanted.get("combined_chlorine")
    combined_is_high = combined is not None and tested.combined.nominal > combined.band.high
    destroyer = destroyer_of(uses, tested.bands)
    stabiliser = wanted.get("cyanuric_acid")
    products = usable(
        plant, "none" if destroyer else uses, combined_is_high and not destroyer, draws,
        stabiliser_is_high=stabiliser is not None
        and (stabiliser.band.high == 0.0 or float(amount_of(start, "cyanuric_acid")[0]) > stabiliser.band.high),
    )  # fmt: skip
    oxidizer = any(item.product == "potassium monopersulfate" and item.at_hand for item in products)
    flow = stirred(plant, cases, seed)
    turnover_s = None if flow.turnover_s is None else flow.turnover_s.ends[2]
    tools = Tools(sanitizer.scale_step_g, sanitizer.syringe_step_ml)

    def planned(holds: Holds) -> tuple[Plan, Holds]:
        """The plan, and the water if all of every dose were added."""
        offered, doses = unopposed_doses(holds, wanted, _nominal(holds), products, uses)
        whole = holds
        for item, dose in zip(offered, doses, strict=True):
            whole = whole.with_added(item.product, dose[0], converts=uses == "bromine")
        return make_plan(holds, offered, doses, wanted, volume_l, turnover_s, tools, uses), whole

    high = too_high(start, fill, wanted, oxidizer or combined is None)
    changed = change_water(start, fill, wanted, high, volume_l)
    plan, whole = planned(changed.holds)
    if _alkalinity_stays_high(start, whole, wanted):
        changed = change_water(start, fill, wanted, [*high, "total_alkalinity"], volume_l)
        plan, _ = planned(changed.holds)
    before, after = start.expected(), plan.after.expected()
    known = (*changed.unreached, *destroyed_of(uses, destroyer, before))
    drift = drift_of(plant, plan.after, flow.gas_flow_m3s)
    dosing = Dosing(
        title=plant.title,
        units=plant.units,
        uses=uses,
        profile=sanitizer.profile,
        tested_on=None if tested.day is None else tested.day.isoformat(),
        temperature_c=start.temperature_c,
        volume_l=figure(volume_l),
        turnover_s=flow.turnover_s,
        gas_flow_m3s=flow.gas_flow_m3s,
        ph=before.ph,
        saturation_index=before.saturation_index,
        simplified_index=before.simplified_index,
        hocl_mgl=before.hocl_mgl,
        before=before,
        targets=tuple(_target(item, one, before) for item, one in wanted.items()),
        water_change=changed.change,
        steps=plan.steps,
        after=after,
        used_up_alkalinity_mgl=figure(alkalinity_mgl(plan.used_up)),
        unreached=(*known, *unreached_of(plan, after, wanted, known)),
        conflicts=conflicts_of(plant, uses, plan.used, tested.bands),
        blind_spots=blind_spots_of(plant, uses, plan.used, tested),
        drift=drift,
        advice=(
            *by_itself(plan, drift_of(plant, start, flow.gas_flow_m3s)),
            *leaves_range(drift, wanted["ph"].band.high),
            *advice_of(plant, uses, plan, before, after, fill is not None),
        ),
        cases_count=cases,
        seed=seed,
        notices=(*notices, *tested.notices, *start_notices, *flow.notices, *plan_notices(plan, products, start, tools)),
        sources=(),
        cautions=cautions_of(plant, uses, plan.used),
    )
    return _with_sources(dosing)


def _nominal(holds: Holds) -> dict[Item, float]:
    expected = holds.expected()
    return {item: getattr(expected, name).ends[1] for item, name in FIELDS.items() if item != "dissolved_solids"}


def _target(item: Item, wanted: Wanted, before: Expected) -> Target:
    tested: Figure = getattr(before, FIELDS[item])
    low, middle, high = wanted.band.low, wanted.band.nominal, wanted.band.high
    nominal = tested.ends[1]
    stands: Place = "below" if nominal < low - 1e-9 else "above" if nominal > high + 1e-9 else "inside"
    return Target(
        item, tested, Figure(low, middle, high), stands, wanted.origin, wanted.standing, wanted.source, wanted.note
    )


def _alkalinity_stays_high(start: Holds, whole: Holds, wanted: Mapping[Item, Wanted]) -> bool:
    end = wanted["total_alkalinity"].band.high
    excess = amount_of(start, "total_alkalinity") - end
    return surely(excess) and bool(amount_of(whole, "total_alkalinity")[0] > 1.02 * end)


def _with_sources(dosing: Dosing) -> Dosing:
    from dataclasses import replace

    keys = {target.source for target in dosing.targets} | {conflict.source for conflict in dosing.conflicts}
    keys |= {caution.source for caution in dosing.cautions}
    return replace(dosing, sources=tuple(sorted(keys - {""})))
