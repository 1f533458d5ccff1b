"""The page of the commands says what the commands say of themselves."""

import json
import os

import click
from bayleaf.commands import program
from bayleaf.commands._described import described
from bayleaf.pages.commands_page import SAID, commands_body
from markupsafe import escape


def test_what_is_kept_for_the_page_is_what_the_help_says() -> None:
    """The page is made without the commands, from a file that is held to them here."""
    assert isinstance(program, click.Group)
    now = json.dumps(described(program), indent=1, ensure_ascii=False) + "\n"
    if os.environ.get("BAYLEAF_GOLDEN") == "write":
        SAID.write_text(now, encoding="utf-8", newline="\n")
    assert now == SAID.read_text(encoding="utf-8")


def test_every_command_and_every_option_stands_on_the_page() -> None:
    """Each command has its heading, its usage and its examples; each option is named."""
    html = commands_body().html
    with click.Context(program, info_name="bayleaf") as above:
        for name in program.list_commands(above):  # type: ignore[attr-defined]
            command = program.get_command(above, name)  # type: ignore[attr-defined]
            assert f'<section id="{name}"' in html and f"<p><code>bayleaf {name}" in html, name
            for option in command.params:
                if isinstance(option, click.Option):
                    assert all(one in html for one in option.opts), (name, option.opts)


def test_examples_stand_on_the_page() -> None:
    """Those of the help, in the form in which they are typed."""
    examples = [example for one in json.loads(SAID.read_text("utf-8")) for example in one["examples"]]

    assert examples
    assert all(f"<code>{escape(typed)}</code>" in commands_body().html for typed, _ in examples)
