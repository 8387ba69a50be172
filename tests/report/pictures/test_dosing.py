"""The picture of the water against its targets: what is drawn, and its words."""

from datetime import date
from itertools import pairwise
from pathlib import Path

import pytest

from sanitize.loopfile.read import read_plant
from sanitize.report.pictures import dosing_picture
from sanitize.report.pictures.dosing import dosing_figure, labels_of, rows_of
from sanitize.studies.dosing.result import Dosing
from sanitize.studies.dosing.study import study_dosing

DEMOS = Path(__file__).resolve().parents[3] / "demos"


@pytest.fixture(scope="module")
def result() -> Dosing:
    text = (DEMOS / "boathouse_spring.toml").read_text(encoding="utf-8")
    plant = read_plant(text, reader=lambda name: (DEMOS / name).read_text(encoding="utf-8")).plant
    return study_dosing(plant, date(2026, 4, 12), cases=16)


def test_picture_has_a_bar_and_a_ring_for_each_target_and_the_index(result: Dosing) -> None:
    (axes,) = dosing_figure(result).axes
    count = len(result.targets) + 1
    assert count == len(axes.patches)
    assert count == len([line for line in axes.lines if line.get_gid() == "tested"])
    labels = [label.get_text() for label in axes.get_yticklabels()]
    assert "pH\ntested 7.9" == labels[0]
    assert labels[-1].startswith("saturation index")


def test_dots_stand_where_the_steps_bring_the_item(result: Dosing) -> None:
    (chlorine,) = [row for row in rows_of(result) if row.label.startswith("free chlorine")]
    expected = [(str(step.number), step.after.free_chlorine_mgl.nominal) for step in result.steps[-2:]]
    assert expected == list(chlorine.points)
    assert 0.0 < chlorine.place(chlorine.tested.ends[0]) < chlorine.place(chlorine.last.ends[1]) < 1.0


def test_labels_that_would_lie_on_each_other_are_joined(result: Dosing) -> None:
    for row in rows_of(result):
        places = [place for _, place in labels_of(row)]
        assert all(after - before >= 0.01 for before, after in pairwise(places))
        names = [name for names, _ in labels_of(row) for name in names.split(",")]
        assert sorted(name for name, _ in row.points) == sorted(names)


def test_picture_of_both_kinds(result: Dosing) -> None:
    assert dosing_picture(result, "png").startswith(b"\x89PNG")
    assert b"as tested" in dosing_picture(result, "svg")
