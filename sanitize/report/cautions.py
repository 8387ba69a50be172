"""Cautions as text."""

from collections.abc import Sequence

from sanitize.basis.units import Family
from sanitize.report.columns import heading, paragraph
from sanitize.report.sources import citation
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.cautions.rules import all_cautions
from sanitize.studies.cloudy.health import all_cloudy_cautions
from sanitize.studies.day.cautions import all_day_cautions
from sanitize.studies.dosing.cautions import all_dosing_cautions
from sanitize.studies.faults.hazards import all_fault_cautions


def caution_lines(cautions: Sequence[Caution], width: int) -> str:
    """Each caution in one paragraph: what is wrong, what to do, who decides, and its source's key."""
    return "\n".join(
        paragraph(
            f"{caution.text} DO: {caution.action} Who decides: {caution.defers_to}."
            + (f" [{caution.source}]" if caution.source else ""),
            width,
            "! " if caution.severity == "danger" else "- ",
            "  ",
        )
        for caution in cautions
    )


def cautions_text(*, family: Family = "metric", width: int = 100) -> str:
    """Every caution that may be given, by its code, and the sources of all."""
    blocks = [
        paragraph(
            "Every caution that an answer may carry, in general words and at its gravest. Which of them a tub gets "
            "depends on its loop; none of them replaces the local code.",
            width,
        )
    ]
    cautions = (
        *all_cautions(family),
        *all_day_cautions(),
        *all_fault_cautions(),
        *all_dosing_cautions(),
        *all_cloudy_cautions(),
    )
    for caution in cautions:
        blocks.append(f"{caution.code} ({caution.severity})\n{caution_lines([caution], width)}")
    keys = sorted({caution.source for caution in cautions if caution.source})
    blocks.append(heading("Sources") + "\n" + "\n".join(citation(key, width) for key in keys))
    return "\n\n".join(blocks) + "\n"
