"""What is wrong with a written value, and how to mend it."""

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault of a written value.

    `start` and `end` count characters of the text as it was given and enclose the smallest
    faulty part; `message` is one line and names the value found; `help` says what to write; `write` is the
    text to put in the place of that part, where only one can be meant.
    """

    rule: str
    message: str
    start: int
    end: int
    because: str | None = None
    help: str | None = None
    write: str | None = None

    def moved(self, by: int) -> "Problem":
        """The same problem, with its offsets counted from an earlier start."""
        return replace(self, start=self.start + by, end=self.end + by)
