from collections.abc import Callable
from functools import partial
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sanitize.laws.hydraulics import tees
from sanitize.laws.hydraulics.tees import Leg

SHARE = st.floats(0.0, 1.0)
AREA_RATIO = st.floats(0.05, 1.0)
SHIFT = st.floats(-0.3, 0.3)
BY_BRANCH: dict[str, Callable[..., Leg]] = {
    "diverging branch": tees.diverging_branch,
    "diverging run": tees.diverging_run,
    "converging branch": tees.converging_branch,
    "converging run": tees.converging_run,
}
ALL = BY_BRANCH | {
    "both runs into branch": tees.both_runs_into_branch,
    "enters by branch": partial(tees.enters_by_branch, turning_factor=0.7),
}


def example(check_rows: Callable[[str], list[dict[str, str]]], pattern: str, leg: str) -> tuple[float, float]:
    """Branch's share and published loss."""
    (row,) = [row for row in check_rows("tee_examples") if (row["pattern"], row["leg"]) == (pattern, leg)]
    run, branch = float(row["flow_run_lpm"]), float(row["flow_branch_lpm"])
    return branch / (run + branch), float(row["loss"])


def test_converging_branch_tp410_example_7_35(check_rows: Callable[[str], list[dict[str, str]]]) -> None:
    """Tolerance 0.0005: the book works on with flows rounded to three digits."""
    share, published = example(check_rows, "converging", "branch")
    assert published == pytest.approx(float(tees.converging_branch(share).k), abs=5e-4)


def test_converging_run_tp410_example_7_35(check_rows: Callable[[str], list[dict[str, str]]]) -> None:
    """Tolerance 0.0001: the same rounded flows move the share by 0.0001."""
    share, published = example(check_rows, "converging", "run")
    assert published == pytest.approx(float(tees.converging_run(share).k), abs=1e-4)


def test_diverging_run_tp410_example_7_36(check_rows: Callable[[str], list[dict[str, str]]]) -> None:
    """A wye of 45 degrees; the run's formula does not know the angle. The book rounds its flow ratio: 2e-5."""
    share, published = example(check_rows, "diverging", "run")
    assert published == pytest.approx(float(tees.diverging_run(share).k), abs=2e-5)


LIBRARY = {
    "diverging branch": "K_branch_diverging_Crane",
    "diverging run": "K_run_diverging_Crane",
    "converging branch": "K_branch_converging_Crane",
    "converging run": "K_run_converging_Crane",
}


@pytest.mark.parametrize("name", LIBRARY)
@given(share=SHARE, area_ratio=AREA_RATIO)
def test_tee_equals_the_library_at_90_degrees(name: str, share: float, area_ratio: float) -> None:
    """Away from the two places where the converging branch is made continuous, to 0.005 where the library jumps."""
    from fluids import fittings

    area_ratio = round(area_ratio, 3)
    bore = float(np.sqrt(area_ratio))
    assume(min(abs(bore * bore - switch) for switch in (0.35, 0.4)) > 1e-9)
    library = getattr(fittings, LIBRARY[name])(1.0, bore, 1.0 - share, share)
    tolerance = 1e-9 * max(1.0, abs(library))
    if name == "converging branch" and area_ratio > 0.35:
        if share < 0.1:
            library += (0.1 - share) * (1.0 + (share / area_ratio) ** 2 - 2.0 * (1.0 - share) ** 2)
        elif 0.388 < share < 0.401:
            tolerance = 0.0051 + 0.011 * (share / area_ratio) ** 2
    assert library == pytest.approx(float(BY_BRANCH[name](share, bore * bore).k), abs=tolerance)


@pytest.mark.parametrize("pattern", [tees.diverging, tees.converging])
@given(share=SHARE, area_ratio=AREA_RATIO, shift=SHIFT)
def test_tee_makes_no_energy(pattern: Callable[..., tees.Legs], share: float, area_ratio: float, shift: float) -> None:
    legs = pattern(share, area_ratio, shift)
    assert share * float(legs.branch.k) + (1.0 - share) * float(legs.run.k) >= -1e-12


