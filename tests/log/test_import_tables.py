"""Mappings and the text of tables: separators, marks, encodings, sizes."""

import pytest

from tendline.base import InputError, NotFoundError
from tendline.log import (
    fitting,
    import_table,
    mapping_from_dict,
    mapping_to_dict,
    read_table,
    ready_mappings,
    text_of,
)
from tests.log.tables import DAY, HEAD, PLAIN, STREAM, STREAM_HEAD, games


def test_ready_mappings_go_to_a_dictionary_and_back():
    assert len(ready_mappings()) == 3
    for one in (*ready_mappings(), PLAIN):
        assert mapping_from_dict(mapping_to_dict(one)) == one


def test_the_fitting_mapping_is_found_by_the_columns():
    assert fitting(tuple(STREAM_HEAD.split(",")), ready_mappings()) is STREAM
    assert fitting(("a", "b"), ready_mappings()) is None


@pytest.mark.parametrize(
    ("data", "words"),
    [
        ({"name": "m", "columns": {"x": "a", "y": "b"}}, "no column for result"),
        ({"name": "m", "columns": {"x": "a", "y": "b", "results": "c"}}, "Did you mean 'result'"),
        ({"name": "m", "columns": {}, "units": "m"}, "Did you mean 'unit'"),
        ({"name": "m", "columns": {}, "unit": "metre"}, "allowed: m, ft, yd, in"),
        ({"name": "m"}, "the mapping cannot be read"),
        ({"name": "m", "columns": {}, "stream": {"pases": {}}}, "the mapping cannot be read"),
    ],
)
def test_a_mapping_that_makes_no_sense_is_refused(data, words):
    with pytest.raises((InputError, NotFoundError)) as caught:
        mapping_from_dict(data)
    assert words in str(caught.value)


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
def test_common_separators_and_decimal_commas_are_read(separator):
    decimal = "6,5" if separator != "," else "6.5"
    cells = ["1", "Reds", "kim", "1", "10", decimal, "2", "S", "", "", "", ""]
    text = HEAD.replace(",", separator) + "\n" + separator.join(cells)
    (game,) = games(import_table(read_table(text), PLAIN, day=DAY))
    assert game.shots[0].x == 6.5


def test_marks_and_old_encodings_are_read():
    assert text_of(b"\xef\xbb\xbfa,b") == "a,b"
    assert text_of("Zürich".encode("cp1252")) == "Zürich"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "the file is empty"),
        ("\n \n", "the file is empty"),
        ("a,b,a\n1,2,3", "two columns share a name; got a"),
        ('a,b\n1,"2' + "x" * 140_000, "cannot be read as a table"),
    ],
)
def test_what_is_no_table_is_refused(text, words):
    with pytest.raises(InputError, match=words):
        read_table(text)


def test_a_spreadsheet_file_is_no_text():
    with pytest.raises(InputError, match="Save the sheet as CSV"):
        text_of(b"PK\x03\x04\x00\x00\x00\x00")


def test_short_rows_are_filled_and_empty_lines_left_out():
    read = read_table("a,b\n1\n\n2,3,4\n")
    assert [dict(one.cells) for one in read.rows] == [{"a": "1", "b": ""}, {"a": "2", "b": "3"}]
    assert [one.line for one in read.rows] == [2, 4]


def test_files_that_are_too_large_are_refused(monkeypatch):
    monkeypatch.setattr("tendline.log.table.MOST_BYTES", 10)
    monkeypatch.setattr("tendline.log.table.MOST_ROWS", 2)
    with pytest.raises(InputError, match="the file is too large"):
        text_of(b"x" * 11)
    with pytest.raises(InputError, match="too many rows"):
        read_table("a\n1\n2\n3")
