"""What a rule of the cautions is, and the words that rules share."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from sanitize.basis.tables import model_table
from sanitize.basis.units import Family
from sanitize.studies.cautions.caution import Caution, Severity
from sanitize.studies.cautions.facts import Facts

LOCAL_CODE = "the local code"
AUTHORITY = "the local authority for pools and spas"
ELECTRICIAN = "a licensed electrician and the local electrical code"
PHYSICIAN = "a physician"
MAKER = "the maker's instructions"


@dataclass(frozen=True, slots=True)
class Rule:
    """When a caution is given and what it says.

    severity: one of the two, or what a loop makes of it (the list of all cautions then shows "danger");
    text: with this loop's figures; general: without a loop; source: a key of the table of sources, or empty.
    """

    code: str
    severity: Severity | Callable[[Facts], Severity]
    when: Callable[[Facts], bool]
    text: Callable[[Facts], str]
    general: Callable[[Family], str]
    action: Callable[[Family], str]
    source: str
    defers_to: str

    def caution(self, facts: Facts) -> Caution:
        """The caution for a loop on which the rule fires."""
        severity = self.severity if isinstance(self.severity, str) else self.severity(facts)
        text, action = self.text(facts), self.action(facts.family)
        return Caution(self.code, severity, text[0].upper() + text[1:], action, self.source, self.defers_to)

    def without_loop(self, family: Family) -> Caution:
        """The caution as it stands in the list of all, at its gravest."""
        severity = self.severity if isinstance(self.severity, str) else "danger"
        return Caution(self.code, severity, self.general(family), self.action(family), self.source, self.defers_to)


def always(text: str) -> Callable[[Facts | Family], str]:
    """A text without figures."""
    return lambda _: text


def limit(name: str) -> float:
    """The nominal value of a row of the table of limits."""
    return model_table("caution_limits")[(name,)].value


def joined(words: Sequence[str]) -> str:
    """Words as a list in a sentence.

    >>> joined(["a"]), joined(["a", "b", "c"])
    ('a', 'a, b and c')
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"
