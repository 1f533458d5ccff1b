"""What every safety briefing says in the same words: common practice of the trade, shortened for one sheet."""

from collections.abc import Iterator

#: Source: EN 50110-1 (the order of isolating, the second person), DGUV Information 209-093 (zone, implants, damage), UK
#: HSE guidance on electric and hybrid vehicles (keys, damage); from memory, common practice.
_ALWAYS = (
    "Look for damage: crash, water, smoke, heat, hissing, smell, fluid. If any: get out, keep others out, stop.",
    "No rings, watches, chains, metal in pockets. Persons with active implants stay out.",
    "Dry floor, dry hands, good light. Lift locked, vehicle blocked against rolling.",
)
_HIGH = (
    "Zone closed and signed; only the named persons inside. Rescue hook at hand.",
    "Timed charging, pre-heating, remote start off. Once the vehicle is off, every key locked away, well out of reach.",
    "Gloves in date and rolled up for leaks; tester, leads, tools and shield whole.",
)
_POWER = (
    "48 V does not kill by touch, but a short burns: cover terminals, no loose metal.",
    "Timed charging and remote start off. Once the vehicle is off, every key locked away.",
)

SHOCK = (
    "Shock",
    "Do not touch the person while they may be in contact: switch off, or use the insulated hook. Emergency call. No "
    "breathing: resuscitate. Everybody who had a shock sees a doctor.",
)
FIRE = (
    "Fire, smoke",
    "Everybody out, doors shut. Fire brigade: say “traction battery”. Do not fight a battery fire.",
)
ELECTROLYTE = (
    "Electrolyte",
    "Do not touch, do not breathe the vapour, keep others upwind. Skin and eyes: rinse with much water, doctor.",
)
BURST = ("Jet, burst", "Scald or injected fluid: cool with water, never rub, doctor at once even if it looks small.")

BREAKS = (
    "A break, a hand-over or leaving the vehicle ends every proof. While every lock is untouched, the wait need not be "
    "done again. Prove dead again before anything is touched."
)
NOT_DEAD = (
    "Hands off, touch nothing, put nothing back, leave the locks on. Close the zone, tell the person responsible."
)
RETURN = (
    "Everything refitted, tightened, marked. Bridges, adapters, caps counted and out. Covers on.",
    "Nobody touches the vehicle. Each owner takes off the own lock. Sources back in the order of the procedure.",
    "Insulation value, lamps and codes looked at. Keys handed over, zone opened last.",
)
#: Common practice: an insulation fault or a contactor that is stuck puts a live end against the chassis.
LIVE_TO_CHASSIS = (
    "Count each of these as the full voltage, also against the chassis: a fault of insulation or a stuck contactor is "
    "not seen from outside. Cover what lies open."
)
ONLY_PROVED = "Whatever is not “proved dead” there counts as live for whoever comes next."
#: What is written on the sheet by hand.
FILL_IN = ("Responsible for high voltage, telephone", "Works", "Watches", "Proved dead at")
APPROVES_NOTHING = (
    "The checker approves nothing. It has followed every path of the procedure as it is written; it has not seen the "
    "vehicle. The maker’s instructions, local law and qualified persons decide."
)


def before_you_begin(class_b: bool, power: bool) -> Iterator[str]:
    """What is looked at before the first step."""
    yield from _HIGH if class_b else _POWER if power else ()
    yield from _ALWAYS
