"""A source is not written so that it can be looked up.

## Why it matters

A source is a place that somebody else can go to: a document and the place in it, a standard and its clause, a
job whose record is kept. "Known from experience" is said by `workshop practice`.

## Fails

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: 11.5 V to 14.8 V
    source: own experience # <- `own experience` is none of the four forms of a source
```

```yaml fails procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: 11.5 V to 14.8 V
    source: ISO 16750-2 # <- `ISO 16750-2` names no clause
```

## Passes

```yaml passes procedure
steps:
  - measure: Supply of the heater
    quantity: voltage
    between: [X210/3, X210/1]
    limits: 11.5 V to 14.8 V
    source: "ISO 16750-2, clause 4.2: direct current supply"
  - measure: Supply of the fan
    quantity: voltage
    between: [X210/3, X210/1]
    limits: 11.5 V to 14.8 V
    source: "maker: circuit diagram 14, sheet 3"
```

## Source

A decision of this format: `workshop practice`, `maker: <document, place>`, `<standard>, <clause>`,
`record: <job>`. Only the form is checked, never the truth.
"""

import re
from collections.abc import Iterator
from functools import lru_cache

from ...diagnostics.place import Path
from ...loading.shape_words import nearest
from ...model.procedure import Procedure
from ..case import Case
from ..fault import Fault

KIND = "practice"
SEVERITY = "warning"
#: Bodies whose standards and regulations are cited by number and clause.
BODIES = (
    "ANSI", "API", "ASME", "ASTM", "BS", "CFR", "CISPR", "DGUV", "DIN", "ECE", "EN", "FMVSS", "GB", "IEC", "IEEE",
    "ILAC", "ISO", "JCGM", "JIS", "NEMA", "NFPA", "NIST", "OSHA", "SAE", "UL", "UN", "UNECE", "VDA", "VDE", "VDI",
)  # fmt: skip

_NAMES = "|".join(BODIES)
#: `ISO 6469-3`, `IEC/IEEE 82079-1`, `DIN EN 50110-1`, `SAE J2344`, `UN R100`, `49 CFR 571.305`, `NFPA 70E`.
_STANDARD = re.compile(rf"(?:[0-9]+ )?(?:{_NAMES})(?:[/ -](?:{_NAMES}|T|TS|TR|PAS|SP))*[ -]?[A-Z]{{0,3}}[ -]?[0-9]")
_FORMS = "`workshop practice`, `maker: <document, place>`, `<standard>, <clause>` or `record: <job>`"


def check_procedure(procedure: Procedure, case: Case) -> Iterator[Fault]:
    """Every source that is written, by its form alone."""
    told: set[Path] = set()
    for step in procedure.steps:
        if step.source is not None and step.at not in told and not step.broken:
            fault = _fault(step.source)
            if fault is not None:
                told.add(step.at)
                yield Fault((*step.at, "source"), *fault)


@lru_cache(maxsize=4096)
def _fault(source: str) -> tuple[str, str | None, str] | None:
    """Message, reason and help, or None where the source has one of the forms."""
    kind, colon, rest = source.partition(":")
    document, comma, place = (rest if kind == "maker" else source).partition(",")
    if source == "workshop practice" or kind == "record" and rest.strip():
        return None
    if colon and kind == "maker":
        if comma and document.strip() and place.strip():
            return None
        return f"`{source}` names no place in the document", None, f"write `{source}, page …`"
    if _STANDARD.match(source):
        if comma and place.strip():
            return None
        return f"`{source}` names no clause", None, f"write `{source}, clause …`"
    meant = nearest(source, ("workshop practice",))
    return (
        f"`{source}` is none of the four forms of a source",
        None,
        (f"did you mean `{meant}`?" if meant else f"write {_FORMS}"),
    )
