"""`bayleaf draft` with answers from a file or a pipe: the signs that were written, whatever the system takes them for."""

import codecs
import io
from pathlib import Path

import pytest
from bayleaf.commands import run

DAY = "2026-11-29"
TITLE = "Prüfe die Kühlung “warm” bei 25 °C, ≥ 5 MΩ, 3 µF"
ANSWERS = ("", "1", TITLE, "look", "none", "none", "Ölgeruch über 40 °C", "", "1")
OPTIONS = (
    "draft", "--kind", "diagnosis", "--title", TITLE, "--name", "look", "--system", "none", "--code", "none",
    "--symptom", ANSWERS[6], "--touches", "traction-battery", "--today", DAY,
)  # fmt: skip
#: As Windows, an older Unix and all others take a pipe.
OF_SYSTEMS = ("cp1252", "iso8859-1", "utf-8")


@pytest.fixture
def manual(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A manual that was just begun, and the current folder."""
    folder = tmp_path / "manual"
    assert run(["start", str(folder), "--today", DAY]) == 0
    monkeypatch.chdir(folder)
    return folder


def pipe(monkeypatch: pytest.MonkeyPatch, data: bytes, encoding: str) -> None:
    """Standard input as the system opens it for a pipe with these bytes."""
    raw = io.BufferedReader(io.BytesIO(data))  # type: ignore[arg-type]
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(raw, encoding=encoding, errors="surrogateescape", newline="\n"))


@pytest.mark.parametrize("taken_for", OF_SYSTEMS)
@pytest.mark.parametrize("end", ["\n", "\r\n"], ids=["LF", "CRLF"])
@pytest.mark.parametrize(
    "mark, encoding",
    [
        (b"", "utf-8"),
        (codecs.BOM_UTF8, "utf-8"),
        (codecs.BOM_UTF16_LE, "utf-16-le"),
        (codecs.BOM_UTF16_BE, "utf-16-be"),
    ],
    ids=["UTF-8", "UTF-8 with a mark", "UTF-16", "UTF-16, the other way round"],
)
def test_piped_answers_make_the_file_that_options_make(
    manual: Path, monkeypatch: pytest.MonkeyPatch, mark: bytes, encoding: str, end: str, taken_for: str
) -> None:
    """As editors and shells save them; an empty line is the answer that is offered."""
    file = manual / "procedures/wrenfold-c4/look.yml"
    assert run([*OPTIONS, "--vehicle", "wrenfold-c4"]) == 0
    by_options = file.read_bytes()
    file.unlink()
    pipe(monkeypatch, mark + "".join(answer + end for answer in ANSWERS).encode(encoding), taken_for)

    assert run(["draft", "--today", DAY]) == 0
    assert by_options == file.read_bytes()
    assert f"title: {TITLE}\n".encode() in by_options


@pytest.mark.parametrize("taken_for", OF_SYSTEMS)
def test_answers_that_are_no_utf_8_are_refused(
    manual: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], taken_for: str
) -> None:
    """Which sign a byte means nobody can know, so nothing is guessed and nothing is written."""
    before = sorted(manual.rglob("*"))
    pipe(monkeypatch, "".join(f"{answer}\n" for answer in ("", "1", "Prüfe bei 25 °C")).encode("cp1252"), taken_for)

    assert run(["draft", "--today", DAY]) == 2
    assert "bayleaf: the answers are not UTF-8, so ° or ü could become another sign. " in capsys.readouterr().err
    assert before == sorted(manual.rglob("*"))
