"""The rules about good practice, and how a warning is waived."""

import pytest
from bayleaf.diagnostics.finding import Finding
from bayleaf.rules.practice._signal_words import grave_word, injury_word, only_damage_word
from bayleaf.rules.practice.source_form_unknown import BODIES
from kit import BASES, PLACES, VEHICLE, check, completed


def findings(tmp_path, text: str, vehicle: str = VEHICLE) -> list[Finding]:
    """What is told about one procedure of the small manual."""
    files = {PLACES["procedure"]: completed(text, BASES["procedure"]), PLACES["vehicle"]: vehicle}
    return list(check(tmp_path, files).findings)


UNSOURCED = "steps:\n  - read: U\n    quantity: voltage\n    limits: at least 5 V\n"
WAIVE = "waive:\n  - rule: {rule}\n    why: The figure is a guess, and is said to be one.\n"


def test_a_waived_warning_is_advice_with_the_reason(tmp_path) -> None:
    """It stays in the report."""
    found = findings(tmp_path, UNSOURCED + WAIVE.format(rule="limit-without-source"))

    expected = [("limit-without-source", "advice", "waived: The figure is a guess, and is said to be one.")]
    assert expected == [(one.rule, one.severity, one.because) for one in found]


def test_a_waiver_keeps_the_reason_of_the_rule(tmp_path) -> None:
    """Both are told, the rule's first."""
    text = "steps:\n  - do: Look.\n" + WAIVE.format(rule="action-on-nothing-named")
    found = findings(tmp_path, text)

    assert ["advice"] == [one.severity for one in found]
    assert (found[0].because or "").startswith("the vehicle has voltage class B")
    assert (found[0].because or "").endswith("; waived: The figure is a guess, and is said to be one.")


def test_a_waiver_holds_for_its_rule_and_its_file_only(tmp_path) -> None:
    """Another warning of the same file stays one, and so does the same warning of another file."""
    text = UNSOURCED + "  - do: Look.\n" + WAIVE.format(rule="limit-without-source")
    other = completed(UNSOURCED.replace("U\n", "I\n"), BASES["procedure"]).replace("test-van/job", "test-van/other")
    files = {PLACES["procedure"]: completed(text, BASES["procedure"]), "procedures/test-van/other.yml": other}

    found = {(one.place.file.rsplit("/", 1)[-1], one.rule): one.severity for one in check(tmp_path, files).findings}
    assert {("job.yml", "limit-without-source"): "advice", ("job.yml", "action-on-nothing-named"): "warning",
            ("other.yml", "limit-without-source"): "warning"} == found  # fmt: skip


def test_an_error_cannot_be_waived(tmp_path) -> None:
    """The waiver is told too."""
    text = "steps:\n  - do: Look.\n    on: nothing\n    then: end\n  - do: Never.\n    on: nothing\n"
    found = findings(tmp_path, text + WAIVE.format(rule="step-never-reached"))

    assert {("step-never-reached", "error"), ("waiver-not-possible", "error")} == {
        (one.rule, one.severity) for one in found
    }


@pytest.mark.parametrize(
    ("text", "line", "value"),
    [
        ("steps:\n  - read: U\n    quantity: voltage\n    limits: {nominal: 12 V, tolerance: 5 %}\n", 4, "12 V ± 5 %"),
        ("steps:\n  - compute: U\n    formula: difference\n    of: [u]\n    quantity: voltage\n"
         "    limits: at most 1 V\n  - id: u\n    read: U\n    quantity: voltage\n", 6, "at most 1 V"),
        ("steps:\n  - tighten: Screws of the panel\n    torque: 3 N·m\n", 3, "3 N·m"),
    ],
)  # fmt: skip
def test_limits_of_every_kind_need_a_source(tmp_path, text: str, line: int, value: str) -> None:
    """The message shows the limit as it is understood."""
    found = [one for one in findings(tmp_path, text) if one.rule == "limit-without-source"]

    assert [(line, f"`{value}` has no source")] == [(one.place.line, one.message) for one in found]