@given(share=SHARE, area_ratio=AREA_RATIO, shift=st.floats(-0.5, 0.5), turning=st.floats(0.0, 1.5))
def test_tee_turned_by_its_branch_makes_no_energy(
    share: float, area_ratio: float, shift: float, turning: float
) -> None:
    shares = [share, 1.0 - share]
    meeting = tees.both_runs_into_branch(shares, area_ratio, shift).k
    dividing = tees.enters_by_branch(shares, area_ratio, turning).k
    assert float(np.dot(shares, meeting)) > 0.0
    assert float(np.dot(shares, dividing)) > 0.0


KINKS = (0.0, 0.1, 1.0 - 0.55 / 0.9, 0.5, 1.0)


@pytest.mark.parametrize("name", ALL)
@given(share=st.floats(0.001, 0.999), area_ratio=st.floats(0.1, 1.0), shift=SHIFT)
def test_tee_slope_equals_finite_difference(name: str, share: float, area_ratio: float, shift: float) -> None:
    law: Callable[..., Leg] = ALL[name]
    arguments: tuple[float, ...] = (area_ratio,) if name == "enters by branch" else (area_ratio, shift)
    assume(all(abs(share - kink) > 1e-4 for kink in KINKS))
    step = 1e-6
    below, here, above = (law(share + sign * step, *arguments) for sign in (-1.0, 0.0, 1.0))
    # A share at which a shift begins to be limited is a kink too; it moves with the area ratio.
    assume(abs(float(above.dk_dq - below.dk_dq)) < 1e-3 * (1.0 + abs(float(here.dk_dq))))
    difference = float(above.k - below.k) / (2.0 * step)
    assert difference == pytest.approx(float(here.dk_dq), rel=1e-4, abs=1e-4 * float(1.0 + abs(here.k)))


@pytest.mark.parametrize("name", ALL)
@pytest.mark.parametrize("area_ratio", [0.2, 0.35, 0.36, 0.42, 0.5, 0.7, 1.0])
@pytest.mark.parametrize("shift", [-0.3, 0.0, 0.2])
def test_tee_is_continuous_in_the_split(name: str, area_ratio: float, shift: float) -> None:
    """A fine walk never steps further than its slopes allow."""
    law: Callable[..., Leg] = ALL[name]
    shares = np.linspace(0.0, 1.0, 4001)
    leg = law(shares, area_ratio) if name == "enters by branch" else law(shares, area_ratio, shift)
    steepest = np.maximum(np.abs(leg.dk_dq[:-1]), np.abs(leg.dk_dq[1:]))
    assert np.all(np.abs(np.diff(leg.k)) <= (shares[1] - shares[0]) * (steepest + 0.1))


@pytest.mark.parametrize("area_ratio", [0.2, 0.4, 0.6, 1.0])
def test_tee_branch_at_rest_is_the_same_dividing_and_meeting(area_ratio: float) -> None:
    """The branch's total pressure against the combined leg's: -1 when it divides off, -1 when it joins."""
    assert -float(tees.diverging_branch(0.0, area_ratio).k) == float(tees.converging_branch(0.0, area_ratio).k) == -1.0
    assert float(tees.diverging_run(0.0, area_ratio).k) == float(tees.converging_run(0.0, area_ratio).k) == 0.0


def test_both_runs_into_branch_even_split_is_one_and_a_quarter_for_either_leg() -> None:
    """By hand: 2 - 3/2 + 3/4; symmetrical, so its slope is 0."""
    leg = tees.both_runs_into_branch(0.5)
    assert float(leg.k) == 1.25
    assert float(leg.dk_dq) == 0.0
    assert tees.both_runs_into_branch(0.5, 1.0, [-0.5, 0.5]).k.tolist() == [0.75, 1.75]


