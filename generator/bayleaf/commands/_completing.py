"""What a shell offers when Tab is pressed: names that lie in the manual around the current folder.

Only names of files are looked at: whoever presses Tab does not wait for a check. What is typed like a path, and what
no name fits, is left to the shell, which completes files.
"""

from collections.abc import Callable, Iterable
from pathlib import Path

import click
from click.shell_completion import CompletionItem

from ..manual import manual_above

Completer = Callable[[click.Context, click.Parameter, str], list[CompletionItem]]


def procedures(ctx: click.Context, param: click.Parameter, typed: str) -> list[CompletionItem]:
    """The ids of the procedures."""
    return _fitting(_procedures(_folder(ctx)), typed, param, ctx)


def places(ctx: click.Context, param: click.Parameter, typed: str) -> list[CompletionItem]:
    """The names of the vehicles and the ids of the procedures; else files."""
    folder = _folder(ctx)
    return _fitting([*_vehicles(folder), *_procedures(folder)], typed, param, ctx) or _files(typed)


def records(ctx: click.Context, param: click.Parameter, typed: str) -> list[CompletionItem]:
    """The numbers of the job records; else files."""
    return _fitting(_stems(_folder(ctx), "records/*.yml"), typed, param, ctx) or _files(typed)


def rules(ctx: click.Context, param: click.Parameter, typed: str) -> list[CompletionItem]:
    """The names of the rules, each with what it is about."""
    from ..rules.rule import all_rules

    return [CompletionItem(rule.name, help=rule.title) for rule in all_rules() if rule.name.startswith(typed)]


def formulas(ctx: click.Context, param: click.Parameter, typed: str) -> list[CompletionItem]:
    """The names of the formulas; what they take is no name."""
    from ..calculations.formula import all_formulas

    if ctx.params.get(param.name or ""):
        return []
    return [CompletionItem(one.slug, help=one.title) for one in all_formulas() if one.slug.startswith(typed)]


def _folder(ctx: click.Context) -> Path | None:
    """The manual of `--manual`, or the one around the current folder."""
    return manual_above(ctx.params.get("start") or Path.cwd())


def _vehicles(folder: Path | None) -> list[str]:
    return sorted(path.parent.name for path in folder.glob("procedures/*/vehicle.yml")) if folder else []


def _procedures(folder: Path | None) -> list[str]:
    if folder is None:
        return []
    files = folder.glob("procedures/*/*.yml")
    return sorted(f"{path.parent.name}/{path.stem}" for path in files if path.name != "vehicle.yml")


def _stems(folder: Path | None, pattern: str) -> list[str]:
    return sorted(path.stem for path in folder.glob(pattern)) if folder else []


def _fitting(names: Iterable[str], typed: str, param: click.Parameter, ctx: click.Context) -> list[CompletionItem]:
    """The names that begin like this, but for those that stand in the line already."""
    there = ctx.params.get(param.name or "") or ()
    taken = (there,) if isinstance(there, str) else tuple(there)
    return [CompletionItem(name) for name in names if name.startswith(typed) and name not in taken]


def _files(typed: str) -> list[CompletionItem]:
    return [CompletionItem(typed, type="file")]
