"""The command line: what it prints where, its exit codes, and never a traceback."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from rigcheck.__main__ import PAGE_SETTINGS, commands
from rigcheck.rig import examples, files

ROOT = Path(__file__).resolve().parent.parent


def run(*args: str):
    return CliRunner().invoke(commands, list(args))


def started(*args: str, **more) -> subprocess.CompletedProcess:
    """The command in a process of its own."""
    env = {**os.environ, "PYTHONPATH": str(ROOT)} | more.pop("env", {})
    return subprocess.run(
        [sys.executable, "-m", "rigcheck", *args], capture_output=True, text=True, env=env, timeout=120, check=False, **more
    )


def refused(result, *, code: int = 2) -> str:
    """What stands on standard error of a refused call: one to three lines, and nothing on standard output."""
    assert result.exit_code == code
    assert result.stdout == ""
    assert 1 <= len(result.stderr.splitlines()) <= 3
    assert "Traceback" not in result.stderr
    return result.stderr


@pytest.mark.parametrize("name", examples.names())
def test_the_exit_code_of_check_says_whether_all_hold(name):
    told = run("check", name, "--json")
    verdicts = {check["verdict"] for check in json.loads(told.stdout)["checks"]}
    assert told.exit_code == (0 if verdicts == {"holds"} else 1)
    assert told.stderr == ""
    plain = run("check", name)
    assert plain.exit_code == told.exit_code
    assert plain.stdout.startswith(examples.example(name).name)


def test_examples_are_listed_one_a_line_with_the_name_first():
    lines = run("examples").stdout.splitlines()
    assert [line.split()[0] for line in lines] == list(examples.names())
    assert all(len(line.split()) > 3 for line in lines)


def test_a_path_that_exists_wins_over_an_example(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("loft-lift").write_text(files.dumps(examples.example("well-crank")), encoding="utf-8")
    assert json.loads(run("check", "loft-lift", "--json").stdout)["rig"] == examples.example("well-crank").name


def test_a_rig_file_is_checked_like_the_example_it_was_saved_from(tmp_path):
    path = tmp_path / "mine.rig.json"
    path.write_text(files.dumps(examples.example("well-crank")), encoding="utf-8")
    assert run("check", str(path), "--json").stdout == run("check", "well-crank", "--json").stdout


@pytest.mark.parametrize("content, words", [
    ("", "empty"), ("{", "not JSON"), ("[1]", "not a rig"), ('{"format": 9}', "newer"), ('{"format": 1, "name": "x"}', "missing"), ("\x00\xff", "not JSON"),
])  # fmt: skip
def test_a_file_that_cannot_be_used_is_refused_in_words(tmp_path, content, words):
    path = tmp_path / "broken.rig.json"
    path.write_text(content, encoding="utf-8")
    told = refused(run("check", str(path)))
    assert "broken.rig.json" in told
    assert words in told


def test_a_body_that_nothing_holds_is_refused(tmp_path):
    data = json.loads(files.dumps(examples.example("loft-lift")))
    data["points"]["above"] = {"at": ["5 m", "4 m"]}
    data["bodies"]["trolley"] = {"role": "other", "mass": "5 kg", "at": ["5 m", "2 m"], "moves": {"kind": "guided", "along": [1, 0]}}
    data["ropes"]["hanger"] = {"kind": "steel", "diameter": "4 mm", "path": [{"made_fast_to": "trolley"}, {"made_fast_to": "above"}]}
    path = tmp_path / "loose.rig.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    assert 'nothing holds the body "trolley" from moving across' in refused(run("check", str(path), "--json"))


def test_a_rope_that_goes_slack_is_a_verdict_and_not_a_refusal(tmp_path):
    data = json.loads(files.dumps(examples.example("studio-counterweight")))
    data["bodies"]["counterweight"]["mass"] = "300 kg"
    path = tmp_path / "slack.rig.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    assert run("check", str(path)).exit_code == 1


@pytest.mark.parametrize("args, words", [
    (("check",), "Missing argument 'RIG'"), (("chek",), "No such command"), (("check", "loft-lift", "--jsn"), "No such option"),
    (("report", "loft-lift"), "Missing option"), (("check", "no such rig"), "no file and no example"), (("check", "none.rig.json"), "no such file"),
    (("check", "a\0b"), "no file and no example"), (("check", "."), "folder"), (("check", "loft-lift", "more"), "unexpected extra argument"),
])  # fmt: skip
def test_a_wrong_call_is_refused_in_words(args, words):
    assert words in refused(run(*args))


def test_a_report_is_saved_whatever_the_verdicts(tmp_path):
    target = tmp_path / "tired.pdf"
    told = run("report", "tired-hoist", "-o", str(target))
    assert told.exit_code == 0
    assert target.read_bytes().startswith(b"%PDF-")
    assert [path.name for path in tmp_path.iterdir()] == ["tired.pdf"]
    assert "fall short" in told.stdout


@pytest.mark.parametrize("out, words", [
    ("report.txt", "does not end in .pdf"), ("missing/report.pdf", "there is no folder"), ("folder.pdf", "is a folder"), ("a\0b.pdf", "cannot be written"),
    ("x" * 300 + ".pdf", "cannot be written"),
])  # fmt: skip
def test_a_report_that_cannot_be_saved_is_refused_in_words(tmp_path, monkeypatch, out, words):
    monkeypatch.chdir(tmp_path)
    Path("folder.pdf").mkdir()
    told = refused(run("report", "well-crank", "-o", out))
    assert words in told
    assert [path.name for path in tmp_path.iterdir()] == ["folder.pdf"]


def test_a_report_never_replaces_its_own_rig_file(tmp_path):
    path = tmp_path / "rig.pdf"
    path.write_text(files.dumps(examples.example("well-crank")), encoding="utf-8")
    assert "is the rig file itself" in refused(run("report", str(path), "-o", str(path)))
    assert path.read_text(encoding="utf-8").startswith("{")


def test_a_report_of_a_rig_that_cannot_be_used_leaves_an_older_one_alone(tmp_path):
    target, rig = tmp_path / "old.pdf", tmp_path / "broken.rig.json"
    target.write_bytes(b"%PDF-old")
    rig.write_text("{}", encoding="utf-8")
    refused(run("report", str(rig), "-o", str(target)))
    assert target.read_bytes() == b"%PDF-old"


def test_a_fault_of_our_own_is_told_without_a_traceback(monkeypatch):
    monkeypatch.setattr("rigcheck.checks.assessment.assess", lambda rig: [][1])
    assert "rigcheck itself failed: IndexError" in refused(run("check", "well-crank"))


def test_in_a_process_of_its_own_the_codes_are_the_same():
    good, bad, broken = started("check", "well-crank"), started("check", "found-winch", "--json"), started("check", "no-such-rig")
    assert (good.returncode, good.stderr) == (0, "")
    assert bad.returncode == 1
    assert json.loads(bad.stdout)["checks"]
    assert (broken.returncode, broken.stdout) == (2, "")
    assert len(broken.stderr.splitlines()) <= 3


def test_a_reader_that_stops_listening_is_no_fault():
    command = [sys.executable, "-m", "rigcheck", "check", "kiln-shell", "--json"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env={**os.environ, "PYTHONPATH": str(ROOT)}) as process:
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait(timeout=120) in (0, 1)


def test_a_console_without_greek_is_no_fault():
    told = started("check", "well-crank", env={"PYTHONIOENCODING": "ascii"})
    assert told.returncode == 0
    assert told.stderr == ""


def test_only_the_pages_need_streamlit():
    code = "import sys, rigcheck.__main__ as m, click.testing as t; t.CliRunner().invoke(m.commands, ['check', 'well-crank']); print('streamlit' in sys.modules)"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, timeout=120, check=True)
    assert told.stdout.strip() == "False"


def test_without_a_command_the_pages_are_started_for_this_computer_only(monkeypatch):
    seen = {}
    monkeypatch.setattr("runpy.run_module", lambda name, **more: seen.update(name=name, argv=list(sys.argv)))
    monkeypatch.setattr(sys, "argv", ["rigcheck"])
    assert run().exit_code == 0
    assert seen["name"] == "streamlit"
    assert seen["argv"][:2] == ["streamlit", "run"]
    assert seen["argv"][2].endswith(os.path.join("pages", "app.py"))
    assert seen["argv"][seen["argv"].index("--server.address") + 1] == "localhost"
    assert set(seen["argv"]) >= {f"--{name}" for name in PAGE_SETTINGS}
