"""The long comparison, as a command: `python -m tests.oracle.campaign --count 50000`.

Prints what the random manuals were like and where walk and oracle part. Exit code 1 at any difference, and where
there were too few cases of some kind.
"""

import argparse
import sys
import time
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial

from .compare import Report, run
from .judges import joined_only, walk


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs the comparison and prints the report."""
    parser = argparse.ArgumentParser(prog="campaign", description=__doc__)
    parser.add_argument("--count", type=int, default=50_000, help="how many random manuals")
    parser.add_argument("--seed", type=int, default=1, help="which ones")
    parser.add_argument("--workers", type=int, default=1, help="processes side by side")
    asked = parser.parse_args(arguments)
    started = time.perf_counter()
    report = together(asked.count, asked.seed, asked.workers)
    seconds = time.perf_counter() - started
    print(report)
    print(f"{report.quotas.cases / seconds:.0f} graphs per second")
    if walk is None:
        print("there is no walk to compare with")
    return 0 if report.is_good and walk is not None else 1


def together(count: int, seed: int, workers: int) -> Report:
    """One report of all cases, made by several processes."""
    part = partial(run, count, seed, walk, joined_only)
    if workers < 2:
        return part()
    with ProcessPoolExecutor(workers) as pool:
        reports = list(pool.map(part, range(workers), [workers] * workers))
    whole = reports[0]
    for report in reports[1:]:
        whole.quotas.merge(report.quotas)
        whole.differing = sorted(whole.differing + report.differing)
        whole.longer = sorted(whole.longer + report.longer)
        if report.smallest is not None and (
            whole.smallest is None or report.smallest.case.size < whole.smallest.case.size
        ):
            whole.smallest = report.smallest
    return whole


if __name__ == "__main__":
    sys.exit(main())
