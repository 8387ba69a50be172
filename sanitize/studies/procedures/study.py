"""A procedure made for one tub."""

from sanitize.basis.notices import Notice
from sanitize.plant.loop import Plant
from sanitize.studies.dosing.cautions import HANDLING, POISONING, RULES_OF_THE_PLACE, STORAGE
from sanitize.studies.draws import SEED
from sanitize.studies.procedures.result import Kind, Procedure
from sanitize.studies.procedures.texts import RECIPES
from sanitize.studies.procedures.tub import facts_of


def study_procedure(plant: Plant, kind: Kind, notices: tuple[Notice, ...] = (), seed: int = SEED) -> Procedure:
    """The steps of a procedure with this tub's volume, waits by its own turnover, and its chlorine product.

    plant: the checked loop; kind: which; notices: what reading the file left; seed: of the draw behind the flow.
    """
    facts, recipe = facts_of(plant, seed), RECIPES[kind]
    actions = tuple(recipe.actions(facts))
    cautions = (HANDLING, STORAGE, POISONING, RULES_OF_THE_PLACE)
    keys = {action.source for action in actions} | {caution.source for caution in cautions}
    return Procedure(
        title=plant.title,
        units=plant.units,
        kind=kind,
        name=recipe.name,
        when=recipe.when,
        actions=actions,
        back=recipe.back(facts),
        ask=recipe.ask,
        notices=(*notices, *facts.notices),
        cautions=cautions,
        sources=tuple(sorted(keys - {""})),
    )
