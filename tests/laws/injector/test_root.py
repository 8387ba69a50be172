import numpy as np
import pytest

from sanitize.laws.injector.root import falling_root


def test_falling_root_flat_ends_and_steep_middle_is_found() -> None:
    """Newton alone leaves the bracket on an arctangent and on a cube with a flat root."""
    shift = np.array([-3.0, 0.1, 2.5])
    found = falling_root(
        lambda x: (-np.arctan(20 * (x - shift)), -20 / (1 + 400 * (x - shift) ** 2)),
        np.full(3, -50.0),
        np.full(3, 70.0),
        np.full(3, 60.0),
    )
    assert shift == pytest.approx(found, abs=1e-10)
    flat = falling_root(lambda x: (-((x - 1.0) ** 3), -3 * (x - 1.0) ** 2), np.zeros(1), np.full(1, 3.0), np.zeros(1))
    assert np.ones(1) == pytest.approx(flat, abs=1e-6)


def test_falling_root_empty_bracket_returns_its_end() -> None:
    ends = np.array([2.0, 5.0])
    assert ends.tolist() == falling_root(lambda x: (x * 0.0 + 1.0, x * 0.0), ends, ends, ends).tolist()


def test_falling_root_one_element_does_not_move_another() -> None:
    def function(x: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        return 3.0 - x**3, -3 * x**2

    alone = falling_root(function, np.zeros(1), np.full(1, 2.0), np.full(1, 1.4))
    both = falling_root(function, np.zeros(2), np.array([2.0, 1e6]), np.array([1.4, 9e5]))
    assert alone[0] == both[0]
    assert 3 ** (1 / 3) == pytest.approx(both[1], abs=1e-8)


def test_falling_root_that_never_settles_is_an_error() -> None:
    def jumps(x: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        return np.full_like(x, np.nan), np.full_like(x, -1.0)

    with pytest.raises(RuntimeError, match="did not settle"):
        falling_root(jumps, np.zeros(1), np.ones(1), np.zeros(1))
