/* One step at a time, in large type. */
globalThis.bayleafJobView = (() => {
  "use strict";

  const { make, button, question } = bayleafJobParts;
  const root = document.documentElement;

  // ---- one step at a time ----------------------------------------------------------------------------

  const CONTROL = "a, button, input, select, textarea, label, summary";
  const FIELD = "input, select, textarea";
  /* How much of what can be seen one press scrolls by: a few lines stay, so that the place is found again. */
  const SHARE = 0.8;

  /* A window over the page that shows one step. The step itself is shown, not a copy of it: what is typed in it stays. */
  class Single {
    constructor(desk) {
      this.desk = desk;
      this.byAnchor = new Map(desk.data.steps.map((step) => [step.anchor, step]));
      this.holder = document.createComment("the step stands in the large view");
      this.shown = null;
      this.passed = []; // the steps that were shown before
      this.paused = null; // what was said of a break
      this.build();
      this.listen();
    }

    build() {
      const ask = button("Break or hand-over", () => this.askPause(), "grave");
      this.pausing = make("div", "stage-pausing");
      this.pauseButton = ask;
      this.stage = make("div", "stage");
      this.coming = make("div", "coming");
      this.unkept = make("p", "stage-unkept", { role: "alert", hidden: "" });
      this.said = make("p", "stage-said", { role: "status" });
      const top = make("div", "stage-top", {}, button("Whole page", () => this.close()), ask);
      const bar = make("div", "stage-bar", {}, button("◀ Back", () => this.goBack()), button("Go on ▶", () => this.forward(), "main"));
      this.foot = make("div", "stage-foot", {}, this.unkept, this.said, bar);
      this.view = make("dialog", "one", { "aria-label": "One step at a time", tabindex: "-1" }, top, this.pausing, this.stage, this.coming, this.foot);
      this.desk.page.append(this.view);
    }

    isOpen() {
      return Boolean(this.shown);
    }

    open() {
      this.passed = [];
      root.setAttribute("data-job-one", "");
      this.view.showModal(); // all else is out of reach of Tab and of a screen reader
      this.show((this.desk.job && this.desk.way.place) || this.desk.data.steps.find((step) => !step.first));
      this.desk.wake();
      this.view.focus();
    }

    close() {
      const left = this.shown;
      this.putBack();
      this.shown = null;
      this.view.close();
      root.removeAttribute("data-job-one");
      if (left) sectionOf(left).scrollIntoView({ block: "start" });
    }

    putBack() {
      if (this.shown && this.holder.parentNode) this.holder.replaceWith(sectionOf(this.shown));
    }

    show(step) {
      this.putBack();
      this.shown = step;
      const section = sectionOf(step);
      section.replaceWith(this.holder);
      this.stage.replaceChildren(section);
      this.pausing.replaceChildren();
      this.said.textContent = "";
      this.paused = null;
      this.refresh();
      this.view.scrollTop = 0;
    }

    /* After whatever was done or typed: what was said goes once it no longer holds. */
    refresh() {
      if (!this.shown) return;
      this.warnAhead();
      this.pauseButton.hidden = !this.desk.job;
      if (this.said.textContent && this.said.textContent !== this.why() && this.said.textContent !== this.paused) this.said.textContent = "";
      const words = this.desk.job && !this.desk.isKept ? "This browser does not keep the job. Keep its file." : "";
      if (this.unkept.textContent !== words) this.unkept.textContent = words;
      this.unkept.hidden = !words;
    }

    // ---- where the work goes on ----------------------------------------------------------------------

    /* From a step: by its exit once that is decided, else only where there is but one. */
    target(step) {
      const { desk } = this;
      if (!desk.job) return step.first ? ["step", step.first] : step.behind;
      if (step.first) return ["step", step.first];
      const state = desk.way.state(step);
      if (bayleafJobMarks.isDecided(step, desk)) return step.exits.find((one) => one.name === state.exit)?.to;
      const ways = new Set(step.exits.map((one) => String(one.to)));
      return ways.size === 1 && !state.complete ? step.exits[0].to : null;
    }

    /* The same past steps for other vehicles and into what is performed. */
    following(step) {
      const { desk } = this;
      let to = this.target(step);
      const fits = (one) => !one.only || !desk.job?.variant || one.only.includes(desk.job.variant);
      for (let count = 0; to && to[0] === "step" && count < 100; count += 1) {
        const next = this.byAnchor.get(to[1]);
        if (!fits(next)) to = next.behind;
        else if (next.first) to = ["step", next.first];
        else break;
      }
      return to;
    }

    /* Why it does not go on from here, or null where it does. */
    why() {
      const to = this.following(this.shown);
      if (to) return to[0] === "step" ? null : this.desk.endWords(to);
      if (bayleafJobMarks.isTyped(sectionOf(this.shown))) return "First enter the figure that is typed here, or empty its field.";
      return "First decide here: enter the reading, or choose the answer.";
    }

    /* The warning of the step that comes next stands there before that step does. */
    warnAhead() {
      const to = this.following(this.shown);
      const next = to && to[0] === "step" ? this.byAnchor.get(to[1]) : null;
      const messages = next ? [...sectionOf(next).querySelectorAll(":scope > .bl-message")] : [];
      const title = messages.length ? [make("p", "coming-title", {}, `Ahead, at step ${next.number}`)] : [];
      if (to && to[0] !== "step") title.push(make("p", "coming-title", {}, to[0] === "stop" ? "Behind this step: stop" : "This is the last step"));
      const made = [...title, ...messages.map((one) => one.cloneNode(true))];
      if (made.map((one) => one.outerHTML).join("") !== [...this.coming.children].map((one) => one.outerHTML).join("")) this.coming.replaceChildren(...made);
    }

    // ---- forward and back ----------------------------------------------------------------------------

    /* Scrolls by a good part of what can be seen; false where there is nothing more that way. */
    scroll(way) {
      const { view, foot } = this;
      const most = view.scrollHeight - view.clientHeight;
      const left = way > 0 ? most - view.scrollTop : view.scrollTop;
      if (left < 2) return false; // a fraction of a pixel is no line
      view.scrollBy({ top: way * Math.min(left, SHARE * (view.clientHeight - foot.offsetHeight)), behavior: "instant" });
      return true;
    }

    /* To the end of the step, with the warning ahead below it, and only from there to the next step. */
    forward(isHeld = false) {
      if (this.scroll(1) || isHeld) return;
      const why = this.why();
      if (why) {
        this.said.textContent = why;
        return;
      }
      this.passed.push(this.shown);
      this.show(this.byAnchor.get(this.following(this.shown)[1]));
    }

    backward(isHeld = false) {
      if (!this.scroll(-1) && !isHeld) this.goBack();
    }

    goBack() {
      if (this.passed.length) this.show(this.passed.pop());
    }

    // ---- break and hand-over -------------------------------------------------------------------------

    askPause() {
      const why = ([name, words]) => [words, () => this.pause(name, words), "grave"];
      const all = [...Object.entries(bayleafJobPanel.PAUSES).map(why), ["Work goes on", () => this.pausing.replaceChildren()]];
      this.pausing.replaceChildren(question("Why is the work broken off? From here on nothing counts as proved.", all));
      this.view.scrollTop = 0;
    }

    pause(name, words) {
      const { desk } = this;
      this.pausing.replaceChildren();
      desk.act({ step: (desk.way.place ?? desk.lastStep ?? this.shown).path, at: bayleafJobStore.now(), paused: name });
      this.paused = `${words} noted. From here on nothing counts as proved.`;
      this.said.textContent = this.paused;
    }

    // ---- taps and keys -------------------------------------------------------------------------------

    listen() {
      addEventListener("pagehide", bayleafJobLooks.keepPlace);
      const { view } = this;
      view.addEventListener("click", (event) => this.tapped(event));
      view.addEventListener("input", () => this.refresh());
      view.addEventListener("cancel", (event) => {
        event.preventDefault();
        this.close();
      });
      view.addEventListener("close", () => this.shown && this.close()); // a browser may close it without asking
      document.addEventListener("keydown", (event) => this.pressed(event));
      addEventListener("beforeprint", () => this.shown && this.close());
    }

    tapped(event) {
      const link = event.target.closest("a[href]");
      if (link && !event.defaultPrevented) return this.leads(link, event);
      const control = event.composedPath().find((one) => one.matches?.(CONTROL)); // it may have redrawn itself since
      if (!control) return this.forward();
      if (event.detail && control.matches("button") && this.shown) this.view.focus({ preventScroll: true }); // so that the space bar goes on
      return this.refresh();
    }

    /* A link to a step shows it here, but that to the next one only once its warning was in view. One to another page opens
     * beside this one: left behind, the view would be closed and every proof lost, and a question first is one target more
     * for a glove. Any other place of the page is on the page.
     */
    leads(link, event) {
      const address = link.getAttribute("href");
      if (!address.startsWith("#")) {
        link.target = "_blank";
        link.rel = "noopener";
        setTimeout(() => link.removeAttribute("target"));
        return;
      }
      const step = this.byAnchor.get(decodeURIComponent(address.slice(1)));
      if (!step) return this.close();
      event.preventDefault();
      const to = step.first ? this.byAnchor.get(step.first) : step;
      const next = this.following(this.shown);
      if (step === this.shown || (next && next[1] === to.anchor)) return this.forward();
      this.passed.push(this.shown);
      return this.show(to);
    }

    pressed(event) {
      if (!this.shown || event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey) return;
      if (event.target.closest?.(FIELD) || (event.key === " " && event.target.closest?.("button, a, summary"))) return;
      const forward = () => this.forward(event.repeat);
      const backward = () => this.backward(event.repeat);
      const act = { " ": forward, ArrowRight: forward, ArrowDown: forward, PageDown: forward, ArrowLeft: () => this.goBack(), ArrowUp: backward, PageUp: backward }[event.key];
      if (!act) return;
      event.preventDefault();
      act();
    }
  }

  const sectionOf = (step) => document.getElementById(step.anchor);

  return { single: (desk) => new Single(desk) };
})();
