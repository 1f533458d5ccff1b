"""Figure and unit are not parted at the end of a line."""

import re
from pathlib import Path

import pytest
from bayleaf.pages.kept_together import kept_together
from bayleaf.site.search_text import normal
from demo_kit import demo_shell

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("Tighten to 20 Nm.", "Tighten to 20_Nm."),
        ("20 N·m, 3.5 mΩ and 4,7 kΩ", "20_N·m, 3.5_mΩ and 4,7_kΩ"),
        ("<p>at 12 V</p><p>40 % and 5 min</p>", "<p>at 12_V</p><p>40_% and 5_min</p>"),
        ("84 210 km", "84_210_km"),
        ("20 Newton", "20 Newton"),  # no unit of the table
        ("the 2 screws", "the 2 screws"),
        ("steps 3 and 4", "steps 3 and 4"),
        ("<code>at most 5 V</code> or 5 V", "<code>at most 5 V</code> or 5_V"),  # copied into a file
        ('<svg viewBox="0 0 340 195"><text>5 V</text></svg>', '<svg viewBox="0 0 340 195"><text>5_V</text></svg>'),
        ('<script>{"text":"5 V"}</script>', '<script>{"text":"5 V"}</script>'),  # compared with a record
    ],
)
def test_a_number_stays_with_its_unit(written: str, shown: str) -> None:
    """In text, not in what is copied, read by a script, or written for the browser: a drawing has its frame."""
    assert shown == kept_together(written).replace("\u00a0", "_")


def test_the_search_finds_it_typed_with_a_space() -> None:
    """Both are one text for the search."""
    assert normal("20 Nm") == normal(kept_together("20 N·m"))


def test_no_page_of_the_demo_parts_them() -> None:
    """Free text of steps, free pages, tables and drawings alike; the title in the bar never breaks."""
    shell = demo_shell()
    parted = []
    for url in shell.urls:
        text = re.sub(r"<(script|style|pre|code|header|title)\b.*?</\1>", "", shell.page_html(url), flags=re.S)
        frames = re.findall(r'viewBox="([^"]*)"', text)
        parted += [(url, one) for one in frames if not re.fullmatch(r"[0-9. -]+", one)]
        text = re.sub(r"<[^>]*>", "<>", text)
        found = re.findall(
            r"[^<>]{,20}[0-9] (?:V|A|Ω|kΩ|MΩ|mΩ|N·m|Nm|mm|km|kg|bar|kW|min|s|h|%|°C)(?!\w)[^<>]{,9}", text
        )
        parted += [(url, one) for one in found]

    assert [] == parted
