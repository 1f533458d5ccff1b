"""`bayleaf explain`: the manual page of a rule."""

import click

from ..loading.shape_words import nearest
from ..rules.rule import all_rules, rule_named
from .common import WrongCall, say


@click.command("explain")
@click.argument("rule", required=False)
def command(rule: str | None) -> int:
    """Tell what a RULE is about: why it matters, what fails, what passes.

    Without a RULE, list them all.
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
