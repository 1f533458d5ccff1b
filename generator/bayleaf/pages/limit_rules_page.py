"""The page of the rules by which limits are computed, from the docstrings of their modules."""

import markdown
from markupsafe import Markup

from ..limits.limit_rule import LimitRule, limit_rules
from .body import Body, Crumb, Heading, SearchRecord
from .show import capital

URL = "limit-rules.html"
_LEAD = (
    "Cited as <code>limits: {rule: …}</code>. The figures come from the vehicle profile; a limit that is written "
    "beside a rule is held against it."
)


def anchor_of(rule: str) -> str:
    """Where a rule stands on the page."""
    return rule.lower().replace(" ", "-")


def limit_rules_body() -> Body:
    """Every rule, with formula, range and source."""
    rules = sorted(limit_rules().values(), key=lambda rule: rule.name.lower())
    parts = [_part(rule) for rule in rules]
    html = Markup('<div class="bl-page bl-rule"><h1>Limits by rule</h1><p class="bl-lead">{}</p>{}</div>').format(
        Markup(_LEAD), Markup("").join(parts)
    )
    records = tuple(
        SearchRecord(
            f"{URL}#{anchor_of(rule.name)}", f"Limits by rule: {rule.name}", "reference", (rule.name,), rule.page
        )
        for rule in rules
    )
    toc = tuple(Heading(2, anchor_of(rule.name), capital(rule.name)) for rule in rules)
    return Body(str(html), toc, records, (Crumb("Limits by rule", None),))


def _part(rule: LimitRule) -> Markup:
    text = Markup(markdown.markdown(rule.page, output_format="html"))
    fits = ", ".join(sorted(rule.fits))
    return Markup('<h2 id="{}">{}</h2><p class="bl-quiet">For readings of: {}</p>{}').format(
        anchor_of(rule.name), capital(rule.name), fits, text
    )
