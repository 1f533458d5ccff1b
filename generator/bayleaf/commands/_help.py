"""The page of a command that `--help` shows: click's own, and below it examples to copy."""

from collections.abc import Iterable
from typing import Any

import click

#: The words stand below what is typed, this far in: so both stay whole on a narrow console, and read well aloud.
_INDENT = 2


class WithExamples(click.Command):
    """A command with `examples`: what is typed, and what comes of it. A test runs each of them."""

    def __init__(self, *args: Any, examples: Iterable[tuple[str, str]] = (), **others: Any) -> None:
        super().__init__(*args, **others)
        self.examples = tuple(examples)

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The examples stand below the options, the epilog behind them."""
        if self.examples:
            with formatter.section("Examples"):
                formatter.write_dl(self.examples, col_max=_INDENT)
        super().format_epilog(ctx, formatter)
