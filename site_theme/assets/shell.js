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
