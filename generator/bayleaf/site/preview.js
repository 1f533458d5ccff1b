/* Waits for the next save, then shows the page of what was saved, or this page anew: the same lines in view, and what was
 * typed in its fields. */
(() => {
  "use strict";
  const version = VERSION;
  const key = `bayleaf preview ${location.pathname}`;
  const moved = "bayleaf preview moved";
  const FIELDS = "article input:not([type=checkbox]):not([type=radio]):not([type=file]), article textarea";

  function owner(node) {
    return node.parentElement?.closest("[id]")?.id ?? "";
  }

  /* A field by where it stands and what is asked there: after a step was put in before it, it is another one. */
  function fields() {
    const count = {};
    return [...document.querySelectorAll(FIELDS)].map((node) => {
      const place = `${owner(node)} ${node.closest("section")?.querySelector("h2, h3, h4")?.textContent ?? ""}`;
      count[place] = (count[place] ?? 0) + 1;
      return [`${place} ${count[place]}`, node];
    });
  }

  function keep() {
    // What begins nearest to the bar: around it lies what changes its height once it is laid out.
    const far = (node) => Math.abs(node.getBoundingClientRect().top - 100);
    const placed = [...document.querySelectorAll("article [id]")].filter((node) => node.getClientRects().length);
    const seen = placed.reduce((near, node) => (!near || far(node) < far(near) ? node : near), null);
    const typed = fields().filter(([, node]) => node.value && node.value !== node.defaultValue);
    const open = [...document.querySelectorAll("article details")].map((node) => node.open);
    sessionStorage.setItem(key, JSON.stringify({
      y: scrollY, id: seen?.id, top: seen?.getBoundingClientRect().top, open,
      typed: typed.map(([place, node]) => [place, node.value]),
    }));
  }

  function restore() {
    const was = JSON.parse(sessionStorage.getItem(key) ?? "null");
    const isMove = sessionStorage.getItem(moved) !== null;
    sessionStorage.removeItem(moved);
    sessionStorage.removeItem(key);
    if (!was) return;
    const details = document.querySelectorAll("article details");
    if (details.length === was.open.length) details.forEach((node, at) => { node.open = was.open[at]; });
    const typed = new Map(was.typed);
    for (const [place, node] of fields()) {
      if (typed.has(place) && node.value !== typed.get(place)) {
        node.value = typed.get(place);
        node.dispatchEvent(new Event("input", { bubbles: true }));
      }
    }
    if (isMove && location.hash) return;
    const seen = was.id && document.getElementById(was.id);
    scrollTo({ top: seen ? scrollY + seen.getBoundingClientRect().top - was.top : was.y, behavior: "instant" });
  }

  function go(now) {
    keep();
    const here = decodeURIComponent(location.pathname).replace(/^\//, "") || "index.html";
    if (!now.url || now.url === here || now.also.includes(here)) return location.reload();
    sessionStorage.setItem(moved, "");
    location.href = `/${now.url}${now.anchor && `#${now.anchor}`}`;
  }

  /* Only a page in view holds a connection open: a browser has six for all its pages. */
  async function ask() {
    const waits = document.visibilityState === "visible";
    let pause = waits ? 0 : 1000;
    try {
      const answer = await fetch(`POLL?version=${version}${waits ? "&wait" : ""}`, { cache: "no-store" });
      const now = await answer.json();
      if (now.version !== version) return go(now);
    } catch {
      pause = 500;
    }
    setTimeout(ask, pause);
  }

  if (document.readyState === "complete") restore();
  else addEventListener("load", restore);
  ask();
})();
