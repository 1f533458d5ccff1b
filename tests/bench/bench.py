"""Times and memory on a synthetic manual, as ratios to floors of the same run.

`python tests/bench/bench.py [--procedures N] [--keep FOLDER] [--repeats N] [--profile check|render] [--part all|watch|search]`

Everything that is measured runs in a fresh process on one core, in turns; the median counts. Nothing is kept from
one run to the next. Times are those of the processor, so that what else the machine does matters little. They are those
of this machine: only the ratios mean something elsewhere.
"""

import argparse
import json
import os
import platform
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

_BEGUN = time.process_time()
_TODAY = "2026-11-29"


def main() -> None:
    """Makes the manual, measures, prints the report."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--procedures", type=int, default=1000, metavar="N")
    parser.add_argument("--keep", type=Path, metavar="FOLDER", help="leave the manual, the plain pages and both sites")
    parser.add_argument("--repeats", type=int, default=3, metavar="N")
    parser.add_argument("--profile", choices=("check", "render"), help="print the costs of one run and nothing else")
    parser.add_argument(
        "--part",
        choices=("all", "watch", "search"),
        default="all",
        help="watch: only from a save to what is seen; search: only from a key to the first hit, in sites that --keep has left",
    )
    parser.add_argument("--child", choices=sorted(_CHILDREN), help=argparse.SUPPRESS)
    arguments = parser.parse_args()
    if arguments.child:
        _child(arguments.child, arguments.keep)
        return
    if arguments.keep:
        _bench(arguments.keep.resolve(), arguments)
    else:
        with tempfile.TemporaryDirectory(prefix="bayleaf-bench-") as folder:
            _bench(Path(folder).resolve(), arguments)


# What a child does. Each returns what it wants to tell beside its time.


def _compose(folder: Path) -> dict[str, float]:
    import floors

    begun = time.process_time()
    floors.compose_all(folder / "manual")
    return {"work": time.process_time() - begun}


def _check(folder: Path) -> dict[str, float]:
    return _command(folder, "check", "--today", _TODAY)


def _render(folder: Path) -> dict[str, float]:
    return _command(folder, "render", "--today", _TODAY, "--output", str(folder / "site"))


def _plain(folder: Path) -> dict[str, float]:
    import floors

    begun = time.process_time()
    floors.build_plain_pages(folder / "plain")
    return {"work": time.process_time() - begun}


def _command(folder: Path, *arguments: str) -> dict[str, float]:
    os.chdir(folder / "manual")
    from bayleaf.commands import run

    imported = time.process_time()
    code = run(list(arguments))
    if code:
        sys.exit(f"`bayleaf {' '.join(arguments)}` ended with {code}: a benchmark needs a manual without errors")
    return {"imports": imported - _BEGUN, "work": time.process_time() - imported}


def _hits(folder: Path) -> dict[str, dict[str, int]]:
    """How often each rule's check ran, and the findings."""
    from dataclasses import replace

    from bayleaf.manual import load_manual
    from bayleaf.rules import run
    from bayleaf.rules.rule import all_rules

    calls: Counter[str] = Counter()

    def counted(check: Callable[..., object], name: str) -> Callable[..., object]:
        def counting(*given: object) -> object:
            calls[name] += 1
            return check(*given)

        return counting

    rules = tuple(
        replace(rule, checks=tuple((kind, counted(check, rule.name)) for kind, check in rule.checks))
        for rule in all_rules()
    )
    run.all_rules = lambda: rules  # type: ignore[assignment]
    from datetime import date

    manual = load_manual(folder / "manual", date.fromisoformat(_TODAY))
    return {"calls": dict(calls), "findings": dict(Counter(one.severity for one in manual.findings))}


def _walk(folder: Path) -> dict[str, float]:
    """The walk of the circuits, and all that is done for safety behind the rules that look at one file."""
    from datetime import date

    from bayleaf import manual
    from bayleaf.manual_inspection import Inspector
    from bayleaf.safety.walk_joined import JoinedWalk

    spent = {"circuits": 0.0, "work": 0.0}
    walked = Inspector._by_walks
    Inspector._by_walks = _timed(lambda *given: list(walked(*given)), "work", spent)  # type: ignore[method-assign]
    JoinedWalk.run = _timed(JoinedWalk.run, "circuits", spent)  # type: ignore[method-assign]
    manual.load_manual(folder / "manual", date.fromisoformat(_TODAY))
    return spent


