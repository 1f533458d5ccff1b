"""The pages of the rules, made from the docstrings of their modules."""

import re

import markdown
from markupsafe import Markup, escape

from ..rules.rule import Rule, all_rules
from .body import Body, Crumb, Heading, SearchRecord
from .indexes import index_body
from .layout import Entry, Section

FAMILIES = {
    "form": "How a file is written",
    "quantities": "Numbers, units and limits",
    "references": "Names that lead somewhere",
    "identity": "Identifiers, codes and dates",
    "flow": "The order of steps",
    "tags": "Tags in free pages",
    "practice": "Good practice",
    "pictures": "Photos",
}

_FENCE = re.compile(r"^```(yaml|markdown) (?:fails|passes)[^\n]*$", re.MULTILINE)


def rules_body() -> Body:
    """The list of all rules, by family."""
    sections = []
    families = dict.fromkeys((*FAMILIES, *(rule.family for rule in all_rules())))
    for family in families:
        own = [rule for rule in all_rules() if rule.family == family]
        if own:
            links = tuple(Entry(f"rules/{rule.name}.html", rule.title, rule.name) for rule in own)
            sections.append(Section(FAMILIES.get(family, family.capitalize()), family, links))
    lead = "What the checker looks for. Each rule is named by the fault."
    return index_body("Rules", lead, sections, "There is no rule.")


def rule_body(rule: Rule) -> Body:
    """The page of one rule."""
    title, _, rest = rule.page.partition("\n")
    text = _FENCE.sub(r"```\1", rest)
    html = Markup(markdown.markdown(text, extensions=["fenced_code", "toc"], output_format="html"))
    lead = f"{rule.name} · {rule.kind} · {rule.severity}"
    page = Markup('<div class="bl-page bl-rule"><h1>{}</h1><p class="bl-lead">{}</p>{}</div>').format(
        title.rstrip("."), lead, html
    )
    headings = re.findall(r"^## (.+)$", rule.page, re.MULTILINE)
    record = SearchRecord(
        f"rules/{rule.name}.html", f"Rule: {title.rstrip('.')}", "rule", (rule.name,), str(escape(title))
    )
    return Body(
        str(page),
        tuple(Heading(2, heading.lower().replace(" ", "-"), heading) for heading in headings),
        (record,),
        (Crumb("Rules", "rules.html"), Crumb(rule.name, None)),
    )
