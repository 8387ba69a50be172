"""What a loop file says of clouded water before anybody answers: judgement, model, readings and tests."""

from collections.abc import Sequence
from dataclasses import dataclass

from sanitize.basis.notices import Notice
from sanitize.plant.answers import Judgement
from sanitize.plant.loop import Plant
from sanitize.studies.cloudy.knowledge import Knowledge, knowledge
from sanitize.studies.cloudy.posterior import nominal
from sanitize.studies.cloudy.readings import OUTDOES, Explained, explained, of_hypotheses, weighed, without_covered
from sanitize.studies.cloudy.result import HeatRates
from sanitize.studies.cloudy.tested import told_by_sanitizer, told_by_tests
from sanitize.studies.cloudy.told import Told
from sanitize.studies.cloudy.witness import (
    Ages,
    absent_causes,
    absent_notices,
    heat_rates,
    solved,
    told_by_model,
    told_by_thermometer,
    with_timer,
)
from sanitize.studies.draws import SEED, Array, Draws
from sanitize.studies.suction.predicted import refuse_more_than_the_pumps_move
from sanitize.studies.suction.readings import about_conditions

READING_CASES = 2048
"""At least as many cases of the loop where readings are weighed."""

READINGS_OF_THE_FIT = Notice(
    "readings-of-the-fit",
    "The readings of [measured] are those that [fitted] was made from: they tell how the loop was and not how it is, "
    "so they are not weighed. Give what you read now with --measured or --set.",
)


@dataclass(frozen=True, eq=False)
class Prepared:
    """All that does not depend on the answers: the judgement, the model's word, the readings' likelihood."""

    plant: Plant
    cases: int
    seed: int
    known: Knowledge
    plain: Knowledge
    own: Judgement
    told: tuple[Told, ...]
    heat_rates: HeatRates | None
    explained: Explained | None
    readings: Array | None
    notices: tuple[Notice, ...]


def prepare(
    plant: Plant,
    cases: int,
    seed: int = SEED,
    own: Judgement | None = None,
    ages: Ages | None = None,
    notices: tuple[Notice, ...] = (),
    *,
    readings_are_old: bool = False,
) -> Prepared:
    """What the loop file itself says, before anybody answers.

    plant: the checked loop; cases: a power of two; own: a person's own judgement; ages: of water and filter, and the
    pump's hours; notices: what reading the file left; readings_are_old: whether those of a fitted file are the ones
    that it was fitted to, which say nothing of now. Raises InputError for a water test that contradicts itself and
    for a flow that no pump moves, NoSolutionError when the nominal case has no operating point.
    """
    if readings_are_old and plant.fitted is not None and plant.measured is not None:
        plant = plant.model_copy(update={"measured": None})
        notices = (*notices, READINGS_OF_THE_FIT)
    refuse_more_than_the_pumps_move(plant)
    mine = own or Judgement()
    known = knowledge(Draws(cases, seed), absent_causes(plant), mine)
    sound = solved(plant, cases, seed)
    times = with_timer(ages or Ages(), plant)
    found = explained(plant, max(cases, READING_CASES), seed, times.runs_s)
    tested, test_notices = told_by_tests(plant, cases, seed)
    told = (
        *_first_of_each_sign(
            (*told_by_sanitizer(plant), *tested, *told_by_thermometer(plant), *told_by_model(sound, times))
        ),
    )
    covered = without_covered(plant, [item.sign for item in told]) if found is not None else ()
    return Prepared(
        plant=plant,
        cases=cases,
        seed=seed,
        known=known,
        plain=nominal(known),
        own=mine,
        told=tuple(item for item in told if item.sign not in covered and not _outdone(plant, item)),
        heat_rates=heat_rates(sound, times.runs_s),
        explained=found,
        readings=None if found is None else of_hypotheses(known, found.log_likelihoods),
        notices=(
            *notices,
            *sound.running.assembly.notices,
            *absent_notices(plant),
            *_readings_notices(found),
            *test_notices,
            *_model_notices(plant, times),
            *about_conditions(plant),
        ),
    )


def _outdone(plant: Plant, item: Told) -> bool:
    """Whether a reading of the file shows what the model only expects."""
    return item.by == "model" and any(item.sign in OUTDOES.get(name, ()) for name in weighed(plant))


def _readings_notices(found: Explained | None) -> list[Notice]:
    if found is None:
        return []
    return [
        Notice(
            "single-faults",
            "Readings are weighed against one fault of the loop at a time, each of a size that the table fault_sizes "
            "assumes with its range; several faults at once are not solved.",
        ),
    ]


def _first_of_each_sign(told: Sequence[Told]) -> list[Told]:
    """A water test goes over what the model says of the same sign."""
    found: dict[str, Told] = {}
    for item in told:
        found.setdefault(item.sign, item)
    return list(found.values())


def _model_notices(plant: Plant, ages: Ages) -> list[Notice]:
    found = []
    if ages.runs_s is None:
        found.append(
            Notice(
                "pump-hours-not-given",
                "How long the pump runs is not told, so the model says nothing of too few hours: give --runs, or "
                "`pump_times` in [timer].",
            )
        )
    if ages.water_s is not None and (plant.bathers is None or plant.bathers.per_day <= 0.0):
        found.append(
            Notice(
                "water-age-not-weighed",
                "Without the bathers of a day in the file, the age of the water is not weighed.",
            )
        )
    return found
