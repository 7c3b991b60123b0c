"""Rig files: what is good comes back the same, what is not is refused with place, fault and remedy."""

import copy
import json
import os

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rigcheck.errors import RigFileError
from rigcheck.rig import examples, files
from rigcheck.rig.model import Rig

LOFT = {
    "format": 1,
    "name": "loft",
    "points": {"beam": {"at": ["0.05 m", "3 m"]}},
    "bodies": {
        "crate": {
            "role": "load", "mass": "120 kg ± 5 kg", "at": ["0 m", "0 m"], "picks": {"eye": ["0 m", "0.5 m"]},
            "moves": {"kind": "guided", "tilts": True},
        }
    },
    "sheaves": {"head": {"on": "beam", "pitch_diameter": "100 mm", "bearing": "plain"}},
    "ropes": {
        "hoist rope": {
            "kind": "steel", "diameter": "5 mm",
            "path": [
                {"made_fast_to": "crate", "pick": "eye"},
                {"over": "head", "turns": "clockwise"},
                {"wound_on": "drum", "turns": "clockwise"},
            ],
            "notes": {"diameter": "measured"},
        }
    },
    "drive": {"kind": "winch", "drum": {"at": ["1 m", "0.3 m"], "diameter": "100 mm"}, "gears": [{"kind": "worm", "ratio": 30}]},
    "limits": {"travel": "1.6 m"},
}  # fmt: skip
GONE = object()
CRATE, ROPE, PATH = ("bodies", "crate"), ("ropes", "hoist rope"), ("ropes", "hoist rope", "path")
JARGON = ("pydantic", "Input should", "union", "function-", "Traceback", "value_error", "Validator", "tuple[", "type=")


def changed(path, value):
    """The loft rig with one place changed, or taken out."""
    rig = copy.deepcopy(LOFT)
    here = rig
    for step in path[:-1]:
        here = here[step]
    if value is GONE:
        del here[path[-1]]
    else:
        here[path[-1]] = value
    return rig


def refusal(text, name="loft.rig.json") -> RigFileError:
    with pytest.raises(RigFileError) as caught:
        files.loads(text if isinstance(text, str | bytes) else json.dumps(text), name)
    return caught.value


# --- good files ---------------------------------------------------------------------------------------------------------------------------


def test_what_is_written_reads_back_as_the_same_rig_and_the_same_text():
    rig = files.loads(json.dumps(LOFT))
    text = files.dumps(rig)
    assert files.loads(text) == rig
    assert files.dumps(files.loads(text)) == text
    assert json.loads(text) == LOFT


def test_a_file_begins_with_its_format_keeps_the_order_of_the_model_and_ends_with_a_line_feed():
    shuffled = dict(reversed(LOFT.items()))
    text = files.dumps(files.loads(json.dumps(shuffled)))
    assert text.startswith('{\n  "format": 1,\n  "name": "loft",\n')
    assert list(json.loads(text)) == ["format", "name", "points", "bodies", "sheaves", "ropes", "drive", "limits"]
    assert text.endswith("}\n")
    assert text == files.dumps(files.loads(json.dumps(LOFT)))


def test_defaults_and_what_is_unknown_are_left_out_but_the_kind_that_tells_forms_apart_is_kept():
    rig = files.loads(json.dumps(LOFT))
    written = json.loads(files.dumps(rig))
    assert written["bodies"]["crate"]["moves"] == {"kind": "guided", "tilts": True}
    assert "axis" not in written["sheaves"]["head"]
    assert "rated_load" not in written["sheaves"]["head"]
    assert "basis" not in written
    level = files.loads(json.dumps(changed((*CRATE, "moves"), {"kind": "level"})))
    assert json.loads(files.dumps(level))["bodies"]["crate"]["moves"] == {"kind": "level"}


def test_text_stays_as_it_was_typed_and_is_written_as_utf_8():
    text = files.dumps(files.loads(json.dumps(LOFT)))
    assert '"120 kg ± 5 kg"' in text


