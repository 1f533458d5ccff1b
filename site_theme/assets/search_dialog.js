/* The dialog of the search: a field, and a list that arrow keys and fingers walk through.
 *
 * Pattern: combobox with a list box (WAI-ARIA Authoring Practices). Focus stays in the field; the hit that
 * Enter would open is named by aria-activedescendant.
 */
(() => {
  "use strict";

  const GROUPS = {
    exact: "Exactly this", base: "This code without its failure type", start: "Begins like this", text: "In the text",
  };
  const HINT =
    "Type a trouble code (P0AA6), a connector or pin (X210/3), a part number, the name of a procedure, or words.";
  const FILTERS = { vehicle: "Vehicle", system: "System", kind: "Kind", class: "Voltage class" };
  const FAST = 60; // milliseconds between two keys
  const chosen = {};
  let dialog, field, list, status, filters, hits, active, turn = 0, last = -FAST;

  function element(tag, attributes, ...children) {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
    made.append(...children);
    return made;
  }

  function build() {
    field = element("input", {
      type: "search", id: "find-field", role: "combobox", class: "find__field", "aria-label": "Search the manual",
      "aria-autocomplete": "list", "aria-controls": "find-list", "aria-expanded": "false",
      autocapitalize: "off", autocomplete: "off", autocorrect: "off", spellcheck: "false", enterkeyhint: "go",
      placeholder: "Code, connector, part number, words",
    });
    const close = element("button", { type: "button", class: "find__close" }, "Close");
    status = element("p", { role: "status", class: "find__status" });
    list = element("div", { role: "listbox", id: "find-list", class: "find__list", "aria-label": "Hits" });
    filters = element("div", { class: "find__filters", role: "group", "aria-label": "Show only" });
    for (const name of Object.keys(FILTERS)) filters.append(filter(name));
    dialog = element(
      "dialog", { class: "find", role: "dialog", "aria-modal": "true", "aria-label": "Search" },
      element("div", { class: "find__head" }, field, close), filters, status, list,
    );
    document.body.append(dialog);
    close.addEventListener("click", () => dialog.close());
    dialog.addEventListener("click", (event) => event.target === dialog && dialog.close());
    field.addEventListener("input", typed);
    field.addEventListener("keydown", keys);
    list.addEventListener("click", (event) => event.target.closest("a") && !event.ctrlKey && dialog.close());
  }

  function filter(name) {
    const select = element("select", { id: `find-${name}` });
    select.addEventListener("change", () => {
      chosen[name] = select.value;
      delete dialog.dataset.answered;
      search(++turn);
    });
    return element("label", { class: "find__filter", hidden: "" }, element("span", {}, FILTERS[name]), select);
  }

  /* The lists above the hits: what occurs among them, each with its number. One that could part nothing is left out. */
  function offer(offered) {
    for (const [at, name] of Object.keys(FILTERS).entries()) {
      const { choices = [], all = 0, about } = offered[at] ?? {};
      const label = filters.children[at];
      const number = (count) => (about ? `about ${count}` : String(count));
      const words = choices.map(({ word }) => word);
      const kept = chosen[name] && !words.includes(chosen[name]) ? [{ word: chosen[name], count: 0 }] : [];
      label.hidden = !chosen[name] && choices.length < 2;
      label.lastChild.replaceChildren(
        element("option", { value: "" }, `all (${number(all)})`),
        ...[...choices, ...kept].map(({ word, count }) => element("option", { value: word }, `${word} (${number(count)})`)),
      );
      label.lastChild.value = chosen[name] || "";
    }
    filters.hidden = [...filters.children].every((label) => label.hidden);
  }

  /* A key is answered at once; only what comes faster than fingers type waits for its end: a scanner, a held key. */
  function typed(event) {
    const isFast = event.timeStamp - last < FAST;
    last = event.timeStamp;
    if (isFast) setTimeout(search, FAST, ++turn);
    else search(++turn);
  }

  /* Whether somebody works with gloves here; kept by the pages of procedures, one entry a manual. */
  function gloved() {
    try {
      const names = Object.keys(localStorage).filter((name) => name.startsWith("bayleaf-job-view:"));
      return names.some((name) => JSON.parse(localStorage.getItem(name))?.gloves);
    } catch {
      return false;
    }
  }

  function open() {
    if (!dialog) build();
    if (dialog.open) return;
    bayleafSearch.prepare();
    dialog.classList.toggle("find--gloves", gloved());
    dialog.showModal();
    field.select();
    field.focus();
    search(++turn);
  }

  async function search(mine) {
    if (mine !== turn) return; // something was typed since
    const text = field.value.trim();
    if (!text) return show([], text, HINT, []);
    let isWhole = false;
    const early = (found) => mine === turn && !isWhole && found.length && fill(found, text);
    const slow = setTimeout(() => (status.textContent = "Searching …"), 300);
    try {
      const { hits: found, filters: offered, isPartly } = await bayleafSearch.look(text, chosen, early);
      isWhole = true;
      if (mine === turn) show(found, text, found.length ? count(found, offered, isPartly) : nothing(text), offered);
    } catch {
      if (mine === turn) show([], text, "The index of the search could not be read. Is the folder “search” complete?", []);
    } finally {
      clearTimeout(slow);
    }
  }

  /* How many hits there are, whether more would be, and whether they hold all of the words. */
  function count(found, offered, isPartly) {
    const some = isPartly && found.some(({ group }) => group === "text") ? " No page has all of these words; these have some." : "";
    const rest = Math.max(0, ...offered.filter(({ about }) => about).map(({ name, all, choices }) =>
      chosen[name] ? choices.find(({ word }) => word === chosen[name])?.count ?? 0 : all));
    if (rest > found.length) return `The first ${found.length} of about ${rest} hits: another word or a choice above leaves fewer.${some}`;
    return (found.length === 1 ? "1 hit" : `${found.length} hits`) + (some && `.${some}`);
  }

  function nothing(text) {
    const only = Object.keys(FILTERS).filter((name) => chosen[name]).map((name) => chosen[name]);
    if (only.length) return `Nothing found for “${text}” with ${only.join(", ")}. Choose “all” above to see the others.`;
    return `Nothing found for “${text}”. ${HINT}`;
  }

  function show(found, text, message, offered) {
    offer(offered);
    dialog.dataset.answered = text;
    status.textContent = message;
    fill(found, text);
  }

  function fill(found, text) {
    hits = [];
    list.replaceChildren();
    for (const [group, name] of Object.entries(GROUPS)) {
      const of = found.filter((each) => each.group === group);
      if (!of.length) continue;
      const box = element("div", { role: "group", class: "find__group", "aria-label": name });
      box.append(element("div", { class: "find__name", "aria-hidden": "true" }, name));
      for (const each of of) box.append(option(each, text));
      list.append(box);
    }
    field.setAttribute("aria-expanded", String(hits.length > 0));
    choose(0);
  }

  function option(each, text) {
    const made = element(
      "a", { role: "option", class: "find__hit", id: `find-hit-${hits.length}`, href: each.href, tabindex: "-1" },
      element("span", { class: "find__kind" }, each.kind),
      element("span", { class: "find__title" }, ...marked(each.title, text)),
    );
    const names = [each.vehicle, each.page].filter((name) => name && !each.title.includes(name));
    const where = [...new Set(names), each.address].join(" · ");
    made.append(element("span", { class: "find__where" }, where));
    if (each.group === "text" && each.words) {
      made.append(element("span", { class: "find__text" }, ...marked(around(each.words, text), text)));
    }
    hits.push(made);
    return made;
  }

  /* The words that were typed, where they begin a word of the text. */
  function pattern(text) {
    const words = text.split(/\s+/).filter(Boolean).map((word) => word.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&"));
    return new RegExp(`(^|[^\\p{L}\\p{N}])(${words.join("|")})`, "giu");
  }

  function marked(shown, text) {
    const parts = [];
    let from = 0;
    for (const found of shown.matchAll(pattern(text))) {
      const at = found.index + found[1].length;
      parts.push(shown.slice(from, at), element("mark", {}, found[2]));
      from = at + found[2].length;
    }
    return [...parts, shown.slice(from)];
  }

  /* So much of a long text as fits on two lines, with the first word that was looked for. */
  function around(words, text) {
    const at = Math.max(0, words.search(pattern(text)) - 50);
    const from = at && words.indexOf(" ", at) + 1;
    const rest = words.slice(from);
    const shown = rest.length > 160 ? `${rest.slice(0, rest.lastIndexOf(" ", 160))} …` : rest;
    return (from ? "… " : "") + shown;
  }

  function choose(number) {
    hits[active]?.setAttribute("aria-selected", "false");
    active = hits.length ? (number + hits.length) % hits.length : 0;
    const hit = hits[active];
    if (!hit) return field.removeAttribute("aria-activedescendant");
    hit.setAttribute("aria-selected", "true");
    field.setAttribute("aria-activedescendant", hit.id);
    if (active === 0) list.scrollTop = 0;
    else hit.scrollIntoView({ block: "nearest" });
  }

  async function keys(event) {
    if (event.isComposing) return;
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      event.preventDefault();
      choose(active + (event.key === "ArrowDown" ? 1 : -1));
    } else if (event.key === "Escape") {
      event.preventDefault(); // or the first press only empties the field
      dialog.close();
    } else if (event.key === "Enter") {
      event.preventDefault();
      if (dialog.dataset.answered !== field.value.trim()) await search(++turn); // the list is older than what was typed
      hits[active]?.click();
    }
  }

  const typing = (target) =>
    target.isContentEditable || (/^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName) && !/^(radio|checkbox|button)$/.test(target.type));

  document.addEventListener("keydown", (event) => {
    if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey || typing(event.target)) return;
    event.preventDefault();
    open();
  });
  document.addEventListener("click", (event) => event.target.closest("[data-find]") && open());
})();
