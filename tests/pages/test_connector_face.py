"""The face of a connector: every pin, every probe point at its pin, nothing on top of another thing."""

from bayleaf.model.actions import ProveDead
from bayleaf.model.contact import Contact, read_contact
from bayleaf.model.vehicle import Connector, Pin, Vehicle
from bayleaf.model.workshop import Workshop
from bayleaf.pages.drawings.connector_face import Face, Probe, connector_face, face_words
from bayleaf.pages.drawings.shapes import Drawing
from bayleaf.pages.naming import Naming
from bayleaf.pages.step_drawings import face_of, probed_pairs
from drawing_kit import circuit, faults_of, texts
from hypothesis import given
from hypothesis import strategies as st

#: Four of the shapes that connectors of control units come in, 48 pins the largest.
SHAPES = ((2, 2), (2, 8), (3, 16), (4, 12), (2, 24), (1, 30))


def pins(down: int, across: int) -> tuple[tuple[str, ...], ...]:
    """Rows of pins numbered from 1."""
    return tuple(tuple(str(row * across + column + 1) for column in range(across)) for row in range(down))


def face(rows: tuple[tuple[str, ...], ...], *probes: Probe, chassis: tuple[str, ...] = ()) -> Face:
    """A connector that is probed at the device side."""
    return Face("X7 Heater plug", rows, "Mating side of the plug", "Probed at: device side", probes, chassis)


@st.composite
def faces(draw: st.DrawFn) -> Face:
    """Faces of up to 48 pins, or none, with any pins probed against each other, against the chassis or as a whole."""
    shape = draw(st.sampled_from(SHAPES))
    rows = pins(*shape)
    if draw(st.booleans()):  # letters, and rows that are not alike
        rows = tuple(
            tuple(f"{'ABCD'[index]}{number}" for number in row[index:] or row) for index, row in enumerate(rows)
        )
    flat = [pin for row in rows for pin in row]
    chosen = draw(st.lists(st.sampled_from([*flat, None, "99"]), min_size=1, max_size=20, unique=True))
    probes = [
        Probe(tuple(map(str, draw(st.lists(st.integers(1, 24), min_size=1, max_size=5, unique=True)))), pin, words)
        for pin, words in zip(chosen, draw(st.lists(st.sampled_from(WORDS), min_size=20, max_size=20)), strict=False)
    ]
    against = tuple(map(str, draw(st.lists(st.integers(1, 24), max_size=24, unique=True))))
    return face(draw(st.sampled_from([rows, ()])), *probes, chassis=against)


WORDS = (
    "",
    "HV+, orange, Traction DC bus",
    "control pilot of the charging inlet, white/black, 12 V supply behind the fuse",
)


def joined_to(drawing: Drawing, number: str) -> set[str]:
    """The pins to which a line leads from a circle with this number."""
    found = set()
    for box in drawing.boxes:
        if box.of == f"mark:{number}":
            foot = (box.rect.x + box.rect.width / 2, box.rect.bottom)
            for wire in drawing.wires:
                if wire.points[0] == foot:
                    x, y = wire.points[-1]
                    found |= {
                        one.of.removeprefix("pin:")
                        for one in drawing.boxes
                        if one.of.startswith("pin:") and one.rect.y == y and one.rect.x <= x <= one.rect.right
                    }
    return found


@given(faces())
def test_nothing_overlaps_and_nothing_is_left_out(one: Face) -> None:
    """Every pin of the face has a place, every probed pin its numbers and words, whatever is probed."""
    drawing = connector_face(one)

    assert [] == faults_of(drawing)
    places = [box.of.removeprefix("pin:") for box in drawing.boxes if box.of.startswith("pin:")]
    probed = {probe.pin for probe in one.probes if probe.pin is not None}
    assert {pin for row in one.rows for pin in row} | probed == set(places)
    assert len(places) == len(set(places))
    for probe in one.probes:
        key = "all" if probe.pin is None else probe.pin
        told = {box.of.removeprefix(f"probe:{key}:") for box in drawing.boxes if box.of.startswith(f"probe:{key}:")}
        assert set(probe.numbers) == told
        assert probe.words in texts(drawing, f"probe:{key}")


@given(faces())
def test_each_number_is_joined_to_its_pins(one: Face) -> None:
    """The lines of a row lead to the pins at which the pair is probed, all of them or, for want of room, none."""
    drawing = connector_face(one)
    marked = {box.of.removeprefix("mark:") for box in drawing.boxes if box.of.startswith("mark:")}
    for number in marked:
        wanted = {probe.pin for probe in one.probes if number in probe.numbers and probe.pin is not None}
        assert joined_to(drawing, number) <= wanted
        assert joined_to(drawing, number)


