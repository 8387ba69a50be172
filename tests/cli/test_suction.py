"""`sanitize suction`: text, formats, options, exit codes, bad input."""

import csv
import io
import json
import re
from pathlib import Path

import pytest

from sanitize import jobs

FEW = ("--cases", "16")
KEYS = (
    "verdict", "draws_share_ratio", "flow_port_closed_m3s", "injector_flow_port_closed_m3s",
    "port_pressure_closed_pa_gauge", "onset_flow_m3s", "draws_below_flow_m3s", "loss_ratio",
    "injector_inlet_pressure_pa_gauge", "injector_outlet_pressure_pa_gauge", "outlet_pressure_limit_pa_gauge",
    "pump_head_m", "parts", "states", "notices", "cautions",
)  # fmt: skip
PART_KEYS = ("name", "flow_m3s", "velocity_ms", "head_loss_m", "power_share_ratio", "pressure_behind_pa_gauge")
RANGED = [key for key in (*KEYS, *PART_KEYS) if re.search(r"_(m3s|ms|m|pa_gauge)$", key)]


def names_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_suction_text_begins_with_title_and_danger(run, boathouse: str) -> None:
    result = run("suction", boathouse, *FEW)
    lines = result.stdout.splitlines()
    assert (0, "") == (result.exit_code, result.stderr)
    assert ["Boathouse larch barrel", "DANGER"] == [lines[0], lines[3]]
    assert result.stdout.index("DANGER") < result.stdout.index("Verdict")


def test_suction_json_has_every_key_and_ranges(run, boathouse: str) -> None:
    record = json.loads(run("suction", boathouse, *FEW, "--json").stdout)
    assert set(KEYS) <= set(record)
    for part in record["parts"]:
        assert set(PART_KEYS) <= set(part)
    for key in RANGED:
        figure = record.get(key) or record["parts"][0][key]
        assert ["low", "nominal", "high"] == list(figure)


def test_suction_json_warns_on_standard_error(run, boathouse: str) -> None:
    result = run("suction", boathouse, *FEW, "--json")
    assert result.stderr.startswith("DANGER\n------\n! ")
    for notice in json.loads(result.stdout)["notices"]:
        assert notice["text"] in " ".join(result.stderr.split())


def test_suction_csv_has_a_row_for_each_part(run, boathouse: str) -> None:
    result = run("suction", boathouse, *FEW, "--csv")
    rows = list(csv.DictReader(io.StringIO(result.stdout), strict=True))
    record = json.loads(run("suction", boathouse, *FEW, "--json").stdout)
    assert [part["name"] for part in record["parts"]] == [row["name"] for row in rows]
    assert [part["flow_m3s"]["low"] for part in record["parts"]] == [float(row["flow_low_m3s"]) for row in rows]


def test_suction_json_and_csv_together_exit_with_2(run, boathouse: str) -> None:
    result = run("suction", boathouse, "--json", "--csv")
    assert (2, "") == (result.exit_code, result.stdout)
    assert "--json and --csv exclude each other." in result.stderr


def test_suction_units_us_speaks_in_gallons(run, boathouse: str) -> None:
    metric, us = (run("suction", boathouse, *FEW, "--units", units).stdout for units in ("metric", "us"))
    assert (True, False) == ("L/min" in metric, "gal/min" in metric)
    assert (False, True) == ("L/min" in us, "gal/min" in us)


def test_suction_units_do_not_change_the_figures(run, boathouse: str) -> None:
    metric, us = (
        json.loads(run("suction", boathouse, *FEW, "--json", "--units", units).stdout) for units in ("metric", "us")
    )
    assert metric["parts"] == us["parts"]
    assert ("metric", "us") == (metric["units"], us["units"])


def test_suction_set_changes_one_field(run, boathouse: str) -> None:
    settings = ("--set", "return hose.length=9 m", "--set", "title=Longer")
    short, long = (json.loads(run("suction", boathouse, *FEW, "--json", *more).stdout) for more in ((), settings))
    assert "Longer" == long["title"]
    assert long["flow_port_closed_m3s"]["nominal"] < short["flow_port_closed_m3s"]["nominal"]


def test_suction_set_of_nothing_exits_with_2_and_names_the_parts(run, boathouse: str) -> None:
    result = run("suction", boathouse, "--set", "retrun hose.length=2 m")
    assert (2, "") == (result.exit_code, result.stdout)
    assert 'no part or table has the name "retrun hose"' in result.stderr
    assert '  write:    "return hose"' in result.stderr or "  write:    return hose" in result.stderr


def test_suction_seed_is_said_and_moves_only_the_range(run, boathouse: str) -> None:
    one, other = (json.loads(run("suction", boathouse, *FEW, "--json", "--seed", seed).stdout) for seed in ("1", "2"))
    assert (1, 2) == (one["seed"], other["seed"])
    assert one["pump_head_m"]["nominal"] == other["pump_head_m"]["nominal"]
    assert one["pump_head_m"]["low"] != other["pump_head_m"]["low"]


