"""The loader takes a sound table and names file, line and column of every fault."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcheck.errors import PartError
from rigcheck.parts.tables import MARKS, Column, Table, load, number, text

HEAD = "# source: a book\n# unit size: mm\n# unit share: 1\n"
NAMES = "name,size,share,source,mark\n"
ROWS = 'a,1,0.5,"a book, p. 3",read\nb,2,0.6,"a book, p. 4",from memory\n'
ONE_SOURCE_HEAD = {"source": "a book", "edition": "2nd", "place": "p. 3", "mark": "estimate", "unit size": "mm", "unit share": "1"}
COLUMNS = (text("name"), number("size", "mm", 0.5, 100, order="rising"), number("share", "1", 0, 1, may_be_blank=True))


def one_source(**changes):
    """A one-source table as text, with head values changed or (None) left out."""
    head = {key: value for key, value in (ONE_SOURCE_HEAD | changes).items() if value is not None}
    return "".join(f"# {key}: {value}\n" for key, value in head.items()) + "name,size,share\na,1,0.5\n"


def read(folder, content, columns=COLUMNS, **declaration):
    (folder / "things.csv").write_text(content, encoding="utf-8")
    return load(Table("things.csv", columns, key=("name",), folder=folder, **declaration))


def fault(folder, content, **declaration):
    with pytest.raises(PartError) as caught:
        read(folder, content, **declaration)
    assert caught.value.where.startswith("things.csv")
    return caught.value


def test_a_sound_table_is_converted_to_si_and_keeps_source_and_mark(tmp_path):
    first, second = read(tmp_path, HEAD + NAMES + ROWS)
    assert (first.text("name"), first.number("size"), first.maybe("share")) == ("a", 0.001, 0.5)
    assert (first.source, first.mark) == ("a book, p. 3", "read")
    assert (second.line, second.mark) == (6, "from memory")


def test_a_blank_is_none_where_it_is_allowed(tmp_path):
    assert read(tmp_path, HEAD + NAMES + "a,1,,a book,read\n")[0].maybe("share") is None


def test_one_source_in_the_head_serves_every_row(tmp_path):
    [row] = read(tmp_path, one_source(), one_source=True)
    assert (row.source, row.mark) == ("a book, 2nd, p. 3", "estimate")


def test_a_number_as_printed_stays_in_the_unit_of_its_source(tmp_path):
    columns = (text("name"), number("size", "furlong", 0, 9, as_printed=True))
    [row] = read(tmp_path, "# source: a book\n# unit size: furlong\nname,size,source,mark\na,3,a book,read\n", columns)
    assert row.number("size") == 3


def test_a_table_is_read_once_and_kept(tmp_path):
    table = Table("things.csv", COLUMNS, key=("name",), folder=tmp_path)
    (tmp_path / "things.csv").write_text(HEAD + NAMES + ROWS, encoding="utf-8")
    first = table.rows()
    (tmp_path / "things.csv").unlink()
    assert table.rows() is first


@pytest.mark.parametrize(
    ("content", "where", "wrong"),
    [
        (HEAD + "name,weight,share,source,mark\n" + ROWS, "line 4", "weight"),
        (HEAD + "size,name,share,source,mark\n" + ROWS, "line 4", "size, name"),
        (HEAD + "name,size,share\na,1,0.5\n", "line 4", "name, size, share"),
        (HEAD.replace("mm", "in") + NAMES + ROWS, "column size", "unit in"),
        (HEAD.replace("# unit size: mm\n", "") + NAMES + ROWS, "column size", "unit missing"),
        (HEAD + "# unit weight: kg\n" + NAMES + ROWS, "column weight", "unit kg"),
        (HEAD + NAMES + "a,-1,0.5,a book,read\n", "line 5, column size", "-1 is out of range"),
        (HEAD + NAMES + "a,101,0.5,a book,read\n", "line 5, column size", "101 is out of range"),
        (HEAD + NAMES + "a,1,1.2,a book,read\n", "line 5, column share", "1.2 is out of range"),
        (HEAD + NAMES + "a,1_0,0.5,a book,read\n", "line 5, column size", "'1_0' is not a number"),
        (HEAD + NAMES + "a,nan,0.5,a book,read\n", "line 5, column size", "'nan' is not a number"),
        (HEAD + NAMES + "a,1e999,0.5,a book,read\n", "line 5, column size", "out of range"),
        (HEAD + NAMES + "a,1 mm,0.5,a book,read\n", "line 5, column size", "not a number"),
        (HEAD + NAMES + "a,,0.5,a book,read\n", "line 5, column size", "blank"),
        (HEAD + NAMES + ",1,0.5,a book,read\n", "line 5, column name", "blank"),
        (HEAD + NAMES + "a,2,0.5,a book,read\nb,1,0.5,a book,read\n", "line 6, column size", "1 after 2"),
        (HEAD + NAMES + "a,2,0.5,a book,read\nb,2,0.5,a book,read\n", "line 6, column size", "2 after 2"),
        (HEAD + NAMES + "a,1,0.5,a book,read\na,2,0.5,a book,read\n", "line 6, column name", "a is already in line 5"),
        (HEAD + NAMES + "a,1,0.5,,read\n", "line 5, column source", "no source"),
        (HEAD + NAMES + "a,1,0.5,a book,guess\n", "line 5, column mark", "mark 'guess'"),
        (HEAD + NAMES + "a,1,0.5,a book,\n", "line 5, column mark", "mark ''"),
        (HEAD + NAMES + "a,1,0.5,a book\n", "line 5", "4 cells"),
        (HEAD + NAMES + 'a,1,0.5,"a book,read\n', "line 5", "not readable as CSV"),
        (HEAD + NAMES, "", "no rows"),
        (HEAD, "", "no line of column names"),
        (HEAD.replace("# source: a book\n", "") + NAMES + ROWS, "", "the head gives no source"),
        (HEAD + "# sorce: a book\n" + NAMES + ROWS, "", "unknown key 'sorce'"),
        (HEAD + "# source: another\n" + NAMES + ROWS, "line 4", "'source' is given twice"),
        (HEAD + "# just words\n" + NAMES + ROWS, "line 4", "head line"),
        ("\ufeff" + HEAD + NAMES + ROWS, "", "the head gives no source"),
    ],
)
def test_a_fault_is_named_with_its_place(tmp_path, content, where, wrong):
    error = fault(tmp_path, content)
    assert where in error.where
    assert wrong in error.wrong


@pytest.mark.parametrize("key", ["source", "edition", "place", "mark"])
def test_a_one_source_table_needs_source_edition_place_and_mark_in_its_head(tmp_path, key):
    assert fault(tmp_path, one_source(**{key: None}), one_source=True).wrong == f"the head gives no {key}"


def test_a_mark_in_the_head_is_one_of_the_four(tmp_path):
    assert "mark 'sure'" in fault(tmp_path, one_source(mark="sure"), one_source=True).wrong


def test_words_outside_the_choices_are_refused(tmp_path):
    columns = (text("name", choices=("a", "b")), *COLUMNS[1:])
    assert "'c'" in fault(tmp_path, HEAD + NAMES + "c,1,0.5,a book,read\n", columns=columns).wrong


def test_a_unit_that_cannot_be_converted_is_named(tmp_path):
    columns = (text("name"), number("size", "furlong", 0, 9))
    error = fault(tmp_path, "# source: a book\n# unit size: furlong\nname,size,source,mark\na,3,a book,read\n", columns=columns)
    assert error.where == "things.csv, line 4, column size"
    assert "furlong" in error.wrong


def test_a_missing_file_and_bytes_that_are_not_utf_8_are_part_errors(tmp_path):
    with pytest.raises(PartError, match="cannot be read"):
        load(Table("absent.csv", COLUMNS, key=("name",), folder=tmp_path))
    (tmp_path / "bytes.csv").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(PartError, match="cannot be read"):
        load(Table("bytes.csv", COLUMNS, key=("name",), folder=tmp_path))


@pytest.mark.parametrize(("order", "second"), [("falling", 3), ("falling", 2), ("not falling", 1)])
def test_each_order_is_judged(tmp_path, order, second):
    columns = (text("name"), number("size", "mm", 0, 9, order=order))
    content = f"# source: a book\n# unit size: mm\nname,size,source,mark\na,2,a book,read\nb,{second},a book,read\n"
    assert f"this column is {order}" in fault(tmp_path, content, columns=columns).right


def test_equal_values_do_not_fall(tmp_path):
    columns = (text("name"), number("size", "mm", 0, 9, order="not falling"))
    rows = read(tmp_path, "# source: a book\n# unit size: mm\nname,size,source,mark\na,2,a book,read\nb,2,a book,read\n", columns)
    assert [row.number("size") for row in rows] == [0.002, 0.002]


def test_order_is_judged_within_a_group_only(tmp_path):
    content = HEAD + NAMES + "a,9,0.5,a book,read\nb,1,0.5,a book,read\n"
    assert len(read(tmp_path, content, group=("name",))) == 2


def test_an_order_that_does_not_exist_cannot_be_declared():
    with pytest.raises(ValueError, match="sideways"):
        number("size", "mm", 0, 1, order="sideways")


@given(sizes=st.lists(st.floats(0.5, 100), min_size=2, max_size=8))
def test_a_rising_column_loads_exactly_when_it_rises(tmp_path_factory, sizes):
    folder = tmp_path_factory.mktemp("rising")
    content = HEAD + NAMES + "".join(f"row {place},{size!r},,a book,read\n" for place, size in enumerate(sizes))
    if all(early < late for early, late in pairwise(sizes)):
        assert [row.number("size") for row in read(folder, content)] == pytest.approx([size / 1000 for size in sizes])
    else:
        fault(folder, content)


@given(mark=st.text(st.characters(blacklist_characters='",\r\n', blacklist_categories=("Cs", "Cc", "Zl", "Zp")), max_size=12))
def test_only_the_four_marks_are_marks(tmp_path_factory, mark):
    content = HEAD + NAMES + f"a,1,0.5,a book,{mark}\n"
    if mark.strip() not in MARKS:
        assert "mark" in fault(tmp_path_factory.mktemp("mark"), content).where


def test_a_column_without_unit_holds_words():
    assert text("name") == Column("name")
