"""The sound procedures of the demo with one thing done wrong at each place: the walk finds what the judge finds.

Here one place of every other kind is judged in each isolation, each return to service and one job of each vehicle, and of
some kinds in every other procedure. `make campaign` judges one place of each kind in each procedure, and
`python -m safety.demo_mutants` in the folder of the tests all places.
"""

import pytest
from safety.demo_mutants import KINDS, Cell, cell, demo, mutants, table
from thinned import IS_CAMPAIGN, some

#: So many places of each kind in each procedure; where nothing is found there, all the others too.
MOST = 1
NAMES = tuple(demo().procedures)
ENDS = ("isolation", "return to service")
CELLS: dict[tuple[str, str], Cell] = {}

_OTHER_WAIT = "it is waited for coolant, a gauge, a battery under load or units to sleep; no circuit needs it"
_BEFORE_CLOSING = "all stays locked off, and nothing is touched that has to be proved"
_NOT_NEEDED = "the plugs that are looked at are in, and the cover that goes back asks for isolation, not for the proof"
_NO_PROOF = "nothing is touched that has to be locked off or proved dead"
_NO_LOCK = "the profile asks for no lock here; the procedure locks all the same"
_SENSOR_PLUG = "only the plug of a sensor is opened, at 24 V, and its wires are read first"
PUMP = "granbrook-t8/replace-inverter-coolant-pump"
BATTERIES_24 = "granbrook-t8/replace-24-volt-batteries"
YEARLY = "granbrook-t8/inspect-yearly"
SEALS = "granbrook-t8/renew-plate-seals"
BONDS = "granbrook-t8/check-potential-equalisation"
PACK_PUMP = "granbrook-t8/pack-pump-not-following"
NEW_PACK_PUMP = "granbrook-t8/replace-pack-pump"
AUXILIARY_LINK = "granbrook-t8/auxiliary-link-keeps-charge"
INSULATION = "larkway-m12/find-insulation-fault"
GROUND = "thistledown-v4/engine-ground-path"
BATTERY = "thistledown-v4/replace-48v-battery"
CRANKING = "thistledown-v4/units-restart-while-cranking"
STARTER = "thistledown-v4/starter-generator-no-output"
#: Where a kind of mistake has places, and none of them matters; the judge finds nothing there either.
NEVER_WRONG: dict[tuple[str, str], str] = {
    ("no lock", BATTERIES_24): _NO_LOCK,
    ("no wait", BATTERIES_24): _OTHER_WAIT,
    ("a tenth of a wait", BATTERIES_24): _OTHER_WAIT,
    ("cover before the wait", BATTERIES_24): _NO_PROOF,
    ("pause before hands", YEARLY): _NO_PROOF,
    ("no wait", YEARLY): _SENSOR_PLUG,
    ("a tenth of a wait", YEARLY): _SENSOR_PLUG,
    ("no wait", PUMP): _OTHER_WAIT,
    ("no wait", INSULATION): _OTHER_WAIT,
    ("no wait", STARTER): _OTHER_WAIT,
    ("a tenth of a wait", PUMP): _OTHER_WAIT,
    ("a tenth of a wait", INSULATION): _OTHER_WAIT,
    ("a tenth of a wait", STARTER): _OTHER_WAIT,
    ("no wait", "thistledown-v4/replace-starter-generator"): _OTHER_WAIT,
    ("a tenth of a wait", "thistledown-v4/replace-starter-generator"): _OTHER_WAIT,
    ("no lock", GROUND): _NO_PROOF,
    ("no wait", GROUND): _OTHER_WAIT,
    ("a tenth of a wait", GROUND): _OTHER_WAIT,
    ("pause before hands", GROUND): _NO_PROOF,
    ("cover before the wait", GROUND): _NO_PROOF,
    ("no lock", "thistledown-v4/make-restraints-safe"): _NO_LOCK,
    ("pause before hands", "thistledown-v4/climate-lin-dead"): _NO_PROOF,
    ("pause before hands", "thistledown-v4/make-restraints-safe"): _NO_PROOF,
    ("pause before hands", "thistledown-v4/seat-plug-restraints"): _NO_PROOF,
    **{(kind, SEALS): _OTHER_WAIT for kind in ("no wait", "a tenth of a wait", "cover before the wait")},
    ("no lock", "granbrook-t8/replace-left-air-spring"): _NO_LOCK,
    (
        "not opened",
        "larkway-m12/contactor-stuck",
    ): "the isolation that is performed takes the 12 V battery off in any case",
    ("no lock", "thistledown-v4/rear-air-springs"): _NO_LOCK,
    ("no lock", "thistledown-v4/service-12v-battery"): _NO_LOCK,
    ("no wait", "thistledown-v4/rear-air-springs"): _OTHER_WAIT,
    ("no wait", "thistledown-v4/service-12v-battery"): _OTHER_WAIT,
    ("a tenth of a wait", "thistledown-v4/rear-air-springs"): _OTHER_WAIT,
    ("a tenth of a wait", "thistledown-v4/service-12v-battery"): _OTHER_WAIT,
    ("pause before hands", "thistledown-v4/service-12v-battery"): _NO_PROOF,
    ("cover before the wait", "thistledown-v4/service-12v-battery"): _NO_PROOF,
    ("no wait", "thistledown-v4/converter-no-output"): _OTHER_WAIT,
    ("a tenth of a wait", "thistledown-v4/converter-no-output"): _OTHER_WAIT,
    ("no wait", BATTERY): _OTHER_WAIT,
    ("a tenth of a wait", BATTERY): _OTHER_WAIT,
    ("not opened", BATTERY): "the switch of the new battery is locked open as well, which asks for it to be open",
    ("no proof", "thistledown-v4/return-to-service"): _NOT_NEEDED,
    ("one pair proved", "thistledown-v4/return-to-service"): _NOT_NEEDED,
    ("pause before hands", "granbrook-t8/return-to-service"): _BEFORE_CLOSING,
    ("pause before hands", "thistledown-v4/return-to-service"): _BEFORE_CLOSING,
    ("ready before hands", "granbrook-t8/return-to-service"): _BEFORE_CLOSING,
    ("ready before hands", "thistledown-v4/return-to-service"): _BEFORE_CLOSING,
    ("not opened", BONDS): "chocks and charge lead are out for the people; no housing asks for it, its voltage is read",
    ("cover before the wait", PUMP): "the coolant is read as safe behind the wait, before its cap comes off",
    ("cover before the wait", "thistledown-v4/isolate-48v"): "the cover of 48 V asks for isolation, not for the wait",
}

