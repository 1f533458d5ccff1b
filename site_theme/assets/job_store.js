/* Where jobs are kept: in this browser, each under manual, procedure and job, since from a folder (file://) all manuals
 * share one store. The key does not hold the revision; the value does. What was typed is kept with every key pressed.
 */
globalThis.bayleafJobStore = (() => {
  "use strict";

  const HEAD = "bayleaf-job";
  const JOB = /^[a-z0-9][a-z0-9-]*$/;
  /* Of a vehicle identification number, ISO 3779: 17 of these, letters and digits. */
  const VIN = /^(?=.*[A-Z])(?=.*[0-9])[A-HJ-NPR-Z0-9]{17}$/;
  const WINDOW = Math.random().toString(36).slice(2, 10);

  const key = (data, job) => [HEAD, data.manual, data.procedure, job].map(encodeURIComponent).join(":");
  const viewKey = (data) => [`${HEAD}-view`, data.manual].map(encodeURIComponent).join(":");

  /* A job number as it may name a file: {job} or {problem}. */
  function number(typed, data) {
    const job = typed.trim().toLowerCase().replace(/[\s_./]+/g, "-");
    if (!job) return { problem: "Type the job number first." };
    if (!data.vin && VIN.test(typed.replace(/\s/g, "").toUpperCase())) {
      return { problem: "This is a vehicle identification number. It leads to the customer, whose data do not belong here: type the workshop's own job number." };
    }
    if (!JOB.test(job)) return { problem: "A job number holds letters, digits and hyphens, such as 2026-0001." };
    return { job };
  }

  /* Date and time of the clock on the wall: 2026-09-30 08:15. */
  function now(date = new Date()) {
    const two = (one) => String(one).padStart(2, "0");
    return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())} ${two(date.getHours())}:${two(date.getMinutes())}`;
  }

  function begin(data, job, variant) {
    return { job, procedure: data.procedure, revision: data.revision, digest: data.digest, variant, started: now(), entries: [], losses: [], waits: {}, drafts: {} };
  }

  /* Whether it could be kept. Each writing has a stamp of its own, by which another window sees that there is one. */
  function save(data, job) {
    const { stamp, before } = job;
    try {
      Object.assign(job, { before: stamp ?? null, stamp: `${(parseInt(stamp, 10) || 0) + 1}-${WINDOW}` });
      localStorage.setItem(key(data, job.job), JSON.stringify(job));
      return true;
    } catch {
      Object.assign(job, { before, stamp });
      return false;
    }
  }

  /* A job from its text; null for what is none, such as what was left by a page of another kind. */
  function parsed(text) {
    try {
      const found = JSON.parse(text);
      const isEntry = (one) => typeof one?.step === "string" && ["at", "verdict"].every((name) => ["string", "undefined"].includes(typeof one[name]));
      if (typeof found?.job !== "string" || !Array.isArray(found.entries) || !found.entries.every(isEntry)) return null;
      const map = (one) => (typeof one === "object" && one && !Array.isArray(one) ? one : {});
      for (const name of ["fitted", "judged"]) if (!Array.isArray(found[name])) delete found[name];
      return { ...found, losses: Array.isArray(found.losses) ? found.losses : [], waits: map(found.waits), drafts: map(found.drafts) };
    } catch {
      return null;
    }
  }

  function load(data, job) {
    try {
      const found = parsed(localStorage.getItem(key(data, job)));
      return found?.job === job ? found : null;
    } catch {
      return null;
    }
  }

  /* What another window has kept of this job since, or null. */
  function newer(data, job) {
    const kept = load(data, job.job);
    return kept && kept.stamp !== job.stamp ? kept : null;
  }

  /* The jobs of this procedure that are kept here, by number. */
  function all(data) {
    const before = key(data, "");
    const found = [];
    try {
      for (let at = 0; at < localStorage.length; at += 1) {
        const one = localStorage.key(at);
        if (one.startsWith(before)) found.push(load(data, decodeURIComponent(one.slice(before.length))));
      }
    } catch {
      return [];
    }
    return found.filter(Boolean).sort((one, other) => (one.job < other.job ? -1 : 1));
  }

  const remove = (data, job) => localStorage.removeItem(key(data, job));

  /* How the page is looked at: gloves, colours. */
  function view(data, given) {
    try {
      if (given) localStorage.setItem(viewKey(data), JSON.stringify(given));
      return JSON.parse(localStorage.getItem(viewKey(data))) ?? {};
    } catch {
      return given ?? {};
    }
  }

  /* What was typed in this tab to begin a job: {number, variant}. */
  function beginning(data, given) {
    try {
      const name = key(data, "begin");
      if (given) sessionStorage.setItem(name, JSON.stringify(given));
      return JSON.parse(sessionStorage.getItem(name)) ?? {};
    } catch {
      return {};
    }
  }

  /* Which job was open last in this tab, so that it is taken up again after a reload. */
  function open(data, job) {
    try {
      const name = key(data, "open");
      if (job !== undefined) sessionStorage.setItem(name, job ?? "");
      return sessionStorage.getItem(name) || null;
    } catch {
      return null;
    }
  }

  return { number, now, begin, beginning, save, parsed, load, newer, all, remove, view, open, key };
})();
