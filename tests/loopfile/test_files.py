"""Files that start from other files, and files of own parts, through a reader that opens nothing."""

from collections.abc import Callable

import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.read import LoadedPlant, read_plant
from sanitize.plant.loop import walk

LoopText = Callable[..., str]
HOSE = '{part = "flexible hose", name = "return hose", length = "1.5 m", bore = "19 mm"}'


def read(files: dict[str, str], path: str) -> LoadedPlant:
    """Read the file of that path; the other files are there by their paths."""
    missing = OSError(2, "No such file or directory")

    def reader(other: str) -> str:
        if other not in files:
            raise missing
        return files[other]

    return read_plant(files[path], path=path, reader=reader)


def length_m(loaded: LoadedPlant, name: str) -> float:
    return float(
        next(part for part in walk(loaded.plant.loop) if part.name == name).model_dump()["length_m"]["nominal"]
    )


def test_file_based_on_another_takes_all_that_it_does_not_say(loop_text: LoopText) -> None:
    child = 'format = 1\ntitle = "Colder"\nbased_on = "a.toml"\n[tub]\nwater_temperature = "3 degC"\n'
    tub = read({"a.toml": loop_text(HOSE), "b.toml": child}, "b.toml").plant.tub
    expected = (3.0, 0.43)
    assert expected == pytest.approx((tub.temperature_c, tub.volume_m3))


def test_change_gives_a_named_part_new_values(loop_text: LoopText) -> None:
    child = 'format = 1\nbased_on = "a.toml"\n[change."return hose"]\nlength = "2 m"\n[change.pump]\npower = "80 W"\n'
    loaded = read({"a.toml": loop_text(HOSE), "b.toml": child}, "b.toml")
    expected = 2.0
    assert expected == pytest.approx(length_m(loaded, "return hose"))


def test_changes_of_a_line_of_files_add_up(loop_text: LoopText) -> None:
    middle = 'format = 1\nbased_on = "a.toml"\n[change."return hose"]\nlength = "2 m"\nwall = "ribbed"\n'
    child = 'format = 1\nbased_on = "b.toml"\n[change."return hose"]\nlength = "3 m"\n'
    loaded = read({"a.toml": loop_text(HOSE), "b.toml": middle, "c.toml": child}, "c.toml")
    expected = {"length_m": 3.0, "wall": "ribbed"}
    hose = next(part for part in walk(loaded.plant.loop) if part.name == "return hose").model_dump()
    assert expected == {"length_m": pytest.approx(hose["length_m"]["nominal"]), "wall": hose["wall"]}


def test_paths_are_seen_from_the_file_that_names_them(loop_text: LoopText) -> None:
    files = {
        "tubs/base/a.toml": loop_text(HOSE),
        "tubs/b.toml": 'format = 1\nbased_on = "base/a.toml"\n',
        "tubs/variants/c.toml": 'format = 1\nbased_on = "../b.toml"\n',
    }
    expected = 1.5
    assert expected == pytest.approx(length_m(read(files, "tubs/variants/c.toml"), "return hose"))


def test_new_loop_replaces_the_loop_below_with_its_ways(loop_text: LoopText) -> None:
    base = loop_text(
        '{part = "split", ways = ["a", "b"]}', ways='way.a = [{part = "union"}]\nway.b = [{part = "union"}]\n'
    )
    child = loop_text(HOSE).replace("format = 1", 'format = 1\nbased_on = "a.toml"').split("[tub]")[0]
    expected = ["suction fitting", "pump", "return hose", "return"]
    loaded = read({"a.toml": base, "b.toml": child}, "b.toml")
    assert expected == [part.name for part in walk(loaded.plant.loop)]


def test_way_of_the_same_name_replaces_the_way_below(loop_text: LoopText) -> None:
    base = loop_text(
        '{part = "split", ways = ["a", "b"]}', ways='way.a = [{part = "union"}]\nway.b = [{part = "coupling"}]\n'
    )
    child = 'format = 1\nbased_on = "a.toml"\n[[way.a]]\npart = "tee"\npath = "turn"\n'
    expected = ["tee", "coupling"]
    loaded = read({"a.toml": base, "b.toml": child}, "b.toml")
    assert expected == [part.name for part in walk(loaded.plant.loop)][3:5]


def test_longer_line_of_files_than_ten_is_refused() -> None:
    files = {f"{n}.toml": f'format = 1\nbased_on = "{n + 1}.toml"\n' for n in range(20)}
    with pytest.raises(InputError, match="more than 10 files are based on each other"):
        read(files, "0.toml")


def test_base_that_is_no_toml_is_named() -> None:
    files = {"a.toml": "format = \n", "b.toml": 'format = 1\nbased_on = "a.toml"\n'}
    with pytest.raises(InputError, match=r"^a\.toml, line 1, column 10: this is no value"):
        read(files, "b.toml")


def test_loop_behind_a_table_of_the_base_is_named_with_its_file(loop_text: LoopText) -> None:
    base = loop_text(HOSE)
    top, tub = base.split("[tub]")
    files = {
        "a.toml": f'format = 1\nsize = "1 in"\n[tub]{tub}' + top[top.index("loop =") :],
        "b.toml": 'format = 1\nbased_on = "a.toml"\n',
    }
    with pytest.raises(InputError, match=r"^a\.toml: \[tub\] loop: it stands behind the header \[tub\]"):
        read(files, "b.toml")


OWN = """
format = 1
[part."my bend"]
part = "sweep elbow 90"
count = 2
[part."my filter"]
part = "known drop"
drop = "5 kPa"
at_flow = "8 gpm"
"""


def test_own_parts_stand_in_the_loop_by_their_names(loop_text: LoopText) -> None:
    text = loop_text('{part = "my bend"}', '{part = "my filter"}', '{part = "my bend", count = 3}', tail="")
    files = {"a.toml": 'parts_file = "mine.toml"\n' + text, "mine.toml": OWN}
    parts = walk(read(files, "a.toml").plant.loop)[2:5]
    expected = [
        ("my bend (1)", "sweep elbow 90", 2),
        ("my filter", "known drop", None),
        ("my bend (2)", "sweep elbow 90", 3),
    ]
    assert expected == [(part.name, part.word, part.model_dump().get("count")) for part in parts]


def test_own_part_can_be_set_by_its_name(loop_text: LoopText) -> None:
    text = 'parts_file = "mine.toml"\n' + loop_text('{part = "my bend"}')
    loaded = read_plant(text, overrides=["my bend.count=7"], reader=lambda _: OWN)
    expected = 7
    assert expected == walk(loaded.plant.loop)[2].model_dump()["count"]
