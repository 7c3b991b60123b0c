"""Tackles of 4, 10 and 40 sheaves: how the numbers grow, and the symbolic form up to 10."""

from __future__ import annotations

from rigcheck.rig.model import Rig
from rigcheck.statics.solution import solve
from rigcheck.statics.travel import follow
from tests.bench.timing import best_of, row


def tackle(sheaves: int) -> Rig:
    """A tackle rove to disadvantage with as many parts as sheaves, all falls parallel."""
    d = 0.1
    across = [(sheaves - 1 - i) * d + d / 2 for i in range(sheaves)]
    blocks = {}
    path: list[dict] = [{"wound_on": "drum", "turns": "clockwise"}]
    for i, x in enumerate(across):
        on, height, turns = ("head", 0.0, "anticlockwise") if i % 2 == 0 else ("load", 0.5, "clockwise")
        blocks[f"sheave {i + 1}"] = {"on": on, "offset": [f"{x:.4f} m", f"{height} m"], "pitch_diameter": f"{d} m", "bearing": "rolling"}
        path.append({"over": f"sheave {i + 1}", "turns": turns})
    path.append({"made_fast_to": "dead end"} if sheaves % 2 == 0 else {"made_fast_to": "load", "pick": "becket"})
    return Rig.model_validate(
        {
            "format": 1,
            "name": f"{sheaves} sheaves",
            "points": {"head": {"at": ["0 m", "4 m"]}, "dead end": {"at": ["0 m", "3.9 m"]}},
            "bodies": {"load": {"role": "load", "mass": "200 kg", "at": ["0 m", "0 m"], "picks": {"becket": ["0 m", "0.5 m"]}}},
            "sheaves": blocks,
            "ropes": {"fall": {"kind": "steel", "diameter": "6 mm", "path": path}},
            "drive": {"kind": "winch", "drum": {"at": [f"{sheaves * d + 0.05:.4f} m", "0.3 m"], "diameter": "94 mm"}},
            "limits": {"travel": "2 m"},
        }
    )


def run() -> None:
    print("tackles by number of sheaves (goal: numbers grow no faster than the sheaves; symbolic up to 10)")
    rigs = {n: tackle(n) for n in (4, 10, 40)}
    numbers = {n: best_of(lambda rig=rig: follow(rig), times=3) for n, rig in rigs.items()}
    whole = {n: best_of(lambda rig=rig: solve(rig), times=3) for n, rig in rigs.items()}
    for n in rigs:
        row(f"{n} sheaves: places and motion", numbers[n], numbers[4], "4 sheaves", f"<= {n / 4:g}")
    for n in rigs:
        row(f"{n} sheaves: whole statics, symbols included", whole[n], whole[4], "4 sheaves", f"<= {n / 4:g}")
