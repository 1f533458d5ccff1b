/*
 * The frame of every page: the menu button, the title in the bar, the place in the contents, what is folded, wide boxes.
 * Made pages have no script of the theme, so what of that is needed there stands here.
 */
(() => {
  "use strict";

  const BAR = 48; // px, as high as the bar
  const content = document.getElementById("content");

  // A label stands beside the menu button without scripts that does the same.
  const drawer = document.getElementById("__drawer");
  const menu = document.querySelector(".bar__menu");

  const tell = () => menu.setAttribute("aria-expanded", String(drawer.checked));
  const turn = (open) => {
    drawer.checked = open;
    drawer.dispatchEvent(new Event("change"));
    if (open) document.querySelector(".site-nav a")?.focus({ preventScroll: true });
  };
  // What lies below the open drawer cannot be reached by keys.
  const cover = () => {
    for (const part of document.querySelectorAll(".md-content, .md-sidebar--secondary, .foot, .bar")) part.inert = drawer.checked;
  };

  if (drawer && menu) {
    drawer.addEventListener("change", tell);
    drawer.addEventListener("change", cover);
    menu.addEventListener("click", () => turn(!drawer.checked));
    document.addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || !drawer.checked) return;
      turn(false);
      menu.focus();
    });
    tell();
  }

  if (!content) return;

  // Once the heading is above the window, the bar says what page this is.
  const title = document.querySelector(".bar .md-header__title");
  const heading = content.querySelector("h1");
  if (title && heading) {
    const look = (entries) => {
      const last = entries[entries.length - 1];
      title.classList.toggle("md-header__title--active", !last.isIntersecting && last.boundingClientRect.top < BAR);
    };
    new IntersectionObserver(look, { rootMargin: `-${BAR}px 0px 0px` }).observe(heading);
  }

  // The contents mark where the reader is. What is far from the window has no layout, so few places are asked for.
  const links = [...document.querySelectorAll(".on-page li > a")];
  const beside = matchMedia("(min-width: 60em)");
  const LANDED = 88; // px: where a heading stands at most after a tap on its link
  let marked = null;
  let asked = 0;

  const place = (link) => document.getElementById(link.getAttribute("href").slice(1));
  const isPassed = (link) => (place(link)?.getBoundingClientRect().top ?? Infinity) <= LANDED;

  const keepInSight = (link) => {
    const box = link.closest(".md-sidebar__scrollwrap");
    const from = link.getBoundingClientRect().top - box.getBoundingClientRect().top;
    if (from < 0 || from + BAR > box.clientHeight) box.scrollTop += from - box.clientHeight / 2;
  };

  const mark = () => {
    asked = 0;
    let low = 0;
    let high = links.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (isPassed(links[middle])) low = middle + 1;
      else high = middle;
    }
    const link = links[low - 1] ?? null;
    if (link === marked) return;
    marked?.removeAttribute("aria-current");
    link?.setAttribute("aria-current", "location");
    marked = link;
    if (link) keepInSight(link);
  };

  const askSoon = () => {
    if (beside.matches) asked ||= requestAnimationFrame(mark);
  };
  if (links.length) {
    window.addEventListener("scroll", askSoon, { passive: true });
    beside.addEventListener("change", askSoon);
  }

  // What is folded opens for a link into it, and for paper.
  const folded = () => [...content.querySelectorAll("details:not([open])")];
  const unfoldTarget = () => {
    const target = document.querySelector(":target");
    const around = target ? folded().filter((part) => part.contains(target)) : [];
    for (const part of around) part.open = true;
    if (around.length) target.scrollIntoView();
  };
  window.addEventListener("hashchange", unfoldTarget);
  unfoldTarget();

  let opened = [];
  window.addEventListener("beforeprint", () => {
    for (const picture of content.querySelectorAll("img[loading=lazy]")) picture.loading = "eager";
    opened = folded();
    for (const part of opened) part.open = true;
  });
  window.addEventListener("afterprint", () => {
    for (const part of opened) part.open = false;
  });

  // What scrolls sideways on a free page, a table or lines of a file, must be reached by keys too.
  window.addEventListener("load", () => {
    for (const box of content.querySelectorAll(".md-typeset__scrollwrap, pre > code")) {
      if (box.scrollWidth > box.clientWidth) box.tabIndex = 0;
    }
  });
})();
