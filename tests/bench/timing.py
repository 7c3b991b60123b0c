"""How the benchmarks measure and print."""

from __future__ import annotations

import time
from collections.abc import Callable


def best_of(run: Callable[[], object], times: int = 7, least_s: float = 0.02) -> float:
    """Seconds for one run: the best of several, each long enough to measure."""
    run()
    many = 1
    while True:
        start = time.perf_counter()
        for _ in range(many):
            run()
        took = time.perf_counter() - start
        if took >= least_s:
            break
        many *= 2
    found = took / many
    for _ in range(times - 1):
        start = time.perf_counter()
        for _ in range(many):
            run()
        found = min(found, (time.perf_counter() - start) / many)
    return found


def once(run: Callable[[], object]) -> float:
    start = time.perf_counter()
    run()
    return time.perf_counter() - start


def row(name: str, ours_s: float, baseline_s: float, baseline: str, goal: str) -> None:
    print(f"  {name:<46} {ours_s * 1000:10.3f} ms   {ours_s / baseline_s:8.2f} x {baseline:<34} goal {goal}")
