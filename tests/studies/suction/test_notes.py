"""Notices that need a loop to fire: each fires on one loop and stays silent on another."""

from pathlib import Path

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.studies.suction.study import study_suction

SERIES = (Path(__file__).parents[2] / "benchmarks" / "series.toml").read_text()


def codes(*settings: str) -> set[str]:
    plant = read_plant(SERIES, overrides=settings).plant
    return {notice.code for notice in study_suction(plant, cases=64).notices}


AS_IT_IS = 'return hose.length="1.5 m"'
MARGINAL = ('injector.throat="14 mm"', 'injector.height="0.65 m"')


@pytest.mark.parametrize(
    ("code", "fires", "silent"),
    [
        ("fast-return", ('pump.curve=[["0 L/min", "9 m"], ["90 L/min", "0 m"]]',), AS_IT_IS),
        ("past-pump-curve", ('pump.curve=[["0 L/min", "6.4 m"], ["20 L/min", "6 m"]]',), AS_IT_IS),
        ("filter-face-velocity", (AS_IT_IS,), 'filter.media_area="20 m2"'),
        ("transitional-flow", ('pump.curve=[["0 L/min", "1 m"], ["5 L/min", "0 m"]]',), AS_IT_IS),
        ("injector-by-geometry", (AS_IT_IS,), "injector.loss_ratio=0.25"),
        ("vapour-in-bubbles", ('tub.water_temperature="38 degC"',), AS_IT_IS),
        ("vapour-floor", ('injector.throat="6 mm"',), AS_IT_IS),
        ("gas-hole-choked", ('injector.throat="6 mm"', 'gas_line.port_hole="0.5 mm"'), AS_IT_IS),
        ("stops-with-loaded-filter", MARGINAL, AS_IT_IS),
        ("down-leg-slow", ('pump.curve=[["0 L/min", "2 m"], ["9 L/min", "0 m"]]',), AS_IT_IS),
    ],
)
def test_notice_fires_on_one_loop_and_not_on_another(code: str, fires: tuple[str, ...], silent: str) -> None:
    assert code in codes(*fires)
    assert code not in codes(silent)
