/* The fields of a job's panel: what is typed is kept with every key, and what is not understood is told in words. */
globalThis.bayleafJobFields = (() => {
  "use strict";

  const { make, field } = bayleafJobParts;

  // ---- what is understood ----------------------------------------------------------------------------

  const counted = (typed) => (/^[1-9][0-9]{0,5}$/.test(typed) ? Number(typed) : undefined);

  function odometer(typed) {
    const found = /^([0-9]{1,7})\s*(km|mi)?$/.exec(typed.replace(/(?<=[0-9])[\s\u00a0\u202f'](?=[0-9]{3})/g, ""));
    return found ? `${Number(found[1])} ${found[2] ?? "km"}` : undefined;
  }

  /* As ISO 3779 has it: no I, O or Q, which are read as 1 and 0. Blanks between its parts do not count. */
  function vin(typed) {
    const found = typed.replace(/\s/g, "").toUpperCase();
    return /^[A-HJ-NPR-Z0-9]{17}$/.test(found) ? found : undefined;
  }

  function vinWords(typed) {
    const found = typed.replace(/\s/g, "");
    const strange = [...new Set(found.toUpperCase().match(/[^A-HJ-NPR-Z0-9]/g) ?? [])];
    return strange.length ? `${strange.map((one) => `\`${one}\``).join(", ")} is in no such number` : `It has 17 letters and digits; these are ${found.length}`;
  }

  // ---- one field -------------------------------------------------------------------------------------

  /* {node, restore, unclear}. `read` gives what the job holds, or undefined for what cannot be; `wrong` the words for that. */
  function kept(desk, name, label, input, read, wrong) {
    const made = field(label, input);
    const said = make("p", "problem", { role: "status", id: `${input.id}-said` });
    const key = `panel|${name}`;
    made.node.append(said);
    input.setAttribute("aria-describedby", said.id);

    /* Gives what is understood of it. */
    function judge() {
      const typed = input.value.trim();
      const value = typed ? read(typed) : undefined;
      const isUnclear = Boolean(typed) && value === undefined;
      if (isUnclear) input.setAttribute("aria-invalid", "true");
      else input.removeAttribute("aria-invalid");
      said.textContent = isUnclear ? `Not in the record yet. ${wrong(typed)}.` : "";
      said.hidden = !isUnclear;
      return { value, typed, isUnclear };
    }

    function restore() {
      if (input === document.activeElement) return;
      input.value = desk.job.drafts[key] ?? desk.job[name] ?? "";
      judge();
    }

    input.addEventListener("input", () => {
      const { value, typed, isUnclear } = judge();
      desk.change((job) => {
        if (value === undefined) delete job[name];
        else job[name] = value;
        if (isUnclear) job.drafts[key] = typed;
        else delete job.drafts[key];
      });
    });
    restore();
    return { node: made.node, restore, unclear: () => (judge().isUnclear ? `${label.split(/[,:]/)[0]} “${input.value.trim()}” (not understood)` : null) };
  }

  /* The fields that stand in the record as they are: odometer, number of the vehicle; behind the parts, minutes and remarks. */
  function build(desk) {
    const figures = { inputmode: "numeric", autocomplete: "off" };
    const number = make("input", "figure", { autocomplete: "off", autocapitalize: "characters", spellcheck: "false" });
    const quoted = (words) => (typed) => `\`${typed}\` is not understood: ${words}`;
    return [
      kept(desk, "odometer", "Odometer, in km", make("input", "figure", { autocomplete: "off" }), odometer, quoted("write whole kilometres, such as 84210, or miles, such as 52300 mi")),
      ...(desk.data.vin ? [kept(desk, "vin", "Vehicle identification number: 17 letters and digits, no I, O or Q", number, vin, vinWords)] : []),
      ...bayleafJobFitted.build(desk),
      kept(desk, "minutes", "Minutes worked, all people together", make("input", "figure", figures), counted, quoted("write whole minutes, such as 90")),
      kept(desk, "remarks", "Remarks for the next one", make("textarea", "area", { rows: 2 }), (typed) => typed, () => ""),
    ];
  }

  return { build };
})();
