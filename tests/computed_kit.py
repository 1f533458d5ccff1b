"""Steps that compute, and readings for them, as the tests write them down."""

from bayleaf.loading.load import load
from bayleaf.model.record import Entry
from bayleaf.records.job_steps import JobStep, job_steps

VOLTMETER = ", resistor: 200 kΩ"
TAKEN = "quantity: {quantity}, between: [X1/1, X1/2], using: meter{take}"


def step(formula: str, names: list[str], quantity: str, more: str = "", take: str = "") -> JobStep:
    """A procedure that measures at each name and then computes; the step that computes."""
    taken = TAKEN.format(quantity=quantity, take=f", take: {take}" if take else "")
    lines = [f"  - {{id: {name}, measure: Reading, {taken}}}" for name in names]
    text = "\n".join(
        [
            "id: a/b",
            "steps:",
            *lines,
            f"  - {{id: result, compute: Result, formula: {formula}, of: [{', '.join(names)}]{more}}}\n",
        ]
    )
    procedure = load("procedures/a/b.yml", text.encode(), "procedure").model
    return job_steps(procedure, {})[-1]


def taken(**readings: str) -> dict[str, list[Entry]]:
    """Readings by step; several of one step with a comma between them."""
    found = {}
    for name, texts in readings.items():
        lines = [f"  - {{step: {name}, reading: {one.strip()}}}" for one in texts.split(",")]
        text = "entries:\n" + "\n".join(lines).replace("OL}", "no reading, verdict: within}") + "\n"
        found[name] = list(load("records/x.yml", text.encode(), "record").model.entries)
    return found
