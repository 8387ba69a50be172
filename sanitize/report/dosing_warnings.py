"""The warnings of a dose, for people who read the answer itself in a file or through a machine."""

from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, paragraph
from sanitize.report.dosing import conflict_lines
from sanitize.report.phrases import sentence
from sanitize.studies.dosing.result import Dosing


def dosing_warnings(result: Dosing, *, width: int = 100) -> str:
    """Dangers first, then what else must not meet, the other cautions and the notices; ends with a line end."""
    blocks = []
    for title, severity in (("DANGER", "danger"), ("Cautions", "caution")):
        conflicts = [one for one in result.conflicts if one.severity == severity]
        cautions = [one for one in result.cautions if one.severity == severity]
        lines = [conflict_lines(conflicts, width)] if conflicts else []
        lines += [caution_lines(cautions, width)] if cautions else []
        if lines:
            blocks.append("\n".join([heading(title), *lines]))
    if result.notices:
        told = "\n".join(paragraph(sentence(notice.text), width, "- ", "  ") for notice in result.notices)
        blocks.append(f"{heading('Notices')}\n{told}")
    return "\n\n".join(blocks) + "\n"
