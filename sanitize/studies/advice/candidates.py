"""Every change that is tried on a loop, in the order in which they are listed where nothing else decides."""

from sanitize.plant.loop import Plant
from sanitize.studies.advice.change import Change, NotPossibleError
from sanitize.studies.advice.elbows import swept
from sanitize.studies.advice.filters import bigger_filters, cleaned_filters, clear_covers, earlier_cleaning
from sanitize.studies.advice.gas_lines import earlier_check_valves, other_gas_tubes
from sanitize.studies.advice.geometry import fits_as_well
from sanitize.studies.advice.lifts import lifts
from sanitize.studies.advice.moves import moves
from sanitize.studies.advice.pumps import other_speeds, stronger_pumps
from sanitize.studies.advice.returns import bigger_nozzles, shorter_returns, wider_returns
from sanitize.studies.advice.side_streams import side_streams
from sanitize.studies.advice.throats import smaller_throats
from sanitize.studies.advice.valves import closed_valves, opened_valves


def candidates(plant: Plant, throat_m: float) -> list[Change]:
    """The changes that the loop has a place for; throat_m: of its injector as it is [m]."""
    found = [
        *clear_covers(plant),
        *cleaned_filters(plant),
        *opened_valves(plant),
        *closed_valves(plant),
        *earlier_cleaning(plant),
        *lifts(plant),
        *moves(plant),
        *shorter_returns(plant),
        *swept(plant),
        *bigger_nozzles(plant),
        *earlier_check_valves(plant),
        *other_gas_tubes(plant),
        *wider_returns(plant),
        *smaller_throats(plant, throat_m),
        *other_speeds(plant),
        *bigger_filters(plant),
        *side_streams(plant),
        *stronger_pumps(plant),
    ]
    return [change for change in found if with_it(plant, change) is not None]


def with_it(plant: Plant, *changes: Change) -> Plant | None:
    """The loop with changes made, or None where it has no place for them."""
    changed = plant
    try:
        for change in changes:
            changed = change.apply(changed)
    except NotPossibleError:
        return None
    return changed if fits_as_well(changed, plant) else None
