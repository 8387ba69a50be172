"""From cases to a figure with its range."""

import numpy as np

from sanitize.basis.figure import Figure
from sanitize.studies.draws import Array


def figure(values: Array) -> Figure:
    """Low (5th percentile), nominal (case 0) and high (95th percentile) of an array of cases.

    The ends are widened to hold nominal. Cases without an answer are NaN and left out; where the nominal case has none,
    the median of the others stands in. Infinite values mean "never" and become None.
    """
    kept = values[~np.isnan(values)]
    if kept.size == 0:
        return Figure(None, None, None)
    low, middle, high = np.percentile(kept, [5.0, 50.0, 95.0], method="inverted_cdf")
    nominal = float(values[0]) if not np.isnan(values[0]) else float(middle)
    return Figure.of(min(float(low), nominal), nominal, max(float(high), nominal))
