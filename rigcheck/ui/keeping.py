"""What can be taken away: the rig file, the report and the answer as data, each built when it is asked for."""

from __future__ import annotations

import re

import streamlit

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.report import as_json
from rigcheck.report.pdf import pdf
from rigcheck.ui import session
from rigcheck.ui.answers import answer


def file_name(rig: str, ending: str) -> str:
    """A file name from the name of a rig.

    >>> file_name("Kiln shell / 2", ".rig.json"), file_name("***", ".pdf")
    ('kiln-shell-2.rig.json', 'rig.pdf')
    """
    plain = re.sub(r"[^\w]+", "-", rig.lower()).strip("-_")
    return (plain[:60] or "rig") + ending


def save_rig_file(key: str) -> None:
    """The rig file of the last good reading."""
    text = session.good_text()
    if text is None:
        return
    streamlit.download_button("Save the rig file", data=lambda: text, file_name=file_name(session.standing().assessment.rig.name, ".rig.json"),
                              mime="application/json", on_click="ignore", key=key)  # fmt: skip


def save_answer(assessment: Assessment) -> None:
    """Every number as data, in SI whatever is shown."""
    text = session.good_text()
    streamlit.download_button("Save every number as JSON", data=lambda: as_json.dumps(answer(text, units.METRIC).assessment),
                              file_name=file_name(assessment.rig.name, ".json"), mime="application/json", on_click="ignore", key="save-json")  # fmt: skip


def save_report(assessment: Assessment) -> None:
    """The report as PDF, in the units that are shown."""
    system = session.system()

    def made() -> bytes:
        with units.shown_in(system):
            return pdf(assessment)

    streamlit.download_button("Save the report as PDF", data=made, file_name=file_name(assessment.rig.name, ".pdf"),
                              mime="application/pdf", on_click="ignore", key="save-pdf")  # fmt: skip