@pytest.mark.parametrize(
    "text",
    [
        "steps:\n  - read: U\n    quantity: voltage\n",
        "steps:\n  - read: U\n    quantity: voltage\n    limits: {rule: supply range, of: supply-12}\n",
        "steps:\n  - tighten: heater-bracket\n",
    ],
    ids=["no limits", "limits by a rule", "a fastener of the profile"],
)
def test_what_needs_no_source(tmp_path, text: str) -> None:
    """A rule has its own; the torque of a fastener stands in the profile."""
    assert [] == [one.rule for one in findings(tmp_path, text) if one.rule == "limit-without-source"]


@pytest.mark.parametrize(
    "source",
    [
        "workshop practice", "maker: Workshop manual M12, page 41", "maker: data sheet 4711, table 2",
        "record: 2026-0417", "ISO 6469-3, 6.1", "ISO 6469-3:2021, 6.1", "IEC/IEEE 82079-1, 7.11",
        "DIN EN 50110-1, 6.2", "DIN VDE 0105-100, 6.2",
        "SAE J2344, 4.3", "UN R100, 5.1.3", "49 CFR 571.305, S5.3", "NFPA 70E, 120.5", "ANSI Z535.6, 4.11",
        "FMVSS 305a, S5.4", "ISO/TS 17840-1, 4", "VDI 2230 sheet 1, 5.4", "GB/T 18384, 5.1", "ASTM D120, 17",
    ],
)  # fmt: skip
def test_sources_that_can_be_looked_up(tmp_path, source: str) -> None:
    """The four forms."""
    assert [] == findings(tmp_path, f'{UNSOURCED}    source: "{source}"\n')


@pytest.mark.parametrize(
    ("source", "message", "help_"),
    [
        ("Workshop practice", "is none of the four forms of a source", "did you mean `workshop practice`?"),
        ("the manual", "is none of the four forms of a source", None),
        ("maker", "is none of the four forms of a source", None),
        ("maker: Workshop manual M12", "names no place in the document", "write `maker: Workshop manual M12, page …`"),
        ("maker: , page 4", "names no place in the document", None),
        ("record:", "is none of the four forms of a source", None),
        ("ISO 6469-3", "names no clause", "write `ISO 6469-3, clause …`"),
        ("ISO 6469-3,", "names no clause", None),
        ("Isotherm 5, page 2", "is none of the four forms of a source", None),
    ],
)
def test_sources_that_cannot_be_looked_up(tmp_path, source: str, message: str, help_: str | None) -> None:
    """The message names the source, the help what is missing."""
    found = findings(tmp_path, f'{UNSOURCED}    source: "{source}"\n')

    assert [("source-form-unknown", f"`{source}` {message}")] == [(one.rule, one.message) for one in found]
    assert help_ is None or help_ == found[0].help


def test_bodies_are_listed_in_order() -> None:
    """So that a missing one is seen at once."""
    assert sorted(BODIES) == list(BODIES)


@pytest.mark.parametrize(
    ("step", "names"),
    [
        ("do: Pull X7 and lay the cabin-heater down.\non: nothing", ["X7", "cabin-heater"]),
        ("do: Pull X7 and lay the cabin-heater down.\non: [X7, cabin-heater]", []),
        ("do: Look at X7/1.\non: X7/1 device", []),
        ("do: Look at X7.\non: cabin-heater", ["X7"]),
        ("do: Look at X7, then at X7 again.\non: nothing", ["X7"]),
        ("do: Look at x7, X77, X7a and the pre-X7-plug.\non: nothing", []),
        ("do: Turn the service-plugs.\non: nothing", []),
        ("do: Look.\non: nothing\nexpect: X7 is dry.", []),
        ("tighten: inverter-terminals\ndo: Hold the bars of X1 with a second spanner.", []),
        ("tighten: heater-bracket\ndo: Keep the inverter-cover out of the way.", ["inverter-cover"]),
        ("measure: Supply\nquantity: voltage\nbetween: [X210/3, X210/1]\nusing: multimeter\ndo: Probe X210.", []),
        ("measure: Supply\nquantity: voltage\nbetween: [X210/3, X210/1]\nusing: multimeter\ndo: Probe X7.", ["X7"]),
        ("do: Look below the open X7.\non: nothing\nwhen: {plugged: X7}", []),
    ],
)
def test_names_in_the_words_of_a_step(tmp_path, step: str, names: list[str]) -> None:
    """What the action, `on` or `when` names is known; another name in the words is not."""
    lines = step.replace("\n", "\n    ")
    found = [one for one in findings(tmp_path, f"steps:\n  - {lines}\n") if one.rule == "name-in-text-not-touched"]

    assert names == [one.message.split("`")[1] for one in found]


