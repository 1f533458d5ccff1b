"""Writing a draft: judged with the whole manual before it lies there, never over another file, told afterwards."""

import re
from collections.abc import Set
from datetime import date
from pathlib import Path

from ..drafts.procedure import Draft
from ..loading.schema import FileKind
from ..manual import ManualKeeper
from ..manual_files import File
from ..model.file_names import KEPT_BY_WINDOWS
from .common import WrongCall, from_here, report, say

_NAME = re.compile(r"[a-z0-9][a-z0-9-]*")


def against_name(name: str, what: str, reserved: Set[str]) -> str | None:
    """What is said against the name of a file or a folder (`what`) of a manual."""
    if name in KEPT_BY_WINDOWS:
        return f"{name} cannot be the name of a {what}: Windows keeps it for a device, so choose a longer one"
    if _NAME.fullmatch(name) is None or name in reserved:
        return f"{name} cannot be the name of a {what} here: use lower-case letters, digits and hyphens"
    return None


def write(draft: Draft, kind: FileKind, keeper: ManualKeeper, day: date) -> int:
    """Judges, writes and tells; the exit code is 1 where the file has errors."""
    manual = keeper.manual(day, drafts={File(draft.file, kind): draft.text.encode()})
    path = manual.folder / draft.file
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("xb") as file:
            file.write(draft.text.encode())
    except FileExistsError:
        raise WrongCall(f"{path} is there already. Nothing was written.") from None
    findings = [one for one in manual.by_file.get(draft.file, ()) if one.rule != "todo-left"]
    if findings:
        say("")
        report(findings, manual.folder, manual.text, "text", 1)
    shown = (Path(from_here(manual.folder)) / draft.file).as_posix()
    errors = sum(one.severity == "error" for one in findings)
    say(f"\nWritten: {shown}")
    for note in draft.notes:
        say(f"Note: {note}")
    _tell_todos(draft)
    if errors:
        found = f"The check finds {errors} error{'s' if errors > 1 else ''} in it, told above with the reasons."
        facts = " They are the facts that must be filled in." if kind == "vehicle" else ""
        say(f"{found}{facts} The manual is not rendered before they are mended.")
    say("What to do next:\n")
    typed = f'"{shown}"' if " " in shown else shown
    for line, why in (
        (shown, "open it in an editor and fill the places in"),
        (f"bayleaf check {typed}", "see what is left"),
        ("bayleaf preview", "look at the page while you write"),
    ):
        say(f"  {line}\n      {why}")
    return 1 if errors else 0


def _tell_todos(draft: Draft) -> None:
    lines = [number for number, line in enumerate(draft.text.splitlines(), 1) if "TODO" in line]
    if not lines:
        say("No place is left to be filled in. Read it all the same before anybody works by it.")
        return
    places = "place is" if draft.todos == 1 else "places are"
    where = "line" if len(lines) == 1 else "lines"
    say(f"{draft.todos} {places} marked TODO: {where} {', '.join(map(str, lines))}.")
