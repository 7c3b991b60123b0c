"""Run all benchmarks, or those named."""

import importlib
import sys

ALL = ("closed_forms", "full_check", "shell", "paper", "large_tackles", "browser")

for name in sys.argv[1:] or ALL:
    importlib.import_module(f"tests.bench.{name}").run()