def test_a_name_in_the_text_is_marked_itself(tmp_path) -> None:
    """The span is that of the name."""
    found = findings(tmp_path, "steps:\n  - on: nothing\n    do: Move X7 to and fro.\n")

    assert [(3, 14, 16)] == [(one.place.line, one.place.column, one.place.end_column) for one in found]


LOW_VOLTAGE = VEHICLE.replace("nominal: 355 V, max: 410 V", "nominal: 48 V, max: 54 V")
#: A circuit whose highest voltage is not known counts as class B.
UNKNOWN_VOLTAGE = LOW_VOLTAGE.replace(", max: 54 V", "")


@pytest.mark.parametrize(("vehicle", "expected"), [(VEHICLE, 1), (LOW_VOLTAGE, 0), (UNKNOWN_VOLTAGE, 1)])
def test_what_is_touched_is_asked_for_on_class_b_vehicles(tmp_path, vehicle: str, expected: int) -> None:
    """Above 60 V DC by the highest voltage, or where that is not said. Source: UN R100, ISO 6469-3."""
    found = findings(tmp_path, "steps:\n  - do: Look.\n", vehicle)

    assert expected == sum(one.rule == "action-on-nothing-named" for one in found)


@pytest.mark.parametrize(
    ("consequence", "grave", "hurt", "only_damage"),
    [
        ("An electric shock can kill.", "kill", "kill", None),
        ("Touching them causes a fatal shock or severe burns.", "fatal", "fatal", None),
        ("The arc can cause severe burns and blindness.", "severe burns", "severe burns", None),
        ("Hot coolant scalds.", None, "scalds", None),
        ("Touching them burns the forearm.", None, "burns", None),
        ("It irritates, and people slip on it.", None, "irritates", None),
        ("A jet can scald hands and face.", None, "scald", None),
        ("Implants such as pacemakers can fail.", None, "Implants", None),
        ("A torn belt can strike the face.", None, None, None),
        ("A short inside it can set the battery on fire.", None, None, None),
        ("The heavy unit falls and breaks.", None, None, None),
        ("The fuse burns out and the pump is damaged.", None, None, "damaged"),
        ("The shock absorber is damaged.", None, None, "damaged"),
        ("Scratches across the face let the O-ring leak.", None, None, None),
        ("The seal is damaged and leaks.", None, None, "damaged"),
        ("Nobody is hurt, but the bearing is ruined.", None, None, "ruined"),
        ("Stored codes can be lost.", None, None, None),
        ("Overtightened, they turn and the thread is torn.", None, None, "torn"),
    ],
)
def test_what_the_consequence_of_a_message_speaks_of(consequence, grave, hurt, only_damage) -> None:
    """Definitions: ANSI Z535.6, ISO 3864-2. Word lists and sentences: ours."""
    found = grave_word(consequence), injury_word(consequence), only_damage_word(consequence)

    assert (grave, hurt, only_damage) == tuple(one and one[0] for one in found)


@pytest.mark.parametrize(
    ("word", "consequence", "expected"),
    [
        ("danger", "An electric shock kills.", None),
        ("danger", "The seal is damaged.", "write `notice:` instead of `danger:`, or say what happens to people"),
        ("warning", "The seal is damaged.", "write `notice:` instead of `warning:`, or say what happens to people"),
        ("caution", "The seal is damaged.", None),
        ("caution", "Hot coolant scalds.", None),
        ("caution", "Gas can kill.", "write `warning:` instead of `caution:`, or say what can really happen"),
        ("notice", "The seal is damaged.", None),
        ("notice", "Hot coolant scalds.", "write `caution:` instead of `notice:`, or say what can really happen"),
        ("notice", "Gas can kill.", "write `warning:` instead of `notice:`, or say what can really happen"),
    ],
)
def test_signal_word_and_consequence(tmp_path, word: str, consequence: str, expected: str | None) -> None:
    """Of the whole procedure as of a step; the word that fits is offered."""
    text = f"{word}: {{hazard: Something, consequence: {consequence}, avoid: Keep away.}}\n"
    found = findings(tmp_path, text)

    assert ([expected] if expected else []) == [one.help for one in found]
