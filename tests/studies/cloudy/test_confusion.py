"""Simulated tubs, drawn from the ranges with another law of friction and biased gauges, diagnosed by the model."""

import importlib.util
from pathlib import Path
from typing import Any

from sanitize.loopfile.read import read_plant

BENCHMARK = Path(__file__).resolve().parents[2] / "benchmarks" / "confusion.py"


def benchmark() -> Any:
    spec = importlib.util.spec_from_file_location("confusion", BENCHMARK)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_single_faults_are_among_the_first_two_in_nine_of_ten_tubs() -> None:
    """Four readings with 5 % error; 95 % in the whole benchmark of 256 tubs a fault."""
    module = benchmark()
    assert 4 == len(module.READINGS)
    plant = read_plant(module.LOOP.read_text(encoding="utf-8")).plant
    _, first_two, count = module.confusion(plant, tubs=16, cases=256)
    assert sum(first_two.values()) >= 0.9 * sum(count.values())
    assert all(16 == number for number in count.values())


def test_temperatures_over_the_chiller_name_the_chiller() -> None:
    """Its blocked passages come first in more tubs with the drop than without, and its missing cold in nearly all."""
    module = benchmark()
    plant = read_plant(module.CHILLED.read_text(encoding="utf-8")).plant
    faults = ("chiller blocked", "chiller gives no cold")
    without, _, _ = module.confusion(plant, 32, 256, faults=faults[:1])
    told, _, count = module.confusion(plant, 32, 256, (*module.READINGS, module.CHILLER_DROP), faults)
    assert told[faults[0]].get(faults[0], 0) > without[faults[0]].get(faults[0], 0)
    assert told[faults[1]].get(faults[1], 0) >= 0.8 * count[faults[1]]
