"""The gas picture draws the sweep's own numbers, in the family's units, with the file's value marked."""

import numpy as np
import pytest

from sanitize.basis.figure import Figure
from sanitize.report.pictures import gas_picture
from sanitize.report.pictures.gas import gas_figure
from sanitize.studies.suction.gas_sweep import GasSweep

LITRE = 1.0 / 60000.0


def sweep(units: str) -> GasSweep:
    return GasSweep(
        title="Invented tub",
        units=units,
        label="height of injector",
        here_m=0.9,
        values_m=(0.5, 1.0),
        gas_flow_m3s=(Figure(0.0, 0.0, LITRE), Figure(LITRE, 2.0 * LITRE, 6.0 * LITRE)),
        port_pressure_closed_pa_gauge=(Figure(-3000.0, -1000.0, 500.0), Figure(-8000.0, -6000.0, -2000.0)),
        draws_share_ratio=(0.4, 1.0),
    )


def test_gas_picture_draws_gas_and_vacuum_with_the_files_value() -> None:
    upper, lower = gas_figure(sweep("metric")).axes
    np.testing.assert_allclose([[0.5, 0.0], [1.0, 2.0]], upper.lines[0].get_xydata(), atol=1e-9)
    np.testing.assert_allclose([[0.5, 1.0], [1.0, 6.0]], lower.lines[0].get_xydata(), atol=1e-9)
    here = next(line for line in upper.lines if line.get_gid() == "here")
    assert here.get_xdata()[0] == pytest.approx(0.9)
    assert upper.get_ylabel() == "gas, line open [L/min]"
    assert lower.get_ylabel() == "vacuum, line closed [kPa]"


def test_gas_picture_speaks_the_us_family() -> None:
    upper, lower = gas_figure(sweep("us")).axes
    assert upper.get_ylabel() == "gas, line open [ft3/h]"
    assert lower.get_ylabel() == "vacuum, line closed [inHg]"
    assert "[ft]" in lower.get_xlabel()
    assert upper.lines[0].get_xdata()[1] == pytest.approx(3.2808, rel=1e-4)


def test_gas_picture_is_a_file_that_is_the_same_twice() -> None:
    png = gas_picture(sweep("metric"), "png")
    assert png.startswith(b"\x89PNG")
    assert png == gas_picture(sweep("metric"), "png")
    assert b"as in the file" in gas_picture(sweep("metric"), "svg")
