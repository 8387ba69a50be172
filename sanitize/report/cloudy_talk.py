"""Questions about clouded water one after the other, and the answer at any point of them."""

from dataclasses import dataclass, replace
from typing import Literal

from sanitize.plant.answers import Answers
from sanitize.report.answer import Answer
from sanitize.report.cloudy import cloudy_json, cloudy_text
from sanitize.report.pictures import PictureFormat, cloudy_picture
from sanitize.report.warnings import warnings_text
from sanitize.studies.cloudy.health import HEALTH
from sanitize.studies.cloudy.prepared import Prepared
from sanitize.studies.cloudy.signs import SIGNS
from sanitize.studies.cloudy.study import diagnose


@dataclass(frozen=True, slots=True)
class CloudyAnswer(Answer):
    """An answer with the person's own answers as a file that is read again."""

    answers_file: str = ""


@dataclass(frozen=True, slots=True)
class CloudyTalk:
    """A loop made ready for questions; each answer makes a new one.

    prepared: what does not depend on the answers; answers: so far.
    """

    prepared: Prepared
    answers: Answers

    @property
    def answers_file(self) -> str:
        """The answers so far as a file that is read again."""
        return answers_text(self.answers)

    def question(self) -> tuple[str, str, str] | None:
        """Code, question and how to find out of what to ask next, health first; None where nothing is worth asking."""
        for code, sign in HEALTH.items():
            if code not in self.answers.all:
                return code, sign.asks, sign.how
        tests = diagnose(self.prepared, self.answers).next_tests
        return (tests[0].sign, tests[0].asks, tests[0].how) if tests else None

    def answered(self, code: str, seen: bool | None) -> "CloudyTalk":
        """The same with one more answer; None: not known."""
        answers = self.answers
        if seen is None:
            return replace(self, answers=replace(answers, unsure=(*answers.unsure, code)))
        if seen:
            return replace(self, answers=replace(answers, saw=(*answers.saw, code)))
        return replace(self, answers=replace(answers, not_seen=(*answers.not_seen, code)))

    def answer(self, form: Literal["text", "json"] = "text", picture: PictureFormat | None = None) -> CloudyAnswer:
        """What the answers so far say."""
        result = diagnose(self.prepared, self.answers)
        return CloudyAnswer(
            cloudy_json(result) if form == "json" else cloudy_text(result),
            warnings_text(result),
            result.is_dangerous,
            None if picture is None else cloudy_picture(result, picture),
            self.answers_file,
        )


def sign_words() -> dict[str, str]:
    """Every observation by its code, in a few words."""
    return {code: sign.words for code, sign in (HEALTH | SIGNS).items()}


def answers_text(answers: Answers) -> str:
    """The answers as a file that is read again."""
    words = sign_words()
    lines = ["# Answers about clouded water; take them up again with --answers and this file."]
    for name, codes in (("saw", answers.saw), ("not_seen", answers.not_seen), ("unsure", answers.unsure)):
        lines += [f"{name} = [", *(f'  "{code}",  # {words[code]}' for code in codes), "]"]
    return "\n".join(lines) + "\n"
