"""Quantities: a closed table of units, exact values, limits, verdicts, and how they are shown."""

from .display import aliases, dual, other_system, show, show_limit
from .interval import Interval
from .limit import Judgement, Keyed, Limit, Verdict, judge, judge_overload, limit_from_map, parse_limit
from .patterns import schema_pattern
from .problem import Problem
from .quantity import Exact, Quantity, parse_count, parse_quantity
from .refused_units import find_unit
from .units import QUANTITIES, TRADE_NAMES, UNITS, Unit, base_quantity, unit

__all__ = [
    "QUANTITIES",
    "TRADE_NAMES",
    "UNITS",
    "Exact",
    "Interval",
    "Judgement",
    "Keyed",
    "Limit",
    "Problem",
    "Quantity",
    "Unit",
    "Verdict",
    "aliases",
    "base_quantity",
    "dual",
    "find_unit",
    "judge",
    "judge_overload",
    "limit_from_map",
    "other_system",
    "parse_count",
    "parse_limit",
    "parse_quantity",
    "schema_pattern",
    "show",
    "show_limit",
    "unit",
]
