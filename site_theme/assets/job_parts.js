/* What the controls of a job are put together from. */
globalThis.bayleafJobParts = (() => {
  "use strict";

  /* An element; `look` are its classes behind `job-`. */
  function make(name, look, attributes = {}, ...children) {
    const made = document.createElement(name);
    if (look) made.className = look.split(" ").map((one) => `job-${one}`).join(" ");
    for (const [key, value] of Object.entries(attributes)) if (value !== null && value !== undefined) made.setAttribute(key, value);
    made.append(...children);
    return made;
  }

  function button(words, act, look = "") {
    const made = make("button", `button ${look}`.trim(), { type: "button" }, words);
    made.addEventListener("click", act);
    return made;
  }

  let count = 0;
  const name = () => `job-field-${(count += 1)}`;

  /* A field with its label in front: {node, input}. */
  function field(words, input, look = "field") {
    input.id = name();
    return { node: make("div", look, {}, make("label", "label", { for: input.id }, words), input), input };
  }

  /* Asks for a text before something is done; what is typed is kept by `keep`. */
  function askFor({ words, help, yes, no, before, keep, done, left }) {
    const area = make("textarea", "area", { rows: 2 });
    area.value = before ?? "";
    const said = make("p", "problem", { role: "alert" });
    const { node } = field(words, area);
    area.addEventListener("input", () => keep(area.value));
    const finish = () => {
      if (area.value.trim()) return done(area.value.trim());
      said.textContent = "Write a reason first.";
      return area.focus();
    };
    const form = make("div", "form", { role: "group", "aria-label": yes }, make("p", "help", {}, help), node, said);
    form.append(make("div", "line", {}, button(yes, finish, "grave"), button(no, left)));
    requestAnimationFrame(() => area.focus());
    return form;
  }

  /* A question with its answers as buttons: [[words, act, look], …]. */
  function question(words, answers) {
    const buttons = answers.map(([text, act, look]) => button(text, act, look));
    return make("div", "form", { role: "group", "aria-label": words }, make("p", "help", {}, words), make("div", "line", {}, ...buttons));
  }

  const clock = (at) => (at ?? "").slice(11);

  return { make, button, name, field, askFor, question, clock };
})();
