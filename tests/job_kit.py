"""What the tests share that work with a procedure's page: somebody who does one step after the other, and fixtures."""

from fractions import Fraction
from pathlib import Path
from typing import Any

from bayleaf.loading.load import load
from bayleaf.model.record import Record

ROOT = Path(__file__).resolve().parents[1]
PAGE = "larkway-m12/find-insulation-fault.html"
SHORT = "larkway-m12/isolate-traction.html"
PHONE = {"width": 390, "height": 844}
MOST_STEPS = 300


def opened(context: Any, address: str) -> Any:
    tab = context.new_page()
    tab.clock.install()
    tab.goto(address)
    return tab


def begin(tab: Any, job: str, variant: str | None = "series-2") -> None:
    """Begin a job by its number."""
    tab.get_by_label("Job number of the workshop").fill(job)
    if variant is not None:
        tab.get_by_label("Version of the vehicle").select_option(variant)
    tab.get_by_role("button", name="Begin the job").click()


def section(tab: Any, anchor: str) -> Any:
    return tab.locator(f'[id="{anchor}"]')


def place(tab: Any) -> dict[str, Any] | None:
    """The step that comes next, as the page knows it."""
    return tab.evaluate("bayleafJob.desk.way.place")


def enter(tab: Any, anchor: str, *readings: str) -> None:
    """Type readings and enter them."""
    for at, reading in enumerate(readings):
        field = section(tab, anchor).locator(".job-reading").nth(at)
        field.locator("input").fill(reading)
        field.get_by_role("button", name="Enter").click()


def tick(tab: Any, anchor: str) -> None:
    section(tab, anchor).get_by_role("button", name="Done").click()


def good(tab: Any, reading: dict[str, Any]) -> str:
    """A reading well within the limit, in the unit that stands beside the field."""
    unit = tab.evaluate("bayleafJob.desk.data.units")[reading["unit"]]
    ends = reading.get("limit") or {"low": "1", "high": "1"}
    low, high = (None if ends[one] is None else Fraction(ends[one]) for one in ("low", "high"))
    size = low * 4 if high is None else high / 8 if low is None else (low + high) / 2
    return f"{float((size - Fraction(unit['offset'])) / Fraction(unit['factor'])):.4g}"


def work(tab: Any, step: dict[str, Any], planned: str | None) -> None:
    """Do one step as somebody at the vehicle does; `planned` is another reading or answer than the usual one."""
    here = section(tab, step["anchor"])
    if "wait" in step:
        here.get_by_role("button", name="Start the wait").click()
        tab.clock.fast_forward(int(step["wait"]) * 1000 + 2000)
    if step["kind"] == "ask":
        answers = [one["name"] for one in step["exits"] if one["name"] != "exhausted"]
        here.get_by_role("button", name=planned or answers[0], exact=True).click()
    elif step["kind"] == "compute" and planned is None:
        here.get_by_role("button", name="computed from the readings").click()
        here.get_by_role("button", name="Enter").click()
    elif "readings" in step:
        kept = ((None if one.get("residual") else planned) or good(tab, one) for one in step["readings"])
        enter(tab, step["anchor"], *kept)
    elif step.get("torques"):
        for one in step["torques"]:
            here.locator(".job-torque").nth(step["torques"].index(one)).get_by_role("button").click()
    else:
        tick(tab, step["anchor"])


def tapped(tab: Any, plan: dict[str, list[str]], until: str | None = None) -> list[str]:
    """Work as `finish` does, with a tap for everything, until the end, or until a step comes next."""
    done: list[str] = []
    for _ in range(MOST_STEPS):
        step = place(tab)
        if step is None or step["path"] == until:
            return done
        ahead = plan.get(step["path"], [])
        work(tab, step, ahead.pop(0) if ahead else None)
        done.append(step["path"])
    raise AssertionError(f"no end after {done[-5:]}")


#: Does one step after the other in one go, with the buttons and fields of the page but without a finger, which takes a
#: browser longest. Ends where the job ends, at a step, or where time must pass, which it tells.
WORK = """([plan, until, most]) => {
  const desk = bayleafJob.desk;
  const size = (text) => text.split("/").map(Number).reduce((top, bottom) => top / bottom);
  const good = (reading) => {
    const unit = desk.data.units[reading.unit];
    const { low, high } = reading.limit ?? { low: "1", high: "1" };
    const chosen = high === null ? size(low) * 4 : low === null ? size(high) / 8 : (size(low) + size(high)) / 2;
    return String(Number(((chosen - size(unit.offset)) / size(unit.factor)).toPrecision(4)));
  };
  const press = (within, says) =>
    [...within.querySelectorAll("button")].find((one) => !one.closest("[hidden]") && says(one.textContent.trim())).click();
  const done = [];
  while (done.length < most) {
    const step = desk.way.place;
    if (!step || step.path === until) break;
    const here = document.getElementById(step.anchor);
    if ("wait" in step && !desk.job.waits[step.path]) {
      press(here, (text) => text.startsWith("Start the wait"));
      return { done, plan, wait: Number(step.wait) };
    }
    const planned = plan[step.path]?.shift();
    if (step.kind === "ask") {
      const answer = planned ?? step.exits.find((one) => one.name !== "exhausted").name;
      press(here, (text) => text === answer);
    } else if (step.kind === "compute" && planned === undefined) {
      press(here, (text) => text.includes("computed from the readings"));
      press(here, (text) => text === "Enter");
    } else if (step.readings) {
      step.readings.forEach((reading, at) => {
        const field = here.querySelectorAll(".job-reading")[at];
        const input = field.querySelector("input");
        input.value = (reading.residual ? undefined : planned) ?? good(reading);
        input.dispatchEvent(new Event("input", { bubbles: true }));
        press(field, (text) => text === "Enter");
      });
    } else if (step.torques?.length) {
      step.torques.forEach((_, at) => press(here.querySelectorAll(".job-torque")[at], () => true));
    } else press(here, (text) => text.endsWith("Done"));
    done.push(step.path);
  }
  return { done, plan, wait: 0 };
}"""


def finish(tab: Any, plan: dict[str, list[str]], until: str | None = None) -> list[str]:
    """Work until the end, or until a step comes next; gives the paths of the steps that were done."""
    done: list[str] = []
    wait = 1
    while wait:
        done_now, plan, wait = tab.evaluate(f"(all) => Object.values(({WORK})(all))", [plan, until, MOST_STEPS])
        done += done_now
        tab.clock.fast_forward(wait * 1000 + 2000)
    assert len(done) < MOST_STEPS
    return done


def exported(tab: Any) -> str:
    """The text of the file that is kept of the job."""
    with tab.expect_download() as waiting:
        tab.get_by_role("button", name="Keep the record file").click()
    download = waiting.value
    job = tab.evaluate("bayleafJob.desk.job.job")
    assert f"{job}.yml" == download.suggested_filename
    return Path(download.path()).read_text(encoding="utf-8")


def loaded(text: str) -> Record:
    """The record as the checker reads it, without a fault of form."""
    found = load("records/2026-0421.yml", text.encode(), "record")
    assert [] == [one.message for one in found.findings]
    return found.model


def lost(tab: Any) -> str:
    return " ".join(tab.locator(".job-panel .job-lost-note").all_inner_texts())
