"""A file of bench readings, and every problem of one."""

import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.bench_file import blank_bench, read_bench


def problems_of(text: str) -> str:
    with pytest.raises(InputError) as caught:
        read_bench(text, "bench.toml")
    return str(caught.value)


def test_blank_bench_file_reads_as_it_is() -> None:
    loaded = read_bench(blank_bench(), "bench.toml")
    assert ("metric", 18.0, 3, 2) == (
        loaded.units, loaded.bench.water_temperature_c, len(loaded.bench.flows), len(loaded.bench.injector)
    )  # fmt: skip


def test_bench_flows_may_stand_in_any_order() -> None:
    text = (
        blank_bench()
        .replace('["0.4 m", "44 L/min"], ', "")
        .replace('"22 L/min"]]', '"22 L/min"], ["0.4 m", "44 L/min"]]')
    )
    assert read_bench(text, "bench.toml").bench.flows == read_bench(blank_bench(), "bench.toml").bench.flows


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("[bench]", "[bensh]", "[bench]: is missing"),
        ('hose_bore = "20.6 mm"', "hose_bore = 20.6", "[bench] hose_bore: 20.6 has no unit"),
        ('"44 L/min"', '"20 L/min"', "no smaller flow than the one below it"),
        (', ["2.8 m", "22 L/min"]', "", "there are only two pairs"),
        ('"2.1 m"]', '"9 m"]', "its port lifts water higher than air can press it"),
        ("hose_length", "hose_lenght", "there is no such key in [bench]"),
        ("format = 1", "format = 9", "9 is no format"),
    ],
)
def test_bench_file_that_is_wrong_says_so(old: str, new: str, said: str) -> None:
    assert old in blank_bench()
    assert said in problems_of(blank_bench().replace(old, new))


def test_bench_file_that_is_no_toml_is_one_problem() -> None:
    assert "bench.toml" in problems_of("[bench")