def test_the_digest_changes_with_every_value_and_not_with_the_spacing_of_the_file():
    rig = files.loads(json.dumps(LOFT))
    assert files.digest(rig) == files.digest(files.loads(json.dumps(LOFT, indent=7)))
    assert len(files.digest(rig)) == 64
    other = files.loads(json.dumps(changed((*CRATE, "mass"), "121 kg")))
    assert files.digest(rig) != files.digest(other)


@pytest.mark.parametrize(
    "content", [json.dumps(LOFT).encode(), b"\xef\xbb\xbf" + json.dumps(LOFT).encode()], ids=["plain", "byte order mark"]
)
def test_bytes_of_a_file_are_read_with_or_without_a_byte_order_mark(content, tmp_path):
    path = tmp_path / "loft.rig.json"
    path.write_bytes(content)
    assert files.load(path) == files.loads(json.dumps(LOFT))
    assert files.load(str(path)) == files.loads(content)


# --- faults in the text of the file -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "where", "wrong"),
    [
        ("", "loft.rig.json", "the file is empty"),
        (" \n\t ", "loft.rig.json", "the file is empty"),
        (b"\xff\xfe{\x00}\x00", "loft.rig.json", "the file is not UTF-8 text: byte 1 cannot be read"),
        ('{"format": 1,\n "name": loft}', "loft.rig.json, line 2, column 10", "the file is not JSON: a value is due"),
        ('{"format" 1}', "loft.rig.json, line 1, column 11", "the file is not JSON: a colon is due"),
        ('{"format": 1', "loft.rig.json, line 1, column 13", "the file is not JSON: a comma or the end is due"),
        ('{"format": 1} x', "loft.rig.json, line 1, column 15", "the file is not JSON: something follows after its end"),
        ('{"name": "lo', "loft.rig.json, line 1, column 10", "the file is not JSON: a text that begins here has no closing quote"),
        ("[1]", "loft.rig.json", "the file holds [1], not a rig"),
        ('"rig"', "loft.rig.json", 'the file holds "rig", not a rig'),
        ('{"format": 1, "format": 1}', "loft.rig.json", 'the key "format" stands here more than once'),
        ('{"format": 1, "bodies": {"a": {"b": 1, "b": 2}}}', "loft.rig.json, bodies, a", 'the key "b" stands here more than once'),
        ('{"format": NaN}', "loft.rig.json, format", "NaN is not a number a rig can use"),
        ('{"format": 1, "x": [0, -Infinity]}', "loft.rig.json, x, entry 2", "-Infinity is not a number a rig can use"),
        ('{"format": 1, "x": 1e400}', "loft.rig.json, x", "the number 1e400 is beyond all bounds"),
        ('{"format": ' + "9" * 1000 + "}", "loft.rig.json, format", "the number 999999999999… has 1000 characters"),
        ('{"format": 0.' + "9" * 1000 + "}", "loft.rig.json, format", "the number 0.9999999999… has 1002 characters"),
        ('{"format": ' + "9" * 9000 + "}", "loft.rig.json, format", "the number 999999999999… has 9000 characters"),
        ("[" * 10_000, "loft.rig.json", "lists and braces stand more than 20 deep in one another"),
        ("[" * 10_000 + "]" * 10_000, "loft.rig.json", "lists and braces stand more than 20 deep in one another"),
        ("[" * 50 + "]" * 50, "loft.rig.json", "lists and braces stand more than 20 deep in one another"),
        ('{"format": 1, "name": "\\ud800"}', "loft.rig.json, name", 'the text "\\ud800" holds a character that cannot be shown (U+D800)'),
        ('{"format": 1, "\\u0000": 1}', "loft.rig.json", 'the text "\\x00" holds a character that cannot be shown (U+0000)'),
        ("x" * 1_000_001, "loft.rig.json", "the file has 1 000 001 bytes"),
        ("€" * 400_000, "loft.rig.json", "the file has 1 200 000 bytes"),
        ("{}", "loft.rig.json, format", '"format" is missing'),
        ('{"format": 2}', "loft.rig.json, format", "format 2 was made by a newer rigcheck"),
        ('{"format": "1"}', "loft.rig.json, format", '"1" is not a format number that exists'),
        ('{"format": 0}', "loft.rig.json, format", "0 is not a format number that exists"),
        ('{"format": 1.0}', "loft.rig.json, format", "1.0 is not a format number that exists"),
        ('{"format": true}', "loft.rig.json, format", "true is not a format number that exists"),
        ('{"format": 1}', "loft.rig.json", '"name" is missing'),
    ],
    ids=range(32),
)
def test_text_that_is_no_rig_file_is_refused_with_its_place(text, where, wrong):
    fault = refusal(text)
    assert (fault.where, fault.wrong) == (where, wrong)
    assert fault.right


