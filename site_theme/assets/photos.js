/* A tap on a photo enlarges it; a second one on the large picture brings it nearer. Without this script the photo is a link
 * to its largest size, and in a sheet that holds everything it is only the picture.
 */
(() => {
  "use strict";

  const links = document.querySelectorAll(".bl-photo-open");
  if (!links.length || !window.HTMLDialogElement) return;
  let dialog, pan, near, opener;

  function element(tag, attributes, ...children) {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
    made.append(...children);
    return made;
  }

  function build() {
    const close = element("button", { type: "button", autofocus: "" }, "Close");
    near = element("button", { type: "button", "aria-pressed": "false" }, "Nearer");
    pan = element("div", { class: "bl-photo-pan", tabindex: "0", role: "group", "aria-label": "Picture" });
    dialog = element("dialog", { class: "bl-photo-large", role: "dialog", "aria-modal": "true" }, element("div", { class: "bl-photo-bar" }, near, close), pan);
    document.body.append(dialog);
    close.addEventListener("click", () => dialog.close());
    near.addEventListener("click", () => bring(!dialog.hasAttribute("data-near")));
    pan.addEventListener("click", (event) => event.target.closest(".bl-photo-frame") && bring(!dialog.hasAttribute("data-near"), event));
    dialog.addEventListener("keydown", (event) => event.stopPropagation()); // the page below has keys of its own
    dialog.addEventListener("close", () => {
      pan.replaceChildren();
      opener?.focus({ preventScroll: true });
    });
  }

  /* Nearer, with the place that was tapped in the middle; or back to the whole picture. */
  function bring(isNear, tap) {
    const frame = pan.querySelector(".bl-photo-frame");
    const box = frame.getBoundingClientRect();
    const [x, y] = tap ? [(tap.clientX - box.left) / box.width, (tap.clientY - box.top) / box.height] : [0.5, 0.5];
    dialog.toggleAttribute("data-near", isNear);
    near.setAttribute("aria-pressed", String(isNear));
    pan.scrollTo(frame.offsetWidth * x - pan.clientWidth / 2, frame.offsetHeight * y - pan.clientHeight / 2);
  }

  function open(link) {
    if (!dialog) build();
    opener = link;
    const figure = link.closest("figure");
    const frame = link.querySelector(".bl-photo-frame").cloneNode(true);
    for (const one of frame.querySelectorAll("source, img")) one.sizes = "250vw"; // the largest there is
    const image = frame.querySelector("img");
    image.loading = "eager";
    dialog.setAttribute("aria-label", image.alt);
    dialog.style.setProperty("--ratio", figure.style.getPropertyValue("--ratio"));
    pan.replaceChildren(frame, ...[...figure.querySelectorAll(".bl-photo-texts")].map((one) => one.cloneNode(true)));
    dialog.removeAttribute("data-near");
    near.setAttribute("aria-pressed", "false");
    dialog.showModal();
    pan.scrollTo(0, 0);
  }

  for (const link of links) {
    link.setAttribute("role", "button");
    link.setAttribute("aria-haspopup", "dialog");
    link.tabIndex = 0;
    link.addEventListener("click", (event) => {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return; // in a tab of its own
      event.preventDefault();
      open(link);
    });
    link.addEventListener("keydown", (event) => {
      if (event.key !== " " && event.key !== "Enter") return;
      event.preventDefault();
      event.stopPropagation();
      open(link);
    });
  }
  addEventListener("beforeprint", () => dialog?.close());
})();
