"""What readings did to the answer, and which one to take next, in words."""

from sanitize.report.phrases import share
from sanitize.studies.suction.result import Suction


def spreads_most(result: Suction) -> str:
    """The input that spreads the verdict most, how to measure it, and where that cannot be done, the next that can."""
    first = result.drivers[0]
    text = f"The verdict hangs most on the {first.label}"
    if first.measure:
        return f"{text}: measure it {first.measure}."
    other = next((driver for driver in result.drivers if driver.measure), None)
    text += ", which is not easily measured"
    return f"{text}; next on the {other.label}: measure it {other.measure}." if other else f"{text}."


def _counted(count: int) -> str:
    """How many readings.

    >>> _counted(1), _counted(3)
    ('one reading', '3 readings')
    """
    return "one reading" if count == 1 else f"{count} readings"


def readings_rows(result: Suction) -> list[tuple[str, str]]:
    """Labelled lines: what was measured and how much it narrowed, what spreads most, and the best cheap reading."""
    rows: list[tuple[str, str]] = []
    narrowing = result.narrowing
    if narrowing is not None:
        rows.append(
            (
                "Readings",
                f"With the {_counted(len(narrowing.readings))} of the file the range of the water flow is "
                f"{_percent(narrowing.flow_width_ratio)} and that of the port's pressure "
                f"{_percent(narrowing.port_pressure_width_ratio)} as wide as without; without them it drew in "
                f"{share(narrowing.draws_share_before_ratio)} of the cases. "
                f"About {narrowing.effective_cases_count} cases fit.",
            )
        )
    if result.drivers:
        rows.append(("Spreads most", spreads_most(result)))
    if result.measure_next:
        best = result.measure_next[0]
        rows.append(
            (
                "Measure next",
                f"{best.reading[:1].upper()}{best.reading[1:]}: {best.how}. It is expected to settle the verdict "
                f"furthest (from {_percent(best.now_ratio)} sure to {_percent(best.certainty_ratio)}, on average).",
            )
        )
    return rows


def _percent(ratio: float) -> str:
    percent = 100.0 * ratio
    return "less than 1 %" if percent < 1.0 else f"{percent:.2g} %" if percent < 99.0 else "99 % or more"
