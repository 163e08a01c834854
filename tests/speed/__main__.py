"""`python -m tests.speed`: how fast the measuring core is, as ratios measured in one run.

Options: --json, --faces 50k,300k,1M,3M, --only NAME. Nothing here passes or fails.
"""

import argparse
import json
import os
import sys

# One thread each, before numpy is imported.
for _name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS", "NUMBA_NUM_THREADS"):
    os.environ[_name] = "1"

from tests.speed.rows import ROWS, Case, growth  # noqa: E402 -- after the thread counts


def facet_counts(text: str) -> list[int]:
    """ "50k,1M" as [50000, 1000000]."""
    factors = {"k": 1_000, "M": 1_000_000}
    return [int(float(one.rstrip("kM")) * factors.get(one[-1:], 1)) for one in text.split(",")]


def main(arguments: list[str] | None = None) -> int:
    """Measure and print."""
    parser = argparse.ArgumentParser(prog="python -m tests.speed", description=__doc__)
    parser.add_argument("--faces", type=facet_counts, default=facet_counts("50k,300k,1M,3M"))
    parser.add_argument("--only", choices=list(ROWS))
    parser.add_argument("--json", action="store_true")
    asked = parser.parse_args(arguments)
    rows = []
    for facets in asked.faces:
        case = Case(facets)
        for name, measure in ROWS.items():
            if asked.only in (None, name):
                made = [one for one in measure(case) if one not in rows]  # some know no facets
                rows += made
                if not asked.json:
                    print(*(_line(one) for one in made), sep="\n", flush=True)
    last = growth(rows)
    rows += last
    if asked.json:
        json.dump(rows, sys.stdout, indent=1)
        print()
    else:
        print(*(_line(one) for one in last), sep="\n")
    return 0


def _line(one: dict) -> str:
    ours, theirs = (
        "-" if one[key] is None else f"{1000 * one[key]:.1f} ms" for key in ("ours_s", "theirs_s")
    )
    return (
        f"{one['measure']:<28}{one['faces']:>10,}{ours:>12}{theirs:>16}"
        f"{one['ratio']:>10.2f} × (goal {one['goal']:g} ×)  {one['against']}"
    )


if __name__ == "__main__":
    sys.exit(main())
