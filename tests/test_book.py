"""What the book tells a beginner to write is right: its files, put in their places, check clean and render."""

import re
from datetime import date
from pathlib import Path

from bayleaf.manual import load_manual
from bayleaf.mkdocs_shell import open_shell
from bayleaf.pages.all import all_pages

BOOK = Path(__file__).resolve().parents[1] / "procedures" / "book" / "how-to-write.md"


def test_the_first_manual_of_the_book(tmp_path: Path) -> None:
    """The four files of the chapter are a manual without a fault."""
    blocks = re.findall(r"```yaml\n(.*?)```", BOOK.read_text(encoding="utf-8"), re.DOTALL)
    places = ("mkdocs.yml", "procedures/workshop.yml", "procedures/alderby-p3/vehicle.yml",
              "procedures/alderby-p3/left-tail-lamp-dark.yml")  # fmt: skip
    for place, text in zip(places, blocks, strict=True):
        (tmp_path / place).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / place).write_text(text, encoding="utf-8")

    manual = load_manual(tmp_path, today=date(2026, 11, 25))
    open_shell(tmp_path / "mkdocs.yml", all_pages(manual), manual.findings).write(tmp_path / "site")

    assert manual.findings == ()
    assert (tmp_path / "site" / "alderby-p3" / "left-tail-lamp-dark.html").is_file()
