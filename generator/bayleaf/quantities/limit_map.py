"""Limits as a map of their parts: `at_least`, `at_most`, `nominal`, `tolerance`."""

from functools import lru_cache
from typing import NamedTuple

from .limit_value import Limit, checked
from .limit_words import parse_limit, unreadable, value_in
from .numbers import invisible
from .problem import Problem
from .quantity import Expected, Quantity, whole
from .units import BLANKS


class Keyed(NamedTuple):
    """A problem of one part of a limit written as a map, and the key of that part."""

    key: str
    problem: Problem


@lru_cache(maxsize=1 << 12)
def limit_from_map(
    at_least: str | None = None,
    at_most: str | None = None,
    nominal: str | None = None,
    tolerance: str | None = None,
    expected: Expected = None,
) -> Limit | tuple[Keyed, ...]:
    """The limit given by its parts, or every faulty part with its key."""
    parts = {"at_least": at_least, "at_most": at_most, "nominal": nominal}
    values: dict[str, Quantity] = {}
    problems: list[Keyed] = []
    for key, text in parts.items():
        if text is None:
            continue
        found = _part(text, expected or _same(values))
        if isinstance(found, Problem):
            problems.append(Keyed(key, found))
        else:
            values[key] = found
    if not problems and (fault := _incomplete(at_least, at_most, nominal, tolerance)):
        problems.append(fault)
    if problems:
        return tuple(problems)
    limit = Limit(values.get("at_least"), values.get("at_most"), values.get("nominal"), None, "map")
    return _with_tolerance(limit, tolerance) if tolerance is not None else _checked_map(limit, parts)


def _part(text: str, expected: Expected) -> Quantity | Problem:
    """The value of one key."""
    if (problem := invisible(text)) is not None:
        return problem
    return value_in(text, *whole(text), expected)


def _same(values: dict[str, Quantity]) -> Expected:
    """The quantity of the parts read so far: all must measure the same."""
    return next((value.quantity for value in values.values()), None)


def _incomplete(at_least: str | None, at_most: str | None, nominal: str | None, tolerance: str | None) -> Keyed | None:
    """What is missing or said twice."""
    if tolerance is not None and nominal is None:
        return _keyed("tolerance", tolerance, "has no nominal value beside it", "write `nominal:` too")
    if tolerance is not None and (at_least is not None or at_most is not None):
        mend = "write either the tolerance or `at_least:` and `at_most:`"
        return _keyed("tolerance", tolerance, "says again what `at_least` and `at_most` say", mend)
    if at_least is None and at_most is None and nominal is None:
        mend = "write `at_least:`, `at_most:`, or `nominal:` with `tolerance:`"
        return Keyed("at_least", Problem("limit-unreadable", "there is no limit here", 0, 0, None, mend))
    if at_least is None and at_most is None and tolerance is None:
        mend = "write `tolerance:`, `at_least:` or `at_most:` too"
        return _keyed("nominal", str(nominal), "alone sets no limit", mend)
    return None


def _keyed(key: str, text: str, fault: str, mend: str) -> Keyed:
    return Keyed(key, unreadable(text, 0, len(text), mend, fault))


def _checked_map(limit: Limit, parts: dict[str, str | None]) -> Limit | tuple[Keyed, ...]:
    """The limit, or the key whose value makes it reversed or impossible."""
    found = checked(limit, str(limit))
    if isinstance(found, Limit):
        return found
    for key, value in (("at_least", limit.low), ("at_most", limit.high)):
        text = parts[key]
        if value is not None and text is not None:
            alone = checked(Limit(low=value), text)
            if isinstance(alone, Problem):
                return (Keyed(key, alone),)
    key = "at_most" if found.rule == "limit-reversed" else "nominal"
    text = parts[key] or ""
    return (Keyed(key, Problem(found.rule, found.message, 0, len(text), found.because, _map_mend(found, limit))),)


def _map_mend(found: Problem, limit: Limit) -> str | None:
    if found.rule != "limit-reversed":
        return None
    return f"write `at_least: {limit.high}` and `at_most: {limit.low}`"


def _with_tolerance(limit: Limit, tolerance: str) -> Limit | tuple[Keyed, ...]:
    """The limit of a nominal value and its tolerance: `5 %`, `± 5 %`, `3 Ω`, `+1 V −3 V`."""
    nominal = limit.nominal
    assert nominal is not None
    lead = f"{nominal} "
    has_sign = tolerance.strip(BLANKS + "\r\n")[:1] in tuple("+-−–±")
    text = lead + ("" if has_sign else "± ") + tolerance
    shift = len(text) - len(tolerance)
    found = parse_limit(text, nominal.quantity)
    if isinstance(found, Limit):
        return Limit(found.low, found.high, nominal, found.tolerance, "map")
    start = min(max(found.start - shift, 0), len(tolerance))
    end = max(min(found.end - shift, len(tolerance)), start)
    if start == end:
        start, end = 0, len(tolerance)
    return (Keyed("tolerance", Problem(found.rule, found.message, start, end, found.because, found.help)),)
