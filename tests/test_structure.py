"""The shape of the code: imports point one way, every formula tells its source and an example, names are plain, modules are short."""

import ast
import doctest
import importlib
import pkgutil
import re
from pathlib import Path

import pytest

import rigcheck
from rigcheck import units
from rigcheck.formula import Formula, Sign

ROOT = Path(rigcheck.__file__).parent
MODULES = sorted(ROOT.rglob("*.py"))
PAGES = sorted((ROOT.parent / "pages").glob("*.py"))

# Each stage may import those before it, and itself. The package itself and its command line may import everything.
STAGES = [
    {"errors", "unit_table", "units", "whereabouts", "formula", "notation", "vocabularies", "working"},
    {"rig", "parts"},
    {"statics"},
    {"checks"},
    {"whatif"},
    {"report", "register"},
    {"ui"},
    {"pages"},
]
AT_THE_EDGE = {"__init__", "__main__"}


def stage_of(name: str) -> int:
    found = [i for i, stage in enumerate(STAGES) if name in stage]
    assert found, f'"{name}" belongs to no stage: add it to the design first'
    return found[0]


def own_name(path: Path) -> str:
    if path.parent.name == "pages":
        return "pages"
    return path.relative_to(ROOT).parts[0].removesuffix(".py")


def imported(path: Path) -> list[tuple[int, str]]:
    """Every module named in an import, with its line; `from rigcheck import units` counts as rigcheck.units."""
    found = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}, line {node.lineno}: imports are written out in full"
            found += [(node.lineno, f"{node.module}.{alias.name}" if node.module == "rigcheck" else node.module) for alias in node.names]
    return found


def own_constants() -> set[str]:
    """Names that the package's `__init__` defines itself, such as its version: to import these draws no arrow to what it gathers."""
    tree = ast.parse((ROOT / "__init__.py").read_text(encoding="utf-8"))
    return {
        target.id for node in tree.body if isinstance(node, ast.Assign) and isinstance(node.value, ast.Constant) for target in node.targets
    }


def wrong_arrows(path: Path) -> list[str]:
    own = own_name(path)
    if own in AT_THE_EDGE:
        return []
    found = []
    for line, module in imported(path):
        if module.startswith("rigcheck."):
            other = module.split(".")[1]
            if (ROOT / f"{other}.py").exists() or (ROOT / other).is_dir():
                if stage_of(other) > stage_of(own):
                    found.append(f"{path.name}, line {line}: {own} imports {other}")
            elif own != "pages" and other not in own_constants():
                found.append(f"{path.name}, line {line}: {own} imports rigcheck itself for {other}")
    return found


@pytest.mark.parametrize("path", MODULES + PAGES, ids=lambda p: str(p.relative_to(ROOT.parent)))
def test_imports_point_one_way(path):
    assert wrong_arrows(path) == []


def test_an_arrow_that_points_back_is_found(tmp_path, monkeypatch):
    (tmp_path / "statics").mkdir()
    for name in ("checks", "rig"):
        (tmp_path / name).mkdir()
    backwards = tmp_path / "statics" / "balance.py"
    backwards.write_text("from rigcheck.rig.model import Rig\n\ndef late():\n    from rigcheck.checks import check\n")
    monkeypatch.setitem(globals(), "ROOT", tmp_path)
    assert wrong_arrows(backwards) == ["balance.py, line 4: statics imports checks"]


def test_streamlit_is_imported_by_ui_and_pages_alone():
    elsewhere = [
        str(p.relative_to(ROOT))
        for p in MODULES
        for _, module in imported(p)
        if module.split(".")[0] == "streamlit" and own_name(p) not in ("ui", *AT_THE_EDGE)
    ]
    assert elsewhere == []


def all_modules():
    return [
        importlib.import_module(m.name)
        for m in pkgutil.walk_packages([str(ROOT)], "rigcheck.")
        if not m.name.endswith("__main__") and ".ui" not in m.name
    ]


FORMULAS = {
    f"{m.__name__}.{name}": f for m in all_modules() for name, f in vars(m).items() if isinstance(f, Formula) and f.__module__ == m.__name__
}


def test_the_package_has_formulas_to_read():
    assert len(FORMULAS) >= 10


@pytest.mark.parametrize("name", sorted(FORMULAS))
def test_a_formula_says_what_it_is_where_it_comes_from_and_gives_a_worked_example(name):
    found = FORMULAS[name]
    text = found.__doc__ or ""
    assert found.title, "its first line says what it is"
    assert found.source, "it has a line `Source: ...`"
    examples = doctest.DocTestParser().get_examples(text)
    assert examples, "it has a worked example with >>>"
    assert any(e.want.strip() for e in examples), "whose result is printed"
    assert any(found.name in e.source for e in examples), "which calls the formula"


@pytest.mark.parametrize("name", sorted(FORMULAS))
def test_every_argument_of_a_formula_is_a_sign_in_a_unit_that_can_be_shown(name):
    found = FORMULAS[name]
    for sign in (*found.parameters.values(), found.result):
        assert isinstance(sign, Sign)
        assert sign.meaning
        assert units.show(1.0, sign.unit)
    assert found.expression.free_symbols <= {s.symbol for s in found.parameters.values()}


def identifiers(path: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Name):
            found.add(node.id)
        elif isinstance(node, ast.arg):
            found.add(node.arg)
        elif isinstance(node, ast.Attribute):
            found.add(node.attr)
        elif isinstance(node, ast.FunctionDef | ast.ClassDef):
            found.add(node.name)
        elif isinstance(node, ast.keyword) and node.arg:
            found.add(node.arg)
    return found


@pytest.mark.parametrize("path", MODULES + PAGES, ids=lambda p: str(p.relative_to(ROOT.parent)))
def test_identifiers_are_plain_letters(path):
    assert {name for name in identifiers(path) if not name.isascii()} == set()


@pytest.mark.parametrize("path", MODULES + PAGES, ids=lambda p: str(p.relative_to(ROOT.parent)))
def test_a_module_holds_one_subject(path):
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 400
    assert path.stem not in ("utils", "helpers", "common")


@pytest.mark.parametrize("path", MODULES + PAGES, ids=lambda p: str(p.relative_to(ROOT.parent)))
def test_nothing_is_left_half_done(path):
    assert not re.search(r"\b(TODO|FIXME|XXX)\b", path.read_text(encoding="utf-8"))
