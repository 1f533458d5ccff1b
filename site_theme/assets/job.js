/* A procedure's page that is worked with: puts store, flow, controls, panel and views together.
 *
 * A job is its entries, in order of time; each act adds one, is kept at once, and all that is shown follows from them.
 */
globalThis.bayleafJob = (() => {
  "use strict";

  const { make } = bayleafJobParts;
  const askFirst = (event) => event.preventDefault();

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
      this.known = new bayleafJobMerge.Known(job);
      const judged = bayleafJobTaken.anew(job, this.data);
      if (!this.data.vin) delete job.vin; // there is no field to see it in
      if (judged.length) job.judged = [...(job.judged ?? []), ...judged];
      if (job.entries.length && job.losses.at(-1) !== job.entries.length) job.losses.push(job.entries.length);
      bayleafJobStore.open(this.data, job.job);
      bayleafJobStore.beginning(this.data, {});
      navigator.storage?.persist?.().catch(() => {});
      document.documentElement.dataset.job = "open";
      this.follow();
      this.keep();
      this.controls = this.data.steps.filter((step) => !step.first).map((step) => bayleafJobSteps.build(step, this));
      this.panel.draw();
      this.refresh();
      for (const one of this.controls) one.restore();
      if (this.controls.some((one) => one.isWaiting())) this.wake();
    }

    close() {
      for (const one of this.controls) one.remove();
      this.controls = [];
      this.job = this.way = this.known = null;
      this.tellKept(true);
      bayleafJobStore.open(this.data, null);
      document.documentElement.dataset.job = "none";
      this.panel.draw();
    }

    // ---- every change of a job -----------------------------------------------------------------------

    /* First what another window has kept since is taken over, then the change is made and kept. */
    change(make) {
      const other = bayleafJobStore.newer(this.data, this.job);
      if (other) this.takeOver(other);
      make(this.job);
      const isKept = bayleafJobStore.save(this.data, this.job);
      if (isKept) this.known.add(this.job);
      if (other) this.show();
      this.tellKept(isKept);
    }

    keep() {
      this.change(() => {});
    }

    /* The job as another window has kept it, with what was changed here and is not in it. */
    takeOver(other) {
      const merged = this.known.merge(this.job, other);
      this.known.add(other);
      for (const name of Object.keys(this.job)) delete this.job[name];
      Object.assign(this.job, merged);
      this.follow();
    }

    /* Another window has gone on with the same job. */
    adopt(text) {
      const other = bayleafJobStore.parsed(text);
      if (!other || this.known.has(other)) return;
      this.takeOver(other);
      if (bayleafJobMerge.isSame(this.job, other)) this.show();
      else this.change(() => this.show()); // both went on at the same moment
    }

    /* Whoever works is told at once when the browser cannot keep what is done, and asked before the page is left. */
    tellKept(isKept) {
      const isNew = this.isKept !== isKept;
      this.isKept = isKept;
      if (!isNew) return;
      if (isKept) removeEventListener("beforeunload", askFirst);
      else addEventListener("beforeunload", askFirst);
      this.panel.refresh();
      this.single.refresh();
    }

    /* All that is shown, the fields too, save the one that somebody types in. */
    show() {
      for (const one of this.controls) this.restore(one);
      this.panel.restore();
      this.refresh();
    }

    restore(control) {
      const fields = [...control.section.querySelectorAll(".job-reading")];
      const inputs = fields.map((one) => one.querySelector("input"));
      const before = inputs.map((one) => one.value);
      const held = fields.findIndex((one) => one.contains(document.activeElement));
      const key = `${control.step.path}|${held}`;
      const draft = this.job.drafts[key];
      if (held >= 0 && before[held].trim()) this.job.drafts[key] = { text: before[held], unit: fields[held].querySelector("select").value };
      else delete this.job.drafts[key];
      control.restore();
      inputs.forEach((one, at) => before[at] && !one.value && one.dispatchEvent(new Event("input"))); // its verdict goes, too
      if (draft) this.job.drafts[key] = draft;
      else delete this.job.drafts[key];
    }

    // ---- what is done --------------------------------------------------------------------------------

    follow() {
      this.minute = bayleafJobStore.now();
      this.way = bayleafJobFlow.follow(this.data, this.job, this.minute);
      // A computed value that no longer fits its readings decides nothing: the work goes on there.
      const stale = this.data.steps.find((step) => step.formula && this.way.state(step).complete && bayleafJobComputed.isStale(step, this));
      if (stale) Object.assign(this.way, { place: stale, end: null, exhausted: null });
      const last = this.job.entries.at(-1);
      this.lastStep = (last && this.way.byPath.get(last.step)) ?? null;
    }

    act(entry) {
      this.change((job) => {
        job.entries.push(entry);
        if (entry.done !== undefined || entry.exit) delete job.waits[entry.step]; // the next round waits anew
      });
      this.follow();
      this.refresh();
    }

    draft(key, value) {
      if (bayleafJobMerge.isSame(value || undefined, this.job.drafts[key])) return;
      this.change((job) => {
        if (value) job.drafts[key] = value;
        else delete job.drafts[key];
      });
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

    /* Where the work goes on: a link; a stop does not look like one, and of a performed procedure it leads nowhere. */
    onward() {
      const { place, end } = this.way;
      if (place) {
        const title = document.querySelector(`#${CSS.escape(place.anchor)} .bl-step-title > span`)?.textContent ?? "";
        return make("a", "button main go", { href: `#${place.anchor}` }, `Go on: step ${place.number}. ${title}`);
      }
      const own = end && end[1] && document.getElementById(`conclusion-${end[1]}`);
      const look = end?.[0] === "stop" ? "stop" : "button main go";
      return make(own ? "a" : "p", look, own ? { href: `#conclusion-${end[1]}` } : {}, this.endWords(end));
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
    if (job && !bayleafJobLooks.place() && location.hash) document.getElementById(decodeURIComponent(location.hash.slice(1)))?.scrollIntoView();
    setInterval(() => desk.job && desk.second(), 1000);
    addEventListener("storage", (event) => {
      if (desk.job && event.newValue && event.key === bayleafJobStore.key(desk.data, desk.job.job)) desk.adopt(event.newValue);
    });
    addEventListener("pageshow", (event) => event.persisted && desk.job && desk.open((desk.isKept && bayleafJobStore.load(desk.data, desk.job.job)) || desk.job));
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState !== "visible" || !desk.job) return;
      desk.second();
      if ((desk.single.isOpen() || desk.controls.some((one) => one.isWaiting()))) desk.wake();
    });
    return desk;
  }

  return { desk: typeof document === "undefined" ? null : start() };
})();
