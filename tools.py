"""Sets everything up and runs it, on Linux, macOS and Windows: `python tools.py manual`, `python tools.py test`.

It needs nothing but Python itself. The Makefile calls it, so that both ways do the same.
"""

import hashlib
import os
import shutil
import subprocess
import sys
import venv
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

HERE = Path(__file__).resolve().parent
ENVIRONMENT = HERE / ".venv"
PYTHON = ENVIRONMENT / ("Scripts/python.exe" if os.name == "nt" else "bin/python")

#: Names under which a Chromium or a browser made of it is called.
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge")
#: Where the usual installers put one without putting it in the path.
BROWSER_FILES = (
    "C:/Program Files/Google/Chrome/Application/chrome.exe",
    "C:/Program Files (x86)/Microsoft/Edge/Application/msedge.exe",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
)


#: The last version that runs with Node.js 20; it holds for tests alone.
LANGUAGE_SERVER = "yaml-language-server@1.25.0"
#: Holds the JSON schema of SARIF 2.1.0 (MIT); nothing of it is run.
SARIF_SCHEMA = "@microsoft/jest-sarif@1.0.0-beta.0"


def run(*command: str | Path, **settings: str) -> None:
    """Runs a command in this folder; ends with its exit code if it fails."""
    code = subprocess.run([str(part) for part in command], cwd=HERE, env={**os.environ, **settings}).returncode
    if code:
        sys.exit(code)


