"""What stops an answer: one list of problems, each saying where, what was found and what to write."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with the input.

    where: table and key as the user wrote them; found: what stands there; accepted: what may stand there;
    write: the line to write instead, where one can be offered.
    """

    where: str
    found: str
    accepted: str = ""
    write: str = ""

    def line(self) -> str:
        """The problem as one line of text."""
        text = f"{self.where}: {self.found}"
        if self.accepted:
            text += f"; accepted: {self.accepted}"
        if self.write:
            text += f"; write: {self.write}"
        return text


class SanitizeError(Exception):
    """What every error of this project is."""


class InputError(SanitizeError):
    """The input is wrong; holds every problem that was found (exit code 2)."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(problem.line() for problem in problems))


class NoSolutionError(SanitizeError):
    """The input is right but the loop has no answer; the text says why and what would give one (exit code 3)."""
