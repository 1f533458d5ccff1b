"""The commands as data, from their own help: what the page of the commands is made of."""

import inspect
from typing import Any

import click


def described(program: click.Group) -> list[dict[str, Any]]:
    """Every command by name: how it is called, what it does, its options, examples.

    A paragraph that begins with `\\b` is shown as it is written; one of examples is taken apart into its lines.
    """
    with click.Context(program, info_name="bayleaf") as above:
        found = []
        for name in sorted(program.list_commands(above)):
            command = program.get_command(above, name)
            if command is not None and not command.hidden:
                found.append(_one(name, command, above))
        return found


def _one(name: str, command: click.Command, above: click.Context) -> dict[str, Any]:
    context = click.Context(command, info_name=name, parent=above)
    paragraphs = inspect.cleandoc(command.help or "").split("\n\n")
    plain = [" ".join(one.split()) for one in paragraphs if not one.startswith("\b")]
    typed = [one.strip() for part in paragraphs if part.startswith("\b\nExamples:") for one in part.split("\n")[2:]]
    examples = [[one, ""] for one in typed] + [list(one) for one in getattr(command, "examples", ())]
    records = [
        one.get_help_record(context)
        for one in command.get_params(context)
        if isinstance(one, click.Option) and "--help" not in one.opts
    ]
    return {
        "name": name,
        "usage": " ".join(["bayleaf", name, *command.collect_usage_pieces(context)]),
        "about": plain,
        "options": [list(one) for one in records if one is not None],
        "examples": examples,
    }
