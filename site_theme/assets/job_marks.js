/* What a job changes on the page itself: the mark on a gauge, circuits that are not proved any more, exits that are barred. */
globalThis.bayleafJobMarks = (() => {
  "use strict";

  const { make, button, askFor, clock } = bayleafJobParts;
  const { fraction, minus, size, isBelow } = bayleafExact;
  /* Minutes before the end of a proof from which on the page asks for a new one. */
  const SOON = 10;
  const SVG = "http://www.w3.org/2000/svg";

  // ---- gauges ----------------------------------------------------------------------------------------

  /* The zone of a gauge that a reading falls in: its rectangle, or null. The gauge is no scale: the verdict decides. */
  function zoneOf(gauge, found, limit) {
    const zones = (look) => [...gauge.querySelectorAll(`.bl-map-zone-${look} > rect`)];
    if (!found || !limit || found.exit === null) return null;
    if (found.exit === "within") return zones("good")[0];
    const isLow = found.side ? found.side === "below" : isNearLow(found.value, limit);
    const all = zones(found.side ? "bad" : "close");
    const good = zones("good")[0];
    const left = (one) => Number(one.getAttribute("x"));
    return all.find((one) => left(one) < left(good) === isLow) ?? null;
  }

  function isNearLow(value, limit) {
    if (limit.low === null || limit.high === null) return limit.high === null;
    const away = (end) => size(minus(value, fraction(end)));
    return isBelow(away(limit.low), away(limit.high));
  }

  /* Puts the mark of one reading on the gauge of its step, or takes it away. */
  function gauge(section, at, count, found, limit) {
    const drawing = section.querySelector(".bl-gauge svg");
    if (!drawing) return;
    drawing.querySelector(`[data-mark="${at}"]`)?.remove();
    const zone = zoneOf(drawing, found, limit);
    if (!zone) return;
    const [x, y, width] = ["x", "y", "width"].map((name) => Number(zone.getAttribute(name)));
    const middle = x + width / 2 + (at - (count - 1) / 2) * 12;
    const mark = document.createElementNS(SVG, "path");
    mark.setAttribute("class", "job-mark");
    mark.setAttribute("data-mark", at);
    mark.setAttribute("d", `M${middle - 8} ${y - 7}h16l-8 15z`);
    drawing.append(mark);
  }

  // ---- proofs ----------------------------------------------------------------------------------------

  const names = (circuits, data) => circuits.map((one) => data.circuits[one]).join(", ");

  /* Links to the steps that prove circuits: for each the last before a step and the next from there on. */
  function provers(circuits, from, desk) {
    const { steps } = desk.data;
    const here = from ? steps.indexOf(from) : steps.length;
    const near = circuits.flatMap((circuit) => {
      const all = steps.filter((step) => step.proves === circuit && desk.way.fits(step));
      return [all.filter((step) => steps.indexOf(step) < here).at(-1), all.find((step) => steps.indexOf(step) >= here)];
    });
    return [...new Set(near.filter(Boolean))].map((step) => make("a", "link", { href: `#${step.anchor}` }, `step ${step.number}`));
  }

  function lostWords(circuits, from, desk) {
    const links = provers(circuits, from, desk);
    const old = circuits.filter((one) => desk.way.aged.has(one)).map((one) => `${names([one], desk.data)}: the proof of ${clock(desk.way.aged.get(one))} is too old. `);
    const parts = [...old, `Not proved: ${names(circuits, desk.data)}. `];
    if (links.length) parts.push("Touch nothing of it until it is proved again: ", ...links.flatMap((one, at) => (at ? [" or ", one] : [one])), ".");
    else parts.push("Touch nothing of it until it is proved dead again by the procedure that isolates it.");
    return parts;
  }

  /* Writes for each of these circuits how old its proof is, and plainly when it is nearly too old. */
  function ages(place, circuits, desk) {
    const now = bayleafJobStore.now();
    const told = desk.way.ages.told(now).filter((one) => circuits.includes(one.circuit));
    const rows = told.map(({ circuit, since, age, until, left }) => {
      const name = names([circuit], desk.data);
      if (left > SOON) return make("p", "age", {}, `${name}: proved dead at ${since}. Holds until ${until}.`, make("span", "age-now", {}, ` That was ${age} min ago.`));
      return make("p", "age soon", {}, make("strong", "", {}, `! ${name}: the proof of ${since} is too old in ${left} min, at ${until}.`), " Prove it dead again before that.");
    });
    if (place.textContent !== rows.map((one) => one.textContent).join("")) place.replaceChildren(...rows);
  }

  /* At a step that shows circuits as proved dead: which of them are not. */
  function proofs(step, section, note, desk) {
    const lost = (step.dead ?? []).filter((one) => desk.way.lost.has(one));
    for (const item of section.querySelectorAll(":scope > .bl-states:not(.bl-change) > li")) {
      const dead = item.querySelector(".bl-dead");
      if (!dead) continue;
      const isLost = lost.some((one) => item.textContent.includes(desk.data.circuits[one]));
      dead.hidden = isLost;
      if (!isLost) item.querySelector(".job-lost")?.remove();
      else if (!item.querySelector(".job-lost")) item.append(make("strong", "lost", {}, "✕ not proved"));
    }
    note.hidden = !lost.length;
    note.replaceChildren(...(lost.length ? lostWords(lost, step, desk) : []));
  }

  // ---- exits -----------------------------------------------------------------------------------------

  const rows = (section) => [...section.querySelectorAll(":scope > .bl-exits > li")];

  /* What is typed in a field and not entered; a sign alone is nothing yet. */
  const typed = (input) => input.value.trim().replace(/^[-−–+]$/, "");
  const isTyped = (section) => [...section.querySelectorAll(":scope > .job-do .job-reading .job-figure")].some(typed);

  /* Whether a step is decided as the page shows it: its entries decide, no new figure is in hand, a computed value fits. */
  const isDecided = (step, desk) => desk.way.state(step).complete && !isTyped(document.getElementById(step.anchor)) && !bayleafJobComputed.isStale(step, desk);

  /* Marks the exit that was decided; before that `would`, which the figure in hand takes where it alone decides. */
  function follows(step, section, would, desk) {
    const state = desk.way.state(step);
    const decided = isDecided(step, desk);
    section.classList.toggle("job-undecided", state.complete && !decided);
    if (decided) return exits(step, section, state.exit, desk);
    const alone = !state.complete && step.readings.length === 1 ? would : null;
    return exits(step, section, step.kind === "prove_dead" ? { within: "dead", above: "not_dead" }[alone] ?? alone : alone, desk);
  }

  /* Shows which exit follows, and bars the others; `exit` is null while nothing is decided. */
  function exits(step, section, exit, desk) {
    const isOpened = Boolean(exit && desk.way.state(step).entry?.exit);
    rows(section).forEach((row, at) => {
      const one = step.exits[at];
      if (!one) return;
      const follows = one.name === exit;
      row.classList.toggle("job-follows", follows && !isOpened);
      row.classList.toggle("job-opened", follows && isOpened);
      row.classList.toggle("job-barred", !follows);
      let word = row.querySelector(".job-bar-word");
      if (!word) {
        word = make("span", "bar-word");
        row.append(word, button("Open all the same", () => open(step, one, row, desk), "small open"));
      }
      word.textContent = !follows ? "✕ barred" : isOpened ? "opened with a reason, not measured" : "➜ this way";
      row.querySelector(".job-open").hidden = follows;
    });
  }

  function open(step, exit, row, desk) {
    if (row.querySelector(".job-form")) return;
    const draft = `${step.path}|exit|${exit.name}`;
    const form = askFor({
      words: "Reason",
      help: "The reading does not lead here. From here on nothing counts as proved. Write why you go this way.",
      yes: "Open this exit",
      no: "Leave it barred",
      before: desk.job.drafts[draft],
      keep: (text) => desk.draft(draft, text),
      done: (reason) => {
        form.remove();
        desk.draft(draft, null);
        desk.act({ step: step.path, at: bayleafJobStore.now(), exit: exit.name, reason });
      },
      left: () => form.remove(),
    });
    row.append(form);
  }

  /* A link in a barred exit does not lead there: it asks for the reason. */
  function guard(step, section, desk) {
    rows(section).forEach((row, at) => {
      row.addEventListener("click", (event) => {
        if (!desk.job || !row.classList.contains("job-barred") || !event.target.closest("a") || !step.exits[at]) return;
        event.preventDefault();
        open(step, step.exits[at], row, desk);
      });
    });
  }

  /* Takes all of it off the page again. */
  function clear(section) {
    for (const one of section.querySelectorAll(".job-mark, .job-lost, .job-bar-word, .job-open, .bl-exits .job-form")) one.remove();
    for (const one of section.querySelectorAll(".bl-dead[hidden]")) one.hidden = false;
    for (const row of rows(section)) row.classList.remove("job-follows", "job-opened", "job-barred");
    section.classList.remove("job-undecided");
  }

  return { gauge, ages, proofs, follows, typed, isTyped, isDecided, guard, clear, lostWords };
})();
