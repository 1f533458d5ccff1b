/* The shell: the menu button for the keyboard. Everything in it works without this file by touch or mouse. */
(() => {
  "use strict";

  const drawer = document.getElementById("__drawer");
  const menu = document.querySelector(".bar__menu");
  if (!drawer || !menu) return;

  const tell = () => menu.setAttribute("aria-expanded", String(drawer.checked));
  const turn = (open) => {
    drawer.checked = open;
    drawer.dispatchEvent(new Event("change"));
  };

  drawer.addEventListener("change", tell);
  menu.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
    event.stopPropagation(); // the theme clicks a label on Enter, which would turn it back
    turn(!drawer.checked);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !drawer.checked) return;
    turn(false);
    menu.focus();
  });
  tell();
})();
