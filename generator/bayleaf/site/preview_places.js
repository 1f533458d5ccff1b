/* Places in photos, as a call-out says them: `at: 690, 613`, in pixels of the original. A tap in the enlarged photo shows the
 * place under the finger; the button puts a mark into the middle, which the arrow keys move.
 */
(() => {
  "use strict";
  const SIZES = PHOTO_SIZES;
  if (!document.querySelector(".bl-photo-open") || !window.HTMLDialogElement) return;
  let mark, shown, copied;

  function button(words, act) {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = words;
    made.addEventListener("click", act);
    return made;
  }

  function frameOf(dialog) {
    return dialog.querySelector(".bl-photo-frame");
  }

  function sizeOf(frame) {
    return SIZES[frame.querySelector("img").src.split("/").pop().split("-")[0]];
  }

  /* The enlarged photo with what this adds to it; it is built when the first photo is opened. */
  function large() {
    const dialog = document.querySelector(".bl-photo-large[open]");
    if (!dialog) return null;
    if (!mark) build(dialog);
    dialog.querySelector(".bl-place").hidden = !sizeOf(frameOf(dialog));
    return dialog;
  }

  function build(dialog) {
    mark = button("", () => {}); // heard of below, with taps on the photo
    mark.className = "bl-place-mark";
    mark.addEventListener("keydown", move);
    shown = document.createElement("output");
    copied = document.createElement("span");
    copied.setAttribute("role", "status");
    const middle = button("Middle", () => put(dialog, 0.5, 0.5, true));
    middle.setAttribute("aria-label", "Mark in the middle, moved with the arrow keys");
    const line = document.createElement("p");
    line.className = "bl-place";
    line.append(shown, button("Copy", copy), middle, copied);
    dialog.querySelector(".bl-photo-bar").after(line);
    dialog.addEventListener("close", () => mark.remove());
    say("Tap the photo to read off a place");
  }

  function say(words) {
    shown.textContent = words;
    copied.textContent = "";
  }

  /* Puts the mark to a share of width and height. */
  function put(dialog, across, down, takesFocus) {
    const frame = frameOf(dialog);
    const size = sizeOf(frame);
    if (!size) return;
    const [x, y] = [across, down].map((share, side) => Math.max(0, Math.min(size[side] - 1, Math.floor(share * size[side]))));
    mark.dataset.x = x;
    mark.dataset.y = y;
    mark.style.left = `${(100 * (x + 0.5)) / size[0]}%`;
    mark.style.top = `${(100 * (y + 0.5)) / size[1]}%`;
    mark.setAttribute("aria-label", `Place ${x}, ${y}. Arrow keys move it, with Shift by one pixel; Enter copies it`);
    if (mark.parentNode !== frame) frame.append(mark);
    say(`at: ${x}, ${y}`);
    if (takesFocus) mark.focus();
  }

  const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

  function move(event) {
    const step = STEPS[event.key];
    const dialog = large();
    if (!step || !dialog) return;
    event.preventDefault();
    const size = sizeOf(frameOf(dialog));
    const far = event.shiftKey ? 1 : Math.max(1, Math.round(size[0] / 100));
    put(dialog, ...[mark.dataset.x, mark.dataset.y].map((at, side) => (Number(at) + far * step[side] + 0.5) / size[side]), true);
  }

  async function copy() {
    if (!mark.isConnected) return;
    const words = shown.textContent;
    try {
      await navigator.clipboard.writeText(words);
      copied.textContent = "copied";
    } catch { // not allowed here: it is selected, to be copied by hand
      getSelection().selectAllChildren(shown);
      copied.textContent = "selected";
    }
  }

  function shareOf(frame, event) {
    const box = frame.querySelector("img").getBoundingClientRect();
    return [(event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height];
  }

  document.addEventListener("click", (event) => {
    const frame = event.target.closest(".bl-photo-frame");
    const inLarge = frame?.closest(".bl-photo-large");
    if (inLarge) {
      event.stopPropagation(); // the button brings it nearer
      if (event.target === mark && event.detail === 0) return copy(); // by key
      return large() && put(inLarge, ...shareOf(frame, event));
    }
    if (!event.target.closest(".bl-photo-open")) return;
    const share = frame && event.detail > 0 ? shareOf(frame, event) : null;
    setTimeout(() => {
      const dialog = large();
      if (!dialog) return;
      say("Tap the photo to read off a place");
      if (share) put(dialog, ...share);
    });
  }, true);
  document.addEventListener("keydown", (event) => {
    if (event.target.closest?.(".bl-photo-open")) setTimeout(() => large() && say("Tap the photo to read off a place"));
  }, true);
})();
