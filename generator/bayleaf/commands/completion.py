"""`bayleaf completion`: lets the Tab key complete commands, options and the names of the manual."""

import click
from click.shell_completion import get_completion_class

from ._help import WithExamples
from .common import say, write_utf8

#: The line that switches it on, and the file that it belongs into, which the shell reads when it opens.
_SWITCHED_ON = {
    "bash": ("~/.bashrc", 'eval "$(bayleaf completion bash)"'),
    "zsh": ("~/.zshrc", 'eval "$(bayleaf completion zsh)"'),
    "fish": ("~/.config/fish/config.fish", "bayleaf completion fish | source"),
}
#: The variable by which click knows that a shell asks.
_VARIABLE = "_BAYLEAF_COMPLETE"


@click.command(
    "completion",
    cls=WithExamples,
    examples=(
        ("bayleaf completion", "tells the line to write, and into which file"),
        ("bayleaf completion bash", "prints what that line reads"),
    ),
)
@click.argument("shell", required=False, type=click.Choice(tuple(_SWITCHED_ON)))
@click.pass_context
def command(ctx: click.Context, shell: str | None) -> int:
    """Let the Tab key complete what is typed.

    It completes commands, options, vehicles, ids of procedures, numbers of job records, rules and formulas. It works in
    bash (4.4 or later), zsh and fish, not in PowerShell or the Windows command prompt. Without a SHELL, tell how it is
    switched on.
    """
    if shell is None:
        say(_how())
        return 0
    made = get_completion_class(shell)
    assert made is not None, "click knows the shells of _SWITCHED_ON"
    program = ctx.find_root()
    write_utf8(made(program.command, {}, "bayleaf", _VARIABLE).source())
    return 0


def _how() -> str:
    """For each shell the file and the line."""
    blocks = ["Write one line at the end of the file that your shell reads when it opens, then open a new window."]
    blocks += [f"{shell}, in {file}\n  {line}" for shell, (file, line) in _SWITCHED_ON.items()]
    blocks.append("PowerShell and the command prompt of Windows cannot complete it.")
    return "\n\n".join(blocks)
