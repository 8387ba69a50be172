"""Which part is which, and what differs, in the words of the files."""

from collections.abc import Callable

import pytest

from sanitize.basis.band import Band
from sanitize.studies.comparison.described import Described, same
from sanitize.studies.comparison.differences import differences, matched
from sanitize.studies.comparison.result import Difference

FileOf = Callable[..., Described]
Told = list[tuple[str, tuple[str, ...], str, tuple[str | None, ...]]]


def told(*files: Described) -> Told:
    return [(item.kind, item.places, item.key, item.values) for item in differences(matched(files))]


def elbow(name: str = "", *, word: str = "elbow 90", more: str = "") -> str:
    return f'{{part = "{word}"{f", name = {chr(34)}{name}{chr(34)}" if name else ""}{more}}}'


def test_same_file_twice_differs_in_nothing(file_of: FileOf) -> None:
    assert [] == told(file_of("A"), file_of("B"))


@pytest.mark.parametrize(
    ("changed", "expected"),
    [
        ({"between": ("0.8 m", "1.1 m")}, ("value", ("riser",), "length", ('"0.8 m"', '"1.1 m"'))),
        ({"injector": ("0.5}", "0.4}")}, ("value", ("injector",), "loss_ratio", ("0.5", "0.4"))),
        (
            {"pump": ('"5 m"', '"6 m"')},
            (
                "value",
                ("pump",),
                "curve",
                (
                    '[["0 L/min", "5 m"], ["50 L/min", "4 m"], ["100 L/min", "0 m"]]',
                    '[["0 L/min", "6 m"], ["50 L/min", "4 m"], ["100 L/min", "0 m"]]',
                ),
            ),
        ),
        ({"tub": ("10 degC", "6 degC")}, ("value", ("[tub]",), "water_temperature", ('"10 degC"', '"6 degC"'))),
        ({"tub": ('rim = "0.90 m"\n', "")}, ("value", ("[tub]",), "rim", ('"0.90 m"', "not given"))),
        (
            {"tables": 'THIS\n[room]\nvolume = "40 m3"\n'},
            ("part", ("[room]",), "", (None, 'volume = "40 m3"')),
        ),
        (
            {"between": ("flexible hose", "vinyl tube")},
            ("value", ("riser",), "part", ('"flexible hose"', '"vinyl tube"')),
        ),
    ],
)  # fmt: skip
def test_one_changed_value_is_the_only_difference(file_of: FileOf, changed: dict[str, str], expected: object) -> None:
    assert [expected] == told(file_of("A"), file_of("B", **changed))


@pytest.mark.parametrize(
    "changed",
    [
        {"between": ("0.8 m", "800 mm")},
        {"between": ("0.8 m", "80 cm")},
        {"injector": ('"15 mm"', '"1.5 cm"')},
        {"tub": ("10 degC", "50 degF")},
        {"tub": 'THIS\naltitude = "0 m"\n'},
        {"top": 'title = "Another"\nsize = "1 in"'},
        {"top": "", "suction": ('"0.20 m"}', '"0.20 m", size = "1 in"}')},
    ],
)  # fmt: skip
def test_what_means_the_same_is_no_difference(file_of: FileOf, changed: dict[str, str]) -> None:
    assert [] == told(file_of("A"), file_of("B", **changed))


def test_stated_range_is_a_difference_though_the_value_is_not(file_of: FileOf) -> None:
    wide = ("0.8 m", "0.8 m +- 20 cm")
    assert [("value", ("riser",), "length", ('"0.8 m"', '"0.8 m +- 20 cm"'))] == told(
        file_of(), file_of("B", between=wide)
    )


def test_unknown_against_a_stand_in_is_told_in_the_words_of_both(file_of: FileOf) -> None:
    silent = ('check_valve_opens_at = "1.5 kPa"\n', "")
    ((kind, places, key, values),) = told(file_of(), file_of("B", tables=silent))
    assert ("value", ("[gas_line]",), "check_valve_opens_at") == (kind, places, key)
    assert ('"1.5 kPa"', "not given, 1.5 kPa (0.30 to 7.0) is taken") == values


def test_inserted_elbow_is_added_and_those_behind_it_stay_the_same(file_of: FileOf) -> None:
    """Nameless elbows are numbered in their order, so that one more in front renames all; no name is a difference."""
    three, four = (", ".join([elbow()] * count) for count in (3, 4))
    assert [("part", None, "elbow 90")] == [
        (item.kind, item.values[0], item.values[1])
        for item in differences(matched([file_of(between=three), file_of("B", between=four)]))
    ]


