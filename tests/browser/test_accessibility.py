"""Names, roles and contrast of every page, light and dark, by axe-core and the rules of WCAG 2.1, levels A and AA."""

from __future__ import annotations

from importlib import resources

import pytest

from tests.pages.conftest import PAGES

AXE = (resources.files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8")
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa"]
# Streamlit gives no way to put a tabindex on a typeset formula; browsers of today take a wide one into the focus order by themselves.
NOT_OURS = [[".katex-display"]]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("begun", ["kiln-shell", "straight"])
def test_every_page_passes(themed, scheme, begun):
    opened = themed(scheme)
    opened.begin(begun)
    found = {}
    for title in PAGES:
        opened.go_to(title)
        opened.still()
        told = _violations(opened.page)
        if told:
            found[title] = told
    assert found == {}


def _violations(page) -> list[str]:
    page.evaluate(AXE)
    result = page.evaluate(
        "([rules, away]) => axe.run({ include: [['html']], exclude: away }, { runOnly: { type: 'tag', values: rules } })", [RULES, NOT_OURS]
    )
    return [
        f"{each['id']}: {node['target']} {node.get('failureSummary', '')[:300]}" for each in result["violations"] for node in each["nodes"]
    ]
