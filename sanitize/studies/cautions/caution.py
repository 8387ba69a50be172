"""What a caution is."""

from dataclasses import dataclass
from typing import Literal

Severity = Literal["danger", "caution"]


@dataclass(frozen=True, slots=True)
class Caution:
    """One warning about people's safety.

    code: stable, words joined by hyphens; text: what is wrong, with this loop's figures; action: what to do;
    source: key in the table of sources, or empty for common practice; defers_to: who decides in the end.
    """

    code: str
    severity: Severity
    text: str
    action: str
    source: str
    defers_to: str
