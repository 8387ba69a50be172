"""How the water moves while chemicals mix: turnover by the real flow, and the air that the injector draws."""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.errors import NoSolutionError
from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.plant.loop import Plant
from sanitize.studies.draws import Draws
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import injector_of, refuse_without_answer, run
from sanitize.studies.suction.states import levels
from sanitize.studies.suction.study import study_suction


@dataclass(frozen=True)
class Stirred:
    """Time of a turnover, None where the loop has no answer; gas drawn at local air pressure and 20 degC."""

    turnover_s: Figure | None
    gas_flow_m3s: Figure
    notices: tuple[Notice, ...]


def stirred(plant: Plant, cases: int, seed: int) -> Stirred:
    """The loop's own flow; where it has no answer, a notice says so and waits count hours alone."""
    none = Figure(0.0, 0.0, 0.0)
    try:
        if injector_of(plant) is not None:
            found = study_suction(plant, cases, seed)
            return Stirred(found.turnover_s, found.gas_flow_m3s, ())
        draws = Draws(cases, seed)
        running = run(plant, draws, Condition(levels(plant, draws)["normal"]))
        refuse_without_answer(running, plant)
    except NoSolutionError as error:
        text = f"Waits count hours alone, as this loop has no flow ({error}); nothing mixes before water moves."
        return Stirred(None, none, (Notice("flow-unknown", text),))
    flow = np.where(running.solved & (running.flow_m3s > 0.0), running.flow_m3s, np.nan)
    return Stirred(figure(plant.tub.volume_m3 / flow), none, ())
