"""Benchmarks: ratios measured within one run. `python -m tests.bench` prints them all; they are no tests and time decides nothing."""
