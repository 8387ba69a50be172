"""Readings against solved faults: likelihoods by hand, sign patterns, and which fault explains what was read."""

import numpy as np
import pytest

from sanitize.plant.answers import Answers
from sanitize.studies.cloudy.causes import NAMED
from sanitize.studies.cloudy.knowledge import knowledge
from sanitize.studies.cloudy.prepared import prepare
from sanitize.studies.cloudy.readings import (
    SOUND,
    explained,
    likelihoods,
    of_hypotheses,
    told_by_faults,
    without_covered,
)
from sanitize.studies.cloudy.study import diagnose, evidence_of
from sanitize.studies.draws import Draws

CASES = 64
READ = ("bucket_flow", "pump_inlet_pressure", "pump_pressure", "filter_drop", "gas_flow")
FIELDS = ("bucket_flow_m3s", "pump_inlet_pa_gauge", "pump_pa_gauge", "filter_drop_pa", "gas_flow_m3s")
UNITS = ((60000.0, "L/min"), (1e-3, "kPa"), (1e-3, "kPa"), (1e-3, "kPa"), (60000.0, "L/min"))


def _measured(values: np.ndarray) -> str:
    lines = [
        f'{key} = "{value * factor:.6g} {unit} +- {max(abs(value * factor) * 0.05, 0.02):.6g} {unit}"'
        for key, value, (factor, unit) in zip(READ, values, UNITS, strict=True)
    ]
    return "\n[measured]\n" + "\n".join(lines) + "\n"


@pytest.fixture(scope="module")
def nominal_readings(whole_plant) -> dict[str, np.ndarray]:
    """What every reading shows in the nominal case of every fault."""
    return {fault: values[:, 0] for fault, values in told_by_faults(whole_plant(), 0, 20, FIELDS).items()}


def test_likelihood_of_one_reading_by_hand() -> None:
    """Two cases at 0 and 2 errors: mean of 0.98 N + 0.02 / (span / error), N = 0.3989 and 0.0540, span 4 errors."""
    found = likelihoods({"a": np.array([[10.0, 12.0]])}, np.array([10.0]), np.array([1.0]))
    each = [0.98 * 0.398942 + 0.02 / 4.0, 0.98 * 0.053991 + 0.02 / 4.0]
    assert np.log(np.mean(each)) == pytest.approx(found["a"], rel=1e-5)


def test_likelihood_of_cases_without_flow_is_that_of_a_slip() -> None:
    told = {"a": np.array([[10.0, np.nan]]), "b": np.array([[10.0, 10.0]])}
    found = likelihoods(told, np.array([10.0]), np.array([1.0]))
    sure, slip = 0.98 * 0.398942 + 0.02 / 4.0, 0.02 / 4.0
    assert np.log((sure + slip) / 2.0) == pytest.approx(found["a"], rel=1e-5)
    assert np.log(sure) == pytest.approx(found["b"], rel=1e-5)


def test_signs_of_faults_are_those_of_the_trade(nominal_readings: dict[str, np.ndarray]) -> None:
    """Common practice: a blocked suction pulls deeper, a blocked return presses harder, wear does neither."""
    sound = nominal_readings[SOUND]
    moved = {
        fault: np.sign(np.round((values - sound) / np.abs(sound), 3)) for fault, values in nominal_readings.items()
    }
    assert [-1, -1, -1, -1] == moved["suction partly blocked"][:4].tolist()
    assert [-1, 1, 1, -1] == moved["return partly blocked"][:4].tolist()
    assert [-1, 1, 1, 1] == moved["filter loaded"][:4].tolist()
    assert [1, -1, -1, -1] == moved["filter torn"][:4].tolist()
    assert [-1, 1, -1, -1] == moved["pump worn"][:4].tolist()
    assert [0, 0, 0, 0, -1] == moved["gas check valve stuck shut"].tolist()


