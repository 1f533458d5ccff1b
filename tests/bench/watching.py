"""From a save to the findings on the console, and to the new page in a real browser.

The clock runs from the replacing of a file to the line in which `bayleaf check --watch` tells of that file, to the last line
that it prints (of a profile the files that rest on it are judged in between), and to the first moment at which a script of the page that `bayleaf preview` shows sees the new text. So it holds the watching of files, reading,
checking, rendering, and the browser. Each save changes what the page says.
"""

import os
import re
import shutil
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

_FREE = "procedures/book/notes.md"
#: What is saved, and where on its page the text stands that every save changes.
#: Of a profile twice: a change that no walk sees, and a pin, after which every procedure of the vehicle is judged anew.
_KINDS = ("procedure", "vehicle.yml", "vehicle.yml, a pin", "free page")
_REST = 0.6


def measure(manual: Path, jobs: tuple[str, ...], repeats: int) -> dict[str, dict[str, float]]:
    """Median seconds by what was saved: "check" to its line, "all" to the last line, "preview" to the page, "floor" as `_floor` says."""
    free = manual / _FREE
    free.parent.mkdir(exist_ok=True)
    free.write_text("# Notes\n\nNote 0.\n", encoding="utf-8")
    job = manual / jobs[len(jobs) // 2]
    profile = job.with_name("vehicle.yml")
    files = {"procedure": job, "vehicle.yml": profile, "vehicle.yml, a pin": profile, "free page": free}
    found: dict[str, dict[str, float]] = {name: {} for name in _KINDS}
    with _checking(manual) as lines:
        for name in _KINDS[:-1]:
            found[name]["check"], found[name]["all"] = _medians(
                repeats, lambda count, name=name: _to_lines(files[name], name, count, lines)
            )
    with _previewing(manual) as tab:
        for name in _KINDS:
            (found[name]["preview"],) = _medians(
                repeats, lambda count, name=name: (_to_page(files[name], name, count, tab),)
            )
    for name in _KINDS:
        (found[name]["floor"],) = _medians(repeats, lambda count, name=name: (_floor(files[name]),))
    return found


def print_table(found: dict[str, dict[str, float]], repeats: int) -> None:
    """The medians, and whether the goals hold."""
    print(
        f"\nfrom save, median of {repeats:<13}"
        + "".join(f"{word:>12}" for word in ("check ms", "all ms", "preview ms", "floor ms"))
    )
    for name, one in found.items():
        figures = (one.get("check"), one.get("all"), one["preview"], one["floor"])
        print(f"{name:<34}" + "".join(f"{'-' if figure is None else round(1000 * figure):>12}" for figure in figures))
    print("floor: a new process of Python that composes the saved file with the C parser")
    for goal, most in (("check", 0.2), ("preview", 1.0)):
        for name, one in found.items():
            if goal in one:
                verdict = "holds" if one[goal] <= most else "FAILS"
                print(f"goal: {goal} of a saved {name} within {most * 1000:.0f} ms: {verdict}")


def _medians(repeats: int, once: Callable[[int], tuple[float, ...]]) -> tuple[float, ...]:
    once(0)
    times = [once(count) for count in range(1, repeats + 1)]
    found = tuple(map(statistics.median, zip(*times, strict=True)))
    print(f"    {'; '.join(', '.join(f'{1000 * one:.0f}' for one in each) for each in times)} ms", flush=True)
    return found


def _save(file: Path, kind: str, count: int) -> str:
    """Replaces the file as an editor does; returns what its page says now."""
    text = file.read_text(encoding="utf-8")
    words = f"Word {count} of {time.time_ns() % 10**9}"
    if file.suffix == ".md":
        text = f"# Notes\n\n{words}.\n"
    elif file.name == "vehicle.yml":
        text = re.sub(r"^about: .*(?:\n  .*)*", "", text, flags=re.MULTILINE)
        text = re.sub(r"mass: [0-9.]+ kg", f"mass: {count + 10}.5 kg", text, count=1)
        text = text.rstrip("\n") + f"\nabout: {words}\n"
        if kind.endswith("a pin"):
            text = re.sub(r"\d+(?=: \{signal: interlock out)", f"{90 + count}", text, count=1)
    else:
        text = re.sub(r"^about: .*(?:\n  .*)*\n", f"about: {words}\n", text, count=1, flags=re.MULTILINE)
    assert words in text, file
    beside = file.with_name(f".{file.name}.new")
    beside.write_text(text, encoding="utf-8")
    os.replace(beside, file)
    return words


def _to_lines(file: Path, kind: str, count: int, lines: Any) -> tuple[float, float]:
    time.sleep(_REST)
    begun = time.perf_counter()
    _save(file, kind, count)
    told = []
    while not told or told[-1][1].endswith("rests on it.\n"):
        line = lines.readline()
        if re.match(r"\d\d:\d\d:\d\d  ", line):
            told.append((time.perf_counter() - begun, line))
    return told[0][0], told[-1][0]


def _to_page(file: Path, kind: str, count: int, tab: Any) -> float:
    time.sleep(_REST)
    begun = time.perf_counter()
    words = _save(file, kind, count)
    while True:
        try:
            tab.wait_for_function("words => document.body?.innerText.includes(words)", arg=words, timeout=300_000)
            return time.perf_counter() - begun
        except Exception as error:  # the page went away while it was asked
            if "context" not in str(error):
                raise


def _floor(file: Path) -> float:
    begun = time.perf_counter()
    read = "import sys, yaml; yaml.compose(open(sys.argv[1], encoding='utf-8').read(), Loader=yaml.CSafeLoader)"
    subprocess.run([sys.executable, "-c", read, str(file)], check=True)
    return time.perf_counter() - begun


@contextmanager
def _running(manual: Path, *arguments: str) -> Iterator[Any]:
    call = [sys.executable, "-m", "bayleaf", *arguments]
    with subprocess.Popen(call, cwd=manual, stdout=subprocess.PIPE, text=True, encoding="utf-8") as child:
        try:
            yield child.stdout
        finally:
            child.terminate()


@contextmanager
def _checking(manual: Path) -> Iterator[Any]:
    with _running(manual, "check", "--watch") as lines:
        while not lines.readline().startswith("Watching"):
            pass
        yield lines


@contextmanager
def _previewing(manual: Path) -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    path = os.environ.get("BAYLEAF_BROWSER") or shutil.which("chromium") or shutil.which("google-chrome")
    with _running(manual, "preview", "--port", "0") as lines, sync_playwright() as playwright:
        address = re.search(r"http://\S+", lines.readline())
        assert address is not None
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox", "--disable-gpu"])
        tab = browser.new_page()
        tab.goto(address[0], timeout=600_000)
        yield tab
        browser.close()
