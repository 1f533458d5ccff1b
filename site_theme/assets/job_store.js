/* Where jobs are kept: in this browser, each under manual, procedure and job, since from a folder (file://) all manuals
 * share one store. The key does not hold the revision; the value does. What was typed is kept with every key pressed.
 */
globalThis.bayleafJobStore = (() => {
  "use strict";

  const HEAD = "bayleaf-job";
  const JOB = /^[a-z0-9][a-z0-9-]*$/;

  const key = (data, job) => [HEAD, data.manual, data.procedure, job].map(encodeURIComponent).join(":");
  const viewKey = (data) => [`${HEAD}-view`, data.manual].map(encodeURIComponent).join(":");

  /* A job number as it may name a file: {job} or {problem}. */
  function number(typed) {
    const job = typed.trim().toLowerCase().replace(/[\s_./]+/g, "-");
    if (!job) return { problem: "Type the job number first." };
    if (!JOB.test(job)) return { problem: "A job number holds letters, digits and hyphens, such as 2026-0001." };
    return { job };
  }

  /* Date and time of the clock on the wall: 2026-09-30 08:15. */
  function now(date = new Date()) {
    const two = (one) => String(one).padStart(2, "0");
    return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())} ${two(date.getHours())}:${two(date.getMinutes())}`;
  }

  function begin(data, job, variant) {
    return { job, procedure: data.procedure, revision: data.revision, digest: data.digest, variant, started: now(), entries: [], losses: [], waits: {}, drafts: {}, others: [] };
  }

  /* Whether it could be kept. */
  function save(data, job) {
    try {
      localStorage.setItem(key(data, job.job), JSON.stringify(job));
      return true;
    } catch {
      return false;
    }
  }

  function load(data, job) {
    try {
      const found = JSON.parse(localStorage.getItem(key(data, job)));
      return found && { losses: [], waits: {}, drafts: {}, others: [], ...found };
    } catch {
      return null;
    }
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

  return { number, now, begin, save, load, all, remove, view, open, key };
})();
