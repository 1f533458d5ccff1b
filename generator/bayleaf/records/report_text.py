"""The report on a record: short sentences that one person reads aloud while the other one looks."""

import textwrap
from collections.abc import Callable, Iterable, Iterator

from .told import Data

_WIDTH = 100
_PAUSED = {"break": "Break", "hand-over": "Handed over", "vehicle left": "Vehicle left"}


def report_text(record: Data) -> str:
    """The report on one record, made of what `told` says of it. It ends with a line break."""
    sections = (
        ("Readings", _each(record, "reading", _reading)),
        ("Torques", _each(record, "torque", _torque)),
        ("Answers", _each(record, "answer", lambda one: [f"{one['asks'] or 'Question'} — {one['answer']}"])),
        ("Exits opened against the result", _each(record, "barred", _exit)),
        ("Breaks", _each(record, "paused", _pause)),
        ("Touched while it did not count as dead", _each(record, "not_proved", _unproved)),
        ("Out of order", (f"{_place(one)}: no way leads here from what was done before"
                          for one in record["entries"] if not one["follows"])),
        ("Missing", _missing(record)),
        ("Parts fitted", (f"{one['count']} × {one['part']}{_bracket(one['number'])}" for one in record["fitted"])),
        ("Conclusion", _conclusion(record)),
    )  # fmt: skip
    blocks = ["\n".join(_wrapped(line, "") for line in _head(record))]
    for title, lines in sections:
        written = [_wrapped(line, "  ") for line in lines]
        if written:
            blocks.append("\n".join([title, *written]))
    return "\n\n".join(blocks) + "\n"


def _head(record: Data) -> Iterator[str]:
    yield f"Job {record['job']}: {record['title'] or record['procedure']} ({record['procedure']})"
    yield _revision(record)
    facts = (
        (record["started"], "Begun {}"),
        (record["odometer"], "{}"),
        (record["variant"], "version {}"),
        (record["minutes"], "{} minutes"),
    )
    said = [words.format(value) for value, words in facts if value is not None]
    if said:
        yield ", ".join(said) + "."


def _revision(record: Data) -> str:
    revision, current = record["revision"], record["current_revision"]
    if current is None:
        return f"Revision {revision}. The procedure cannot be followed now; the readings are judged by the record."
    if revision != current:
        return (
            f"Revision {revision}; the manual has revision {current} now. The readings are judged by the record "
            "alone, the steps are not held against the procedure."
        )
    if not record["agrees"]:
        return (
            f"Revision {revision}, but the procedure has been changed since without a new one. The readings are "
            "judged by the record alone, the steps are not held against the procedure."
        )
    digest = "" if record["digest"] else " The record holds no digest: it is taken by its revision."
    return f"Revision {revision}, the current one.{digest}"


def _each(record: Data, key: str, words: Callable[[Data], Iterable[str]]) -> Iterator[str]:
    """The lines of every entry that has something under a key: which step, and below it what is said of it."""
    for one in record["entries"]:
        if one.get(key):
            first, *more = words(one)
            yield f"{_place(one)}: {first}"
            if more:
                yield f"  {' '.join(more)}"


def _place(one: Data) -> str:
    time = f", {one['at'][-5:]}" if one["at"] else ""
    return f"Step {one['number']} ({one['step']}){time}" if one["number"] else f"Step {one['step']}{time}"


def _reading(one: Data) -> Iterator[str]:
    where = f", between {one['between'][0]} and {one['between'][1]}" if one["between"] else ""
    yield f"{one['asks'] or 'reading'}{where}"
    limits = f"; limits {one['limits']}" if one["limits"] else "; no limits"
    if one["limits_of_the_file"]:
        limits += ", those of the procedure, since the record holds none"
    error = f"; may be wrong by {one['error']}, kept {one['band']} from the limit" if one["error"] else ""
    yield f"{one['reading']}{limits}{error}."
    if one.get("computed"):
        yield f"The readings give {one['computed']}."
    elif one.get("not_computed"):
        yield f"Not computed: {one['not_computed']}."
    yield f"Verdict: {one['verdict'] or 'none'}."
    shown = f"Shown: {one['shown'] or 'none'}."
    yield shown if not one["differs"] else f"Shown: {one['shown']}. THE TWO DIFFER."


def _torque(one: Data) -> Iterator[str]:
    if "asked" not in one:
        yield f"{one['torque']}. There is nothing to hold it against."
        return
    yield f"{one['fastener']}, {one['torque']}"
    yield f"Asked for {one['asked']}, allowed {one['allowed']}."
    yield "OUTSIDE." if one["outside"] else "Right."


def _exit(one: Data) -> Iterator[str]:
    yield f"“{one['exit'].replace('_', ' ')}”. Reason: {_sentence(one['reason'] or 'NONE WRITTEN')}"
    yield "From here on nothing counts as proved."


def _pause(one: Data) -> Iterator[str]:
    yield f"{_PAUSED.get(one['paused'], one['paused'])}. From here on nothing counts as proved."


def _unproved(one: Data) -> Iterator[str]:
    old = one["proof_too_old"]
    names = [f"{name} (the proof of {old[name]} was too old)" if name in old else name for name in one["not_proved"]]
    yield f"{', '.join(names)}, not proved dead again before."


def _missing(record: Data) -> Iterator[str]:
    for one in record["missing"]:
        yield f"Step {one['number']} ({one['step']}): {one['what']}"
    for one in record["goes_on"][:1]:
        yield f"The record does not come to an end: step {one['number']} ({one['step']}) comes next"
    if record["conclusion"]["ended"] and record["conclusion"]["reached"] and not record["conclusion"]["written"]:
        yield f"The conclusion; the entries lead to `{record['conclusion']['reached']}`"


def _conclusion(record: Data) -> Iterator[str]:
    found = record["conclusion"]
    if found["written"] or found["finding"]:
        name = f" ({found['written'] or found['reached']})" if found["written"] or found["reached"] else ""
        yield f"{found['finding'].rstrip('.')}{name}." if found["finding"] else str(found["written"])
    elif found["ended"]:
        yield "The work was stopped." if found["stopped"] else "The procedure was done to its end."
    if found["say"]:
        yield found["say"]
    if found["parts"]:
        yield f"To fit: {', '.join(found['parts'])}"
    if record["not_proved"]:
        yield f"Not proved dead at the end: {', '.join(record['not_proved'])}"
    if record["remarks"]:
        yield f"Remarks: {record['remarks']}"


def _sentence(text: str) -> str:
    return text if text.endswith((".", "!", "?")) else f"{text}."


def _bracket(text: str | None) -> str:
    return f" ({text})" if text else ""


def _wrapped(line: str, indent: str) -> str:
    """A line in the width of a page, never broken at a hyphen: names stay whole."""
    plain = line.lstrip()
    first = indent + " " * (len(line) - len(plain))
    return textwrap.fill(plain, _WIDTH, initial_indent=first, subsequent_indent=f"{first}  ", break_on_hyphens=False)
