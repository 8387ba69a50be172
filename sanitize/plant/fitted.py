"""What readings have taught about the unknowns of a loop."""

from typing import Annotated

from sanitize.plant.spec import Record, Spec


class Fitted(Record):
    """What a fit to readings left of the ranges: cases of the unknowns that explain the readings."""

    unknowns: Annotated[
        tuple[str, ...],
        Spec(
            key="unknowns",
            kind="keys",
            help="Names of the unknowns that were fitted.",
            example='["pump.head", "return hose.length"]',
            required=True,
        ),
    ]
    cases: Annotated[
        tuple[tuple[float, ...], ...],
        Spec(
            key="cases",
            kind="number rows",
            help="Sets of values that explain the readings, the most likely one first: for each unknown where in its "
            "range it lies, in standard deviations from nominal.",
            example="[[-1.2, 0.3], [-1.1, -0.4], [-1.4, 0.9]]",
            required=True,
        ),
    ]
