/* Paper: every entry of a job in order of time, since a step that is done again shows only its last round on the page; and
 * neither the colours of a screen at night nor targets for gloves.
 */
globalThis.bayleafJobPaper = (() => {
  "use strict";

  const { make } = bayleafJobParts;
  const titleOf = (step) => document.querySelector(`#${CSS.escape(step.anchor)} .bl-step-title > span`)?.textContent ?? "";

  /* What was done, in words. */
  function words(entry) {
    const between = entry.between ? ` between ${entry.between.join(" and ")}` : "";
    const limits = entry.limits ? ` (${entry.limits})` : "";
    if (entry.paused) return `Work broken off: ${entry.paused}. Nothing counts as proved from here on.`;
    if (entry.exit) return `Opened “${entry.exit.replace("_", " ")}” although it was barred: ${entry.reason ?? "no reason given"}`;
    if (entry.reading !== undefined) return `${entry.reading}${between}${limits}: ${entry.verdict ?? "read"}`;
    if (entry.torque !== undefined) return `Tightened to ${entry.torque}`;
    if (entry.answer !== undefined) return entry.answer;
    if (entry.done === false) return "Taken back";
    return entry.done ? "Done" : "Noted";
  }

  function row(entry, desk) {
    const step = desk.way.byPath.get(entry.step);
    const place = step ? `Step ${step.number} ${titleOf(step)}` : `Step ${entry.step}`;
    const cells = [entry.at ?? "", place, words(entry)];
    return make("tr", "", {}, ...cells.map((text) => make("td", "", {}, text)));
  }

  /* Where the job ended, or that it has not. */
  function standing(desk) {
    if (desk.way.end) return desk.endWords(desk.way.end);
    return desk.way.place ? `Not at its end: step ${desk.way.place.number} comes next.` : "";
  }

  function build(desk) {
    const { job } = desk;
    return make(
      "section", "log", { "data-search-exclude": "" },
      make("h2", "", {}, `Job ${job.job}: what was entered, in order of time`),
      make("p", "log-end", {}, make("strong", "", {}, standing(desk))),
      make("table", "log-rows", {}, ...job.entries.map((entry) => row(entry, desk))),
    );
  }

  const OF_THE_SCREEN = ["jobScheme", "jobGloves"];

  /* All of it only while the page is printed. */
  if (typeof document !== "undefined") {
    const { dataset } = document.documentElement;
    let log = null;
    let kept = [];
    const putBack = () => {
      log?.remove();
      for (const [name, value] of kept) dataset[name] = value;
      log = null;
      kept = [];
    };
    addEventListener("beforeprint", () => {
      putBack();
      const desk = globalThis.bayleafJob?.desk;
      log = desk?.job?.entries.length ? build(desk) : null;
      if (log) desk.page.append(log);
      kept = OF_THE_SCREEN.filter((name) => name in dataset).map((name) => [name, dataset[name]]);
      for (const [name] of kept) delete dataset[name];
    });
    addEventListener("afterprint", putBack);
  }

  return { words };
})();
