"""Torque plus angle: the preload of a bolt that is tightened by a torque and then by an angle.

    ΔL = P · θ / 360        ΔF = ΔL / (1/k_b + 1/k_c)        k_b = E · A / l        share = k_c / (k_b + k_c)

    θ  angle turned on, °            k_b  stiffness of the bolt     kN/mm      l  length that is stretched, mm
    ΔL way of the nut, mm            k_c  stiffness of the parts    kN/mm      A  area that is stretched, mm²
    ΔF preload added, kN             E    modulus, MPa                         P  pitch, mm

Only a share of the way stretches the bolt; the rest presses the parts together. Joints are sorted by the angle from
10 % of the torque to all of it.

Valid while the bolt stays elastic; an angle is often chosen to go beyond yield on purpose, and then such a bolt is not
used again. The snug torque decides where the angle begins: too little, and the angle is spent on closing gaps.

Source: Hooke's law; a tool maker's worked example in inch units, whose pitch of 1/30 in is no standard thread. Hard and
soft joints: ISO 5393:2017, restated by an article and a tool maker's manual; 27° to 30° for a hard one by two articles.
"""

from .checked import above_zero, not_negative
from .formula import Formula, Input, Output
from .hexagon_heads import HEADS, bearing_diameter
from .property_classes import STEEL, yield_strength
from .threads import METRIC, diameter_and_pitch, stress_area
from .tightening import assembly_preload, preload_of_torque

#: Modulus of steel, MPa. Source: common practice, from memory (205 000 to 210 000).
STEEL_MODULUS = 205000.0
#: Up to this angle, °, a joint is hard. Source: ISO 5393, restated by two articles (27° and 30°).
HARD_UP_TO = 30.0
#: From this angle, °, a joint is soft. Source: ISO 5393:2017, restated by an article and a manual. The edition of 1994
#: began at about 650°.
SOFT_FROM = 324.0


def way_of_nut(pitch: float, angle: float) -> float:
    """ΔL in the unit of the pitch: P · θ / 360."""
    above_zero("pitch", pitch)
    not_negative("angle", angle)
    return pitch * angle / 360


def bolt_stiffness(area: float, length: float, modulus: float) -> float:
    """k_b: E · A / l; kN/mm where E is in MPa, A in mm² and l in mm, divided by 1000."""
    above_zero("area", area)
    above_zero("length", length)
    above_zero("modulus", modulus)
    return modulus * area / length / 1000


def preload_gain(pitch: float, angle: float, bolt: float, parts: float) -> float:
    """ΔF, kN: ΔL / (1/k_b + 1/k_c), with both stiffnesses in kN/mm and the pitch in mm."""
    above_zero("stiffness of the bolt", bolt)
    above_zero("stiffness of the parts", parts)
    return way_of_nut(pitch, angle) / (1 / bolt + 1 / parts)


def shared_gain(pitch: float, angle: float, bolt: float, share: float) -> float:
    """ΔF, kN, where the share of the way that stretches the bolt is known: share · ΔL · k_b."""
    above_zero("stiffness of the bolt", bolt)
    if not 0 < share <= 1:
        raise ValueError("the share of the way that stretches the bolt lies above 0 and up to 100 %")
    return share * way_of_nut(pitch, angle) * bolt


def joint_kind(angle: float) -> str:
    """Hard, medium or soft, by the angle from 10 % to 100 % of the torque."""
    not_negative("angle", angle)
    if angle <= HARD_UP_TO:
        return "hard"
    return "soft" if angle >= SOFT_FROM else "medium"


def _snug_and_angle(
    size: str, strength_class: str, torque: float, friction: float, angle: float, length: float, percent: float
) -> tuple[float, float, float, float, str]:
    outer, pitch = diameter_and_pitch(size)
    snug = preload_of_torque(size, torque, friction, friction, bearing_diameter(size))
    stiffness = bolt_stiffness(stress_area(size), length, STEEL_MODULUS)
    gain = shared_gain(pitch, angle, stiffness, percent / 100)
    limit = assembly_preload(size, yield_strength(strength_class, outer), friction, 1.0)
    said = "goes beyond yield: the sum is not reached" if snug + gain > limit else "stays elastic"
    return snug, gain, snug + gain, limit, said


def _kind(angle: float) -> tuple[str]:
    return (joint_kind(angle),)


_SOURCE = "Hooke's law; a tool maker's worked example; ISO 5393:2017 as restated"

FORMULAS = (
    Formula(
        "torque plus angle",
        "Preload of a torque and an angle",
        (
            Input("size", "Thread", choices=tuple(one for one in METRIC if one.split("x")[0] in HEADS)),
            Input("class", "Property class", choices=tuple(STEEL)),
            Input("torque", "Snug torque", "N·m"),
            Input("friction", "Friction, such as 0.12"),
            Input("angle", "Angle turned on", "°"),
            Input("length", "Length of bolt that is stretched", "mm"),
            Input("share", "Share of the way that stretches the bolt", "%"),
        ),
        (
            Output("Preload by the torque", "kN"),
            Output("Preload added by the angle", "kN"),
            Output("Sum, while elastic", "kN"),
            Output("Preload at yield", "kN"),
            Output("The bolt"),
        ),
        _snug_and_angle,
        "ΔF = share · P · θ / 360 · E · As / l",
        "Elastic; hexagon head of ISO 4014 on a medium hole; the thread taken for the whole length. The maker's torque "
        "and angle go before these.",
        _SOURCE,
        {
            "size": "M10",
            "class": "10.9",
            "torque": "30 N·m",
            "friction": "0.12",
            "angle": "45°",
            "length": "60 mm",
            "share": "65 %",
        },
    ),
    Formula(
        "joint kind",
        "Hard or soft joint",
        (Input("angle", "Angle from 10 % of the torque to all of it", "°"),),
        (Output("Joint"),),
        _kind,
        "hard up to 30°; soft from 324°",
        "For choosing a tool and a test joint. The edition of 1994 put the soft joint at about 650°.",
        _SOURCE,
        {"angle": "25°"},
    ),
)
