/* The panel above the steps: begin a job or take one up, where it stands, hand it over, keep its file. */
globalThis.bayleafJobPanel = (() => {
  "use strict";

  const { make, button, field, question, clock } = bayleafJobParts;
  const PAUSES = { break: "Break", "hand-over": "Hand-over", "vehicle left": "Vehicle left" };

  // ---- no job is open --------------------------------------------------------------------------------

  function variants(data) {
    const rows = [["", "not said"], ...data.variants];
    return make("select", "unit", {}, ...rows.map(([id, name]) => make("option", "", { value: id }, name)));
  }

  function begin(desk) {
    const number = field("Job number of the workshop", make("input", "figure", { autocomplete: "off", autocapitalize: "off", spellcheck: "false" }));
    const variant = desk.data.variants.length > 1 ? field("Version of the vehicle", variants(desk.data)) : null;
    const said = make("p", "problem", { role: "alert" });

    function start() {
      const found = bayleafJobStore.number(number.input.value);
      if (found.problem) {
        said.textContent = found.problem;
        return number.input.focus();
      }
      if (bayleafJobStore.load(desk.data, found.job)) {
        said.textContent = `Job ${found.job} is begun already; it stands in the list.`;
        return null;
      }
      return desk.open(bayleafJobStore.begin(desk.data, found.job, variant?.input.value || undefined));
    }

    number.input.addEventListener("keydown", (event) => event.key === "Enter" && start());
    return make("div", "begin", {}, number.node, ...(variant ? [variant.node] : []), button("Begin the job", start, "main"), said);
  }

  function listed(desk) {
    const jobs = bayleafJobStore.all(desk.data);
    if (!jobs.length) return [];
    const items = jobs.map((job) => {
      const way = bayleafJobFlow.follow(desk.data, job);
      const stand = way.place ? `next is step ${way.place.number}` : "at its end";
      const words = `begun ${job.started}, revision ${job.revision}, ${stand}`;
      return make("li", "", {}, button(`Go on with ${job.job}`, () => desk.open(job)), make("span", "", {}, words));
    });
    return [make("p", "label", {}, "Jobs begun in this browser"), make("ul", "list", {}, ...items)];
  }

  function taking(desk) {
    const input = make("input", "", { type: "file", accept: ".yml,.yaml,text/yaml", hidden: "" });
    const said = make("div", "", { role: "alert" });
    input.addEventListener("change", async () => {
      const [file] = input.files;
      if (file) takeIn(await file.text(), desk, said);
      input.value = "";
    });
    return [button("Take up a job from its file", () => input.click()), input, said];
  }

  /* A record becomes a job again. What is kept here under its number is never overwritten unasked. */
  function takeIn(text, desk, said) {
    const { record, problem } = bayleafJobFile.read(text);
    const tell = (words) => said.replaceChildren(make("p", "problem", {}, words));
    if (problem) return tell(`This file cannot be read: ${problem}.`);
    if (record.procedure !== desk.data.procedure) return tell(`This file belongs to another procedure: ${record.procedure}.`);
    const known = bayleafJobStore.number(record.job);
    if (known.problem) return tell(known.problem);
    const job = { losses: [], waits: {}, drafts: {}, ...record };
    const take = () => desk.open(job);
    if (!bayleafJobStore.load(desk.data, job.job)) return take();
    return said.replaceChildren(
      question(`Job ${job.job} is here already. Put the file in its place?`, [["Put the file in its place", take, "grave"], ["Keep what is here", () => said.replaceChildren()]]),
    );
  }

  // ---- a job is open ---------------------------------------------------------------------------------

  function stand(desk) {
    const { data, job, way } = desk;
    const rows = [make("p", "name", {}, make("strong", "", {}, `Job ${job.job}`), ` · begun ${job.started}${variantWords(data, job)}`)];
    if (way.exhausted) rows.push(make("p", "lost-note", {}, `Step ${way.exhausted.number} has been done as often as it may be; the work goes on by its last exit.`));
    rows.push(make("p", "next", {}, desk.onward()));
    if (job.revision !== data.revision || (job.digest && data.digest && job.digest !== data.digest)) {
      const words = job.revision !== data.revision ? `This job was begun with revision ${job.revision}; the page holds revision ${data.revision}.` : "The procedure has been changed since this job began.";
      rows.push(make("p", "lost-note", {}, `${words} Read what has changed before you go on: `, make("a", "link", { href: "#revisions" }, "revisions"), "."));
    }
    if (way.unknown.length) rows.push(make("p", "lost-note", {}, `${way.unknown.length} entries belong to steps that this page does not have; they stay in the file.`));
    const lost = way.circuits.filter((one) => way.lost.has(one) && (way.everProved.has(one) || way.place?.dead?.includes(one)));
    if (lost.length) rows.push(make("p", "lost-note", { role: "status" }, ...bayleafJobMarks.lostWords(lost, way.place, desk)));
    if (!desk.isKept) rows.push(make("p", "lost-note", { role: "alert" }, "This browser does not keep the job. Keep its file before you leave the page."));
    return rows;
  }

  const variantWords = (data, job) => (job.variant ? `, ${data.variants.find(([id]) => id === job.variant)?.[1] ?? job.variant}` : "");

  function pausing(desk) {
    const place = make("div", "");
    const step = () => desk.way.place ?? desk.lastStep ?? desk.data.steps[0];
    const leave = (why) => () => {
      place.replaceChildren();
      desk.act({ step: step().path, at: bayleafJobStore.now(), paused: why });
    };
    const ask = () =>
      place.replaceChildren(
        question("Why is the work broken off? From here on nothing counts as proved.", [...Object.entries(PAUSES).map(([why, words]) => [words, leave(why), "grave"]), ["Work goes on", () => place.replaceChildren()]]),
      );
    return [button("Break or hand-over", ask, "grave"), place];
  }

  /* A field whose text is kept as it is typed; `read` gives what the job holds, or undefined for what cannot be. */
  function kept(desk, name, label, input, read) {
    const made = field(label, input);
    const key = `panel|${name}`;
    made.input.value = desk.job.drafts[key] ?? desk.job[name] ?? "";
    made.input.addEventListener("input", () => {
      const typed = made.input.value.trim();
      const value = typed ? read(typed) : undefined;
      made.input.toggleAttribute("aria-invalid", Boolean(typed) && value === undefined);
      desk.job[name] = value;
      desk.draft(key, value === undefined && typed);
    });
    return made.node;
  }

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

  function closing(desk) {
    const figures = { inputmode: "numeric", autocomplete: "off" };
    const number = make("input", "figure", { autocomplete: "off", autocapitalize: "characters", spellcheck: "false" });
    return [
      kept(desk, "odometer", "Odometer, in km", make("input", "figure", { autocomplete: "off" }), odometer),
      ...(desk.data.vin ? [kept(desk, "vin", "Vehicle identification number: 17 letters and digits, no I, O or Q", number, vin)] : []),
      ...bayleafJobFitted.build(desk),
      kept(desk, "minutes", "Minutes worked, all people together", make("input", "figure", figures), counted),
      kept(desk, "remarks", "Remarks for the next one", make("textarea", "area", { rows: 2 }), (typed) => typed),
    ];
  }

  function removing(desk) {
    const place = make("div", "");
    const gone = () => {
      bayleafJobStore.remove(desk.data, desk.job.job);
      desk.close();
    };
    const ask = () =>
      place.replaceChildren(question(`Take job ${desk.job.job} out of this browser? Without its file nothing of it is left.`, [["Take it out", gone, "grave"], ["Keep it", () => place.replaceChildren()]]));
    return [button("Take it out of this browser", ask), place];
  }

  function exporting(desk) {
    const said = make("p", "problem", { role: "alert" });
    const press = () => {
      said.textContent = desk.job.entries.length ? "" : "Nothing is entered yet.";
      if (desk.job.entries.length) desk.download();
    };
    return [button("Keep the record file", press, "main"), said];
  }

  /* Prints without the steps and conclusions at which nothing was entered, and says which these are. */
  function printDone(desk, place) {
    const all = (look) => [...desk.page.querySelectorAll(look)];
    const reached = bayleafJobFlow.conclusion(desk.data, desk.way).name;
    const steps = all(".bl-step:not(.job-complete)").filter((one) => !one.querySelector(".job-complete"));
    const left = [...steps, ...all(".bl-conclusion").filter((one) => one.id !== `conclusion-${reached}`), ...all(".bl-flow, .bl-flow-paper")];
    const numbers = steps.filter((one) => !one.parentElement.closest(".bl-step:not(.job-complete)")).map((one) => one.querySelector(".bl-number").textContent.trim());
    const note = make("p", "left-out-note", {}, `Only what was done is printed. Nothing was entered at these steps: ${numbers.join(", ") || "none"}.`);
    const put = (isLeft) => left.forEach((one) => one.classList.toggle("job-left-out", isLeft));
    put(true);
    place.append(note);
    addEventListener("afterprint", () => { put(false); note.remove(); }, { once: true });
    print();
  }

  // ---- the panel -------------------------------------------------------------------------------------

  /* {refresh, draw, ages} */
  function build(desk) {
    const panel = make("section", "panel", { "aria-label": "Work with this page", "data-search-exclude": "" });
    const top = make("div", "stand");
    const proofs = make("div", "ages");
    const body = make("div", "");
    const done = button("Print only what was done", () => printDone(desk, top));
    const views = make("div", "line", {}, button("One step at a time", () => desk.single.open(), "main"), ...bayleafJobView.switches(desk.data));
    panel.append(top, proofs, body, views);
    document.getElementById("steps").before(panel);

    function draw() {
      if (!desk.job) {
        top.replaceChildren(make("p", "name", {}, make("strong", "", {}, "Work with this page")));
        proofs.replaceChildren();
        body.replaceChildren(begin(desk), ...listed(desk), ...taking(desk));
        return;
      }
      const end = make("div", "line", {}, ...exporting(desk), button("Print the filled sheet", () => print()), done, button("Other jobs", () => desk.close()));
      body.replaceChildren(make("div", "", {}, ...pausing(desk)), ...closing(desk), end, make("div", "", {}, ...removing(desk)));
      refresh();
    }

    const ages = () => desk.job && bayleafJobMarks.ages(proofs, desk.way.circuits, desk);

    function refresh() {
      if (!desk.job) return;
      top.replaceChildren(...stand(desk));
      done.hidden = Boolean(desk.way.place);
      ages();
    }

    return { draw, refresh, ages };
  }

  return { build, PAUSES, clock };
})();