@pytest.mark.parametrize(
    ("fault", "cause"),
    [
        ("return partly blocked", "restricted_flow"),
        ("suction partly blocked", "restricted_flow"),
        ("filter loaded", "clogged_filter"),
        ("filter torn", "filter_bypassed"),
        ("gas check valve stuck shut", "injector_not_drawing"),
    ],
)
def test_nominal_readings_of_a_fault_point_to_it_and_to_its_cause(
    whole_plant, nominal_readings: dict[str, np.ndarray], fault: str, cause: str
) -> None:
    found = explained(whole_plant(tables=_measured(nominal_readings[fault])), CASES, 20)
    assert found is not None
    assert fault in found.faults[0].faults
    assert cause == found.faults[0].points_to
    assert () == found.unexplained


def test_readings_of_a_sound_loop_name_no_fault(whole_plant, nominal_readings: dict[str, np.ndarray]) -> None:
    found = explained(whole_plant(tables=_measured(nominal_readings[SOUND])), CASES, 20)
    assert found is not None
    assert SOUND in found.faults[0].faults
    assert all(abs(gap.miss_errors) < 2.0 for gap in found.gaps)


def test_reading_far_from_every_fault_is_named(whole_plant, nominal_readings: dict[str, np.ndarray]) -> None:
    far = nominal_readings[SOUND].copy()
    far[2] *= 5.0
    result = explained(whole_plant(tables=_measured(far)), CASES, 20)
    assert result is not None
    assert ("pump_pa_gauge",) == result.unexplained


def test_water_that_was_read_to_move_is_not_held_against_faults_without_flow(
    whole_plant, nominal_readings: dict[str, np.ndarray]
) -> None:
    found = explained(whole_plant(tables=_measured(nominal_readings[SOUND])), CASES, 20)
    assert found is not None
    assert "pump stopped" not in found.log_likelihoods
    still = explained(whole_plant(tables='\n[measured]\nbucket_flow = "0 L/min"\n'), CASES, 20)
    assert still is not None
    assert "pump stopped" in still.faults[0].faults


def test_hypotheses_take_the_likelihood_of_their_faults() -> None:
    known = knowledge(Draws(0))
    logs = {
        SOUND: np.log(0.1),
        "filter loaded": np.log(0.8),
        "return partly blocked": np.log(0.2),
        "pump worn": np.log(0.4),
    }
    found = np.exp(of_hypotheses(known, logs)) * 0.8
    assert 0.8 == pytest.approx(found[known.causes.index("clogged_filter")])
    assert 0.3 == pytest.approx(found[known.causes.index("restricted_flow")])
    assert 0.1 == pytest.approx(found[known.causes.index("algae")])
    weight = dict(zip(known.causes, known.weight[0], strict=False))
    named = sum(weight[cause] for cause in NAMED)
    moved = 0.7 * weight["clogged_filter"] + 0.2 * weight["restricted_flow"]
    assert 0.1 + moved / named == pytest.approx(found[len(NAMED)])
    pair = known.pairs.index((known.causes.index("clogged_filter"), known.causes.index("algae")))
    assert 0.8 == pytest.approx(found[len(known.causes) + pair])


def test_readings_count_once_where_an_answer_tells_the_same(
    whole_plant, nominal_readings: dict[str, np.ndarray]
) -> None:
    plant = whole_plant(tables=_measured(nominal_readings["filter loaded"]))
    assert ("low_flow", "no_gas_flow") == without_covered(plant, ("low_flow", "foam", "no_gas_flow"))
    ready = prepare(plant, 16)
    answers = Answers(("low_flow", "foam"))
    assert {"foam"} == set(evidence_of(ready, answers)) - {item.sign for item in ready.told}
    result = diagnose(ready, answers)
    assert "answers-told-by-readings" in {notice.code for notice in result.notices}
    assert "readings" in {item.source for row in result.causes for item in row.because}
    assert not {"low_flow", "filter_drop_high", "no_gas_flow"} & {test.sign for test in result.next_tests}
