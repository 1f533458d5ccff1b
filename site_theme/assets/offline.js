/* Which version of the manual this is and how old, whether it is kept on the device, and that a newer one is there.
 *
 * From a folder there is nothing to keep. A service worker needs a secure context: https, or this machine itself.
 */
(() => {
  "use strict";

  const root = new URL("../", document.currentScript.src);
  const foot = document.querySelector("[data-version]");
  const overHttp = /^https?:$/.test(location.protocol);
  const PAGE_FIRST = 1000; // milliseconds: the whole manual is fetched behind the page that is being read, not before it
  const DAY = 24 * 3600 * 1000;

  function element(tag, attributes, ...children) {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
    made.append(...children);
    return made;
  }

  /* The age of a day in the calendar of this device. */
  function age(day, now = new Date()) {
    const days = Math.round((Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) - Date.parse(day)) / DAY);
    if (days < 0) return "dated later than the clock of this device";
    if (days === 0) return "from today";
    if (days < 60) return days === 1 ? "1 day old" : `${days} days old`;
    return days < 730 ? `${Math.floor(days / 30.44)} months old` : `${Math.floor(days / 365.25)} years old`;
  }

  function tell({ hash, newest }) {
    const words = newest ? `Newest revision of ${newest}, ${age(newest)}` : "No revision has a date";
    foot?.replaceChildren(element("span", {}, `${words} · version ${hash}`), element("span", { "data-kept": "" }));
  }

  function say(text) {
    const place = foot?.querySelector("[data-kept]");
    if (place) place.textContent = text;
  }

  // ---- kept on the device ----------------------------------------------------------------------------

  async function keep() {
    const worker = navigator.serviceWorker;
    if (!window.isSecureContext || !worker) {
      return say("Not kept on this device: that needs an address with https.");
    }
    document.head.append(element("link", { rel: "manifest", href: new URL("manifest.json", root).href }));
    try {
      const kept = await worker.register(new URL("sw.js", root).href, { scope: root.pathname, updateViaCache: "none" });
      watch(kept);
      if (!kept.active) {
        say("Being kept on this device …");
        kept.installing?.addEventListener("statechange", (event) => {
          if (event.target.state === "redundant") say("Not kept on this device: the next opening tries again.");
        });
      }
      await worker.ready;
      say("Kept on this device: can be read without a network.");
      await navigator.storage?.persist?.();
    } catch {
      say("Not kept on this device.");
    }
  }

  function watch(kept) {
    const newer = () => kept.waiting && navigator.serviceWorker.controller && offer(kept.waiting);
    const followed = () => kept.installing?.addEventListener("statechange", newer);
    newer();
    followed();
    kept.addEventListener("updatefound", followed);
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") kept.update().catch(() => {}); // no network: nothing newer
    });
  }

  // ---- a newer version -------------------------------------------------------------------------------

  /* Told, never swapped: whoever is in the middle of a job works on with the page that they began with. */
  function offer(waiting) {
    if (document.querySelector(".newer")) return;
    const use = element("button", { type: "button", class: "newer__use" }, "Use the newer version");
    const later = element("button", { type: "button", class: "newer__later" }, "Later");
    const running = document.querySelector('[data-job]:not([data-job="none"], [data-job=""])');
    const more = running
      ? " A job is open on this page: its steps may have changed; what was entered is kept."
      : " This page is then loaded anew.";
    const bar = element(
      "div", { class: "newer", role: "status" },
      element("p", {}, "A newer version of this manual is on this device and not yet in use.", more), use, later,
    );
    use.addEventListener("click", () => {
      // Another window may have taken it into use already: then there is nothing to wait for.
      if (waiting.state === "activated") return location.reload();
      navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
      return waiting.postMessage("use");
    });
    navigator.serviceWorker.addEventListener("controllerchange", () => {
      bar.querySelector("p").textContent = `A newer version of this manual is in use; this page is still of the older one.${more}`;
    });
    later.addEventListener("click", () => bar.remove());
    document.body.append(bar);
  }

  const script = element("script", { src: new URL("version.js", root).href });
  script.addEventListener("load", () => {
    tell(window.bayleafVersion);
    if (overHttp) setTimeout(keep, PAGE_FIRST);
  });
  script.addEventListener("error", () => script.remove()); // the preview has no version
  document.head.append(script);
})();
