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
    const typed = bayleafJobStore.beginning(desk.data);
    number.input.value = typed.number ?? "";
    if (variant) variant.input.value = typed.variant ?? "";

    function start() {
      const found = bayleafJobStore.number(number.input.value, desk.data);
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

    const keep = () => bayleafJobStore.beginning(desk.data, { number: number.input.value, variant: variant?.input.value });
    for (const one of [number, variant]) one?.input.addEventListener("input", keep);
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
      const open = () => desk.open(bayleafJobStore.load(desk.data, job.job) ?? job); // another window may have gone on with it
      return make("li", "", {}, button(`Go on with ${job.job}`, open), make("span", "", {}, words));
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
    const { job, problem } = bayleafJobTaken.read(text, desk.data);
    if (problem) return said.replaceChildren(make("p", "problem", {}, problem));
    const take = () => desk.open({ ...job, stamp: bayleafJobStore.load(desk.data, job.job)?.stamp });
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
    if (job.judged?.length) rows.push(judgedAnew(desk));
    if (way.unknown.length) rows.push(make("p", "lost-note", {}, `${way.unknown.length} entries belong to steps that this page does not have; they stay in the file.`));
    const lost = way.circuits.filter((one) => way.lost.has(one) && (way.everProved.has(one) || way.place?.dead?.includes(one)));
    if (lost.length) rows.push(make("p", "lost-note", { role: "status" }, ...bayleafJobMarks.lostWords(lost, way.place, desk)));
    if (!desk.isKept) rows.push(make("p", "lost-note", { role: "alert" }, "This browser does not keep the job. Keep its file before you leave the page."));
    return rows;
  }

  /* Readings that were called something else where the job comes from, with links to their steps. */
  function judgedAnew(desk) {
    const name = (verdict) => `“${bayleafJobReadings.SAID[verdict]?.[1] ?? verdict}”`;
    const words = ({ reading, said, is }) => `, ${reading}: ${is ? `it is ${name(is)}` : "it cannot be judged here; read it again"}, ${said ? `not ${name(said)} as was noted` : "where nothing was noted"}.`;
    const link = (number) => {
      const step = desk.data.steps.find((one) => one.number === number);
      return step ? make("a", "link", { href: `#${step.anchor}` }, `Step ${number}`) : `Step ${number}`;
    };
    const gone = () => {
      desk.change((job) => delete job.judged);
      desk.panel.refresh();
    };
    const items = desk.job.judged.map((one) => make("li", "", {}, link(one.step), words(one)));
    const head = "Judged anew by this page. These verdicts are not those that were noted, and count from now on. The job went on as was noted then: go back to these steps before you rely on what follows them.";
    return make("div", "lost-note", { role: "alert" }, make("p", "", {}, head), make("ul", "", {}, ...items), button("I have read this", gone));
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

  /* {nodes, press}: the button for the record file, and what it asks where something would be missing in it. */
  function exporting(desk, fields) {
    const said = make("div", "", { role: "alert" });
    const clear = () => said.replaceChildren();
    const write = () => {
      clear();
      desk.download();
    };
    const press = () => {
      if (!desk.job.entries.length) return said.replaceChildren(make("p", "problem", {}, "Nothing is entered yet."));
      const missing = fields.map((one) => one.unclear()).filter(Boolean);
      if (!missing.length) return write();
      const words = `Not in the file: ${missing.join("; ")}.`;
      return said.replaceChildren(question(words, [["Mend it first", clear, "main"], ["Keep the file without it", write, "grave"]]));
    };
    return { nodes: [button("Keep the record file", press, "main"), said], press };
  }

  /* {button, place}: leaves the job; while the browser does not keep it, not without a question. */
  function leaving(desk, keepFile) {
    const place = make("div", "", { role: "alert" });
    const stay = () => place.replaceChildren();
    const words = () => `This browser does not keep job ${desk.job.job}. What is not in its file is lost when you leave it.`;
    const leave = () => {
      desk.keep(); // there may be room by now
      if (desk.isKept) return desk.close();
      return place.replaceChildren(question(words(), [["Keep its file first", keepFile, "main"], ["Leave it all the same", () => desk.close(), "grave"], ["Stay with it", stay]]));
    };
    return { button: button("Other jobs", leave), place };
  }

  /* Prints without the steps and conclusions at which nothing was entered, and says which these are. */
  function printDone(desk, place) {
    const all = (look) => [...desk.page.querySelectorAll(look)];
    const reached = bayleafJobFlow.conclusion(desk.data, desk.way).name;
    const entered = new Set(desk.job.entries.map((entry) => desk.way.byPath.get(entry.step)?.anchor));
    const isDone = (one) => entered.has(one.id) || one.matches(".job-complete") || [...one.querySelectorAll(".bl-step")].some(isDone);
    const steps = all(".bl-step").filter((one) => !isDone(one));
    const left = [...steps, ...all(".bl-conclusion").filter((one) => one.id !== `conclusion-${reached}`), ...all(".bl-flow, .bl-flow-paper")];
    const numbers = steps.filter((one) => !steps.includes(one.parentElement.closest(".bl-step"))).map((one) => one.querySelector(".bl-number").textContent.trim());
    const note = make("p", "left-out-note", {}, `Only what was done is printed. Nothing was entered at these steps: ${numbers.join(", ") || "none"}.`);
    const put = (isLeft) => left.forEach((one) => one.classList.toggle("job-left-out", isLeft));
    put(true);
    place.append(note);
    addEventListener("afterprint", () => { put(false); note.remove(); }, { once: true });
    print();
  }

  // ---- the panel -------------------------------------------------------------------------------------

  /* {refresh, draw, restore, ages} */
  function build(desk) {
    const panel = make("section", "panel", { "aria-label": "Work with this page", "data-search-exclude": "" });
    const top = make("div", "stand");
    const proofs = make("div", "ages");
    const body = make("div", "");
    const done = button("Print only what was done", () => printDone(desk, top));
    const views = make("div", "line", {}, button("One step at a time", () => desk.single.open(), "main"), ...bayleafJobLooks.switches(desk.data));
    let fields = [];
    panel.append(top, proofs, body, views);
    document.getElementById("steps").before(panel);

    function draw() {
      if (!desk.job) {
        fields = [];
        top.replaceChildren(make("p", "name", {}, make("strong", "", {}, "Work with this page")));
        proofs.replaceChildren();
        body.replaceChildren(begin(desk), ...listed(desk), ...taking(desk));
        return;
      }
      fields = bayleafJobFields.build(desk);
      const file = exporting(desk, fields);
      const others = leaving(desk, file.press);
      const end = make("div", "line", {}, ...file.nodes, button("Print the filled sheet", () => print()), done, others.button);
      const nodes = fields.map((one) => one.node);
      body.replaceChildren(make("div", "", {}, ...pausing(desk)), ...nodes, end, others.place, make("div", "", {}, ...removing(desk)));
      refresh();
    }

    const ages = () => desk.job && bayleafJobMarks.ages(proofs, desk.way.circuits, desk);

    function refresh() {
      if (!desk.job) return;
      top.replaceChildren(...stand(desk));
      done.hidden = Boolean(desk.way.place);
      ages();
    }

    return { draw, refresh, ages, restore: () => fields.forEach((one) => one.restore()) };
  }

  return { build, PAUSES, clock };
})();
