"""The SARIF report against the JSON schema of SARIF 2.1.0.

The schema is that of the package @microsoft/jest-sarif (MIT), which `tools.py test` installs: 2.1.0-rtm.5, the state of
the committee specification. No package was found that brings the one of the standard with its errata.
"""

import json
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

import pytest
from bayleaf.diagnostics.finding import Finding, See
from bayleaf.diagnostics.mend import Edit, Mend
from bayleaf.diagnostics.place import Place
from bayleaf.diagnostics.report_paths import below
from bayleaf.diagnostics.report_sarif import report_sarif
from editors.language_server import installed
from jsonschema import Draft4Validator
from kit import PLACES, PROCEDURE, check

SCHEMA = "@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json"
PATHS = (
    "procedures/test-van/job.yml", "a b/ü.yml", "Prüfstand Ω/100 % #1?.yml", "a:b/c.yml", "車/作業.yml", "it's [one].yml",
    "e\u0301/combining.yml", "tab\tand \U0001f527.yml",
)  # fmt: skip


@pytest.fixture(scope="module")
def validator() -> Draft4Validator:
    """The schema, which is written in draft 4."""
    path = installed().parents[2] / SCHEMA
    if not path.is_file():
        pytest.fail(f"These tests need the schema of SARIF: `python tools.py test` puts it into {path.parents[4]}.")
    return Draft4Validator(json.loads(path.read_text(encoding="utf-8")))


def finding_in(path: str) -> Finding:
    """A finding with all that one can have, and with signs that are escaped in JSON and in addresses."""
    place = Place(path, 2, 3, 2, 9)
    return Finding(
        "unit-missing", place, 'no unit: "5\t" \u2028 車 \U0001f527', "because\nof that", "write `5 Ω`",
        (See(Place(path, 1, 1, 3, 1), "the other place"),), "form", "error", {"path": ["a", 1]},
        Mend((Edit(place, "5 Ω"),)),
    )  # fmt: skip


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("folder", [".", "..", "../my manuals/ü", "deep/er"])
def test_a_report_is_valid_and_its_addresses_are_relative(path: str, folder: str, validator: Draft4Validator) -> None:
    """Whatever stands in a path: the address has no scheme, no host and no root, and gives the path back."""
    log = json.loads(
        report_sarif((finding_in(path), finding_in(path)), "1", below(folder), {"unit-missing": "A title"})
    )

    assert [] == [error.message for error in validator.iter_errors(log)]
    written = below(folder)(path)
    for uri in addresses(log):
        parts = urlsplit(uri)
        assert ("", "", "", "") == (parts.scheme, parts.netloc, parts.query, parts.fragment)
        assert not uri.startswith("/") and uri.isascii() and " " not in uri
        assert written == unquote(parts.path)


@pytest.mark.parametrize("path", ["procedures/ü b/x.yml"])
def test_a_report_without_findings_is_valid(path: str, validator: Draft4Validator) -> None:
    """As a code host gets it when all is mended."""
    assert [] == list(validator.iter_errors(json.loads(report_sarif((), "1", below(path)))))


def test_the_report_of_a_real_manual_is_valid(tmp_path: Path, validator: Draft4Validator) -> None:
    """With faults of every class, and marks that are empty or go over several lines."""
    faulty = (
        PROCEDURE + "    time: 5 Nm\n  - unplug: [X99, X7]\n  - meazure: Voltage\n    between: [X7/1]\n  - tighten:\n"
    )
    manual = check(tmp_path / "Prüfstand Ω", {PLACES["procedure"]: faulty, "procedures/test-van/empty.yml": " "})
    log = json.loads(report_sarif(manual.findings, "1", below("Prüfstand Ω")))

    assert 3 < len(log["runs"][0]["results"])
    assert [] == [error.message for error in validator.iter_errors(log)]


def test_the_schema_refuses_what_is_wrong(validator: Draft4Validator) -> None:
    """Or silence would mean nothing."""
    log = json.loads(report_sarif((finding_in("a.yml"),), "1"))
    log["runs"][0]["results"][0]["level"] = "advice"
    log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["region"]["startLine"] = 0

    assert 2 <= len(list(validator.iter_errors(log)))


def addresses(node: Any) -> list[str]:
    """Every `uri` below a part of a report."""
    if isinstance(node, list):
        return [one for inner in node for one in addresses(inner)]
    if isinstance(node, dict):
        own = [node["uri"]] if "uri" in node else []
        return own + [one for inner in node.values() for one in addresses(inner)]
    return []
