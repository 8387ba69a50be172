"""Which uncertain input moves the verdict most."""

import numpy as np
from numpy.typing import NDArray

from sanitize.studies.draws import Array, Draws
from sanitize.studies.suction.result import Driver


def _ranks(values: Array) -> Array:
    """Positions in rising order, ties in the order of the cases, centred and scaled to length one."""
    position = np.empty(values.size)
    position[np.argsort(values, kind="stable")] = np.arange(values.size)
    centred = position - position.mean()
    length = np.linalg.norm(centred)
    return np.asarray(centred / length if length > 0.0 else centred)


def drivers(draws: Draws, margin: Array, solved: NDArray[np.bool_], most: int = 5) -> tuple[Driver, ...]:
    """Inputs by the size of their rank correlation (Spearman) with a margin, strongest first; cases solved only.

    margin: the check valve's opening less the port's vacuum over the cases [Pa]; the nominal case is left out.
    """
    kept = solved.copy()
    kept[0] = False
    if kept.sum() < 3:
        return ()
    target = _ranks(margin[kept])
    found = [
        Driver(item.key, item.label, float(_ranks(item.rank[kept]) @ target), item.measure)
        for item in draws.inputs.values()
    ]
    found.sort(key=lambda driver: -abs(driver.correlation_ratio))
    return tuple(found[:most])
