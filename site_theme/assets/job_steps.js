/* The controls at a step: tick, wait, readings, torques, answers; and where the work goes on. */
globalThis.bayleafJobSteps = (() => {
  "use strict";

  const { make, button, askFor, clock } = bayleafJobParts;
  const { now } = bayleafJobStore;

  const isTicked = (step) => !step.first && !step.readings && step.kind !== "ask" && !step.torques?.length && !step.pause;

  /* Milliseconds in which a second tap is taken for one with the first: a glove bounces, and would take back what it did. */
  const BOUNCE = 700;

  /* A press that acts, and not again at once where all stands as the last one has left it; `stands` tells how it does. */
  function once(desk, stands, act) {
    let last = null;
    return () => {
      const isBounce = last && performance.now() - last.at < BOUNCE && stands() === last.stands && desk.way.place === last.place;
      if (isBounce) return;
      act();
      last = { at: performance.now(), stands: stands(), place: desk.way.place };
    };
  }

  // ---- a tick ----------------------------------------------------------------------------------------

  function tick(step, desk, isBarred) {
    const isDone = () => desk.way.state(step).complete;
    const made = button("", once(desk, isDone, press), "tick");
    const reason = make("div", "");

    function press() {
      if (!isDone() && isBarred()) return early();
      return desk.act({ step: step.path, at: now(), done: !isDone() });
    }

    function early() {
      const draft = `${step.path}|early`;
      const form = askFor({
        words: "Reason",
        help: "The time is not over. From here on nothing counts as proved. Write why you go on.",
        yes: "Go on before the time",
        no: "Keep waiting",
        before: desk.job.drafts[draft],
        keep: (text) => desk.draft(draft, text),
        done: (text) => {
          reason.replaceChildren();
          desk.draft(draft, null);
          desk.act({ step: step.path, at: now(), exit: step.exits[0].name, reason: text });
        },
        left: () => reason.replaceChildren(),
      });
      reason.replaceChildren(form);
    }

    function refresh() {
      const { complete, entry } = desk.way.state(step);
      const isOpened = Boolean(complete && entry?.exit);
      const words = isOpened ? `Gone on before the time, at ${clock(entry.at)}` : complete ? `Done at ${clock(entry?.at)}` : "Done";
      made.setAttribute("aria-pressed", String(complete));
      made.replaceChildren(make("span", "box", { "aria-hidden": "true" }, complete && !isOpened ? "✓" : ""), make("span", "", {}, words));
    }

    return { node: make("div", "", {}, made, reason), refresh };
  }

  // ---- a wait ----------------------------------------------------------------------------------------

  const shown = (seconds) => {
    const two = (one) => String(one).padStart(2, "0");
    const [hours, minutes, rest] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
    return hours ? `${hours}:${two(minutes)}:${two(rest)}` : `${minutes}:${two(rest)}`;
  };

  /* Counts from the time at which it was started, so that a reload or a flat battery takes nothing away. */
  function wait(step, desk) {
    const seconds = bayleafReading.number(bayleafExact.fraction(step.wait));
    const time = make("p", "clock", { role: "timer" });
    const begin = button(`Start the wait of ${shown(seconds)}`, start, "main");

    /* Seconds that are left; null before the start, and where the clock of the device was put back. */
    function left() {
      const started = desk.job.waits[step.path];
      if (!started || Date.now() < started) return null;
      return Math.max(0, Math.ceil(seconds - (Date.now() - started) / 1000));
    }

    function start() {
      desk.change((job) => {
        job.waits[step.path] = Date.now();
      });
      desk.wake();
      refresh();
    }

    function refresh() {
      const rest = left();
      const done = desk.way.state(step).complete;
      begin.hidden = rest !== null || done;
      time.hidden = rest === null || done;
      time.textContent = rest ? `${shown(rest)} left` : "The time is over";
      time.classList.toggle("job-over", rest === 0);
    }

    return { node: make("div", "wait", {}, begin, time), refresh, isRunning: () => Boolean(left()), isBarred: () => left() !== 0 };
  }

  // ---- torques, answers, pauses -----------------------------------------------------------------------

  /* A tap on one that is entered takes the step back, as at a tick. A record has no word for one fastener of several: it
   * says of the step that it is not done, and all its torques are confirmed anew.
   */
  function torques(step, desk) {
    const isOn = (at) => Boolean(desk.way.state(step).torques[at]);
    const press = (one, at) => () => desk.act({ step: step.path, at: now(), ...(isOn(at) ? { done: false } : { torque: one.torque }) });
    const buttons = step.torques.map((one, at) => button("", once(desk, () => isOn(at), press(one, at)), "tick"));
    const rows = step.torques.map((one, at) => make("div", "torque", {}, ...one.set.map((words) => make("p", "set", {}, words)), buttons[at]));
    return {
      node: make("div", "", {}, ...rows),
      refresh: () =>
        buttons.forEach((one, at) => {
          const entry = desk.way.state(step).torques[at];
          one.setAttribute("aria-pressed", String(Boolean(entry)));
          const words = `${step.torques[at].name}: tightened to ${step.torques[at].shown}`;
          one.replaceChildren(make("span", "box", { "aria-hidden": "true" }, entry ? "✓" : ""), make("span", "", {}, entry ? `${words}, at ${clock(entry.at)}` : words));
        }),
    };
  }

  function answers(step, desk) {
    const given = step.exits.filter((one) => one.name !== "exhausted");
    const isGiven = (one) => desk.way.state(step).complete && desk.way.state(step).exit === one.name;
    const press = (one) => () => isGiven(one) || desk.act({ step: step.path, at: now(), answer: one.name });
    const buttons = given.map((one) => button("", press(one), "tick"));
    return {
      node: make("div", "answers", { role: "group", "aria-label": "Answer" }, ...buttons),
      refresh: () =>
        buttons.forEach((one, at) => {
          const chosen = isGiven(given[at]);
          one.setAttribute("aria-pressed", String(chosen));
          one.replaceChildren(make("span", "box", { "aria-hidden": "true" }, chosen ? "✓" : ""), make("span", "", {}, given[at].name));
        }),
    };
  }

  function pause(step, desk) {
    const words = { break: "Break begun", "hand-over": "Handed over", "vehicle left": "Vehicle left" }[step.pause] ?? "Paused";
    const isBegun = () => desk.way.state(step).complete;
    const made = button(words, once(desk, isBegun, () => desk.act({ step: step.path, at: now(), paused: step.pause })), "main");
    return { node: made, refresh: () => made.setAttribute("aria-pressed", String(isBegun())) };
  }

  // ---- a step ----------------------------------------------------------------------------------------

  /* {refresh, ages, restore, remove, isWaiting} of the controls of a step, which are put at its end. */
  function build(step, desk) {
    const section = document.getElementById(step.anchor);
    const parts = [];
    const waits = step.wait && wait(step, desk);
    if (waits) parts.push(waits);
    if (isTicked(step)) parts.push(tick(step, desk, () => (waits ? waits.isBarred() : false)));
    if (step.readings) parts.push(...step.readings.map((_, at) => bayleafJobReadings.build(step, at, desk)));
    if (step.torques?.length) parts.push(torques(step, desk));
    if (step.kind === "ask") parts.push(answers(step, desk));
    if (step.pause) parts.push(pause(step, desk));
    const note = make("p", "lost-note", { role: "status", hidden: "" });
    const proofs = make("div", "ages");
    const taken = make("p", "taken");
    const next = make("p", "next");
    const all = make("div", "do", { "data-search-exclude": "" }, ...parts.map((one) => one.node), taken, next);
    section.querySelector(":scope > .bl-step-title").after(note, proofs);
    section.insertBefore(all, section.querySelector(":scope > .bl-exits")); // a reading stands before what follows it

    /* Only where the work is: how old the proofs are on which it relies. */
    const ages = () => bayleafJobMarks.ages(proofs, desk.way.place === step ? (step.dead ?? []) : [], desk);

    function refresh() {
      const state = desk.way.state(step);
      section.classList.toggle("job-here", desk.way.place === step);
      section.classList.toggle("job-complete", state.complete && !bayleafJobComputed.isStale(step, desk));
      section.classList.toggle("job-other", !desk.way.fits(step));
      for (const one of parts) one.refresh();
      taken.textContent = state.barred ? `Gone on by “${state.barred.exit.replace("_", " ")}” at ${clock(state.barred.at)}: ${state.barred.reason ?? ""}` : "";
      next.replaceChildren(...(desk.lastStep === step ? [desk.onward()] : []));
      bayleafJobMarks.proofs(step, section, note, desk);
      ages();
    }

    function remove() {
      all.remove();
      note.remove();
      proofs.remove();
      section.classList.remove("job-here", "job-complete", "job-other");
      bayleafJobMarks.clear(section);
    }

    return {
      step,
      section,
      refresh,
      remove,
      ages,
      restore: () => parts.forEach((one) => one.restore?.()),
      second: () => waits && waits.refresh(),
      isWaiting: () => Boolean(waits && waits.isRunning() && !desk.way.state(step).complete),
    };
  }

  return { build };
})();
