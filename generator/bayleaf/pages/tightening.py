"""What the page of a tightening step says beyond its torque: how hard it clamps, how the wrench is set, the order."""

from collections.abc import Iterator

from markupsafe import Markup

from ..calculations.tightening import highest_utilisation, preloads_of_torque
from ..calculations.tightening_order import cross_order
from ..limits.joint import Joint, joint_of, joint_of_step
from ..limits.wrench import Setting, setting_on, wrenches
from ..model import actions
from ..model.procedure import Step
from ..model.vehicle import Fastener
from ..quantities.display import show
from ..quantities.figures import figure
from .naming import Naming


def tightening_rows(step: Step, naming: Naming) -> list[tuple[str, Markup | str]]:
    """Preload, setting of the wrench and order of the bolts, for each fastener of a step."""
    tighten = step.action
    if not isinstance(tighten, actions.Tighten):
        return []
    if tighten.described:
        return list(_clamps(joint_of_step(tighten)))
    rows: list[tuple[str, Markup | str]] = []
    for name in tighten.fasteners:
        fastener = naming.vehicle.fasteners.get(name) if naming.vehicle is not None else None
        if fastener is None:
            continue
        rows += _clamps(joint_of(fastener))
        rows += _settings(fastener, step, naming)
        rows += _order(fastener)
    return rows


def _clamps(joint: Joint) -> Iterator[tuple[str, str]]:
    """The preload between the highest and the lowest friction; nothing where the friction is not stated."""
    if joint.torque is None or joint.friction is None or joint.yields or not joint.is_computable:
        return
    size, strength = joint.thread or "", joint.strength_class or ""
    low, high = joint.friction.low, joint.friction.high
    least, most = (
        preloads_of_torque(size, joint.torque[0], low, high)[0],
        preloads_of_torque(size, joint.torque[1], low, high)[1],
    )
    share = highest_utilisation(size, strength, joint.torque[1], low)
    span = f"{show(figure(least, 'kN'))} to {show(figure(most, 'kN'))}"
    friction = f"friction {low:g} to {high:g}" if low < high else f"friction {low:g}"
    yield "Clamps", f"{span}, at most {share:.0%} of yield ({friction}; VDI 2230)".replace("%", "\u00a0%")


def _settings(fastener: Fastener, step: Step, naming: Naming) -> Iterator[tuple[str, str]]:
    """What is set on each wrench that the step names."""
    torque = fastener.torque
    aim = (torque.nominal or torque.high or torque.low) if torque is not None else None
    if aim is None:
        return
    for wrench in wrenches(naming.workshop):
        if wrench.id in step.tools:
            found = setting_on(wrench, float(aim.si), fastener.adapter)
            if found.covers:
                yield "Set", _setting_words(found)


def _setting_words(found: Setting) -> str:
    assert found.setting is not None
    accuracy = f"±{found.deviation:g}\u00a0%"
    text = f"{found.wrench.name}: {show(figure(found.setting, 'N·m'))}, accurate to {accuracy}"
    return f"{text}; corrected for the adapter" if found.is_corrected else text


def _order(fastener: Fastener) -> Iterator[tuple[str, str]]:
    """The order by numbers, for three bolts and more."""
    if fastener.order == "crosswise" and fastener.count > 2:
        numbers = ", ".join(str(one) for one in cross_order(fastener.count))
        yield "Order", f"crosswise, counted clockwise: {numbers}"