def test_tee_whose_branch_has_half_the_area_by_hand() -> None:
    """The branch's velocity is twice the run's, so its velocity head counts four times on the run's."""
    assert float(tees.enters_by_branch(0.5, 0.5).k) == pytest.approx(4.0 + 0.3 * 0.25)
    assert float(tees.both_runs_into_branch(0.5, 0.5).k) == pytest.approx(4.0 + 1.0 - 0.75)


def test_enters_by_branch_blocked_leg_sees_the_stagnation_of_the_branch() -> None:
    """A leg that takes nothing stands at the pressure of the branch's static side: one velocity head lost."""
    assert float(tees.enters_by_branch(0.0).k) == 1.0
    assert float(tees.enters_by_branch(1.0).k) == 1.3
    assert float(tees.enters_by_branch(1.0, 1.0, 1.5).k) == 2.5


@pytest.mark.parametrize("name", ALL)
def test_tee_share_outside_0_to_1_is_the_end_with_slope_zero(name: str) -> None:
    law: Callable[..., Leg] = ALL[name]
    outside, ends = law([-0.3, 1.2], 0.5), law([0.0, 1.0], 0.5)
    assert ends.k.tolist() == outside.k.tolist()
    assert outside.dk_dq.tolist() == [0.0, 0.0]


@given(share=SHARE, area_ratio=AREA_RATIO, shift=SHIFT)
def test_tee_shift_moves_both_legs_alike(share: float, area_ratio: float, shift: float) -> None:
    for pattern in (tees.diverging, tees.converging):
        plain, moved = pattern(share, area_ratio), pattern(share, area_ratio, shift)
        by_branch, by_run = (float(after.k - before.k) for before, after in zip(plain, moved, strict=True))
        assert by_branch == pytest.approx(by_run, abs=1e-9 * float(1.0 + abs(plain.branch.k)))
        assert min(shift, 0.0) - 1e-9 * float(1.0 + abs(plain.branch.k)) <= by_run <= max(shift, 0.0) + 1e-12


@pytest.mark.parametrize("pattern", ["diverging", "converging"])
def test_tee_with_equal_bores_is_what_is_meant_unless_said(pattern: str) -> None:
    """Both legs at once and each alone, without and with the arguments spelt out."""
    both = getattr(tees, pattern)
    for index, leg in enumerate(("branch", "run")):
        alone = getattr(tees, f"{pattern}_{leg}")
        assert both(0.3)[index] == alone(0.3) == both(0.3, 1.0, 0.0)[index] == alone(0.3, 1.0, 0.0)
        assert both(0.3, 0.6, -0.2)[index] == alone(0.3, 0.6, -0.2)


@pytest.mark.parametrize("name", BY_BRANCH)
def test_tee_arrays_equal_scalars_one_by_one(name: str) -> None:
    law: Callable[..., Leg] = BY_BRANCH[name]
    shares, ratios, shifts = np.array([0.05, 0.39, 0.6]), np.array([1.0, 0.5, 0.3]), np.array([-0.3, 0.1, -0.1])
    together = law(shares, ratios, shifts)
    alone = [law(q, b, s) for q, b, s in zip(shares, ratios, shifts, strict=True)]
    assert [float(leg.k) for leg in alone] == together.k.tolist()
    assert [float(leg.dk_dq) for leg in alone] == together.dk_dq.tolist()


@pytest.mark.parametrize(
    ("law", "arguments", "said"),
    [
        (tees.diverging, (0.5, 1.2), "area"),
        (tees.converging, (0.5, 0.0), "area"),
        (tees.diverging, (0.5, 1.0, 0.31), "shift"),
        (tees.both_runs_into_branch, (0.5, 1.0, -0.6), "shift"),
        (tees.enters_by_branch, (0.5, 1.0, -0.1), "turning"),
    ],
)
def test_tee_argument_out_of_span_is_refused(law: Callable[..., Any], arguments: tuple[float, ...], said: str) -> None:
    with pytest.raises(ValueError, match=said):
        law(*arguments)
