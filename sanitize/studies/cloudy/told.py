"""One thing that the loop file says by itself of a sign."""

from dataclasses import dataclass
from typing import Literal

Teller = Literal["model", "water test"]


@dataclass(frozen=True)
class Told:
    """The share of the cases in which a sign is there, the cause that it is about, in words, and who says so."""

    sign: str
    moves: str
    share_ratio: float
    text: str
    by: Teller = "model"
