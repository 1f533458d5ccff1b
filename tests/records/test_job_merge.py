"""Two windows with the same job: what each has changed is in it for both, in whatever order the news of it comes."""

import json
from collections.abc import Callable
from typing import Any

import pytest
from js_kit import asset

Node = Callable[[str], Any]

TICK = {"step": "a", "at": "2026-11-29 08:00", "done": True}
BACK = {"step": "a", "at": "2026-11-29 08:00", "done": False}
LATER = {"step": "b", "at": "2026-11-29 08:05", "done": True}
PROVED = {"step": "c", "at": "2026-11-29 08:10", "reading": "0.4 V", "verdict": "dead"}


def job(*entries: dict[str, Any], losses: tuple[int, ...] = (), **more: Any) -> dict[str, Any]:
    return {"job": "1", "entries": list(entries), "losses": list(losses), "waits": {}, "drafts": {}, **more}


def merged(node: Node, base: Any, mine: Any, theirs: Any) -> dict[str, Any]:
    """The three put together, without their stamps."""
    given = ", ".join(json.dumps(one, ensure_ascii=False) for one in (base, mine, theirs))
    found: dict[str, Any] = node(f"{asset('job_merge.js')}\nanswer = bayleafJobMerge.merge({given});")
    return found


#: What both knew, what each of them has made of it, what it is together.
CASES = [
    (job(), job(TICK), job(), job(TICK)),
    (job(), job(), job(TICK), job(TICK)),
    (job(), job(TICK), job(LATER), job(TICK, LATER)),
    (job(TICK), job(TICK, BACK, TICK), job(TICK, LATER), job(TICK, BACK, TICK, LATER)),
    (job(TICK), job(TICK, LATER), job(TICK, LATER), job(TICK, LATER)),  # it is one act, told twice
    (job(PROVED), job(PROVED), job(PROVED, losses=(1,)), job(PROVED, losses=(1,))),  # opened anew there: not proved here
    (job(PROVED), job(PROVED, LATER), job(PROVED, losses=(1,)), job(PROVED, LATER, losses=(1,))),
    (job(), job(remarks="damp"), job(odometer="7 km"), job(odometer="7 km", remarks="damp")),
    (job(remarks="damp"), job(), job(remarks="damp", minutes=5), job(minutes=5)),  # taken out here
    (job(waits={"a": 1}), job(waits={}), job(waits={"a": 1, "b": 2}), job(waits={"b": 2})),
    (job(), job(drafts={"a|0": {"text": "3"}}), job(drafts={"b|0": "x"}), job(drafts={"a|0": {"text": "3"}, "b|0": "x"})),
    (job(fitted=[{"part": "p"}]), job(fitted=[{"part": "p"}, {"part": "q"}]), job(fitted=[{"part": "p"}, {"part": "r"}]),
     job(fitted=[{"part": "p"}, {"part": "q"}, {"part": "r"}])),
]  # fmt: skip


def alike(one: dict[str, Any]) -> dict[str, Any]:
    """Parts fitted at the same moment stand in no order."""
    return {**one, "fitted": sorted(map(json.dumps, one["fitted"]))} if "fitted" in one else one


@pytest.mark.parametrize(("base", "mine", "theirs", "together"), CASES)
def test_nothing_that_either_window_did_is_lost(node: Node, base: Any, mine: Any, theirs: Any, together: Any) -> None:
    """From both sides."""
    assert alike(together) == alike(merged(node, base, mine, theirs))
    assert alike(together) == alike(merged(node, base, theirs, mine))


WINDOWS = """
const store = new Map(), pages = [];
class Page {
  constructor(job) { this.job = JSON.parse(JSON.stringify(job)); this.known = new bayleafJobMerge.Known(this.job); this.news = []; }
  act(make) { make(this.job); this.write(); }
  write() {
    const { stamp } = this.job;
    Object.assign(this.job, { before: stamp ?? null, stamp: `${(parseInt(stamp) || 0) + 1}-${pages.indexOf(this)}` });
    this.known.add(this.job);
    for (const one of pages) if (one !== this) one.news.push(JSON.stringify(this.job));
  }
  hear() {
    const other = JSON.parse(this.news.shift());
    if (this.known.has(other)) return;
    this.job = this.known.merge(this.job, other);
    this.known.add(other);
    if (!bayleafJobMerge.isSame(this.job, other)) this.write();
  }
}
pages.push(new Page(BEGUN), new Page(BEGUN));
"""


@pytest.mark.parametrize("acts", [(1, 1), (2, 1), (1, 3), (4, 4)])
@pytest.mark.parametrize("first", [0, 1])
def test_windows_that_act_at_the_same_moment_come_to_the_same_job(
    node: Node, acts: tuple[int, int], first: int
) -> None:
    """Neither has heard of the other yet; then the news come, and no endless talk follows."""
    begun = json.dumps(job(TICK))
    heard = node(
        f"""{asset("job_merge.js")}
        const BEGUN = {begun};
        {WINDOWS}
        {list(acts)}.forEach((count, at) => {{
          for (let one = 0; one < count; one += 1) pages[at].act((job) => job.entries.push({{ step: `${{at}}${{one}}`, at: "2026-11-29 09:00" }}));
        }});
        let count = 0;
        while (pages.some((one) => one.news.length) && count < 200) {{
          const [one, other] = [pages[{first}], pages[1 - {first}]];
          (one.news.length ? one : other).hear();
          count += 1;
        }}
        answer = [count, ...pages.map((one) => one.job.entries.map((each) => each.step))];
        """
    )
    count, here, there = heard

    assert count < 100
    assert here == there
    assert ["0" + str(one) for one in range(acts[0])] == [one for one in here if one[0] == "0"]
    assert ["1" + str(one) for one in range(acts[1])] == [one for one in here if one[0] == "1"]
    assert "a" == here[0]
