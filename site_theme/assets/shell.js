/* The shell: the menu button, beside which a label stands without scripts that does the same; wide boxes. */
(() => {
  "use strict";

  // What scrolls sideways on a free page, a table or lines of a file, must be reached by keys too.
  window.addEventListener("load", () => {
    for (const box of document.querySelectorAll(".md-typeset__scrollwrap, pre > code")) {
      if (box.scrollWidth > box.clientWidth) box.tabIndex = 0;
    }
  });

  const drawer = document.getElementById("__drawer");
  const menu = document.querySelector(".bar__menu");
  if (!drawer || !menu) return;

  const tell = () => menu.setAttribute("aria-expanded", String(drawer.checked));
  const turn = (open) => {
    drawer.checked = open;
    drawer.dispatchEvent(new Event("change"));
  };

  drawer.addEventListener("change", tell);
  menu.addEventListener("click", () => turn(!drawer.checked));
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !drawer.checked) return;
    turn(false);
    menu.focus();
  });
  tell();
})();

/* What is far from the window is laid out only when it comes near (pages.css), so its height is a guess until then: the scroll bar
   jumps, and a link to a late step misses it. While nobody works, each piece is shown for one frame, and the browser keeps its height. */
(() => {
  "use strict";

  const PIECES = ".bl-step, .bl-conclusion, .bl-card";
  const BUDGET = 8; // milliseconds of a frame, so that a key is answered meanwhile
  const LATER = 3000; // first somebody reads the head of the page, or taps what brought him here
  // Where what is read would move while pieces above it grow, they stay guessed.
  if (!CSS.supports("content-visibility: auto") || !CSS.supports("overflow-anchor: auto")) return;
  const whenIdle = window.requestIdleCallback ?? ((work) => setTimeout(work, 50));

  function show(left) {
    if (document.activeElement?.matches("input, select, textarea")) {
      setTimeout(show, 1000, left); // somebody enters a reading
      return;
    }
    requestAnimationFrame(() => {
      const begun = performance.now();
      const shown = [];
      while (left.length && performance.now() - begun < BUDGET) {
        const piece = left.shift();
        piece.style.contentVisibility = "visible";
        shown.push(piece);
        piece.getBoundingClientRect(); // lays it out now, so that the time counts
      }
      requestAnimationFrame(() => {
        for (const piece of shown) piece.style.contentVisibility = "";
        if (left.length) whenIdle(() => show(left));
      });
    });
  }

  window.addEventListener("load", () => setTimeout(() => show([...document.querySelectorAll(PIECES)]), LATER));
})();
