/* The parts that were fitted in a job: which, the number printed on it, how many. */
globalThis.bayleafJobFitted = (() => {
  "use strict";

  const { make, button, field } = bayleafJobParts;

  /* Nodes: the list of what was fitted, and the fields for one more. Nothing where the vehicle's profile names no part. */
  function build(desk) {
    if (!desk.data.parts.length) return [];
    const list = make("ul", "list");
    const options = desk.data.parts.map(([name, words]) => make("option", "", { value: name }, words));
    const part = field("Part fitted", make("select", "unit", {}, make("option", "", { value: "" }, "none"), ...options));
    const number = field("Number printed on it", make("input", "figure", { autocomplete: "off", autocapitalize: "off", spellcheck: "false" }));
    const newest = Object.fromEntries(desk.data.parts.map(([name, , one]) => [name, one]));

    function keep(items) {
      desk.job.fitted = items;
      desk.keep();
      draw();
    }

    function add() {
      if (!part.input.value) return part.input.focus();
      const item = { part: part.input.value, number: number.input.value.trim() || undefined };
      part.input.value = number.input.value = "";
      desk.draft("panel|number", null);
      number.input.placeholder = "";
      return keep([...(desk.job.fitted ?? []), item]);
    }

    function draw() {
      const items = desk.job.fitted ?? [];
      list.replaceChildren(
        ...items.map((item, at) => {
          const words = desk.data.parts.find(([name]) => name === item.part)?.[1] ?? item.part;
          const count = item.count && Number(item.count) !== 1 ? `${item.count} × ` : "";
          const gone = button("Not fitted", () => keep(items.filter((_, other) => other !== at)), "small");
          gone.setAttribute("aria-label", `Not fitted: ${words}`);
          return make("li", "", {}, make("span", "", {}, `${count}${words}${item.number ? `, ${item.number}` : ""}`), gone);
        }),
      );
      list.hidden = !items.length;
    }

    number.input.value = desk.job.drafts["panel|number"] ?? "";
    number.input.addEventListener("input", () => desk.draft("panel|number", number.input.value));
    part.input.addEventListener("change", () => (number.input.placeholder = newest[part.input.value] ?? ""));
    draw();
    return [list, make("div", "line", {}, part.node, number.node, button("Add the part", add))];
  }

  return { build };
})();