def test_suction_same_call_gives_the_same_bytes(run, boathouse: str) -> None:
    assert run("suction", boathouse, *FEW, "--json").stdout == run("suction", boathouse, *FEW, "--json").stdout


@pytest.mark.parametrize("cases", ["-16", "8", "100", "131072", "many"])
def test_suction_cases_that_cannot_be_drawn_exit_with_2(run, boathouse: str, cases: str) -> None:
    result = run("suction", boathouse, "--cases", cases)
    assert (2, "") == (result.exit_code, result.stdout)
    assert "--cases" in result.stderr


def test_suction_without_cases_has_no_width(run, boathouse: str) -> None:
    figure = json.loads(run("suction", boathouse, "--cases", "0", "--json").stdout)["pump_head_m"]
    assert 1 == len(set(figure.values()))


def test_suction_strict_exits_with_1_on_a_danger_and_answers(run, boathouse: str) -> None:
    result = run("suction", boathouse, *FEW, "--strict")
    assert (1, run("suction", boathouse, *FEW).stdout) == (result.exit_code, result.stdout)


def test_suction_strict_exits_with_0_without_a_danger(run, tmp_path: Path) -> None:
    """The starter file's tub stands outdoors, and its suction has a cover."""
    run("new", str(tmp_path / "tub.toml"))
    result = run("suction", str(tmp_path / "tub.toml"), *FEW, "--strict")
    assert (0, False) == (result.exit_code, "DANGER" in result.stdout)


def test_suction_output_file_holds_what_would_be_printed(run, boathouse: str, tmp_path: Path) -> None:
    target = tmp_path / "answer.txt"
    result = run("suction", boathouse, *FEW, "-o", str(target))
    assert (0, "") == (result.exit_code, result.stdout)
    assert result.stderr.startswith("DANGER\n")
    assert run("suction", boathouse, *FEW).stdout == target.read_text(encoding="utf-8")


def test_suction_output_is_written_when_strict_meets_a_danger(run, boathouse: str, tmp_path: Path) -> None:
    target = tmp_path / "answer.json"
    assert 1 == run("suction", boathouse, *FEW, "--strict", "--json", "-o", str(target)).exit_code
    assert "marginal" == json.loads(target.read_text(encoding="utf-8"))["verdict"]


def test_suction_wrong_input_leaves_the_old_output(run, loop: Path, tmp_path: Path) -> None:
    target = tmp_path / "answer.txt"
    target.write_text("old", encoding="utf-8")
    loop.write_text(loop.read_text(encoding="utf-8").replace('"2.2 m"', "2.2"), encoding="utf-8")
    result = run("suction", str(loop), "-o", str(target), "--picture", str(tmp_path / "loop.png"))
    assert (2, "old") == (result.exit_code, target.read_text(encoding="utf-8"))
    assert ["answer.txt", "loop.toml"] == names_in(tmp_path)


@pytest.mark.parametrize("more", [("-o", "{loop}"), ("-o", "x.png", "--picture", "x.png")])
def test_suction_targets_that_would_overwrite_each_other_exit_with_2(run, loop: Path, more: tuple[str, ...]) -> None:
    before = loop.read_bytes()
    result = run("suction", str(loop), *FEW, *(word.format(loop=loop) for word in more))
    assert (2, before) == (result.exit_code, loop.read_bytes())
    assert "must be different files" in result.stderr


@pytest.mark.parametrize("view", [None, *jobs.VIEWS])
def test_suction_picture_png_is_written_beside_the_answer(
    run, boathouse: str, tmp_path: Path, view: str | None
) -> None:
    target = tmp_path / "loop.png"
    result = run("suction", boathouse, *FEW, "--picture", str(target), *(("--view", view) if view else ()))
    assert (0, "Boathouse larch barrel") == (result.exit_code, result.stdout.splitlines()[0])
    assert b"\x89PNG\r\n\x1a\n" == target.read_bytes()[:8]


def test_suction_picture_svg_is_text_with_the_parts(run, boathouse: str, tmp_path: Path) -> None:
    target = tmp_path / "loop.SVG"
    assert 0 == run("suction", boathouse, *FEW, "--picture", str(target)).exit_code
    assert "<svg" in target.read_text(encoding="utf-8")


def test_suction_pictures_of_two_views_differ(run, boathouse: str, tmp_path: Path) -> None:
    for view in ("pressure", "pump"):
        run("suction", boathouse, *FEW, "--picture", str(tmp_path / f"{view}.svg"), "--view", view)
    assert (tmp_path / "pressure.svg").read_bytes() != (tmp_path / "pump.svg").read_bytes()


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (("--picture", "loop.gif"), "loop.gif ends neither in .png nor in .svg."),
        (("--view", "pump"), "--view needs --picture FILE."),
        (("--units", "imperial"), "'imperial' is not one of 'metric', 'us'"),
        (("--picture", "loop.png", "--view", "side"), "'side' is not one of 'elevation', 'pressure', 'pump'"),
        (("--seed", "-1"), "--seed"),
        (("--colour",), "No such option"),
    ],
)
def test_suction_option_wrong_exits_with_2_and_says_so(run, boathouse: str, more: tuple[str, ...], said: str) -> None:
    result = run("suction", boathouse, *more)
    assert (2, "") == (result.exit_code, result.stdout)
    assert said in result.stderr


