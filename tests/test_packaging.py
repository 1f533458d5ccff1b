"""The wheel holds everything, and works in a fresh environment on a manual elsewhere."""

import os
import shutil
import subprocess
import sys
import sysconfig
import tarfile
import venv
import zipfile
from pathlib import Path

import pytest
from kit import write_manual

ROOT = Path(__file__).resolve().parents[1]
#: What a build needs, and nothing that a work tree gathers.
PARTS = ("pyproject.toml", "README.md", "LICENSE", "CHANGELOG.md", "generator", "schema", "site_theme")
_LEFT_OUT = shutil.ignore_patterns("__pycache__", "*.egg-info", ".*")


@pytest.fixture(scope="module")
def source(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of what is built from, so that building leaves nothing in the work tree."""
    folder = tmp_path_factory.mktemp("source") / "bayleaf"
    folder.mkdir()
    for name in PARTS:
        path = ROOT / name
        if path.is_dir():
            shutil.copytree(path, folder / name, ignore=_LEFT_OUT)
        else:
            shutil.copy(path, folder / name)
    return folder


def build(source: Path, out: Path, kind: str) -> Path:
    """Builds a wheel or an sdist with the back end itself, without the network."""
    code = f"import hatchling.build as b; b.build_{kind}({str(out)!r})"
    subprocess.run([sys.executable, "-c", code], cwd=source, check=True, capture_output=True)
    return next(out.glob("*.whl" if kind == "wheel" else "*.tar.gz"))


@pytest.fixture(scope="module")
def wheel(source: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel."""
    return build(source, tmp_path_factory.mktemp("wheel"), "wheel")


def files_below(folder: Path, prefix: str) -> dict[str, bytes]:
    """The files of a folder by the path that they have in the wheel."""
    return {
        f"{prefix}/{path.relative_to(folder).as_posix()}": path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }


def test_wheel_holds_the_package_the_schemas_and_the_theme(source: Path, wheel: Path) -> None:
    """File by file and byte by byte: nothing is missing, nothing is in it that is not in the folders."""
    expected = {
        **files_below(source / "generator" / "bayleaf", "bayleaf"),
        **files_below(source / "schema", "bayleaf/schema"),
        **files_below(source / "site_theme", "bayleaf/site_theme"),
    }

    with zipfile.ZipFile(wheel) as archive:
        found = {name: archive.read(name) for name in archive.namelist() if ".dist-info/" not in name}

    assert sorted(expected) == sorted(found)
    assert expected == found


def test_sdist_can_be_built_from(source: Path, tmp_path: Path) -> None:
    """From the sdist alone the same wheel is made."""
    archive = build(source, tmp_path, "sdist")
    with tarfile.open(archive) as tar:
        tar.extractall(tmp_path / "unpacked", filter="data")
    unpacked = next((tmp_path / "unpacked").iterdir())

    again = build(unpacked, tmp_path, "wheel")

    with zipfile.ZipFile(again) as made:
        names = set(made.namelist())
    assert {"bayleaf/schema/procedure.schema.json", "bayleaf/site_theme/main.html", "bayleaf/manual.py"} <= names


@pytest.fixture(scope="module")
def python(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A fresh environment with the wheel in it; other packages are those of this one, so that no network is needed."""
    folder = tmp_path_factory.mktemp("fresh")
    venv.create(folder, with_pip=False)
    program = folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    inner = subprocess.run(
        [program, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))"],
        check=True, capture_output=True, text=True,
    )  # fmt: skip
    packages = Path(inner.stdout.strip())
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(packages)
    # Folders that a .pth file names are searched for packages, but the .pth files in them, such as that of an
    # editable install of the checkout, are not read (Python documentation, module site).
    (packages / "lent.pth").write_text(sysconfig.get_path("purelib") + "\n", encoding="utf-8")
    return program


def test_wheel_works_on_a_manual_elsewhere(python: Path, tmp_path: Path) -> None:
    """Check, render and MkDocs itself run from the wheel, with the checkout out of reach."""
    manual = write_manual(tmp_path / "manual", {})
    environment = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}

    def run(*arguments: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [str(python), *arguments], cwd=manual, env=environment, capture_output=True, text=True, encoding="utf-8"
        )

    where = run("-c", "import bayleaf; print(bayleaf.__file__)")
    checked = run("-m", "bayleaf", "check")
    rendered = run("-m", "bayleaf", "render")
    built = run("-m", "mkdocs", "build", "--strict", "--site-dir", "other")

    assert str(ROOT) not in where.stdout
    assert (checked.returncode, checked.stdout) == (0, "No faults in 4 files\n"), checked.stderr
    assert rendered.returncode == 0, rendered.stderr
    assert (manual / "site" / "test-van" / "isolate.html").is_file()
    assert built.returncode == 0, built.stderr
