"""`bayleaf explain`: the manual page of a rule."""

import click

from ..loading.shape_words import nearest
from ..rules.rule import all_rules, rule_named
from . import _completing
from ._help import WithExamples
from .common import WrongCall, say


@click.command(
    "explain",
    cls=WithExamples,
    examples=(
        ("bayleaf explain", "all rules, one a line"),
        ("bayleaf explain live-conductor-touched", "why it matters, what fails, what passes"),
    ),
)
@click.argument("rule", required=False, shell_complete=_completing.rules)
def command(rule: str | None) -> int:
    """Tell what a RULE is about.

    Why it matters, what fails, what passes, and the source. Without a RULE, list them all.
    """
    if rule is None:
        for each in all_rules():
            say(f"{each.name:<36} {each.title}")
        return 0
    found = rule_named(rule)
    if found is None:
        meant = nearest(rule, [each.name for each in all_rules()])
        hint = f"; did you mean {meant}?" if meant else "; `bayleaf explain` lists them all"
        raise WrongCall(f"there is no rule {rule}{hint}")
    title, _, rest = found.page.partition("\n")
    say(f"{found.name} ({found.kind}, {found.severity})\n{title}\n{rest}")
    return 0
