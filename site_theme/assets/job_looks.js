/* How the page is looked at: two schemes of high contrast, large targets for gloves, the place of the window after a reload. */
globalThis.bayleafJobLooks = (() => {
  "use strict";

  const { button } = bayleafJobParts;
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

  // ---- the place of the window -----------------------------------------------------------------------

  const PLACE = "bayleaf-job-place";

  function keepPlace() {
    if (root.dataset.job !== "open") return;
    const tops = [...document.querySelectorAll(".bl-step")].map((one) => [one.id, one.getBoundingClientRect().top]);
    const [id, top] = tops.reduce((near, one) => (Math.abs(one[1]) < Math.abs(near[1]) ? one : near));
    try {
      sessionStorage.setItem(PLACE, JSON.stringify([location.pathname, id, top]));
    } catch {
      // then the address names the step
    }
  }

  /* After a reload the window stands at the step where it stood, not at the one that an older address names; whether it does.
   * A browser keeps the pixels, and these hold another step once steps far away are laid out.
   */
  function place() {
    let kept = null;
    try {
      kept = JSON.parse(sessionStorage.getItem(PLACE));
    } catch {
      return false; // nothing is kept by this browser
    }
    const step = kept?.[0] === location.pathname && document.getElementById(kept[1]);
    if (!step || performance.getEntriesByType("navigation")[0]?.type !== "reload") return false;
    let frames = 30; // in which the browser puts its pixels back, and lays out what comes into view
    const settle = () => {
      scrollBy({ top: step.getBoundingClientRect().top - kept[2], behavior: "instant" });
      if ((frames -= 1) > 0) requestAnimationFrame(settle);
    };
    for (const name of ["wheel", "touchstart", "pointerdown", "keydown"]) addEventListener(name, () => (frames = 0), { once: true });
    addEventListener("load", () => requestAnimationFrame(settle), { once: true });
    return true;
  }

  return { switches, place, keepPlace };
})();
