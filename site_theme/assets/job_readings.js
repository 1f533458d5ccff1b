/* The fields of readings: what is typed is judged with every key, entered by a button, and then stands in the record. */
globalThis.bayleafJobReadings = (() => {
  "use strict";

  const { make, button, name, clock } = bayleafJobParts;
  const { fraction, plus, minus, times } = bayleafExact;

  /* Sign, words, and which border: the verdict is told by each of them. */
  const SAID = {
    within: ["✓", "Within limits", "good"],
    dead: ["✓", "Dead", "good"],
    below: ["▼", "Too low", "bad"],
    above: ["▲", "Too high", "bad"],
    "not dead": ["✕", "Not dead: hands off", "bad"],
    "not decided": ["≈", "Too close to the limit to call", "close"],
    "no reading": ["?", "No reading", "none"],
  };

  const CHARGED = "Still charged by the test: touch nothing, leave both leads on, read again";

  /* The verdict as a record holds it. */
  function verdictOf(found, step) {
    if (!found.verdict) return undefined;
    const proof = step.kind === "prove_dead";
    if (found.verdict === "within") return proof ? "dead" : "within";
    if (found.verdict === "outside") return proof ? "not dead" : found.side;
    return found.verdict;
  }

  function show(place, verdict, words) {
    const [sign, text, look] = SAID[verdict] ?? ["", "", ""];
    place.className = `job-verdict${look ? ` job-verdict-${look}` : ""}`;
    if (!sign && !words) return place.replaceChildren();
    return place.replaceChildren(...(sign ? [make("span", "sign", { "aria-hidden": "true" }, sign)] : []), make("span", "", {}, [text, words].filter(Boolean).join(". ")));
  }

  /* ± error in the unit of the field. */
  function errorWords(found, field, units) {
    if (!found.error || !found.error[0]) return "";
    const [above, below] = fraction(units[field.unit].factor);
    const shown = bayleafReading.number([found.error[0] * below, found.error[1] * above]);
    return `The instrument may be wrong by ±${Number(shown.toPrecision(2))} ${field.unit.replace("°C", "K")} here`;
  }

  // ---- a value that is computed from others -----------------------------------------------------------

  /* The value of an entered reading as a fraction; null for none, "endless" for an overload on leads that hold. */
  function valueOf(step, way, units) {
    const entries = (step && way.state(step).readings.filter(Boolean)) ?? [];
    if (!step?.readings || entries.length < step.readings.length) return null;
    const values = entries.map((entry) => {
      if (entry.reading === "no reading") return ["within", "above"].includes(entry.verdict) ? "endless" : null;
      return bayleafReading.judge(entry.reading, step.readings[0], units).value;
    });
    if (values.includes(null) || values.includes(undefined)) return null;
    const finite = values.filter((one) => one !== "endless");
    if (!finite.length || (step.take === "highest" && finite.length < values.length)) return "endless";
    const isLess = (one, other) => one[0] * other[1] < other[0] * one[1];
    return finite.reduce((one, other) => (isLess(one, other) === (step.take === "highest") ? other : one));
  }

  const inverse = ([above, below]) => (above < 0n ? [-below, -above] : [below, above]);

  /* The computed value of a step, or null while a reading is missing. */
  function computed(step, desk) {
    const values = step.of.map((path) => valueOf(desk.way.byPath.get(path), desk.way, desk.data.units));
    if (values.includes(null)) return null;
    const finite = values.filter((one) => one !== "endless");
    if (step.formula === "parallel") {
      if (!finite.length || finite.some(([above]) => above <= 0n)) return null;
      return inverse(finite.map(inverse).reduce(plus));
    }
    if (finite.length < values.length) return null;
    if (step.formula === "difference") return minus(values[0], values[1]);
    if (step.formula === "average") return times(values.reduce(plus), [1n, BigInt(values.length)]);
    return null;
  }

  function suggested(step, field, desk) {
    const value = step.formula ? computed(step, desk) : null;
    if (!value) return null;
    const unit = desk.data.units[field.unit];
    const own = times(minus(value, fraction(unit.offset)), inverse(fraction(unit.factor)));
    return bayleafReading.unmistakable(String(Number(bayleafReading.number(own).toPrecision(5))));
  }

  // ---- one field -------------------------------------------------------------------------------------

  /* {node, refresh}. */
  function build(step, at, desk) {
    const field = step.readings[at];
    const units = desk.data.units;
    const draft = `${step.path}|${at}`;
    const input = make("input", "figure", { id: name(), inputmode: "decimal", autocomplete: "off", autocapitalize: "off", spellcheck: "false", enterkeyhint: "done", placeholder: " " });
    const label = make("label", "label", { for: input.id }, field.label ? `Reading, ${field.label}` : "Reading");
    const choice = make("select", "unit", { "aria-label": "Unit" }, ...field.ladder.map((one) => make("option", "", { value: one }, one)));
    const verdict = make("p", "verdict", { role: "status" });
    const question = make("div", "leads");
    const entered = make("p", "entered");
    const take = button("", () => put(take.dataset.figure));
    let leadsHold = false;

    const judged = () => bayleafReading.judge(input.value, field, units, choice.value, leadsHold);

    function live() {
      const typed = input.value.trim();
      desk.draft(draft, typed && { text: input.value, unit: choice.value });
      question.replaceChildren();
      input.removeAttribute("aria-invalid");
      if (!typed) return refresh();
      const found = judged();
      if (found.problem) {
        input.setAttribute("aria-invalid", "true");
        verdict.className = "job-verdict";
        verdict.textContent = found.problem;
        return desk.judged(step, at, null);
      }
      const words = [found.ask ? "Do the leads hold? Look at both clips and pins" : errorWords(found, field, units), stillCharged(found.verdict), "Not entered yet"];
      show(verdict, verdictOf(found, step), words.filter(Boolean).join(". "));
      if (found.ask) ask();
      return desk.judged(step, at, found);
    }

    const stillCharged = (said) => (field.residual && said !== "within" ? CHARGED : "");

    function ask() {
      const answer = (holds) => () => {
        leadsHold = holds;
        if (!holds) input.value = "";
        live();
        input.focus();
      };
      question.append(button("Both leads hold: more than the display can show", answer(true)), button("A lead was off: read again", answer(false)));
    }

    function put(text) {
      leadsHold = false;
      input.value = text;
      live();
    }

    function sign() {
      const typed = input.value.trim();
      put(/^[-−–]/.test(typed) ? typed.slice(1) : `-${typed}`);
      input.focus();
    }

    function enter() {
      if (!input.value.trim()) return input.focus();
      const found = judged();
      if (found.problem) return live();
      const entry = { step: step.path, at: bayleafJobStore.now(), reading: found.text, between: field.between, limits: field.text, instrument: field.instrument, verdict: verdictOf(found, step) };
      input.value = "";
      leadsHold = false;
      question.replaceChildren();
      desk.draft(draft, null);
      return desk.act(entry);
    }

    input.addEventListener("input", () => {
      leadsHold = false;
      live();
    });
    choice.addEventListener("change", live);
    input.addEventListener("keydown", (event) => event.key === "Enter" && enter());
    const minus = button("±", sign, "small");
    minus.setAttribute("aria-label", "Change the sign");
    const line = make("div", "line", {}, minus, input, choice, button("Enter", enter, "main"), button("No figure (OL)", () => put("OL")));
    const node = make("div", "reading", {}, label, line, take, verdict, question, entered);

    function refresh() {
      const entry = desk.way.state(step).readings[at];
      entered.textContent = entry ? `Entered at ${clock(entry.at)}: ${entry.reading}` : "";
      const figure = entry ? null : suggested(step, field, desk);
      take.hidden = figure === null || Boolean(input.value);
      take.dataset.figure = figure ?? "";
      take.textContent = `Take ${figure} ${field.unit}, computed from the readings`;
      if (input.value.trim()) return;
      show(verdict, entry?.verdict, entry ? stillCharged(entry.verdict) : "");
      desk.judged(step, at, entry ? bayleafReading.judge(entry.reading === "no reading" ? "OL" : entry.reading, field, units, null, entry.verdict === "within") : null);
    }

    function restore() {
      const kept = desk.job.drafts[draft];
      choice.value = kept?.unit ?? field.unit;
      input.value = kept?.text ?? "";
      if (kept) live();
    }

    return { node, refresh, restore };
  }

  return { build, SAID };
})();