def test_two_pins_of_a_heater() -> None:
    """Three pairs as at a proof: between the poles, and of each to the chassis."""
    drawing = connector_face(
        face(pins(2, 2), Probe(("1", "2"), "1", "HV+"), Probe(("1", "3"), "2", "HV−"), chassis=("2", "3"))
    )

    assert [{"1", "2"}, {"1"}, {"2"}] == [joined_to(drawing, number) for number in "123"]
    assert "Probed at: device side" == texts(drawing, "side")
    assert texts(drawing, "view").startswith("Seen from: mating side of the plug")
    assert ["1", "2"] == [texts(drawing, f"pin:{pin}") for pin in "12"]
    assert "chassis" == texts(drawing, "chassis")
    assert {"chassis:2", "chassis:3"} == {box.of for box in drawing.boxes if box.of.startswith("chassis")}


def test_large_connectors_stay_readable() -> None:
    """48 pins: numbers in the pins while they fit, else at the ends of each row. What is probed has its line in both."""
    wide = connector_face(face(pins(2, 24), Probe(("1",), "7", "ground"), Probe(("1",), "31", "supply")))
    four = connector_face(face(pins(4, 12), Probe(("1",), "7", "ground"), Probe(("1",), "31", "supply")))

    assert ["1", "24", "25", "48"] == [texts(wide, f"end:{pin}") for pin in ("1", "24", "25", "48")]
    assert [str(pin) for pin in range(1, 49)] == [texts(four, f"pin:{pin}") for pin in range(1, 49)]
    assert [{"7", "31"}] * 2 == [joined_to(one, "1") for one in (wide, four)]


def test_all_pins_of_a_side_are_one_line_to_the_outline() -> None:
    """What is probed as a whole is not marked pin by pin."""
    drawing = connector_face(face(pins(3, 16), Probe(("1",), None, "")))

    assert "all pins" == texts(drawing, "probe:all")
    circle = next(box.rect for box in drawing.boxes if box.of == "all:1")
    foot = (circle.x + circle.width / 2, circle.bottom)
    line = next(wire for wire in drawing.wires if wire.points[0] == foot)
    shell = next(wire for wire in drawing.wires if wire.look == "shell")
    assert shell.points[0][1] == line.points[-1][1]


def test_without_a_face_the_probed_pins_stand_in_a_row() -> None:
    """And the drawing says that this is not how they lie."""
    drawing = connector_face(face((), Probe(("1",), "1", "HV+"), Probe(("1",), "12", "HV−")))

    assert ["pin:1", "pin:12"] == [box.of for box in drawing.boxes if box.of.startswith("pin")]
    assert "Not a view: how the contacts lie" in texts(drawing, "view")


@given(faces())
def test_the_text_alternative_says_the_same(one: Face) -> None:
    """Numbers, pins, their words, the side, the chassis."""
    words = face_words(one)

    assert one.side in words
    for probe in one.probes:
        assert ", ".join(probe.numbers) + (": all pins" if probe.pin is None else f": pin {probe.pin}") in words
        assert probe.words in words
    assert (": chassis" in words) == bool(one.chassis)


X9 = Connector(
    (), "X9", "Plug", None, ("Header", "Plug"), (("1", "2"),), None,
    {"1": Pin((), "1", "HV+", "traction", "traction", None, "orange", None),
     "2": Pin((), "2", "HV−", "traction", "supply", None, None, None)}, None,
)  # fmt: skip


def contact(text: str) -> Contact:
    """A contact as an author writes it."""
    found = read_contact(text)
    assert found is not None
    return found


def naming() -> Naming:
    """The names of a vehicle with one connector and two circuits."""
    circuits = {
        name: circuit(id=name, name=words) for name, words in (("traction", "Traction"), ("supply", "12 V supply"))
    }
    return Naming(
        Vehicle("vehicle.yml", "van", "Van", circuits=circuits, connectors={"X9": X9}), Workshop("workshop.yml")
    )


def test_a_step_marks_its_pairs_in_their_order() -> None:
    """The pairs of the step by number, signal, colour and circuit of the half that is probed, the side in words."""
    pairs = tuple(
        (contact(one), contact(other))
        for one, other in (("X9/1 cable", "X9/2 cable"), ("X9/2 cable", "chassis"), ("X1/1", "chassis"))
    )
    found = face_of("X9", pairs, naming())

    assert (Probe(("1",), "1", "HV+, orange, Traction"), Probe(("1", "2"), "2", "HV−, 12 V supply")) == found.probes
    assert ("2",) == found.chassis
    assert "Probed at: cable side, Plug" == found.side
    assert "mating side of the cable half" == found.seen_from, (
        "what the schema says of a face that is seen from nowhere"
    )


def test_a_proof_without_pairs_probes_the_test_points_of_its_circuit() -> None:
    """None are known here: nothing is drawn."""
    proof = ProveDead("traction", (), None, None, None, None, None, None)
    assert () == probed_pairs(proof, naming())
    own = ProveDead("traction", ((contact("X9/1 cable"), contact("chassis")),), None, None, None, None, None, None)
    assert own.pairs == probed_pairs(own, naming())
