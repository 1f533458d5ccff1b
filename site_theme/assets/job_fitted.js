/* The parts that were fitted in a job: which, the number printed on it, how many. */
globalThis.bayleafJobFitted = (() => {
  "use strict";

  const { make, button, field } = bayleafJobParts;
  const [PART, NUMBER] = ["panel|part", "panel|number"];

  /* [{node, restore, unclear}]: the list of what was fitted, and the fields for one more. Nothing where the vehicle's profile
   * names no part.
   */
  function build(desk) {
    if (!desk.data.parts.length) return [];
    const list = make("ul", "list");
    const options = desk.data.parts.map(([name, words]) => make("option", "", { value: name }, words));
    const part = field("Part fitted", make("select", "unit", {}, make("option", "", { value: "" }, "none"), ...options));
    const number = field("Number printed on it", make("input", "figure", { autocomplete: "off", autocapitalize: "off", spellcheck: "false" }));
    const said = make("p", "problem", { role: "status", hidden: "" });
    const newest = Object.fromEntries(desk.data.parts.map(([name, , one]) => [name, one]));
    const wordsOf = (name) => desk.data.parts.find(([one]) => one === name)?.[1] ?? name;

    function add() {
      if (!part.input.value) return part.input.focus();
      const item = { part: part.input.value, number: number.input.value.trim() || undefined };
      part.input.value = number.input.value = "";
      desk.change((job) => {
        job.fitted = [...(job.fitted ?? []), item];
        delete job.drafts[PART];
        delete job.drafts[NUMBER];
      });
      return restore();
    }

    function leaveOut(item) {
      desk.change((job) => {
        const at = (job.fitted ?? []).findIndex((one) => bayleafJobMerge.isSame(one, item));
        if (at >= 0) job.fitted.splice(at, 1);
      });
      draw();
    }

    function draw() {
      const items = desk.job.fitted ?? [];
      list.replaceChildren(
        ...items.map((item) => {
          const words = wordsOf(item.part);
          const count = item.count && Number(item.count) !== 1 ? `${item.count} × ` : "";
          const gone = button("Not fitted", () => leaveOut(item), "small");
          gone.setAttribute("aria-label", `Not fitted: ${words}`);
          return make("li", "", {}, make("span", "", {}, `${count}${words}${item.number ? `, ${item.number}` : ""}`), gone);
        }),
      );
      list.hidden = !items.length;
    }

    /* What is chosen or typed, but not added. */
    function unclear() {
      if (part.input.value) return `Part fitted “${wordsOf(part.input.value)}” (chosen, not added)`;
      return number.input.value.trim() ? `Number printed on it “${number.input.value.trim()}” (no part is chosen)` : null;
    }

    function tell() {
      number.input.placeholder = newest[part.input.value] ?? "";
      said.hidden = !unclear();
      said.textContent = part.input.value ? "Not in the record yet. Press “Add the part”." : "Not in the record yet. Choose the part, then press “Add the part”.";
    }

    function restore() {
      for (const [input, key] of [[part.input, PART], [number.input, NUMBER]]) {
        if (input !== document.activeElement) input.value = desk.job.drafts[key] ?? "";
      }
      draw();
      tell();
    }

    for (const [input, key, kind] of [[part.input, PART, "change"], [number.input, NUMBER, "input"]]) {
      input.addEventListener(kind, () => {
        tell();
        desk.draft(key, input.value);
      });
    }
    restore();
    return [{ node: make("div", "", {}, list, make("div", "line", {}, part.node, number.node, button("Add the part", add)), said), restore, unclear }];
  }

  return { build };
})();
