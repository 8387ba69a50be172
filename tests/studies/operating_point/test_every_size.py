"""Every part that the reader accepts in a trade size can be computed in it."""

from collections.abc import Callable

import pytest

from sanitize.loopfile.sizes import TUBE_SIZES, TUBE_WORDS
from sanitize.plant.loop import PART_OF_WORD
from sanitize.plant.part import SIZES
from sanitize.studies.operating_point.run import Run

NEEDS = {
    "pipe": 'length = "1 m"',
    "flexible hose": 'length = "1 m"',
    "vinyl tube": 'length = "1 m"',
    "tee": 'path = "turn"',
    "check valve": 'style = "spring"',
    "known loss": "k = 1.5",
    "known drop": 'drop = "5 kPa", at_flow = "40 L/min"',
    "filter": 'drop = "5 kPa", at_flow = "40 L/min"',
    "chiller": 'drop = "5 kPa", at_flow = "40 L/min"',
}
OTHERWISE = ("suction fitting", "return", "pump", "injector", "reducer", "bushing", "split", "join")
WORDS = sorted(set(PART_OF_WORD) - set(OTHERWISE))
LOOP = """
loop = [
  {{part = "suction fitting", height = "0.20 m", cover_rated_flow = "150 L/min"}},
  {{part = "{word}", size = "{size} in"{more}}},
  {{part = "pump", height = "0.15 m", curve = [["50 L/min", "5 m"]]}},
  {{part = "injector", throat = "8 mm", height = "0.70 m"{ends}}},
  {{part = "return", height = "0.50 m"}},
]
"""


@pytest.mark.parametrize(
    ("word", "size"), [(word, size) for word in WORDS for size in SIZES if size not in TUBE_SIZES or word in TUBE_WORDS]
)
def test_part_of_every_accepted_size_lets_water_pass(run_of: Callable[..., Run], word: str, size: str) -> None:
    more = f", {NEEDS[word]}" if word in NEEDS else ""
    solved = run_of(LOOP.format(word=word, size=size, more=more, ends=""), size="3/4 in")
    assert solved.solved[0]
    assert solved.flow_m3s[0] > 0.0


@pytest.mark.parametrize("size", [size for size in SIZES if size not in TUBE_SIZES])
def test_injector_with_barbs_of_every_size_lets_water_pass(run_of: Callable[..., Run], size: str) -> None:
    text = LOOP.format(word="union", size="3/4", more="", ends=f', ends = "barbed", size = "{size} in"')
    assert run_of(text, size="3/4 in").flow_m3s[0] > 0.0
