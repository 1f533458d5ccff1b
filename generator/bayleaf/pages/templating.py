"""The templates of page bodies: everything put into them is escaped unless it is markup already."""

from collections.abc import Callable
from functools import cache
from typing import Any

import jinja2
from markupsafe import Markup, escape

from .room import room


@cache
def _environment() -> jinja2.Environment:
    made = jinja2.Environment(
        loader=jinja2.PackageLoader("bayleaf.pages", "templates"),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=jinja2.StrictUndefined,
    )
    made.filters["room"] = room
    return made


@cache
def _template(name: str) -> jinja2.Template:
    return _environment().get_template(f"{name}.html")


def render(name: str, **values: Any) -> str:
    """The text of a template with these values."""
    return _template(name).render(values)


@cache
def macro(template: str, name: str) -> Callable[..., str]:
    """A macro of a template, to be called from code."""
    return getattr(_template(template).module, name)


def link(url: str, text: str) -> Markup:
    """A link; both parts are escaped."""
    return Markup(f'<a href="{escape(url)}">{escape(text)}</a>')


def joined(parts: list[str | Markup], between: str = ", ") -> Markup:
    """Parts one behind the other, each escaped."""
    return Markup(between).join(parts)
