"""Potential equalisation: the resistance of a bond, and what a meter shows of it.

    R = U / I          U = R · I          shown = R + leads          reading ≤ 0.1 Ω / (1 + p / 100)

    R  resistance between an exposed part and the chassis   Ω       U  voltage drop along it   V
    I  test current                                         A       p  accuracy of the tester, of the reading   %

A two-wire meter shows its leads as well, and ordinary leads have more resistance than the limit. The ohms range of a
multimeter sends far less than 0.2 A (from memory): its reading does not show conformity. A welded joint counts as good.

Source: UN R100, 5.1.2.2 (below 0.1 Ω at 0.2 A or more; read in a national clone of the text); leads: article of a
maker of meters (restated).
"""

from .checked import above_zero, not_negative
from .formula import Formula, Input, Output

#: The resistance, in ohms, that a bond stays below. Source: UN R100, 5.1.2.2 (read).
LIMIT = 0.1
#: The least test current, in amperes. Source: UN R100, 5.1.2.2 (read).
LEAST_CURRENT = 0.2
#: Ordinary leads have from and to this many ohms; above the third they are worn out. Source: article of a maker of
#: meters (restated).
LEADS_FROM = 0.2
LEADS_TO = 0.5
LEADS_WORN_ABOVE = 1.0


def voltage_drop(ohms: float, amperes: float) -> float:
    """Volts along a bond: R·I."""
    not_negative("resistance", ohms)
    above_zero("test current", amperes)
    return ohms * amperes


def resistance(volts: float, amperes: float) -> float:
    """Ohms of a bond, from the drop along it, read with leads of its own, and the test current: U/I."""
    not_negative("voltage drop", volts)
    above_zero("test current", amperes)
    return volts / amperes


def is_bonded(ohms: float) -> bool:
    """Whether a resistance is low enough: below 0.1 Ω."""
    not_negative("resistance", ohms)
    return ohms < LIMIT * (1 - 1e-12)  # a quotient such as 20 mV / 0.2 A falls short of 0.1 by the noise of the machine


def current_suffices(amperes: float) -> bool:
    """Whether a test current is one that the rule accepts: 0.2 A or more."""
    above_zero("test current", amperes)
    return amperes >= LEAST_CURRENT


def shown_by_two_wires(ohms: float, leads: float) -> float:
    """Ohms that a meter with two wires shows: the bond and its leads."""
    not_negative("resistance", ohms)
    not_negative("resistance of the leads", leads)
    return ohms + leads


def behind_leads(shown: float, leads: float) -> float:
    """Ohms of a bond from what a meter with two wires shows and what its leads show when held together."""
    not_negative("reading", shown)
    not_negative("resistance of the leads", leads)
    if shown < leads:
        raise ValueError(f"{shown:g} Ω is less than the leads alone, {leads:g} Ω; take the zero of the leads again")
    return shown - leads


def highest_reading(accuracy: float) -> float:
    """The highest reading, in ohms, that is surely not above the limit: 0.1 / (1 + p/100)."""
    not_negative("accuracy", accuracy)
    return LIMIT / (1 + accuracy / 100)


def judged_leads(leads: float) -> str:
    """What leads of this resistance mean for a bond measured with two wires."""
    not_negative("resistance of the leads", leads)
    if leads > LEADS_WORN_ABOVE:
        return "worn out: replace them"
    if leads < LIMIT:
        return "less than the limit; take off their zero"
    return "not less than the limit itself: measure with four wires, or take off their zero"


def _bond(volts: float, amperes: float) -> tuple[float, float, str]:
    ohms = resistance(volts, amperes)
    if not current_suffices(amperes):
        judged = "not shown: the test current is below 0.2 A"
    else:
        judged = "below 0.1 Ω" if is_bonded(ohms) else "not below 0.1 Ω"
    return ohms, voltage_drop(LIMIT, amperes), judged


def _leads(shown: float, leads: float) -> tuple[float, str]:
    return behind_leads(shown, leads), judged_leads(leads)


FORMULAS = (
    Formula(
        "bonding",
        "Resistance of a bond from its voltage drop",
        (Input("U", "Voltage drop along the bond", "V"), Input("I", "Test current", "A")),
        (Output("Resistance", "Ω"), Output("Voltage drop at the limit", "V"), Output("Bond")),
        _bond,
        "R = U / I",
        "Four wires: the drop is read at the parts themselves. The rule asks for 0.2 A or more.",
        "UN R100, 5.1.2.2",
        {"U": "12 mV", "I": "0.2 A"},
    ),
    Formula(
        "two-wire reading",
        "Resistance of a bond behind the leads of a meter",
        (Input("shown", "What the meter shows", "Ω"), Input("leads", "What it shows with the tips held together", "Ω")),
        (Output("Resistance", "Ω"), Output("Leads")),
        _leads,
        "R = shown − leads",
        "Both readings in one range, tips clean, one after the other. Says nothing of the test current.",
        f"Series circuit; leads of {LEADS_FROM} Ω to {LEADS_TO} Ω: article of a maker of meters",
        {"shown": "0.34 Ω", "leads": "0.29 Ω"},
    ),
)
