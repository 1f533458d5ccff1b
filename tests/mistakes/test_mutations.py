"""Random slips in the procedures of the demo: nothing raises, one slip is told once, hardly any is passed over.

The numbers are bounds, not goals: slips in free text and lines that may be left out cannot be seen by anybody.
"""

import shutil
from collections import Counter
from pathlib import Path
from random import Random

from bayleaf.manual import ManualKeeper
from bayleaf.manual_files import File
from demo_kit import DAY, ROOT
from kit import unwaived
from mistakes.mutations import KINDS, mutated
from thinned import some

#: Slips of each kind in each procedure.
TIMES = 1
#: Kinds of slips that leave something behind that is no text of the author's.
NEVER_PASSED_OVER = ("drop_colon", "mistype_key")


def counted(folder: Path) -> dict[str, Counter[int]]:
    """How many findings of form and practice there were, by the kind of slip; safety has its own tests.

    The file on the disk stays right: the one with the slip is judged in its place.
    """
    found: dict[str, Counter[int]] = {kind.__name__: Counter() for kind in KINDS}
    keeper = ManualKeeper(folder)
    for procedure in some([*keeper.manual(DAY).procedures.values()], 3):
        right = (folder / procedure.file).read_text(encoding="utf-8")
        random = Random(procedure.id)
        for kind in KINDS * TIMES:
            slip = {File(procedure.file, "procedure"): mutated(right, kind, random).encode()}
            findings = keeper.manual(DAY, drafts=slip).findings
            found[kind.__name__][sum(one.kind in ("form", "practice") for one in unwaived(findings))] += 1
    return found


def test_one_slip_is_told_once_and_few_are_passed_over(tmp_path: Path) -> None:
    """At least 98 of 100 slips give one finding or none, none gives more than three, and two of three give one."""
    shutil.copytree(ROOT / "procedures", tmp_path / "procedures")
    counts = counted(tmp_path)
    total = sum(counts.values(), Counter())

    assert sum(total.values()) >= 150
    assert (total[0] + total[1]) / sum(total.values()) >= 0.98
    assert max(total) <= 3
    assert total[0] / sum(total.values()) <= 0.33
    assert [kind for kind in NEVER_PASSED_OVER if counts[kind][0]] == []