def test_a_key_that_stands_twice_is_found_quickly_among_very_many():
    many = ",".join(f'"{number}":1' for number in range(60_000))
    assert refusal('{"format":1,' + many + ',"59999":2}').wrong == 'the key "59999" stands here more than once'


# --- faults on disk -----------------------------------------------------------------------------------------------------------------------


def test_a_missing_file_a_folder_and_a_pipe_are_told_apart(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    for path, wrong in (
        (tmp_path / "none.rig.json", "there is no such file"),
        (tmp_path, "this is a folder, not a rig file"),
        (tmp_path / "pipe", "this is not a plain file"),
        (tmp_path / ("x" * 300), "the file cannot be opened: file name too long"),
        (tmp_path / "nul\0", "the file cannot be opened: its path cannot be used"),
    ):
        with pytest.raises(RigFileError) as caught:
            files.load(path)
        assert caught.value.wrong == wrong
        assert caught.value.where
        assert caught.value.right


def test_a_file_that_may_not_be_read_is_refused_in_words(tmp_path, monkeypatch):
    path = tmp_path / "loft.rig.json"
    path.write_text(json.dumps(LOFT))

    def forbid(*_, **__):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(type(path), "open", forbid)
    with pytest.raises(RigFileError, match="the file may not be read"):
        files.load(path)


def test_a_file_of_50_mb_is_refused_without_being_opened(tmp_path, monkeypatch):
    path = tmp_path / "huge.rig.json"
    with path.open("wb") as file:
        file.truncate(50_000_000)
    opened = []
    monkeypatch.setattr(type(path), "open", lambda *given, **_: opened.append(given))
    with pytest.raises(RigFileError) as caught:
        files.load(path)
    assert caught.value.wrong == "the file has 50 000 000 bytes"
    assert "1 MB" in caught.value.right
    assert not opened


# --- faults in the rig --------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("path", "value", "where", "wrong", "right"),
    [
        ((*CRATE, "mass"), 120, "bodies, crate, mass", "120 is a bare number", '"120 kg"'),
        ((*CRATE, "mass"), "120", "bodies, crate, mass", '"120"', '"120 kg"'),
        ((*CRATE, "mass"), None, "bodies, crate, mass", "null is no value", '"120 kg"'),
        ((*CRATE, "mass"), ["120 kg"], "bodies, crate, mass", "['120 kg'] is not a text", '"120 kg"'),
        ((*CRATE, "mass"), "1200 N", "bodies, crate, mass", '"1200 N" is a force, and a mass is due', "kg"),
        ((*CRATE, "mass"), "-3 kg", "bodies, crate, mass", '"-3 kg" must be more than zero', '"120 kg"'),
        ((*CRATE, "mass"), "3 ton", "bodies, crate, mass", '"3 ton" does not say which ton', '"short ton"'),
        ((*CRATE, "mass"), "1,500.0 kg", "bodies, crate, mass", '"1,500.0 kg" has more than one decimal mark', '"120 kg"'),
        ((*CRATE, "mass"), "1e300 kg", "bodies, crate, mass", '"1e300 kg" is beyond', "kg"),
        (
            (*CRATE, "mass"),
            "90 kg ± 95 kg",
            "bodies, crate, mass",
            '"90 kg ± 95 kg" has a tolerance that leaves nothing of it',
            "smaller than the value",
        ),
        ((*CRATE, "mass"), "inf kg", "bodies, crate, mass", '"inf kg" does not begin with a number', '"120 kg"'),
        ((*CRATE, "mass"), "2000 t", "bodies, crate, mass", '"2000 t" must not be more than 1000000 kg', '"120 kg"'),
        ((*CRATE, "mass"), GONE, "bodies, crate", '"mass" is missing', 'Add "mass": "120 kg"'),
        ((*CRATE, "mas"), "3 kg", "bodies, crate", 'the key "mas" is not known here', 'Perhaps "mass" is meant. Allowed: role, mass,'),
        ((*CRATE, "role"), "lod", "bodies, crate, role", '"lod" is not one of the choices', '"load", "counterweight", "block" or "other"'),
        ((*CRATE, "role"), GONE, "bodies, crate", '"role" is missing', '"load", or counterweight'),
        ((*CRATE, "at"), ["0 m"], "bodies, crate, at", "['0 m'] is not a place", "across, up"),
        ((*CRATE, "at"), ["0 m", 3], "bodies, crate, at, up", "3 is a bare number", '"1.6 m"'),
        ((*CRATE, "at"), GONE, "bodies, crate", '"at" is missing', '["0.4 m", "2.6 m"]'),
        ((*CRATE, "picks", "eye"), ["0 m", "3 kg", "1 m"], "bodies, crate, picks, eye, up", '"3 kg" is a mass, and a length is due', "mm"),
        ((*CRATE, "size"), ["1 m"], "bodies, crate, size", "the list has 1 entry", '["0.6 m", "0.8 m"]'),
        ((*CRATE, "size"), ["1 m", "1 m", "1 m"], "bodies, crate, size", "the list has 3 entries", "At most 2"),
        ((*CRATE, "size"), ["0 m", "1 m"], "bodies, crate, size, width", '"0 m" must be more than zero', "a length"),
        ((*CRATE, "moves"), {"tilts": True}, "bodies, crate, moves", '"kind" is missing', '"guided"'),
        ((*CRATE, "moves"), {"kind": "floating"}, "bodies, crate, moves", 'there is no kind "floating"', '"guided", "level"'),
        ((*CRATE, "moves"), 7, "bodies, crate, moves", "7 stands where keys and values are due", "braces"),
        ((*CRATE, "moves", "tilts"), "yes", "bodies, crate, moves, tilts", '"yes" is neither true nor false', "without quotes"),
        ((*CRATE, "moves", "tilts"), 1, "bodies, crate, moves, tilts", "1 is neither true nor false", "without quotes"),
        ((*CRATE, "moves", "along"), [0], "bodies, crate, moves, along", "[0] is not a direction", "[0, 1]"),
        ((*CRATE, "moves", "along"), [0, "1"], "bodies, crate, moves, along, up", "'1' is not a plain number", "without quotes"),
        ((*CRATE, "moves", "along"), [0, 0], "bodies, crate, moves", "the guide's direction is zero", "[0, 1]"),
        (("bodies",), [], "bodies", "[] stands where keys and values are due", "braces"),
        (("bodies",), {}, "", "no body is the load", '"role": "load"'),
        (("bodies",), GONE, "", '"bodies" is missing', '"role": "load"'),
        (("bodies", "crate\u200b"), LOFT["bodies"]["crate"], "bodies, crate\\u200b", "the name 'crate\\u200b' holds invisible", "letters"),
        (("bodies", "second"), LOFT["bodies"]["crate"], "", "2 bodies are the load: crate, second", "exactly one"),
        (("ropes",), {}, "", "the rig has no rope", "Add at least one"),
        ((*ROPE, "diameter"), "0 mm", "ropes, hoist rope, diameter", '"0 mm" must be more than zero', "a length"),
        ((*ROPE, "diameter"), "2 km", "ropes, hoist rope, diameter", '"2 km" must not be more than 1000 m', "a length"),
        ((*ROPE, "construction"), 7, "ropes, hoist rope, construction", "7 is not text", "double quotes"),
        ((*ROPE, "construction"), "7" * 61, "ropes, hoist rope, construction", "the text has 61 characters", "60"),
        ((*ROPE, "notes"), {"colour": "red"}, "ropes, hoist rope", 'the note "colour" names no field', "Fields: kind, diameter"),
        ((*ROPE, "notes"), {"diameter": 3}, "ropes, hoist rope, notes, diameter", "3 is not text", "double quotes"),
        ((*ROPE, "notes"), {"diameter": "x" * 401}, "ropes, hoist rope", 'the note on "diameter" has 401 characters', "400"),
        (PATH, [], "ropes, hoist rope, path", "the list has 0 entries", "At least 2"),
        (PATH, "over", "ropes, hoist rope, path", '"over" is not a list', "square brackets"),
        ((*PATH, 1), {"over": "head"}, "ropes, hoist rope, path, stop 2", '"turns" is missing', '"clockwise", or anticlockwise'),
        ((*PATH, 1), {"ovr": "head"}, "ropes, hoist rope, path, stop 2", '{"ovr": "head"} is not a stop', '"over": "head sheave"'),
        ((*PATH, 1), "head", "ropes, hoist rope, path, stop 2", '"head" is not a stop', '"over": "head sheave"'),
        ((*PATH, 1, "turns"), "left", "ropes, hoist rope, path, stop 2, turns", '"left" is not one of the choices', '"anticlockwise"'),
        (
            (*PATH, 1, "over"),
            "haed",
            "ropes, hoist rope, path, stop 2, over",
            'over the sheave "haed", which does not exist',
            "There are: head.",
        ),
        ((*PATH, 1), LOFT["ropes"]["hoist rope"]["path"][0], "ropes, hoist rope, path, stop 2", "an end stands in the middle", "A path is"),
        ((*PATH, 2), {"over": "head", "turns": "clockwise"}, "ropes, hoist rope, path, stop 3", 'ends at the sheave "head"', "made fast"),
        (
            (*PATH, 0),
            {"wound_on": "drum", "turns": "clockwise"},
            "ropes, hoist rope, path",
            "both ends of the rope are pulled",
            "made fast|fast to",
        ),
        ((*PATH, 0, "pick"), "ear", "ropes, hoist rope, path, stop 1, pick", 'the body "crate" has no pick "ear"', "There are: eye."),
        ((*PATH, 0), {"made_fast_to": "beam", "pick": "eye"}, "ropes, hoist rope, path, stop 1, pick", '"beam" is a point', "Leave"),
        (
            (*PATH, 0),
            {"made_fast_to": "roof"},
            "ropes, hoist rope, path, stop 1, made_fast_to",
            'made fast to "roof"',
            "There are: beam, crate.",
        ),
        ((*PATH, 0), {"made_fast_to": "beam"}, "", 'nothing holds the body "crate"', "Make a rope fast"),
        (("sheaves", "head", "on"), "roof", "sheaves, head, on", 'sits on "roof", which is neither', "There are: beam, crate."),
        (("sheaves", "head", "axis"), [0, 0], "sheaves, head, axis", "the list has 2 entries", "[0, 0, 1]"),
        (("sheaves", "head", "axis"), [0, 0, 0], "sheaves, head", "the sheave's axis is zero", "[0, 0, 1]"),
        (("sheaves", "head", "rated_load"), "5 m", "sheaves, head, rated_load", '"5 m" is a length', "kN"),
        (("points", "crate"), {"at": ["0 m", "1 m"]}, "", 'the name "crate" stands for two things', "names of their own"),
        (("drive",), GONE, "", '"drive" is missing', '"kind": "winch"'),
        (("drive",), {"kind": "hand line"}, "", "the drive is a hand line", '"winch"'),
        (("drive", "kind"), "windlass", "drive", 'there is no kind "windlass"', '"winch", "hand line"'),
        (("drive", "kind"), GONE, "drive", '"kind" is missing', '"winch"'),
        (("drive", "crank"), {"radius": "0"}, "drive, crank, radius", '"0"', "1.6 m"),
        (("drive", "drum", "dead_wraps"), -1, "drive, drum, dead_wraps", "-1 is not at least 0", "3"),
        (("drive", "gears", 0, "ratio"), "30", "drive, gears, stage 1, ratio", "'30' is not a plain number", "without quotes"),
        (("drive", "gears", 0, "kind"), "rack", "drive, gears, stage 1, kind", '"rack" is not one of the choices', '"worm"'),
        (("limits",), {}, "limits", '"travel" is missing', '"travel": "1.6 m"'),
        (("name",), "", "name", "'' is not a name", "short name"),
        (("about",), "x" * 2001, "about", "the text has 2001 characters", "2000"),
    ],
    ids=range(74),
)
def test_a_fault_in_the_rig_is_told_with_field_value_and_remedy(path, value, where, wrong, right):
    fault = refusal(changed(path, value))
    assert fault.where == ("loft.rig.json, " + where if where else "loft.rig.json")
    assert wrong in fault.wrong
    assert any(each in fault.right for each in right.split("|"))
    assert 1 <= len(str(fault).splitlines()) <= 3
    assert not any(word in str(fault) for word in JARGON)


