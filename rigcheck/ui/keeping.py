"""What can be taken away: the rig file, the report and the answer as data, each built when it is asked for."""

from __future__ import annotations

import re

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.report import as_json
from rigcheck.report.pdf import pdf
from rigcheck.ui import handing_over, session
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
    if text is not None:
        handing_over.offer(
            "Save the rig file", lambda: text, file_name(session.standing().assessment.rig.name, ".rig.json"), "application/json", key=key
        )


def save_answer(assessment: Assessment) -> None:
    """Every number as data, in SI whatever is shown."""
    text = session.good_text()
    handing_over.offer("Save every number as JSON", lambda: as_json.dumps(answer(text, units.METRIC).assessment),
                       file_name(assessment.rig.name, ".json"), "application/json", key="save-json")  # fmt: skip


def save_report(assessment: Assessment) -> None:
    """The report as PDF, in the units that are shown."""
    handing_over.offer(
        "Save the report as PDF", lambda: pdf(assessment), file_name(assessment.rig.name, ".pdf"), "application/pdf", key="save-pdf"
    )
