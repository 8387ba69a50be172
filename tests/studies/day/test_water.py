"""What ozone meets in the water: the other oxidant's constants against their own laws, worked by hand."""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.basis.band import Band
from sanitize.plant.loop import Plant
from sanitize.studies.day.parts import Chemistry
from sanitize.studies.day.ranges import Ranges
from sanitize.studies.day.water import Kept, WaterKept, chemistry_of, water_of
from sanitize.studies.draws import Draws

LOOP = """
loop = [
  {part = "suction fitting", height = "0.20 m"},
  {part = "pump", height = "0.10 m", curve = [["0 L/min", "8 m"], ["60 L/min", "0 m"]]},
  {part = "return", height = "0.50 m"},
]
"""


@pytest.fixture
def chemistry_with(plant_of: Callable[..., Plant]) -> Callable[..., Chemistry]:
    def found(kept: Kept, start_mgl: float = 2.0, ph: float = 7.5, cyanuric_mgl: float = 0.0) -> Chemistry:
        tested = WaterKept(kept, Band.exact(start_mgl), Band.exact(ph), Band.exact(cyanuric_mgl))
        return chemistry_of(plant_of(LOOP), tested, Ranges(Draws(0)))

    return found


def half_life_min(rate_per_min: float) -> float:
    return float(np.log(2.0)) / rate_per_min


def test_ozone_with_chlorine_has_the_half_life_of_its_hypochlorite(chemistry_with: Callable[..., Chemistry]) -> None:
    """2 mg/L at pH 7.5 and 10 degC, pK 7.69: 39.2 % is hypochlorite; 120 L/(mol s): 8.7 min."""
    chemistry = chemistry_with("chlorine")
    assert 8.7 == pytest.approx(half_life_min(2.0 * float(chemistry.meeting_speed[0])), abs=0.05)
    assert 70.906 / 47.998 == pytest.approx(float(chemistry.oxidant_each[0]), rel=1e-3)


def test_cyanuric_acid_holds_most_of_the_chlorine_back(chemistry_with: Callable[..., Chemistry]) -> None:
    """30 mg/L leave about a hundredth of the chlorine free at 10 degC."""
    free, held = (
        float(chemistry_with("chlorine", 1.0, cyanuric_mgl=cyanuric).meeting_speed[0]) for cyanuric in (0.0, 30.0)
    )
    assert 0.004 < held / free < 0.02


def test_ozone_with_bromine_is_lost_to_its_bromide(chemistry_with: Callable[..., Chemistry]) -> None:
    """15 mg/L of bromide at 160 L/(mol s): 0.385 min, beside which its own decay is nothing."""
    rate = float(chemistry_with("bromine", 4.0).decay_per_min(np.array([[10.0] * 3]))[0, 0])
    assert 0.385 == pytest.approx(half_life_min(rate), rel=0.05)


def test_ozone_with_peroxide_is_gone_in_seconds(chemistry_with: Callable[..., Chemistry]) -> None:
    """50 mg/L at pH 7.4: 2.1 s; and 0.354 mg of it for each of ozone."""
    chemistry = chemistry_with("peroxide", 50.0, 7.4)
    assert 2.1 / 60.0 == pytest.approx(half_life_min(50.0 * float(chemistry.meeting_speed[0])), abs=0.05 / 60.0)
    assert 0.354 == pytest.approx(float(chemistry.oxidant_each_ozone[0]), abs=5e-4)


def test_without_another_oxidant_nothing_meets(chemistry_with: Callable[..., Chemistry]) -> None:
    chemistry = chemistry_with("none", 0.0)
    assert 0.0 == float(chemistry.meeting_speed[0]) == float(np.abs(chemistry.oxidant_speed).max())
    assert [300.0, 700.0] == pytest.approx(chemistry.demand_each_mg[:, 0].tolist())


SANITIZER = '[sanitizer]\nuses = "{uses}"\n'
TESTS = """
[[water_test]]
ph = 7.9
[[water_test]]
ph = "7.6 +- 0.1"
cyanuric_acid = "20 mg/L +- 5 mg/L"
"""


def test_tested_water_takes_the_target_and_the_latest_test(plant_of: Callable[..., Plant]) -> None:
    """Practice wants 3 mg/L of chlorine."""
    kept, notices = water_of(plant_of(LOOP, SANITIZER.format(uses="chlorine") + TESTS))
    assert ("chlorine", 3.0, 7.6, 20.0) == (
        kept.kept,
        kept.start_mgl.nominal,
        kept.ph and kept.ph.nominal,
        kept.cyanuric_mgl and kept.cyanuric_mgl.nominal,
    )
    assert ["oxidant-at-its-target"] == [notice.code for notice in notices]


@pytest.mark.parametrize(
    ("tables", "word"), [("", "does not say"), (SANITIZER.format(uses="none"), "keeps no chlorine")]
)
def test_tested_water_without_a_residual_counts_on_none(plant_of: Callable[..., Plant], tables: str, word: str) -> None:
    kept, (notice,) = water_of(plant_of(LOOP, tables))
    assert ("none", 0.0) == (kept.kept, kept.start_mgl.nominal)
    assert word in notice.text


def test_tested_water_with_bromine_tells_of_its_bromide(plant_of: Callable[..., Plant]) -> None:
    _, notices = water_of(plant_of(LOOP, SANITIZER.format(uses="bromine")))
    assert "bromide-assumed" in {notice.code for notice in notices}
