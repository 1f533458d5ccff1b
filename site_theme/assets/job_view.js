/* How the page is looked at: one step at a time in large type, two schemes of high contrast, large targets for gloves. */
globalThis.bayleafJobView = (() => {
  "use strict";

  const { make, button } = bayleafJobParts;
  const root = document.documentElement;
  const SCHEMES = [["", "Colours: as the page"], ["night", "Colours: night"], ["bright", "Colours: bright light"]];

  // ---- colours and gloves ----------------------------------------------------------------------------

  /* The buttons for gloves and colours; what is chosen is remembered. */
  function switches(data) {
    const kept = bayleafJobStore.view(data);
    const gloves = button("Large targets for gloves", () => set({ gloves: !kept.gloves }));
    const scheme = button("", () => set({ scheme: (Math.max(0, SCHEMES.findIndex(([one]) => one === kept.scheme)) + 1) % SCHEMES.length }));

    function set(change) {
      if ("scheme" in change) kept.scheme = SCHEMES[change.scheme][0];
      if ("gloves" in change) kept.gloves = change.gloves;
      bayleafJobStore.view(data, kept);
      apply();
    }

    function apply() {
      root.toggleAttribute("data-job-gloves", Boolean(kept.gloves));
      if (kept.scheme) root.setAttribute("data-job-scheme", kept.scheme);
      else root.removeAttribute("data-job-scheme");
      gloves.setAttribute("aria-pressed", String(Boolean(kept.gloves)));
      scheme.textContent = (SCHEMES.find(([one]) => one === kept.scheme) ?? SCHEMES[0])[1];
    }

    apply();
    return [gloves, scheme];
  }

  // ---- one step at a time ----------------------------------------------------------------------------

  const CONTROL = "a, button, input, select, textarea, label, summary";

  /* {open, close, refresh, isOpen}. The step itself is shown, not a copy of it: what is typed in it stays. */
  function single(desk) {
    const stage = make("div", "stage");
    const said = make("p", "stage-said", { role: "status" });
    const coming = make("div", "coming");
    const back = button("◀ Back", () => goBack());
    const on = button("Go on ▶", () => goOn(), "main");
    const shut = button("Whole page", () => close());
    const bar = make("div", "stage-bar", {}, back, shut, on);
    const view = make("div", "one", { role: "dialog", "aria-modal": "true", "aria-label": "One step at a time", tabindex: "-1", hidden: "" }, stage, said, coming, bar);
    const holder = document.createComment("the step stands in the large view");
    let shown = null;
    let passed = [];
    desk.page.append(view);

    const sectionOf = (step) => document.getElementById(step.anchor);
    const byAnchor = new Map(desk.data.steps.map((step) => [step.anchor, step]));

    function putBack() {
      if (shown && holder.parentNode) holder.replaceWith(sectionOf(shown));
    }

    function show(step) {
      putBack();
      shown = step;
      const section = sectionOf(step);
      section.replaceWith(holder);
      stage.replaceChildren(section);
      said.textContent = "";
      warnAhead();
      view.scrollTop = 0;
    }

    /* Where the work goes on from a step: by its exit once that is known, else only where there is but one. */
    function target(step) {
      const state = desk.job && desk.way.state(step);
      if (state?.complete) return step.exits.find((one) => one.name === state.exit)?.to;
      if (!desk.job) return step.first ? ["step", step.first] : step.behind;
      if (step.first) return ["step", step.first];
      const ways = new Set(step.exits.map((one) => String(one.to)));
      return ways.size === 1 ? step.exits[0].to : null;
    }

    function following(step) {
      let to = target(step);
      const fits = (one) => !one.only || !desk.job?.variant || one.only.includes(desk.job.variant);
      for (let count = 0; to && to[0] === "step" && count < 100; count += 1) {
        const next = byAnchor.get(to[1]);
        if (!fits(next)) to = next.behind;
        else if (next.first) to = ["step", next.first];
        else break;
      }
      return to;
    }

    /* The warning of the step that comes next stands there before that step does. */
    function warnAhead() {
      const to = following(shown);
      const next = to && to[0] === "step" ? byAnchor.get(to[1]) : null;
      const messages = next ? [...sectionOf(next).querySelectorAll(":scope > .bl-message")] : [];
      coming.replaceChildren(...(messages.length ? [make("p", "coming-title", {}, `Ahead, at step ${next.number}`)] : []), ...messages.map((one) => one.cloneNode(true)));
      if (to && to[0] !== "step") coming.append(make("p", "coming-title", {}, to[0] === "stop" ? "Behind this step: stop" : "This is the last step"));
    }

    function goOn() {
      const to = following(shown);
      if (!to) {
        said.textContent = "First decide here: enter the reading, or choose the answer.";
        return;
      }
      if (to[0] !== "step") {
        said.textContent = desk.endWords(to);
        return;
      }
      passed.push(shown);
      show(byAnchor.get(to[1]));
    }

    function goBack() {
      if (passed.length) show(passed.pop());
    }

    function open() {
      const begin = desk.job ? desk.way.place : null;
      passed = [];
      view.hidden = false;
      root.setAttribute("data-job-one", "");
      show(begin ?? desk.data.steps.find((step) => !step.first));
      desk.wake();
      view.focus();
    }

    function close() {
      const left = shown;
      putBack();
      shown = null;
      view.hidden = true;
      root.removeAttribute("data-job-one");
      if (left) sectionOf(left).scrollIntoView({ block: "start" });
    }

    view.addEventListener("click", (event) => {
      const isLink = event.target.closest("a[href^='#']");
      const step = isLink && byAnchor.get(decodeURIComponent(isLink.getAttribute("href").slice(1)));
      if (step && !event.defaultPrevented) {
        event.preventDefault();
        if (step === shown) return goOn(); // the number of the step itself
        passed.push(shown);
        return show(step.first ? byAnchor.get(step.first) : step);
      }
      const pressed = event.composedPath().find((one) => one.matches?.(CONTROL)); // it may have redrawn itself since
      if (!pressed) return goOn();
      if (event.detail && pressed.matches("button")) view.focus({ preventScroll: true }); // so that the space bar goes on
      return null;
    });
    document.addEventListener("keydown", (event) => {
      if (!shown || event.ctrlKey || event.altKey || event.metaKey) return;
      if (event.key === "Escape") return close();
      if (event.target.closest?.("input, select, textarea") || (event.key === " " && event.target.closest?.("button, a, summary"))) return;
      const act = { " ": goOn, ArrowRight: goOn, ArrowDown: goOn, PageDown: goOn, ArrowLeft: goBack, ArrowUp: goBack, PageUp: goBack }[event.key];
      if (!act) return;
      event.preventDefault();
      act();
    });
    addEventListener("beforeprint", () => shown && close());
    return { open, close, refresh: () => shown && warnAhead(), isOpen: () => Boolean(shown) };
  }

  return { switches, single };
})();