def _timed(function: Callable[..., Any], name: str, spent: dict[str, float]) -> Callable[..., Any]:
    """The function, its time added up; what it calls of itself is not counted twice."""
    inside = False

    def timing(*given: Any) -> Any:
        nonlocal inside
        if inside:
            return function(*given)
        inside, begun = True, time.process_time()
        try:
            return function(*given)
        finally:
            inside = False
            spent[name] += time.process_time() - begun

    return timing


_CHILDREN: dict[str, Callable[[Path], object]] = {
    "compose": _compose, "check": _check, "walk": _walk, "render": _render, "plain": _plain, "hits": _hits,
}  # fmt: skip


def _child(name: str, folder: Path) -> None:
    """Runs one of them, and hands its answer over in a file, so that what it prints is its own."""
    answer = _CHILDREN[name](folder)
    (folder / f"{name}.json").write_text(json.dumps(answer), encoding="utf-8")


@dataclass(frozen=True, slots=True)
class Run:
    """One run of a child: wall and processor seconds of the whole process, seconds of its parts, peak memory in bytes.

    Where the system does not tell the processor's time of a child, it is the wall's, and the memory is None.
    """

    wall: float
    seconds: float
    parts: dict[str, float]
    memory: int | None


def _run(name: str, folder: Path, *before: str) -> Run:
    command = [sys.executable, *before, __file__, "--child", name, "--keep", str(folder)]
    begun = time.perf_counter()
    with subprocess.Popen(command, stdout=subprocess.DEVNULL) as child:
        seconds = memory = None
        if hasattr(os, "wait4"):
            _, status, usage = os.wait4(child.pid, 0)
            child.returncode = os.waitstatus_to_exitcode(status)
            memory = usage.ru_maxrss * (1 if sys.platform == "darwin" else 1024)
            seconds = usage.ru_utime + usage.ru_stime
    wall = time.perf_counter() - begun
    if child.returncode:
        sys.exit(child.returncode)
    return Run(
        wall,
        wall if seconds is None else seconds,
        json.loads((folder / f"{name}.json").read_text(encoding="utf-8")),
        memory,
    )


def _bench(folder: Path, arguments: argparse.Namespace) -> None:
    import floors
    import page
    import synthetic

    if arguments.part == "watch":
        _watch(folder, arguments)
        return
    if arguments.part == "search":
        _search(folder, arguments)
        return
    one_core = hasattr(os, "sched_setaffinity")
    if one_core:
        os.sched_setaffinity(0, {max(os.sched_getaffinity(0))})  # the children inherit it
    shutil.rmtree(folder / "manual", ignore_errors=True)
    written = synthetic.write_manual(folder / "manual", arguments.procedures)
    if arguments.profile:
        _profile(arguments.profile, folder)
        return
    pages = floors.write_plain_pages(folder / "manual", folder / "plain")
    cores = "one core" if one_core else "cores not held (this system cannot)"
    print(f"{platform.python_implementation()} {platform.python_version()}, {platform.system()}, {cores}")
    mean = written.bytes / len(written.files)
    print(f"{len(written.files)} files with {written.bytes:,} bytes, {mean:,.0f} in the mean")
    sizes = [(folder / "manual" / file).stat().st_size for file in synthetic.jobs(written)]
    print(f"{len(sizes)} of them are synthetic procedures of {statistics.mean(sizes):,.0f} bytes in the mean")
    print(f"{pages} plain Markdown pages of the same text for floor B")
    _print_hits(folder)
    runs: dict[str, list[Run]] = {name: [] for name in ("compose", "check", "walk", "plain", "render")}
    for _ in range(arguments.repeats):
        for name, found in runs.items():
            for made in ("site", "plain/site"):
                shutil.rmtree(folder / made, ignore_errors=True)
            found.append(_run(name, folder))
    _print_table({name: _median(found) for name, found in runs.items()}, arguments.repeats)
    page.main()


