"""One thing that the loop file says by itself of a sign."""

from dataclasses import dataclass
from typing import Literal

Teller = Literal["model", "water test", "thermometer", "loop file"]


@dataclass(frozen=True)
class Told:
    """The share of the cases in which a sign is there, the cause that it is about, in words, and who says so.

    may_break: whether a part may break and bring the sign although the file speaks against it.
    """

    sign: str
    moves: str
    share_ratio: float
    text: str
    by: Teller = "model"
    may_break: bool = False
