"""Bytes to text, and text that is no TOML at all."""

import pytest

from sanitize.basis.errors import InputError
from sanitize.loopfile.toml_text import LARGEST_BYTES, decode, load


def test_decode_leaves_text_as_it_is() -> None:
    expected = 'title = "6 °C"'
    assert expected == decode(expected.encode())


def test_decode_takes_the_byte_order_mark_off() -> None:
    expected = "format = 1"
    assert expected == decode(b"\xef\xbb\xbfformat = 1")


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"format = 1\ntitle = '\xff'\n",
         "tub.toml: line 2 holds bytes that are no UTF-8 text; accepted: a text file saved as UTF-8"),
        (b"format = 1\0", "tub.toml: it holds NUL bytes, so it is no text file; accepted: a text file in TOML"),
        (b" " * (LARGEST_BYTES + 1), "tub.toml: it is 1000001 bytes long; accepted: at most 1000000 bytes"),
    ],
)  # fmt: skip
def test_decode_of_what_is_no_text_file_says_why(data: bytes, message: str) -> None:
    with pytest.raises(InputError) as caught:
        decode(data, "tub.toml")
    assert message == str(caught.value)


def test_decode_of_the_largest_file_passes() -> None:
    assert decode(b" " * LARGEST_BYTES).isspace()


@pytest.mark.parametrize(
    "text", ["a = " + "[" * 5000, "a = " + "{a=" * 5000, "a" + ".a" * 5000 + " = 1", "[a" + ".a" * 5000 + "]"]
)
def test_load_of_deep_nesting_is_one_problem(text: str) -> None:
    expected = "x.toml: it is nested too deeply; accepted: lists and tables a few levels deep"
    with pytest.raises(InputError) as caught:
        load(text, "x.toml")
    assert expected == str(caught.value)


def test_load_of_a_number_without_end_is_one_problem() -> None:
    expected = "x.toml: it holds a number that cannot be read; accepted: numbers of ordinary length"
    with pytest.raises(InputError) as caught:
        load("a = " + "9" * 10_000, "x.toml")
    assert expected == str(caught.value)


def test_load_of_a_text_too_large_is_one_problem() -> None:
    with pytest.raises(InputError, match="at most 1000000 bytes"):
        load("#" * (LARGEST_BYTES + 1), "x.toml")