def _watch(folder: Path, arguments: argparse.Namespace) -> None:
    """From a save to what the author sees, on as many cores as there are; in wall time, so the load is printed too."""
    import synthetic
    import watching

    shutil.rmtree(folder / "manual", ignore_errors=True)
    written = synthetic.write_manual(folder / "manual", arguments.procedures)
    print(f"{len(written.files)} files with {written.bytes:,} bytes")
    found = watching.measure(folder / "manual", synthetic.jobs(written), arguments.repeats)
    watching.print_table(found, arguments.repeats)
    _print_load()


def _search(folder: Path, arguments: argparse.Namespace) -> None:
    """From a key to the first hit, in wall time; sites that are there already are taken as they are."""
    import floors
    import searching
    import synthetic

    if not (folder / "site" / "search").is_dir() or not (folder / "plain" / "site" / "search").is_dir():
        shutil.rmtree(folder / "manual", ignore_errors=True)
        synthetic.write_manual(folder / "manual", arguments.procedures)
        floors.write_plain_pages(folder / "manual", folder / "plain")
        for name in ("plain", "render"):
            _run(name, folder)
    searching.measure(folder / "site", folder / "plain" / "site", arguments.procedures, arguments.repeats)
    _print_load()


def _print_load() -> None:
    if hasattr(os, "getloadavg"):
        print(f"load of the last minute: {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")


def _median(runs: list[Run]) -> Run:
    parts = {part: statistics.median(run.parts[part] for run in runs) for part in runs[0].parts}
    memory = [run.memory for run in runs if run.memory is not None]
    wall, seconds = (statistics.median(getattr(run, name) for run in runs) for name in ("wall", "seconds"))
    return Run(wall, seconds, parts, int(statistics.median(memory)) if memory else None)


def _print_hits(folder: Path) -> None:
    found = _run("hits", folder).parts
    findings, calls = found["findings"], found["calls"]
    print(f"findings: {', '.join(f'{number} {severity}' for severity, number in findings.items()) or 'none'}")
    print(f"checks of rules that ran: {sum(calls.values()):,} of {len(calls)} rules")
    for name, number in sorted(calls.items(), key=lambda item: (-item[1], item[0])):
        print(f"    {number:>9,}  {name}")


def _print_table(medians: dict[str, Run], repeats: int) -> None:
    head = ("wall s", "CPU s", "imports", "work", "to floor", "MB", "to floor")
    print(f"\nmedian of {repeats:<24}" + "".join(f"{word:>10}" for word in head))
    for name, label, floor in (
        ("compose", "floor A: compose with the C parser", "compose"), ("check", "bayleaf check", "compose"),
        ("plain", "floor B: MkDocs with Material", "plain"), ("render", "bayleaf render (checks too)", "plain"),
    ):  # fmt: skip
        run, base = medians[name], medians[floor]
        figures = [run.wall, run.seconds, run.parts.get("imports", 0.0), run.parts["work"], run.seconds / base.seconds]
        if run.memory is not None and base.memory is not None:
            figures += [run.memory / 1e6, run.memory / base.memory]
        print(f"{label:<34}" + "".join(f"{figure:>10.2f}" for figure in figures))
    for goal, name, floor, most in (("check", "check", "compose", 2.0), ("render", "render", "plain", 0.3)):
        ratio = medians[name].seconds / medians[floor].seconds
        inside = medians[name].parts["work"] / medians[floor].parts["work"]
        verdict = "holds" if ratio <= most else "FAILS"
        print(f"goal: {goal} at most {most} of its floor: {verdict} ({ratio:.2f}; {inside:.2f} without the imports)")
    floor, spent = medians["compose"].parts["work"], medians["walk"].parts
    circuits, safety = spent["circuits"] / floor, spent["work"] / floor
    verdict = "holds" if circuits <= 0.3 else "FAILS"
    print(f"goal: the walk at most 0.3 of floor A: {verdict} ({circuits:.2f}; {safety:.2f} with all that rests on it)")


def _profile(name: str, folder: Path) -> None:
    """Prints where the time of one run goes."""
    import pstats

    file = folder / f"{name}.prof"
    shutil.rmtree(folder / "site", ignore_errors=True)
    _run(name, folder, "-m", "cProfile", "-o", str(file))
    for order in ("tottime", "cumulative"):
        pstats.Stats(str(file)).sort_stats(order).print_stats(45)


if __name__ == "__main__":
    main()