def test_both_a_motor_and_a_crank_on_one_drum_are_refused():
    rig = changed(("drive", "motor"), {"voltage": "24 V"})
    rig["drive"]["crank"] = {"radius": "0.3 m"}
    assert refusal(rig).wrong == "the drum has both a motor and a crank"


def test_two_hands_on_the_ropes_are_refused():
    rig = changed(("drive",), {"kind": "hand line"})
    rig["ropes"]["hoist rope"]["path"][2] = {"pulled_by_hand_at": ["1 m", "1 m"]}
    assert files.loads(json.dumps(rig)).drive.kind == "hand line"
    rig["ropes"]["second"] = rig["ropes"]["hoist rope"]
    assert refusal(rig).wrong == "more than one rope is pulled by hand: hoist rope, second"


def test_a_sheave_that_a_rope_runs_over_twice_is_refused():
    rig = copy.deepcopy(LOFT)
    rig["ropes"]["hoist rope"]["path"].insert(1, {"over": "head", "turns": "clockwise"})
    fault = refusal(rig)
    assert (fault.where, fault.wrong) == (
        "loft.rig.json, ropes, hoist rope, path, stop 3, over",
        'the rope runs over the sheave "head" twice',
    )


def test_the_first_fault_is_told_and_the_others_are_counted():
    rig = changed((*CRATE, "mass"), 120)
    rig["ropes"]["hoist rope"]["diameter"] = "5 kg"
    assert refusal(rig).right.endswith("\nOne more fault was found after this one.")
    rig["limits"]["travel"] = "-1 m"
    assert refusal(rig).right.endswith("\n2 more faults were found after this one.")
    assert "more fault" not in refusal(changed((*CRATE, "mass"), 120)).right