def test_part_taken_out_and_part_put_in_are_told_with_their_keys(file_of: FileOf) -> None:
    one = file_of(between=elbow("knee"))
    other = file_of("B", between='{part = "filter", drop = "5 kPa", at_flow = "40 L/min"}')
    expected = [
        ("part", ("filter",), "", (None, 'filter, drop = "5 kPa", at_flow = "40 L/min"')),
        ("part", ("knee",), "", ("elbow 90", None)),
    ]
    assert expected == sorted(told(one, other), key=lambda item: item[1])


def test_name_pairs_parts_wherever_they_stand(file_of: FileOf) -> None:
    """The filter stands behind the pump in A and behind the riser in B; the riser then follows the pump."""
    cleaner = '{part = "filter", name = "cleaner", drop = "5 kPa", at_flow = "40 L/min"}'
    one, other = f"{cleaner}, THIS", f"THIS, {cleaner}"
    found = told(file_of(between=one), file_of("B", between=other))
    assert ["place"] == [item[0] for item in found]
    assert {("cleaner",), ("riser",)} >= {item[1] for item in found}
    assert (
        ("behind pump in the loop", "behind riser in the loop"),
        ("behind cleaner in the loop", "behind pump in the loop"),
    )[found[0][1] == ("riser",)] == found[0][3]


def test_nameless_part_that_moved_is_one_part(file_of: FileOf) -> None:
    valve = '{part = "ball valve"}'
    found = told(file_of(between=f"{valve}, THIS"), file_of("B", between=f"THIS, {valve}"))
    assert ["place"] == [item[0] for item in found]


def test_part_that_moved_into_a_way_is_told(file_of: FileOf) -> None:
    split = '{part = "split", ways = ["a", "b"]}'
    injector = '{part = "injector", throat = "15 mm", height = "0.55 m", loss_ratio = 0.5}'
    ways = f'way.a = [{injector}]\nway.b = [{{part = "throttle valve", handle = "40 deg"}}]'
    found = told(file_of(), file_of("B", injector=split, ways=ways))
    assert ("place", ("injector",), "", ("behind riser in the loop", "first in way a")) in found
    assert [("split",), ("throttle valve",)] == [item[1] for item in found if item[0] == "part"]


def test_new_name_of_one_part_is_a_name_and_no_part(file_of: FileOf) -> None:
    renamed = ('"riser"', '"lift"')
    assert [("name", ("riser",), "name", ('"riser"', '"lift"'))] == told(file_of(), file_of("B", between=renamed))


def test_other_size_of_the_loop_is_told_once(file_of: FileOf) -> None:
    found = told(file_of(), file_of("B", top='size = "3/4 in"'))
    ((kind, places, key, values),) = found
    assert ("value", "size", ('"1 in", the running size', '"3/4 in", the running size')) == (kind, key, values)
    assert ("suction fitting", "suction hose", "pump", "riser", "injector", "return hose", "return") == places


def test_three_files_stand_in_one_row(file_of: FileOf) -> None:
    lengths = {"A": "0.8 m", "B": "0.9 m", "C": "1 m"}
    files = [file_of(label, between=("0.8 m", length)) for label, length in lengths.items()]
    assert [("value", ("riser",), "length", ('"0.8 m"', '"0.9 m"', '"1 m"'))] == told(*files)


def test_part_that_two_others_add_alike_stands_in_one_row(file_of: FileOf) -> None:
    more = f"THIS, {elbow('knee')}"
    found = told(file_of(), file_of("B", between=more), file_of("C", between=more))
    assert [("part", ("knee",), "", (None, "elbow 90", "elbow 90"))] == found


def test_part_that_is_missing_in_the_second_file_only(file_of: FileOf) -> None:
    found = told(file_of(), file_of("B", between=""), file_of("C", between=("0.8 m", "1 m")))
    assert (
        "part",
        ("riser",),
        "",
        ('flexible hose, length = "0.8 m"', None, 'flexible hose, length = "1 m"'),
    ) == found[0]
    assert ("value", ("riser",), "length", ('"0.8 m"', None, '"1 m"')) == found[1]


