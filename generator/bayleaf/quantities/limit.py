"""Limits: what they are, how they are read, how a reading is judged. The names other layers use."""

from .limit_map import Keyed, limit_from_map
from .limit_value import Limit
from .limit_words import parse_limit
from .verdict import Judgement, Verdict, judge, judge_overload

__all__ = ["Judgement", "Keyed", "Limit", "Verdict", "judge", "judge_overload", "limit_from_map", "parse_limit"]