def test_a_very_long_value_does_not_make_a_very_long_message():
    for path in ((*CRATE, "mass"), (*CRATE, "at"), (*CRATE, "role"), (*PATH, 1), ("drive", "kind")):
        assert len(str(refusal(changed(path, ["x" * 100_000] * 5)))) < 800
        assert len(str(refusal(changed(path, "x" * 400_000)))) < 800


def test_invisible_characters_in_names_and_file_names_are_made_visible():
    fault = refusal("{}", "a\x1b[31m.rig.json")
    assert fault.where.isprintable()
    assert refusal(changed(("ropes", "\u202ehoist"), LOFT["ropes"]["hoist rope"])).where.isprintable()


# --- anything at all ----------------------------------------------------------------------------------------------------------------------

ANY_JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12)
    | st.sampled_from(["120 kg", "0 m", "-1 m", "1e300 kg", "5 mm", "load", "worm", "drum", "clockwise", "± 5 kg"]),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=8,
)  # fmt: skip


def places(value, path=()):
    """Every place in JSON data, the whole first."""
    yield path
    entries = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in entries:
        yield from places(inner, (*path, key))


@st.composite
def damaged_rigs(draw):
    """An example rig with a few places replaced, taken out, moved or renamed."""
    rig = json.loads(files.dumps(examples.example(draw(st.sampled_from(examples.names())))))
    for _ in range(draw(st.integers(1, 3))):
        path = draw(st.sampled_from([p for p in places(rig) if p] or [()]))
        if not path:
            return draw(ANY_JSON)
        here = rig
        for step in path[:-1]:
            here = here[step]
        match draw(st.sampled_from(["replace", "replace", "remove", "rename", "copy"])):
            case "replace":
                here[path[-1]] = draw(ANY_JSON)
            case "remove":
                del here[path[-1]]
            case "rename" if isinstance(here, dict):
                here[draw(st.text(max_size=10))] = here.pop(path[-1])
            case _:
                source = draw(st.sampled_from([p for p in places(rig) if p] or [path]))
                value = rig
                for step in source:
                    value = value[step]
                here[path[-1]] = copy.deepcopy(value)
    return rig


