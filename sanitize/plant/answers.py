"""What a person answered about the clouded water, and a person's own judgement of how likely things are."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Answers:
    """Codes of what was seen, what was looked for and not seen, and what is not known."""

    saw: tuple[str, ...] = ()
    not_seen: tuple[str, ...] = ()
    unsure: tuple[str, ...] = ()

    @property
    def all(self) -> tuple[str, ...]:
        """Every code that was answered."""
        return (*self.saw, *self.not_seen, *self.unsure)


@dataclass(frozen=True)
class Judgement:
    """Own numbers in place of the tables': weights of causes, and how often a sign is seen, usually and by cause."""

    weights: Mapping[str, float] = field(default_factory=dict)
    usual: Mapping[str, float] = field(default_factory=dict)
    shows: Mapping[tuple[str, str], float] = field(default_factory=dict)

    @property
    def count(self) -> int:
        """How many numbers it replaces."""
        return len(self.weights) + len(self.usual) + len(self.shows)