def test_suction_reads_standard_input(run, boathouse: str) -> None:
    result = run("suction", "-", *FEW, input=Path(boathouse).read_bytes())
    assert run("suction", boathouse, *FEW).stdout == result.stdout


def test_suction_standard_input_binary_exits_with_2(run) -> None:
    result = run("suction", "-", input=b"\xff\xfe")
    assert (2, "") == (result.exit_code, result.stdout)
    assert result.stderr.startswith("Error: standard input\n")


def test_suction_base_and_own_parts_are_read_beside_the_loop_file(run, loop: Path) -> None:
    (loop.parent / "longer.toml").write_text(
        'format = 1\nbased_on = "loop.toml"\n[change."return hose"]\nlength = "9 m"\n', encoding="utf-8"
    )
    longer = json.loads(run("suction", str(loop.parent / "longer.toml"), *FEW, "--json").stdout)
    setting = json.loads(run("suction", str(loop), *FEW, "--json", "--set", "return hose.length=9 m").stdout)
    assert setting["flow_port_closed_m3s"] == longer["flow_port_closed_m3s"]


def test_suction_base_missing_exits_with_2_and_names_it(run, tmp_path: Path) -> None:
    path = tmp_path / "longer.toml"
    path.write_text('format = 1\nbased_on = "loop.toml"\n', encoding="utf-8")
    result = run("suction", str(path))
    assert (2, "") == (result.exit_code, result.stdout)
    assert "loop.toml" in result.stderr
    assert "there is no such file or folder" in result.stderr


def test_suction_two_problems_are_two_blocks(run, loop: Path) -> None:
    text = loop.read_text(encoding="utf-8").replace('"2.2 m"', "2.2").replace("rim =", "rmi =")
    loop.write_text(text, encoding="utf-8")
    result = run("suction", str(loop))
    assert (2, "") == (result.exit_code, result.stdout)
    blocks = result.stderr.rstrip().split("\n\n")
    assert ["Error: loop[3] flexible hose, length", "Error: [tub] rmi"] == [b.split("\n")[0] for b in blocks[:-1]]
    assert "2 problems; nothing was written." == blocks[-1]
    assert "  write:    rim" in blocks[1]


@pytest.mark.parametrize("kind", ["missing", "folder", "binary", "10 MB", "no TOML", "empty"])
def test_suction_loop_that_is_no_loop_file_exits_with_2(run, tmp_path: Path, kind: str) -> None:
    path = tmp_path / "loop.toml"
    if kind == "folder":
        path.mkdir()
    elif kind == "10 MB":
        path.write_bytes(b"#" * 10_000_000)
    elif kind != "missing":
        path.write_bytes({"binary": b"\x00\x01\xff", "no TOML": b"loop = [", "empty": b""}[kind])
    result = run("suction", str(path))
    assert (2, "") == (result.exit_code, result.stdout)
    assert result.stderr.startswith("Error: ")


def test_suction_loop_without_injector_exits_with_2(run, loop: Path) -> None:
    lines = loop.read_text(encoding="utf-8").replace('part = "injector", throat = "8 mm"', 'part = "ball valve"')
    loop.write_text(lines.split("[gas_line]")[0], encoding="utf-8")
    result = run("suction", str(loop))
    assert (2, "") == (result.exit_code, result.stdout)
    assert "no injector" in result.stderr


def test_suction_loop_that_no_pump_can_lift_exits_with_3(run, loop: Path) -> None:
    result = run("suction", str(loop), *FEW, "--set", "return.height=15 m")
    assert (3, "") == (result.exit_code, result.stdout)
    assert result.stderr.startswith("Error: ")


NOMINAL = "nominal-values-alone"


@pytest.mark.parametrize(
    "command",
    [("suction",), ("suction", "--faults"), ("suction", "--advise"), ("suction", "--size-throat"),
     ("suction", "--lasts"), ("hours",), ("ozone",), ("day", "--days", "1"),
     ("compare", "--with", "tub.water_level=0.7 m")],
    ids=" ".join,
)  # fmt: skip
def test_without_cases_every_answer_says_that_cautions_saw_nominal_values_alone(
    run, boathouse: str, command: tuple[str, ...]
) -> None:
    name, *options = command
    result = run(name, boathouse, *options, "--cases", "0", "--json")
    assert 0 == result.exit_code, result.stderr
    assert 1 == result.stdout.count(f'"{NOMINAL}"')
    assert "No case was drawn (--cases 0)" in " ".join(result.stderr.split())


def test_with_cases_no_answer_speaks_of_nominal_values_alone(run, boathouse: str) -> None:
    assert NOMINAL not in run("suction", boathouse, *FEW, "--json").stdout
