"""`bayleaf check`: reads the manual and says what is wrong, and mends what can be meant in one way only."""

import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path

import click

from ..manual import Manual
from ..manual_mending import Offer, carry_out, offers
from ..safety.trace_text import trace_text
from . import _completing
from ._help import WithExamples
from .common import FORMATS, WrongCall, from_here, load, manual_for, report, resolved, say, the_day, within

#: A mend brings to light what stood behind it; after so many rounds the rest is reported.
_ROUNDS = 10


@click.command(
    "check",
    cls=WithExamples,
    examples=(
        ("bayleaf check", "all that is wrong in the manual around the current folder"),
        ("bayleaf check larkway-m12/isolate-traction", "what is wrong in one procedure"),
        ("bayleaf check larkway-m12", "what is wrong with one vehicle and its procedures"),
        ("bayleaf check --fix", "mends slips that can be meant in one way only, and asks first"),
        ("bayleaf check --watch", "once more after every save"),
        ("bayleaf check --trace larkway-m12/isolate-traction", "the state of every circuit at every step"),
        ("bayleaf check --format sarif", "for a code host; github and json likewise"),
    ),
)
@click.argument("paths", nargs=-1, metavar="[PATH]...", shell_complete=_completing.places)
@click.option("--format", "form", type=click.Choice(FORMATS), default="text", show_default=True, help="How to report.")
@click.option("--today", metavar="DATE", help="The day that dates are held against (year-month-day).")
@click.option(
    "--trace",
    metavar="PROCEDURE",
    help="Print the state of every circuit at every step of a procedure.",
    shell_complete=_completing.procedures,
)
@click.option("--fix", is_flag=True, help="Mend what can be meant in one way only; each mend is shown and asked for.")
@click.option("--yes", is_flag=True, help="With --fix: write every mend without asking.")
@click.option("--watch", "watched", is_flag=True, help="Check again after every save, until Ctrl+C.")
def command(
    paths: tuple[str, ...], form: str, today: str | None, trace: str | None, fix: bool, yes: bool, watched: bool
) -> int:
    """Check the manual.

    Each PATH is a file, a folder, a vehicle or the id of a procedure. The whole manual is always read; the paths choose
    what is reported. Without one, everything is. With --trace a procedure is followed step by step instead.

    With --fix each mend is shown, the line before and after, and asked for. Where nobody can be asked, nothing is
    written without --yes. The exit code tells what is left.
    """
    day = the_day(today)
    if trace is not None:
        return _trace(trace, day, form, paths)
    if yes and not fix or fix and form != "text":
        raise WrongCall("--yes goes with --fix, and --fix prints text; leave out the other option")
    chosen = [resolved(path) for path in paths]
    folder = manual_for(chosen)
    if watched:
        if form != "text":
            raise WrongCall("--watch prints text; leave out --format")
        below = [within(folder, path) for path in chosen] or [""]
        from ._watching import watch  # late: what listens to the system takes its time to import

        watch(folder, day, lambda one: any(_lies_below(one.place.file, each) for each in below))
        return 0
    manual = load(folder, day, quiet=form != "text")
    wanted = [within(folder, path) for path in chosen]
    if fix:
        manual = _fixed(manual, day, wanted or [""], yes)
    findings, files = manual.findings, len(manual.files)
    if chosen:
        findings = tuple(one for one in findings if any(_lies_below(one.place.file, each) for each in wanted))
        files = sum(any(_lies_below(file, each) for each in wanted) for file in manual.files)
        if not files and not findings and any(path.is_file() for path in chosen):
            raise WrongCall(
                f"{' and '.join(paths)} is nothing that is checked: the files of a manual end in .yml, its "
                "free pages in .md, and they lie in procedures/ and records/"
            )
    report(findings, manual.folder, manual.text, form, files)
    return 1 if any(one.severity == "error" for one in findings) else 0


def _fixed(manual: Manual, day: date | None, wanted: Sequence[str], yes: bool) -> Manual:
    """The manual after the mends that were accepted, of the files in `wanted`."""
    may_ask = sys.stdin.isatty() and sys.stdout.isatty()
    refused: set[tuple[str, str, str]] = set()
    written = 0
    for _ in range(_ROUNDS):
        accepted = []
        for offer in offers(manual):
            finding = offer.finding
            key = finding.place.file, finding.rule, finding.message
            if key in refused or not any(_lies_below(finding.place.file, each) for each in wanted):
                continue
            _show(offer, from_here(manual.folder))
            if yes or may_ask and click.confirm("Write this?", default=False):
                accepted.append(finding)
            else:
                refused.add(key)
        if not accepted:
            break
        carry_out(manual.folder, accepted)
        written += len(accepted)
        manual = load(manual.folder, day, quiet=True)
    _say_what_was_done(written, len(refused), may_ask or yes)
    return manual


def _show(offer: Offer, folder: str) -> None:
    """A mend as it is asked for: what is wrong, and each line before and after."""
    finding = offer.finding
    say(f"{(Path(folder) / finding.place.file).as_posix()}:{finding.place.line}: {_visible(finding.message)}")
    if finding.mend is not None and finding.mend.encoding is not None:
        say(f"  it is read as {_ENCODINGS[finding.mend.encoding]} and saved as UTF-8")
    if finding.mend is not None and finding.mend.rename is not None:
        say(f"  it is renamed to {(Path(folder) / finding.mend.rename).as_posix()}")
    for change in offer.changes:
        say(f"  line {change.line}")
        say(f"    old: {_visible(change.before)}")
        say(f"    new: {_visible(change.after)}")


_ENCODINGS = {"cp1252": "Windows-1252", "utf-16-le": "UTF-16", "utf-16-be": "UTF-16", "utf-32": "UTF-32"}


_UNSEEN = {"\t": "<tab>", "\u00a0": "<no-break space>", "\u200b": "<zero-width space>"}


def _visible(text: str) -> str:
    """The text with the signs that cannot be seen, or look like a space, as their numbers."""
    return "".join(sign if sign.isprintable() else _UNSEEN.get(sign, f"<U+{ord(sign):04X}>") for sign in text)


def _say_what_was_done(written: int, left: int, could_ask: bool) -> None:
    if not written and not left:
        say("Nothing here can be mended for certain by the program.\n")
        return
    mends = f"{written} mend{'s' if written != 1 else ''} written"
    hint = "" if could_ask or not left else "; nobody can be asked here, so add --yes to write them"
    say(f"{mends}{f', {left} not written' if left else ''}{hint}\n")


def _trace(name: str, day: date | None, form: str, paths: tuple[str, ...]) -> int:
    """Prints the trace of a procedure; what is wrong in it is reported behind, in the same words as without it."""
    if form != "text" or paths:
        raise WrongCall("--trace takes one procedure and prints text; leave out the paths and --format")
    path = resolved(name)
    folder = manual_for([path])
    manual = load(folder, day, quiet=True)
    file = within(folder, path)
    found = next((own for own, procedure in manual.procedures.items() if procedure.file == file), None)
    surveyor = manual.surveyors.get(found.split("/")[0]) if found is not None else None
    if found is None or surveyor is None or found not in surveyor.procedures:
        raise WrongCall(f"{name} is no procedure that can be followed: see what `bayleaf check {name}` says")
    say(trace_text(found, surveyor), nl=False)
    findings = manual.by_file.get(file, ())
    if findings:
        say("")
        report(findings, manual.folder, manual.text, form, 1)
    return 1 if any(one.severity == "error" for one in findings) else 0


def _lies_below(file: str, path: str) -> bool:
    return not path or file == path or file.startswith(f"{path}/")
