"""A temperature sensor of a part, from plain data to the model."""

from typing import Any

from ..diagnostics.place import Path
from ..model.vehicle import Sensor
from .reader import Reader


def read_sensor(reader: Reader, data: Any, at: Path) -> Sensor | None:
    """The sensor; None where none is written, or its kind cannot be read."""
    if not isinstance(data, dict) or data.get("kind") is None:
        return None
    points = []
    for index, value in enumerate(data.get("points") or ()):
        if isinstance(value, dict):
            path = (*at, "points", index)
            warm, ohms = (
                reader.quantity(value, "at", path, "temperature"),
                reader.quantity(value, "is", path, "resistance"),
            )
            if warm is not None and ohms is not None:
                points.append((warm, ohms))
    return Sensor(
        at=at,
        kind=data["kind"],
        accuracy_class=data.get("class"),
        at_25=reader.quantity(data, "at_25", at, "resistance"),
        beta=reader.quantity(data, "beta", at, "temperature difference"),
        points=tuple(points),
        tolerance=reader.quantity(data, "tolerance", at, "ratio"),
    )
