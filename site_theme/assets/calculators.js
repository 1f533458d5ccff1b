/* The calculators: reads the fields, has the formula computed, shows the results and the curve.
 *
 * What is computed, and how results are written, is in `formulas.js`, which is translated from Python. Values are
 * brought into the unit of the formula exactly; the factors stand at the choices of units, written by Python.
 */
globalThis.bayleafCalculators = (() => {
  "use strict";

  const { fraction, plus, times, number, read } = bayleafExact;

  /* The numbers typed in one field, in the unit of the formula: {values}, or {problem}. */
  function numbers(text, unit, several) {
    const parts = several ? text.split(/;|\n|,\s/).filter((one) => one.trim()) : [text];
    const found = parts.map((one) => read(one, one.includes(",") ? undefined : 3));
    const problem = found.find((one) => one.problem);
    if (problem) return problem;
    return { values: found.map((one) => number(plus(times(one.value, fraction(unit.factor)), fraction(unit.offset)))) };
  }

  /* {results, texts} of a formula, or {refused: sentence}. */
  function compute(slug, given) {
    const formula = bayleafFormulas.formulas[slug];
    try {
      const results = formula.compute(...given);
      if (results.some((one) => typeof one === "number" && Number.isNaN(one))) return { refused: bayleafFormulas.beyond };
      return { results, texts: results.map((one, at) => bayleafFormulas.shown(one, formula.outputs[at])) };
    } catch (error) {
      if (error.name === "ValueError") return { refused: error.message.replace(/^ValueError: /, "") };
      return { refused: bayleafFormulas.beyond };
    }
  }

  /* Where the parts of the curve stand: [wires, texts, height], or null. */
  function drawn(slug, given) {
    const formula = bayleafFormulas.formulas[slug];
    if (!formula.points) return null;
    try {
      const points = formula.points(...given).filter((point) => point.every(Number.isFinite));
      return bayleafFormulas.drawn(points, ...formula.axes);
    } catch {
      return null; // a curve is an addition: without one the results stand alone
    }
  }

  const typeset = (text, value) => (typeof value === "string" ? text : text.replace(/-/g, "−").replace(/ /g, "\u00a0"));

  // ---- the page --------------------------------------------------------------------------------------

  function svg(name, attributes, text) {
    const made = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    if (text !== undefined) made.textContent = text;
    return made;
  }

  function drawing([wires, texts, height], label) {
    const made = svg("svg", { class: "bl-map-drawing", viewBox: `0 0 340 ${height}`, role: "img", "aria-label": label });
    for (const [look, points] of wires) {
      const path = points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L");
      made.append(svg("path", { class: `bl-map-wire bl-map-${look}`, d: `M${path}` }));
    }
    for (const [text, x, y] of texts) made.append(svg("text", { class: "bl-map-text", x, y: y + 13 }, text));
    return made;
  }

  /* One field: {given} what the formula takes, {missing}, or {problem}. Says beneath it how a number was understood. */
  function take(field) {
    const input = field.querySelector("[data-value]");
    const text = input.value.trim();
    if (input.tagName === "SELECT") return text ? { given: text } : { missing: true };
    const unit = field.querySelector("[data-unit]")?.selectedOptions[0];
    const several = "several" in field.dataset;
    if (!text) return { missing: true };
    const found = numbers(text, unit?.dataset ?? { factor: "1", offset: "0" }, several);
    if (found.problem) return found;
    const understood = found.values.map((one) => bayleafFormulas.functions.in_figures__in_figures(one, 6)).join("; ");
    const own = field.dataset.own;
    const note = own && unit.value !== own ? `= ${understood.replace(/-/g, "−")} ${own}` : "";
    return { given: several ? found.values : found.values[0], note };
  }

  function show(field, found) {
    const note = field.querySelector("[data-note]");
    field.querySelector("[data-value]").toggleAttribute("aria-invalid", Boolean(found.problem));
    field.toggleAttribute("data-wrong", Boolean(found.problem));
    note.textContent = found.problem ?? found.note ?? "";
  }

  function update(form) {
    const page = form.closest(".bl-calculator");
    const fields = [...form.querySelectorAll("[data-input]")];
    const found = fields.map(take);
    fields.forEach((field, at) => show(field, found[at]));
    const missing = fields.filter((_, at) => found[at].missing).map((field) => field.dataset.title);
    const whole = found.every((one) => "given" in one);
    const given = found.map((one) => one.given);
    const answer = whole ? compute(form.dataset.formula, given) : {};
    const said = found.some((one) => one.problem)
      ? "Not computed: a field holds no number."
      : missing.length
        ? `Still needed: ${missing.join("; ")}.`
        : answer.refused
          ? `Cannot be computed: ${answer.refused}.`
          : "";
    page.querySelector("[data-status]").textContent = said;
    page.querySelectorAll("[data-result]").forEach((place, at) => {
      place.textContent = answer.texts ? typeset(answer.texts[at], answer.results[at]) : "–";
    });
    const curve = page.querySelector("[data-curve]");
    const layout = curve && answer.texts ? drawn(form.dataset.formula, given) : null;
    curve?.replaceChildren(...(layout ? [drawing(layout, curve.dataset.curve)] : []));
  }

  /* Puts the example, or what holds by default, into every field. */
  function fill(form, which) {
    for (const one of form.querySelectorAll("[data-value], [data-unit]")) {
      const text = one.dataset[which];
      if (text !== undefined) one.value = text;
    }
    update(form);
  }

  function start(form) {
    form.addEventListener("input", () => update(form));
    form.addEventListener("submit", (event) => event.preventDefault());
    form.querySelector("[data-fill]").addEventListener("click", () => fill(form, "example"));
    form.querySelector("[data-clear]").addEventListener("click", () => fill(form, "before"));
    update(form);
  }

  if (typeof document !== "undefined") document.querySelectorAll("form[data-formula]").forEach(start);
  return { numbers, compute, drawn };
})();
