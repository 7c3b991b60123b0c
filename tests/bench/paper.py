"""The PDF of an assessed rig."""

from __future__ import annotations

from rigcheck.checks.assessment import assess
from rigcheck.report.pdf import pdf
from rigcheck.rig import examples
from tests.bench.timing import best_of, row


def run() -> None:
    print("PDF (goal: 1 s)")
    for name in ("well-crank", "kiln-shell"):
        rig = examples.example(name)
        found = assess(rig)
        row(
            f"pdf of {name}",
            best_of(lambda found=found: pdf(found), times=3),
            best_of(lambda rig=rig: assess(rig), times=3),
            "full check of the same rig",
            "<= 1 s",
        )
