"""What the book tells a beginner to write is right: its files, put in their places, check clean and render."""

import re
from datetime import date
from pathlib import Path
from shutil import copytree

from bayleaf.diagnostics.report_text import report_text
from bayleaf.manual import load_manual
from bayleaf.mkdocs_shell import open_shell
from bayleaf.model.free_page import FORMS
from bayleaf.pages.all import all_pages
from kit import TODAY, unwaived

BOOK = Path(__file__).resolve().parents[1] / "procedures" / "book" / "how-to-write.md"


def test_the_first_manual_of_the_book(tmp_path: Path) -> None:
    """The four files of the chapter are a manual without a fault."""
    blocks = re.findall(r"```yaml\n(.*?)```", BOOK.read_text(encoding="utf-8"), re.DOTALL)
    places = ("mkdocs.yml", "procedures/workshop.yml", "procedures/alderby-p3/vehicle.yml",
              "procedures/alderby-p3/left-tail-lamp-dark.yml")  # fmt: skip
    for place, text in zip(places, blocks, strict=True):
        (tmp_path / place).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / place).write_text(text, encoding="utf-8")

    manual = load_manual(tmp_path, today=date(2026, 11, 29))
    open_shell(tmp_path / "mkdocs.yml", all_pages(manual), manual.findings).write(tmp_path / "site")

    assert manual.findings == ()
    assert (tmp_path / "site" / "alderby-p3" / "left-tail-lamp-dark.html").is_file()


def test_every_tag_of_the_chapter_on_tags_is_right(tmp_path: Path) -> None:
    """What the chapter shows as code would do, written outside of code; each word of a tag is shown."""
    shown = re.findall(r"`(\[\[.*?\]\])`", (BOOK.parent / "free-pages.md").read_text("utf-8"))
    for part in ("procedures", "records"):
        copytree(BOOK.parents[2] / part, tmp_path / part)
    (tmp_path / "procedures" / "shown.md").write_text("\n\n".join(shown), encoding="utf-8")
    (tmp_path / "procedures" / "more.md").write_text("\n\n".join(f"`{one}`" for one in shown), encoding="utf-8")

    assert set(FORMS) - {"circuit", "isolation point", "cable", "fastener"} == {one[2:].split(":")[0] for one in shown}
    assert [] == unwaived(load_manual(tmp_path, today=date(2026, 11, 29)).findings)


def test_the_diagnosis_of_the_book(tmp_path: Path) -> None:
    """The example of the chapter on branches is a procedure of the demo's vehicle without a fault."""
    text = (BOOK.parent / "branching-diagnosis.md").read_text("utf-8")
    for part in ("procedures", "records"):
        copytree(BOOK.parents[2] / part, tmp_path / part)
    name = "procedures/larkway-m12/heater-does-not-answer.yml"
    (tmp_path / name).write_text(re.findall(r"```yaml\n(.*?)```", text, re.DOTALL)[0], encoding="utf-8")

    assert [] == unwaived(load_manual(tmp_path, today=date(2026, 11, 29)).findings)


def test_the_report_of_the_book_is_a_real_one(tmp_path: Path) -> None:
    """What the chapter on the walk shows is what is printed."""
    text = (BOOK.parent / "the-safety-walk.md").read_text("utf-8")
    copytree(Path(__file__).parent / "mistakes" / "base", tmp_path, dirs_exist_ok=True)
    isolation = tmp_path / "procedures/mosswell-c4/isolate-traction.yml"
    isolation.write_text(isolation.read_text("utf-8").replace("wait: 5 min", "wait: 2 min"), encoding="utf-8")
    manual = load_manual(tmp_path, today=TODAY)
    report = report_text(manual.findings, manual.text, len(manual.files))

    assert report.startswith(re.findall(r"```\n(procedures.*?)```", text, re.DOTALL)[0])