_LARKWAY_AT_12_VOLT = (
    "nothing of the high-voltage system is opened; at 12 V no point has to be open and nothing proved dead"
)
_LARKWAY_STILL_PROVED = "the proof of the performed isolation still stands; this one only keeps it young"
NEVER_WRONG |= {
    **{
        (kind, f"larkway-m12/{name}"): _OTHER_WAIT
        for kind in ("no wait", "a tenth of a wait")
        for name in ("contactor-stuck", "converter-not-charging", "inlet-sensor-implausible", "replace-cabin-heater")
    },
    ("cover before the wait", "larkway-m12/converter-not-charging"): _OTHER_WAIT,
    **{
        (kind, f"larkway-m12/{name}"): _LARKWAY_STILL_PROVED
        for kind in ("no proof", "one pair proved")
        for name in ("contactor-stuck", "converter-not-charging", "interlock-open", "replace-cabin-heater")
    },
    **{
        ("no lock", f"larkway-m12/{name}"): "the lift and the charge lead are locked though nothing asks for it"
        for name in ("change-wheel", "inlet-sensor-implausible", "yearly-inspection")
    },
    **{
        ("pause before hands", f"larkway-m12/{name}"): _LARKWAY_AT_12_VOLT
        for name in ("change-wheel", "drive-can-disturbed", "inlet-sensor-implausible", "replace-12-volt-battery")
    },
    **{
        (kind, f"larkway-m12/{name}"): _LARKWAY_AT_12_VOLT
        for kind, name in (
            ("not opened", "converter-not-charging"),
            ("not opened", "replace-12-volt-battery"),
        )
    },
    ("not tightened", "larkway-m12/yearly-inspection"): "the wheel nuts are checked; nothing has loosened them",
    **{
        (kind, name): _OTHER_WAIT
        for kind in ("no wait", "a tenth of a wait")
        for name in (PACK_PUMP, NEW_PACK_PUMP, "granbrook-t8/fill-pack-coolant", CRANKING)
    },
    **{("pause before hands", name): _NO_PROOF for name in (PACK_PUMP, "granbrook-t8/read-pump-command", CRANKING)},
    ("no lock", NEW_PACK_PUMP): _NO_LOCK,
    ("cover before the wait", NEW_PACK_PUMP): _NO_PROOF,
    ("pause before hands", AUXILIARY_LINK): "what needs the proof is a procedure of its own, which expects it",
    ("not tightened", AUXILIARY_LINK): "both ends are a stop, at which nothing is owed",
}

#: Kinds that are judged quickly, in whatever procedure.
QUICK = ("no lock", "no proof", "not refitted", "not plugged")
FULL = {
    PUMP,
    "granbrook-t8/make-air-springs-safe",
    INSULATION,
    STARTER,
    *(one.id for one in demo().procedures.values() if one.kind in ENDS),
}
CASES = some([(kind, name) for name in NAMES for kind in KINDS if name in FULL or kind in QUICK or IS_CAMPAIGN], 4)


@pytest.mark.parametrize(("kind", "name"), CASES)
def test_a_mistake_is_found(kind: str, name: str) -> None:
    """At one place of the procedure at least; and wherever the judge finds it, the walk does, at the same step."""
    CELLS[kind, name] = one = cell(kind, name, MOST)

    assert [] == one.parting
    assert (one.places > 0 and (kind, name) not in NEVER_WRONG) == (one.found > 0)


def test_every_kind_has_places() -> None:
    """In two procedures at least. The table of what was judged is printed with `-s`."""
    if IS_CAMPAIGN and len(CELLS) == len(CASES):
        print("\n" + table(CELLS))
    for kind in KINDS:
        assert len([name for name in NAMES if mutants(kind, name)]) >= 2, kind
