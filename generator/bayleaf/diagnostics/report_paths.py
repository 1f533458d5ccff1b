"""How the paths of findings are printed: they are relative to the manual, reports to the current folder."""

from collections.abc import Callable


def as_written(file: str) -> str:
    """The path as the finding has it."""
    return file


def below(folder: str) -> Callable[[str], str]:
    """Paths of a manual that lies in `folder`, itself relative to the current folder; always with `/`."""
    prefix = folder.replace("\\", "/").rstrip("/")
    if prefix in ("", "."):
        return as_written
    return lambda file: f"{prefix}/{file}"
