"""What a question gives back, whatever it was about."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Answer:
    """What a question about a tub gives.

    document: the answer in the wanted form; warnings: for people, where they do not read the document itself;
    danger: whether a caution of the answer is a danger; picture: where one was wanted.
    """

    document: str
    warnings: str
    danger: bool
    picture: bytes | None = None
