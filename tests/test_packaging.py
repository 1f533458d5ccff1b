"""The wheel: what is in it, and that it works where no checkout is.

The wheel is built from a copy, so that nothing is written into the folder that is worked in, and without a network.
It is installed into an environment of its own; only the packages of others come from the environment of the tests.
"""

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
#: What stands at the top of a checkout, and where it lies in the wheel.
FOLDERS = {"generator/bayleaf": "bayleaf", "schema": "bayleaf/schema", "site_theme": "bayleaf/site_theme"}
#: What is never part of the sources, where git cannot be asked.
_MADE = shutil.ignore_patterns(".git", ".venv", "site", "out", "dist", "__pycache__", ".*_cache", ".hypothesis")


def run(*command: str | Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Runs a command to its end, with nothing in the environment that leads back to the checkout."""
    settings = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    return subprocess.run(
        [str(part) for part in command], cwd=cwd, env={**settings, "PYTHONIOENCODING": "utf-8"},
        capture_output=True, text=True, encoding="utf-8",
    )  # fmt: skip


def succeed(*command: str | Path, cwd: Path) -> str:
    """The same for a command that must not fail; gives what it printed."""
    done = run(*command, cwd=cwd)
    assert done.returncode == 0, f"{command}\n{done.stdout}\n{done.stderr}"
    return done.stdout


def sources() -> list[str]:
    """The files of the checkout, as git would have them: committed or not yet, but not ignored."""
    listed = run("git", "ls-files", "--cached", "--others", "--exclude-standard", cwd=ROOT)
    assert listed.returncode == 0, listed.stderr
    return sorted(name for name in set(listed.stdout.splitlines()) if (ROOT / name).is_file())


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sources in a folder of their own."""
    folder = tmp_path_factory.mktemp("sources")
    if not (ROOT / ".git").exists():  # unpacked from an archive
        return Path(shutil.copytree(ROOT, folder / "copy", ignore=_MADE))
    for name in sources():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(ROOT / name, folder / name)
    return folder


def build_wheel(source: Path, target: Path) -> Path:
    """The wheel that pip makes of these sources."""
    options = ("--no-deps", "--no-build-isolation", "--no-index", "--quiet", "--disable-pip-version-check")
    succeed(sys.executable, "-m", "pip", "wheel", *options, "--wheel-dir", target, source, cwd=target)
    (wheel,) = target.glob("*.whl")
    return wheel


@pytest.fixture(scope="module")
def wheel(copy: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel of the sources."""
    return build_wheel(copy, tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def python(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Python in a fresh environment with the wheel."""
    folder = tmp_path_factory.mktemp("fresh") / "venv"
    venv.create(folder, with_pip=False)
    made = folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    pip = (sys.executable, "-m", "pip", "--python", made)
    succeed(*pip, "install", "--no-deps", "--no-index", "--quiet", wheel, cwd=folder)
    where = "import sysconfig; print(sysconfig.get_path('purelib'))"
    packages = Path(succeed(made, "-c", where, cwd=folder).strip())
    others = {sysconfig.get_path("purelib"), sysconfig.get_path("platlib")}
    (packages / "others.pth").write_text("\n".join(sorted(others)) + "\n", encoding="utf-8")
    return made


@pytest.fixture
def manual(tmp_path: Path) -> Path:
    """A manual in a folder that has nothing to do with the checkout."""
    return write_manual(tmp_path / "somebody" / "manual", {})


def command(python: Path, name: str) -> Path:
    """A command that the wheel brought along."""
    return python.parent / (f"{name}.exe" if os.name == "nt" else name)


def contents(wheel: Path) -> dict[str, bytes]:
    """The files of a wheel without its own records."""
    with zipfile.ZipFile(wheel) as archive:
        names = [name for name in archive.namelist() if ".dist-info/" not in name]
        return {name: archive.read(name) for name in names}


def expected_contents(copy: Path) -> dict[str, bytes]:
    """What the wheel has to hold: three folders, file by file."""
    return {
        f"{inside}/{path.relative_to(copy / folder).as_posix()}": path.read_bytes()
        for folder, inside in FOLDERS.items()
        for path in (copy / folder).rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }


def test_wheel_holds_the_package_the_schemas_and_the_theme(copy: Path, wheel: Path) -> None:
    """Nothing is left out (a file that git ignores would be), nothing slips in, and no byte is changed."""
    expected, actual = expected_contents(copy), contents(wheel)
    assert sorted(expected) == sorted(actual)
    assert [] == [name for name in expected if expected[name] != actual[name]]
    for folder in FOLDERS.values():
        assert any(name.startswith(f"{folder}/") for name in actual)


def test_no_file_of_the_three_folders_is_ignored_by_git() -> None:
    """A template that git ignores works in the checkout and is missing in the wheel."""
    if not (ROOT / ".git").exists():
        pytest.skip("not a git checkout: everything that is there was unpacked")
    known = set(sources())
    there = [path.relative_to(ROOT).as_posix() for folder in FOLDERS for path in (ROOT / folder).rglob("*")
             if path.is_file() and "__pycache__" not in path.parts]  # fmt: skip
    assert [] == sorted(set(there) - known)


def test_sdist_builds_the_same_wheel(copy: Path, wheel: Path, tmp_path: Path) -> None:
    """Who has only the source archive gets the same program."""
    succeed(sys.executable, "-m", "hatchling", "build", "-t", "sdist", "-d", tmp_path / "sdist", cwd=copy)
    (archive,) = (tmp_path / "sdist").glob("*.tar.gz")
    with tarfile.open(archive) as packed:
        packed.extraction_filter = getattr(tarfile, "data_filter", None)  # Python before 3.11.4 has none
        packed.extractall(tmp_path / "unpacked")
    (unpacked,) = (tmp_path / "unpacked").iterdir()
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        assert (copy / name).read_bytes() == (unpacked / name).read_bytes()
    (tmp_path / "again").mkdir()
    assert contents(wheel) == contents(build_wheel(unpacked, tmp_path / "again"))


def test_installed_program_knows_nothing_of_the_checkout(python: Path, manual: Path) -> None:
    """Every module, schema and template comes out of the wheel."""
    code = (
        "import sys; from bayleaf import folders, mkdocs_shell; from bayleaf.commands import run; run(['check']);"
        "print(*sorted(m.__file__ for m in sys.modules.values() if (getattr(m, '__name__', '') or '')"
        ".startswith('bayleaf') and m.__file__), folders.schema(), folders.site_theme(), sep='\\n')"
    )
    printed = succeed(python, "-c", code, cwd=manual).splitlines()
    files = [line for line in printed if line.endswith(".py") or "site_theme" in line or "schema" in line]
    assert len(files) > 50
    assert [] == [line for line in files if not line.startswith(str(python.parents[1]))]


def test_installed_check(python: Path, manual: Path) -> None:
    """`bayleaf check` works on a manual elsewhere."""
    printed = succeed(command(python, "bayleaf"), "check", "--today", "2026-11-01", cwd=manual)
    assert "No faults" in printed


def test_installed_check_finds_an_error(python: Path, manual: Path) -> None:
    """It does not pass because it looks at nothing."""
    job = manual / "procedures" / "test-van" / "job.yml"
    job.write_text(job.read_text("utf-8").replace("title: Test job\n", ""), encoding="utf-8")
    assert 1 == run(command(python, "bayleaf"), "check", cwd=manual).returncode


def test_installed_render(python: Path, manual: Path) -> None:
    """`bayleaf render` finds its templates, style sheets and scripts."""
    succeed(command(python, "bayleaf"), "render", "--today", "2026-11-01", cwd=manual)
    assert_is_site(manual / "site")


def test_installed_mkdocs_build(python: Path, manual: Path) -> None:
    """`mkdocs build --strict` finds the plugin by its name."""
    succeed(python, "-m", "mkdocs", "build", "--strict", cwd=manual)
    assert_is_site(manual / "site")


def assert_is_site(site: Path) -> None:
    """A site with the page of a procedure, our style sheet, and the search."""
    page = (site / "test-van" / "isolate.html").read_text(encoding="utf-8")
    assert "Isolate the traction system" in page
    assert "assets/pages.css" in page
    for file in ("index.html", "assets/pages.css", "assets/search.js", "search/index.js", "rules.html"):
        assert (site / file).is_file(), file


def test_version_is_the_same_everywhere(python: Path, wheel: Path, tmp_path: Path) -> None:
    """The name of the wheel, its metadata and the program say one version."""
    version = wheel.name.split("-")[1]
    code = "from importlib.metadata import version; print(version('bayleaf'))"
    assert version == succeed(python, "-c", code, cwd=tmp_path).strip()
    assert version in succeed(command(python, "bayleaf"), "--version", cwd=tmp_path)
