"""The warnings of an answer, for people who read the answer itself in a file or through a machine."""

from collections.abc import Sequence
from typing import Protocol

from sanitize.basis.notices import Notice
from sanitize.report.cautions import caution_lines
from sanitize.report.columns import heading, paragraph
from sanitize.studies.cautions.caution import Caution


class Warned(Protocol):
    """Any answer that carries cautions and notices."""

    @property
    def cautions(self) -> Sequence[Caution]:
        """Of people's safety."""

    @property
    def notices(self) -> Sequence[Notice]:
        """What was assumed, and where a range was left."""


def warnings_text(result: Warned, *, width: int = 100) -> str:
    """Dangers first, then the other cautions and the notices; ends with a line end unless there are none."""
    blocks = []
    for title, severity in (("DANGER", "danger"), ("Cautions", "caution")):
        cautions = [caution for caution in result.cautions if caution.severity == severity]
        if cautions:
            blocks.append(f"{heading(title)}\n{caution_lines(cautions, width)}")
    if result.notices:
        told = "\n".join(paragraph(notice.text, width, "- ", "  ") for notice in result.notices)
        blocks.append(f"{heading('Notices')}\n{told}")
    return "\n\n".join(blocks) + "\n" if blocks else ""
