/* The fields of readings: what is typed is judged with every key, entered by a button, and then stands in the record. */
globalThis.bayleafJobReadings = (() => {
  "use strict";

  const { make, button, name, clock } = bayleafJobParts;
  const { fraction } = bayleafExact;
  const { suggested, agrees, isStale } = bayleafJobComputed;

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

    const typed = () => bayleafJobMarks.typed(input);
    const judged = () => bayleafReading.judge(input.value, field, units, choice.value, leadsHold);

    function live() {
      desk.draft(draft, input.value.trim() && { text: input.value, unit: choice.value });
      question.replaceChildren();
      input.removeAttribute("aria-invalid");
      refresh();
    }

    /* What is typed is judged, and not entered yet. */
    function say() {
      const found = judged();
      if (found.problem || !agrees(found, step, desk)) {
        input.setAttribute("aria-invalid", "true");
        verdict.className = "job-verdict";
        verdict.textContent = found.problem ?? `The readings give ${computed()}, not ${found.text}. Press “${take.textContent}”, or correct the reading that is wrong`;
        return desk.judged(step, at, null);
      }
      const words = [found.ask ? "Do the leads hold? Look at both clips and pins" : errorWords(found, field, units), stillCharged(found.verdict), "Not entered yet"];
      show(verdict, verdictOf(found, step), words.filter(Boolean).join(". "));
      if (found.ask && !question.childElementCount) ask();
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
      const text = input.value.trim();
      if (!bayleafReading.isOverload(text)) put(/^[-−–]/.test(text) ? text.slice(1) : `-${text.replace(/^\+/, "")}`);
      input.focus();
    }

    function enter() {
      if (!typed()) return input.focus();
      const found = judged();
      if (found.problem || !agrees(found, step, desk)) return live();
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

    const computed = () => `${take.dataset.figure} ${field.unit}`;

    function refresh() {
      const entry = desk.way.state(step).readings[at];
      const stale = isStale(step, desk);
      entered.textContent = entry ? told(entry, Boolean(typed()) || stale) : "";
      const figure = suggested(step, field, desk);
      take.dataset.figure = figure ?? "";
      take.hidden = figure === null || (typed() ? agrees(judged(), step, desk) : Boolean(entry) && !stale);
      take.textContent = `Take ${computed()}, computed from the readings`;
      if (typed()) return say();
      if (stale) show(verdict, null, `${entry.reading} no longer fits the readings: they give ${computed()} now`);
      else show(verdict, entry?.verdict, entry ? stillCharged(entry.verdict) : "");
      return desk.judged(step, at, entry && !stale ? bayleafReading.judge(entry.reading === "no reading" ? "OL" : entry.reading, field, units, null, entry.verdict === "within") : null);
    }

    /* What was entered; its verdict stands beside it where that is not what the step shows now. */
    function told(entry, isBefore) {
      if (!isBefore) return `Entered at ${clock(entry.at)}: ${entry.reading}`;
      const verdict = SAID[entry.verdict]?.[1];
      return `Entered before: ${entry.reading}${verdict ? ` (${verdict})` : ""}, at ${clock(entry.at)}`;
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