def test_file_based_on_another_differs_by_what_it_changes(file_of: FileOf, text_of: Callable[..., str]) -> None:
    one = file_of()
    text = 'format = 1\nbased_on = "A.toml"\n[change.riser]\nlength = "2 m"\n[tub]\nwater_level = "0.7 m"\n'
    other = file_of("B", text=text, others={"A.toml": text_of()})
    expected = [
        ("value", ("riser",), "length", ('"0.8 m"', '"2 m"')),
        ("value", ("[tub]",), "water_level", ('"0.80 m"', '"0.7 m"')),
    ]
    assert expected == told(one, other)


def test_differences_are_the_same_read_from_the_other_side(file_of: FileOf) -> None:
    one = file_of(between=f"{elbow('knee')}, THIS")
    other = file_of("B", between=("0.8 m", "1 m"), injector=("0.55 m", "0.7 m"))
    there, back = differences(matched([one, other])), differences(matched([other, one]))
    turned = {Difference(item.kind, item.places, item.key, item.values[::-1]) for item in back}
    assert set(there) == turned


def test_part_that_the_first_file_lacks_is_told_whole_and_not_key_by_key(file_of: FileOf) -> None:
    files = [file_of(label, between=f'THIS, {{part = "pipe", name = "more", length = "{length}"}}')
             for label, length in (("B", "1 m"), ("C", "2 m"))]  # fmt: skip
    expected = (None, 'pipe, length = "1 m"', 'pipe, length = "2 m"')
    assert [("part", ("more",), "", expected)] == told(file_of(), *files)


def test_tables_in_double_brackets_are_told_one_by_one(file_of: FileOf) -> None:
    test = '[[water_test]]\nph = 7.4\ntotal_alkalinity = "80 mg/L"\n'
    one = file_of(tables="THIS\n" + test)
    other = file_of("B", tables="THIS\n" + test.replace("7.4", "7.6") + test)
    assert [
        ("value", ("[[water_test]] 1",), "ph", ("7.4", "7.6")),
        ("part", ("[[water_test]] 2",), "", (None, 'ph = 7.4, total_alkalinity = "80 mg/L"')),
    ] == told(one, other)


def test_nameless_parts_pair_with_those_that_are_most_alike(file_of: FileOf) -> None:
    short, long = ('{part = "pipe", length = "1 m"}', '{part = "pipe", length = "2 m"}')
    found = told(file_of(between=f"{short}, {long}"), file_of("B", between=long))
    assert [("part", ('pipe, length = "1 m"', None))] == [(item[0], item[3]) for item in found]


def test_nameless_parts_pair_within_their_way_rather_than_by_their_values(file_of: FileOf) -> None:
    split = '{part = "split", ways = ["a", "b"]}'
    injector = '{part = "injector", throat = "15 mm", height = "0.55 m", loss_ratio = 0.5}'
    valve = '{{part = "throttle valve", handle = "{}"}}'
    one = f"way.a = [{injector}, {valve.format('20 deg')}]\nway.b = [{valve.format('40 deg')}]"
    other = f"way.a = [{injector}]\nway.b = [{valve.format('20 deg')}]"
    found = told(file_of(injector=split, ways=one), file_of("B", injector=split, ways=other))
    expected = [("part", ('throttle valve, handle = "20 deg"', None)), ("value", ('"40 deg"', '"20 deg"'))]
    assert expected == [(item[0], item[3]) for item in found]


def test_name_that_only_counts_parts_is_no_difference(file_of: FileOf) -> None:
    """One elbow is called by its word, of two the first is number 1."""
    found = told(file_of(between=elbow()), file_of("B", between=f"{elbow()}, {elbow()}"))
    assert [("part", (None, "elbow 90"))] == [(item[0], item[3]) for item in found]


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        (Band(1.0, 2.0, 4.0), Band(1.0, 2.0, 4.0), True),
        (Band(1.0, 2.0, 4.0), Band(1.0, 2.0, 4.0, "log"), False),
        (Band(1.0, 2.0, 4.0), Band(1.0, 2.0, 4.1), False),
        (0.3, 0.1 + 0.2, True),
        (0.3, 0.3001, False),
        ((1.0, (0.3, 2.0)), (1.0, (0.1 + 0.2, 2.0)), True),
        ((1.0, 2.0), (1.0, 2.0, 3.0), False),
        (None, 1.0, False),
        ("PVC", "PVC", True),
    ],
)
def test_values_that_mean_the_same(one: object, other: object, expected: bool) -> None:
    assert expected == same(one, other)
