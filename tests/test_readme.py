"""What the README promises is true: its library session prints what it says, its commands and links exist."""

import doctest
import re
from pathlib import Path

TOP = Path(__file__).parent.parent
README = (TOP / "README.md").read_text(encoding="utf-8")


def test_the_library_session_prints_what_the_readme_says():
    session = re.search(r"<!-- the library session -->\n```python\n(.*?)```", README, re.S).group(1)
    test = doctest.DocTestParser().get_doctest(session, {}, "README", "README.md", 0)
    lines = [line for line in session.splitlines() if line.strip()]
    assert len(lines) == 10
    result = doctest.DocTestRunner(verbose=False).run(test)
    assert (result.failed, result.attempted) == (0, len(test.examples))
    assert result.attempted == 7


def test_both_commands_are_one_line_each():
    blocks = re.findall(r"```sh\n(.*?)```", README, re.S)
    start = next(b for b in blocks if b.rstrip().endswith("-m rigcheck"))
    tests = re.search(r"<!-- the test command -->\n```sh\n(.*?)```", README, re.S).group(1)
    assert len(start.strip().splitlines()) == 1
    assert len(tests.strip().splitlines()) == 1
    assert tests.strip().endswith("-m pytest")


def test_every_linked_file_exists():
    for target in re.findall(r"\]\((?!http)([^)#]+)\)", README + (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")):
        assert (TOP / target).exists(), target


def test_the_first_paragraph_states_the_job():
    first = README.split("\n\n")[1]
    assert first.startswith("rigcheck checks the hoist you have built.")
    for word in ("pull", "rope", "falls short", "report"):
        assert word in first


def test_examples_named_in_the_readme_exist():
    from rigcheck.rig import examples

    for name in re.findall(r"rigcheck (?:check|report) ([a-z-]+)", README) + re.findall(r'rigcheck\.example\("([a-z-]+)"\)', README):
        assert name in examples.names()