def environment(extras: str) -> None:
    """The environment in .venv with the program and these extras, made anew only when pyproject.toml has changed."""
    empty_environment()
    wanted = hashlib.sha256((HERE / "pyproject.toml").read_bytes() + str(HERE).encode()).hexdigest()
    mark = ENVIRONMENT / f"installed-{extras or 'plain'}"
    if mark.is_file() and mark.read_text(encoding="utf-8") == wanted:
        return
    print("Installing packages …", flush=True)
    target = f".[{extras}]" if extras else "."
    # A new pip finds and unpacks the packages in half the time of the one that came with Python.
    run(PYTHON, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-compile", "--upgrade", "pip")
    # What is never used need not be compiled: of the tests' packages that is most, and it took a third of the time.
    run(PYTHON, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-compile", "--editable", target)
    mark.write_text(wanted, encoding="utf-8")


def empty_environment() -> None:
    """An environment in .venv, where there is none."""
    if not PYTHON.exists():
        print("Making the environment in .venv …", flush=True)
        venv.create(ENVIRONMENT, with_pip=True, clear=True)


def browser() -> str:
    """The path of a browser for the tests, installed if need be and possible; else one sentence and the end."""
    lacking = "The tests open pages in a browser: install Chromium, Chrome or Edge, and run this again."
    return program(BROWSERS, BROWSER_FILES, "chromium", lacking)


def node() -> str:
    """The same of Node.js, which runs the scripts of the site in the tests."""
    return program(("node", "nodejs"), (), "nodejs", "The tests run JavaScript: install Node.js, and run this again.")


def language_server() -> str:
    """The language server for YAML, which tries the schemas in the tests; beside it the schema of SARIF."""
    packages = (LANGUAGE_SERVER, SARIF_SCHEMA)
    folder = ENVIRONMENT / "node"
    script = folder / "node_modules" / "yaml-language-server" / "bin" / "yaml-language-server"
    mark = folder / "installed"
    if not (mark.is_file() and mark.read_text(encoding="utf-8") == " ".join(packages)):
        npm = program(
            ("npm",), (), "npm", "The tests try the schemas in a language server: install npm, and run this again."
        )
        folder.mkdir(parents=True, exist_ok=True)
        print("Installing the language server for YAML and the schema of SARIF …", flush=True)
        quiet = ("--loglevel=error", "--no-audit", "--no-fund")
        run(npm, "install", *quiet, "--prefix", folder, *packages, **_certificates())
        mark.write_text(" ".join(packages), encoding="utf-8")
    return str(script)


def _certificates() -> dict[str, str]:
    """Node has certificates of its own: it is told those of the system, which know the network of a company."""
    known = Path("/etc/ssl/certs/ca-certificates.crt")
    return {"NODE_EXTRA_CA_CERTS": str(known)} if known.is_file() and "NODE_EXTRA_CA_CERTS" not in os.environ else {}


def program(names: Sequence[str], files: Sequence[str], package: str, lacking: str) -> str:
    """A program in the path or in a file, else from the package of the system; else one sentence and the end."""
    found = next(filter(None, map(shutil.which, names)), None) or next(
        (one for one in files if Path(one).is_file()), None
    )
    if found:
        return found
    if hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get"):
        print(f"Installing {package} for the tests …", flush=True)
        quiet = {"DEBIAN_FRONTEND": "noninteractive"}
        run("apt-get", "update", "-q", **quiet)
        run("apt-get", "install", "-y", "-q", "--no-install-recommends", package, **quiet)
        return program(names, files, package, lacking)
    sys.exit(lacking)


def manual() -> None:
    """Environment, check, render; prints where the manual is."""
    environment("")
    run(PYTHON, "-m", "bayleaf", "render")


def test() -> None:
    """Everything the tests need, then all tests, in the order in which a fault is found fastest."""
    empty_environment()
    with ThreadPoolExecutor(1) as beside:  # Python's packages come while the system's and those of Node.js do
        programs = beside.submit(lambda: (browser(), node(), language_server()))
        environment("test")
        path, script_runner, server = programs.result()
    run(PYTHON, "-m", "ruff", "format", "--check", ".")
    run(PYTHON, "-m", "ruff", "check", ".")
    types = subprocess.Popen([str(PYTHON), "-m", "mypy"], cwd=HERE)  # beside what follows: it keeps one core busy
    run(PYTHON, "-m", "bayleaf", "check")
    run(PYTHON, "-m", "mkdocs", "build", "--strict", "--quiet", NO_MKDOCS_2_WARNING="1")  # no news of the theme
    tools = {"BAYLEAF_BROWSER": path, "BAYLEAF_NODE": script_runner, "BAYLEAF_YAML_SERVER": server}
    workers = str((os.cpu_count() or 1) + 1)  # one more than cores: they often wait for a browser or a server
    how = ("--numprocesses", workers, "--dist", "loadfile", "--no-loadscope-reorder")
    tests = subprocess.Popen([str(PYTHON), "-m", "pytest", *how], cwd=HERE, env={**os.environ, **tools})
    if types.wait():
        tests.terminate()
        sys.exit(types.returncode)
    sys.exit(tests.wait())


def bench() -> None:
    """Times and memory on synthetic manuals, as ratios to floors of the same run."""
    environment("test")
    run(PYTHON, "tests/bench/bench.py", *sys.argv[2:])


def campaign() -> None:
    """The long way of what the tests do in short: the walk against the independent judge, the demo with mistakes."""
    environment("test")
    run(PYTHON, "-m", "tests.oracle.campaign", *sys.argv[2:])
    files = [
        path for path in sorted(HERE.glob("tests/**/test_*.py")) if "from thinned import" in path.read_text("utf-8")
    ]
    tools = {"BAYLEAF_BROWSER": browser(), "BAYLEAF_YAML_SERVER": language_server()}
    run(PYTHON, "-m", "pytest", "-q", "-s", *files, BAYLEAF_CAMPAIGN="1", **tools)


def golden() -> None:
    """Writes the golden files of the tests anew; the review is their diff."""
    environment("test")
    held = ("tests/golden", "tests/mistakes", "tests/commands/test_commands_page.py")
    run(PYTHON, "-m", "pytest", "-q", *held, BAYLEAF_GOLDEN="write")


def screenshots() -> None:
    """Pictures of the pages in three sizes, both colour schemes and print, in out/; Lighthouse where it is there."""
    environment("test")
    run(PYTHON, "tests/browser/screenshots.py", *sys.argv[2:], BAYLEAF_BROWSER=browser())
    run(PYTHON, "tests/browser/lighthouse.py", BAYLEAF_BROWSER=browser())


def clean() -> None:
    """Takes away what can be made again."""
    for name in (
        ".venv",
        "site",
        "out",
        "dist",
        ".mypy_cache",
        ".ruff_cache",
        ".pytest_cache",
        ".hypothesis",
    ):
        shutil.rmtree(HERE / name, ignore_errors=True)


COMMANDS = {command.__name__: command for command in (manual, test, bench, campaign, golden, screenshots, clean)}


def main(arguments: Sequence[str]) -> None:
    """Runs the command that is named."""
    if sys.version_info < (3, 11):  # noqa: UP036 - this file is run by whatever Python is there
        sys.exit(f"Python 3.11 or later is needed; this is {sys.version.split()[0]}.")
    if not arguments or arguments[0] not in COMMANDS:
        lines = (f"  {name:<12} {command.__doc__}" for name, command in COMMANDS.items())
        sys.exit("python tools.py COMMAND, where COMMAND is one of:\n" + "\n".join(lines))
    os.environ["PYTHONDONTWRITEBYTECODE"] = ""  # processes are started by the hundred: what they use is compiled once
    COMMANDS[arguments[0]]()


if __name__ == "__main__":
    main(sys.argv[1:])