def assert_told_in_plain_words(fault) -> None:
    assert all((fault.where, fault.wrong, fault.right))
    assert len(str(fault)) < 1500
    assert len(str(fault).splitlines()) <= 3
    assert not any(word in str(fault) for word in JARGON)


def read_or_refused(text) -> None:
    """Whatever is read is a rig that comes back the same; whatever is not is refused in plain words."""
    try:
        rig = files.loads(text)
    except RigFileError as fault:
        assert_told_in_plain_words(fault)
        return
    assert isinstance(rig, Rig)
    assert files.loads(files.dumps(rig)) == rig
    assert files.dumps(files.loads(files.dumps(rig))) == files.dumps(rig)


@settings(max_examples=400, deadline=None)
@given(damaged_rigs())
def test_a_damaged_rig_is_read_or_refused_and_nothing_else_escapes(rig):
    read_or_refused(json.dumps(rig))


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_a_file_with_damaged_bytes_is_read_or_refused_and_nothing_else_escapes(data):
    content = bytearray(files.dumps(examples.example(data.draw(st.sampled_from(examples.names())))).encode())
    for _ in range(data.draw(st.integers(1, 4))):
        start = data.draw(st.integers(0, len(content)))
        content[start : start + data.draw(st.integers(0, 6))] = data.draw(st.binary(max_size=6))
    read_or_refused(bytes(content))


@settings(max_examples=200, deadline=None)
@given(st.text() | st.binary() | ANY_JSON.map(json.dumps))
def test_any_text_at_all_is_read_or_refused(text):
    read_or_refused(text)


def test_a_body_that_tilts_in_its_guide_has_no_shoes_that_hold_it_level():
    data = json.loads(files.dumps(examples.example("tile-lift")))
    data["bodies"]["tray of tiles"]["moves"]["tilts"] = True
    with pytest.raises(RigFileError, match="its shoes are described, which hold it level"):
        files.loads(json.dumps(data))
