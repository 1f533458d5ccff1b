"""The rules about photos: what their pages cannot show."""

import pytest
from kit import PLACES, PROCEDURE, VEHICLE, check, write_manual
from photo_kit import PHOTOS, from_a_phone, plug

VAN = "procedures/test-van"
NAMED = PROCEDURE + "    photo: photos/plug.jpg\n"

LYING = [
    ({"photos/plug.jpg": plug}, NAMED, None),
    ({"photos/old.jpg": plug}, PROCEDURE, "`old.jpg` in the folder `photos` is named by no file"),
    ({"photos/old plug.JPG": plug, "photos/b.png": plug}, PROCEDURE,
     "`b.png`, `old plug.JPG` in the folder `photos` are named by no file"),
    ({f"photos/{one}.jpg": plug for one in "abcde"}, PROCEDURE,
     "`a.jpg`, `b.jpg`, `c.jpg` and 2 more in the folder `photos` are named by no file"),
    ({"photos/old.jpg": plug}, PROCEDURE + "# photos/old.jpg shows it from below\n", None),
    ({"photos/notes.txt": plug, "photos/.hidden.jpg": plug, "other/old.jpg": plug}, PROCEDURE, None),
]  # fmt: skip


@pytest.mark.parametrize(("files", "procedure", "message"), LYING)
def test_pictures_that_nobody_names_are_told_once(tmp_path, files, procedure: str, message: str | None) -> None:
    """In the folder `photos`, at the profile; a remark is enough."""
    lying = {f"{VAN}/{name}": make() for name, make in files.items()}
    found = check(tmp_path, {PLACES["procedure"]: procedure, **lying}).findings

    assert ([] if message is None else [("photo-not-used", message)]) == [(one.rule, one.message) for one in found]


@pytest.mark.parametrize(
    "broken", [NAMED + "    zz: [\n", "steps: [\n  photo: photos/plug.jpg\n", NAMED.encode("utf-16")]
)
def test_a_file_that_is_not_read_to_its_end_uses_its_pictures(tmp_path, broken: str | bytes) -> None:
    """What is wrong with it is told there; its pictures are not called left over."""
    found = check(tmp_path, {PLACES["procedure"]: broken, f"{VAN}/photos/plug.jpg": plug()}).findings

    assert "photo-not-used" not in {one.rule for one in found}


def test_the_picture_that_a_misspelt_name_means_is_not_called_left_over(tmp_path) -> None:
    """One mistake, one finding."""
    found = check(tmp_path, {PLACES["procedure"]: NAMED, f"{VAN}/photos/plugg.jpg": plug()}).findings

    assert ["photo-not-found"] == [one.rule for one in found]


def test_another_vehicle_may_name_the_picture(tmp_path) -> None:
    """By `../`."""
    other = VEHICLE.replace("vehicle: test-van", "vehicle: other-van")
    files = {
        "procedures/other-van/vehicle.yml": other + "photo: ../test-van/photos/plug.jpg\n",
        f"{VAN}/photos/plug.jpg": plug(),
    }
    assert () == check(tmp_path, files).findings


@pytest.mark.parametrize("place", ["vehicle", "isolation point", "connector", "part"])
def test_photos_of_a_profile_are_looked_at(tmp_path, place: str) -> None:
    """Wherever one may be."""
    old, indent = {
        "vehicle": ("name: Test van\n", ""),
        "isolation point": ("    secure_with: Padlock in the receptacle\n", "    "),
        "connector": ("    name: Heater HV plug\n", "    "),
        "part": ("    highest_test_voltage: 1000 V\n", "    "),
    }[place]
    text = VEHICLE.replace(old, f"{old}{indent}photo: photos/note.jpg\n")
    found = check(tmp_path, {PLACES["vehicle"]: text, f"{VAN}/photos/note.jpg": PHOTOS["note.jpg"]()}).findings

    assert ["photo-kind-not-usable"] == [one.rule for one in found]


def test_call_outs_are_counted_on_the_upright_picture(tmp_path) -> None:
    """Stored 640 wide and 480 high and turned by a quarter, it is 480 wide; a place within is in it."""
    step = "    photo:\n      file: photos/a.jpg\n      callouts:\n        - {at: '479, 639', text: in}\n        - at: 480, 20\n          text: out\n"
    files = {PLACES["procedure"]: PROCEDURE + step.replace("{at: '479, 639', text: in}", "at: 479, 639\n          text: in"),
             f"{VAN}/photos/a.jpg": from_a_phone(6)}  # fmt: skip
    (found,) = check(tmp_path, files).findings

    assert "call-out 2 at 480, 20 lies outside of the picture, which is 480 wide and 640 high" == found.message


def test_a_picture_that_is_mended_is_right_at_the_next_look(tmp_path) -> None:
    """A keeper looks again when the file has changed, and only then are its findings others."""
    from bayleaf.manual import ManualKeeper

    folder = write_manual(tmp_path, {PLACES["procedure"]: NAMED, f"{VAN}/photos/plug.jpg": plug()[:900]})
    keeper = ManualKeeper(folder)
    rules = []
    for data in (None, plug(), b"text", plug()):
        if data is not None:
            (folder / VAN / "photos/plug.jpg").write_bytes(data)
        rules.append([one.rule for one in keeper.manual().findings if one.rule.startswith("photo")])

    assert [["photo-broken"], [], ["photo-kind-not-usable"], []] == rules
