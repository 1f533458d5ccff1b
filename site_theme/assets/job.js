/* A procedure's page that is worked with: puts store, flow, controls, panel and views together.
 *
 * A job is its entries, in order of time; each act adds one, is kept at once, and all that is shown follows from them.
 */
globalThis.bayleafJob = (() => {
  "use strict";

  const { make } = bayleafJobParts;

  class Desk {
    constructor(data, page) {
      this.data = data;
      this.page = page;
      this.job = null;
      this.way = null;
      this.isKept = true;
      this.controls = [];
      this.lock = null;
      for (const step of data.steps) this.guard(step);
      this.single = bayleafJobView.single(this);
      this.panel = bayleafJobPanel.build(this);
    }

    guard(step) {
      if (step.readings) bayleafJobMarks.guard(step, document.getElementById(step.anchor), this);
    }

    // ---- a job is opened and closed ------------------------------------------------------------------

    /* From here on nothing counts as proved that was entered before: nobody knows what happened since. */
    open(job) {
      if (this.job) this.close();
      this.job = job;
      if (job.entries.length && job.losses.at(-1) !== job.entries.length) job.losses.push(job.entries.length);
      bayleafJobStore.open(this.data, job.job);
      navigator.storage?.persist?.().catch(() => {});
      document.documentElement.dataset.job = "open";
      this.follow();
      this.controls = this.data.steps.filter((step) => !step.first).map((step) => bayleafJobSteps.build(step, this));
      this.keep();
      this.panel.draw();
      this.refresh();
      for (const one of this.controls) one.restore();
    }

    close() {
      for (const one of this.controls) one.remove();
      this.controls = [];
      this.job = this.way = null;
      bayleafJobStore.open(this.data, null);
      document.documentElement.dataset.job = "none";
      this.panel.draw();
    }

    keep() {
      this.isKept = bayleafJobStore.save(this.data, this.job);
    }

    /* Another window has gone on with the same job. */
    adopt(text) {
      const other = JSON.parse(text);
      if (!other || other.entries.length === this.job.entries.length) return;
      Object.assign(this.job, { entries: other.entries, losses: other.losses, waits: other.waits });
      this.follow();
      this.refresh();
    }

    // ---- what is done --------------------------------------------------------------------------------

    follow() {
      this.minute = bayleafJobStore.now();
      this.way = bayleafJobFlow.follow(this.data, this.job, this.minute);
      const last = this.job.entries.at(-1);
      this.lastStep = (last && this.way.byPath.get(last.step)) ?? null;
    }

    act(entry) {
      this.job.entries.push(entry);
      if (entry.done !== undefined || entry.exit) delete this.job.waits[entry.step]; // the next round waits anew
      this.follow();
      this.keep();
      this.refresh();
    }

    draft(key, value) {
      if (value) this.job.drafts[key] = value;
      else delete this.job.drafts[key];
      this.keep();
    }

    /* A reading is typed or entered: its mark on the gauge, and the exit that follows or would follow. */
    judged(step, at, found) {
      const section = document.getElementById(step.anchor);
      const { residual, limit } = step.readings[at];
      if (!residual) bayleafJobMarks.gauge(section, at, step.readings.length, found, limit); // it is that of the test
      bayleafJobMarks.follows(step, section, found?.exit ?? null, this);
    }

    /* Proofs grow old while nothing is entered. */
    grow() {
      const before = [...this.way.lost].join();
      this.follow();
      if ([...this.way.lost].join() !== before) return this.refresh();
      this.panel.ages();
      for (const one of this.controls) one.ages();
      return null;
    }

    refresh() {
      for (const one of this.controls) one.refresh();
      this.panel.refresh();
      this.single.refresh();
    }

    second() {
      if (bayleafJobStore.now() !== this.minute) this.grow();
      for (const one of this.controls) one.second();
      if (!this.controls.some((one) => one.isWaiting()) && !this.single.isOpen()) this.rest();
    }

    // ---- words ---------------------------------------------------------------------------------------

    /* Where the work goes on: a link. */
    onward() {
      const { place, end } = this.way;
      if (place) {
        const title = document.querySelector(`#${CSS.escape(place.anchor)} .bl-step-title > span`)?.textContent ?? "";
        return make("a", "button main go", { href: `#${place.anchor}` }, `Go on: step ${place.number}. ${title}`);
      }
      const own = end && end[1] && document.getElementById(`conclusion-${end[1]}`);
      return make("a", "button main go", { href: own ? `#conclusion-${end[1]}` : "#steps" }, this.endWords(end));
    }

    endWords(to) {
      const { words, stops } = bayleafJobFlow.conclusion(this.data, { end: to });
      return `${stops ? "Stop" : "The job ends"}: ${words}`;
    }

    // ---- the file ------------------------------------------------------------------------------------

    /* The record of the job as text. A stop within what is performed has no name here: it is told in the remarks. */
    file() {
      const { name, words, stops } = bayleafJobFlow.conclusion(this.data, this.way);
      const told = stops && !name ? `Stopped: ${words}` : "";
      const remarks = [this.job.remarks, this.job.remarks?.includes(told) ? "" : told].filter(Boolean).join(" ") || undefined;
      return bayleafJobFile.write({ ...this.job, conclusion: name || undefined, remarks });
    }

    download() {
      const address = URL.createObjectURL(new Blob([this.file()], { type: "text/yaml" }));
      const link = make("a", "", { href: address, download: `${this.job.job}.yml` });
      document.body.append(link);
      link.click();
      link.remove();
      setTimeout(() => URL.revokeObjectURL(address), 60000);
    }

    // ---- the screen ----------------------------------------------------------------------------------

    /* Keeps the screen awake where the browser can. */
    async wake() {
      if (this.lock || !navigator.wakeLock) return;
      try {
        this.lock = await navigator.wakeLock.request("screen");
        this.lock.addEventListener("release", () => (this.lock = null));
      } catch {
        this.lock = null;
      }
    }

    rest() {
      this.lock?.release().catch(() => {});
    }
  }

  function start() {
    const source = document.getElementById("bl-working");
    const page = document.querySelector(".bl-procedure");
    if (!source || !page) return null;
    const data = JSON.parse(source.textContent);
    document.documentElement.dataset.job = "none";
    const desk = new Desk(data, page);
    const last = bayleafJobStore.open(desk.data);
    const job = last && bayleafJobStore.load(desk.data, last);
    if (job) desk.open(job);
    else desk.panel.draw();
    if (job && !bayleafJobView.place() && location.hash) document.getElementById(decodeURIComponent(location.hash.slice(1)))?.scrollIntoView();
    setInterval(() => desk.job && desk.second(), 1000);
    addEventListener("storage", (event) => {
      if (desk.job && event.newValue && event.key === bayleafJobStore.key(desk.data, desk.job.job)) desk.adopt(event.newValue);
    });
    addEventListener("pageshow", (event) => event.persisted && desk.job && desk.open(bayleafJobStore.load(desk.data, desk.job.job) ?? desk.job));
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState !== "visible" || !desk.job) return;
      desk.second();
      if ((desk.single.isOpen() || desk.controls.some((one) => one.isWaiting()))) desk.wake();
    });
    return desk;
  }

  return { desk: typeof document === "undefined" ? null : start() };
})();
