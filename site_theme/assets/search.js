/* The search of the manual: exact look-ups first, then titles, then words.
 *
 * The index lies in pieces under `search/`, written by `bayleaf.site.search_index`, which says what is in
 * them. Pieces are read by script tags, so that the search works from a folder as well as from a server.
 */
(() => {
  "use strict";

  const root = new URL("../", document.currentScript.src);
  const WEIGHTS = [12, 6, 3, 2]; // word in: title of the page, title of a record, text often, text
  const { joined, apart, alternatives, stem, isNear, mayBeASlip, TYPED_CODE, LITTLE } = bayleafSearchWords;
  const SHOWN = 20;
  const PAGES = 12;
  const FILTERS = ["vehicle", "system", "kind", "class"]; // in the order of `names` in the index

  // ---- how text is read: the same as in bayleaf/site/search_text.py --------------------------------

  const TYPED = {
    "ω": "ohm", "μ": "u", "ς": "σ", "ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "ł": "l", "đ": "d", "ð": "d",
    "þ": "th", "ı": "i", "\u2044": "/",
  };
  for (const sign of "·⋅∙•\u00ad\u200b\u200c\u200d\u2060\ufeff") TYPED[sign] = "";
  for (const dash of "\u2010\u2011\u2012\u2013\u2014\u2015\u2212") TYPED[dash] = "-";

  function typed(run) {
    let out = "";
    for (const sign of run.normalize("NFKD").toLowerCase().replace(/\p{Mn}/gu, "")) {
      const text = sign in TYPED ? TYPED[sign] : sign;
      out += text === "" || /^[\x00-\x7f\p{L}\p{N}]/u.test(text) ? text : " ";
    }
    return out;
  }

  const normal = (text) =>
    text
      .replace(/[^\x00-\x7f]+/g, typed)
      .toLowerCase()
      .replace(/(^|[^a-z0-9])n\.m(?![a-z0-9])/g, "$1nm");
  const tokens = (plain) => plain.match(/[\p{L}\p{N}]+(?:[-/.][\p{L}\p{N}]+)*/gu) || [];
  const squeezed = (plain) => plain.replace(/[^\p{L}\p{N}]+/gu, "");

  // ---- pieces of the index --------------------------------------------------------------------------

  const pieces = new Map();
  let version = "";
  let fresh = "";

  function piece(name) {
    let entry = pieces.get(name);
    if (!entry) {
      entry = {};
      entry.promise = new Promise((resolve, reject) => {
        Object.assign(entry, { resolve, reject });
        const tag = document.createElement("script");
        tag.src = new URL(`search/${name}.js${name === "index" ? fresh : `?v=${version}`}`, root).href;
        tag.onload = () => {
          tag.remove();
          reject(new Error(`${name} holds nothing`)); // without effect where the piece has arrived
        };
        tag.onerror = () => {
          tag.remove();
          pieces.delete(name);
          reject(new Error(`${name} is missing`));
        };
        document.head.append(tag);
      });
      pieces.set(name, entry);
    }
    return entry.promise;
  }

  function take(name, itsVersion, data) {
    const entry = pieces.get(name);
    if (name === "index") version = itsVersion;
    if (itsVersion === version) entry?.resolve(data);
    else entry?.reject(new Error("renewed"));
  }

  function above(sorted, value) {
    let low = 0;
    let high = sorted.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (sorted[middle] <= value) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /* All entries of a kind that begin with `key`, from at most `most` pieces. */
  async function entries(index, letter, key, most) {
    const firsts = index[letter];
    const names = [];
    for (let at = Math.max(0, above(firsts, key) - 1); at < firsts.length && names.length < most; at++) {
      if (names.length && !firsts[at].startsWith(key)) break;
      names.push(letter + at);
    }
    const found = await Promise.all(names.map(piece));
    return found.flatMap((each) => Object.entries(each).filter(([name]) => name.startsWith(key)));
  }

  function numbers(steps) {
    let at = 0;
    return steps ? steps.split(",").map((step) => (at += Number(step))) : [];
  }

  function hit(index, number, unit, row, group) {
    const [url, page] = unit;
    const [anchor, title, kind, words, exact = []] = row;
    const address = anchor ? `${url}#${anchor}` : url;
    const mark = index.marks[index.marked[number]];
    const [vehicle] = mark.map((name, at) => index.names[at][name]);
    return { address, href: new URL(address, root).href, page, title, kind, words, exact, group, vehicle, mark };
  }

  const unitOf = (index, number) => above(index.starts, number) - 1;

  async function record(index, number, group) {
    const unit = unitOf(index, number);
    const at = above(index.units, unit) - 1;
    const found = (await piece(`d${at}`))[unit - index.units[at]];
    return hit(index, unit, found, found[2][number - index.starts[unit]], group);
  }

  // ---- finding --------------------------------------------------------------------------------------

  /* What stands in the folder of the page on the screen comes first: mostly the vehicle in the bay. */
  function here(index) {
    const path = decodeURIComponent(location.pathname.slice(root.pathname.length)).split("/");
    return (path.length > 1 && index.folders[path[0]]) || [0, 0];
  }

  function hereFirst(index) {
    const [from, to] = here(index);
    const far = (number) => (from <= number && number < to ? 0 : 1);
    return (list) => [...new Set(list)].sort((a, b) => far(a) - far(b) || a - b);
  }

  async function byKey(index, plain) {
    const key = squeezed(plain);
    const order = hereFirst(index);
    const same = [];
    const longer = [];
    for (const [name, lists] of await entries(index, "k", key, 3)) {
      const [own, mentions, titles] = lists.split("|").map(numbers);
      if (name === key) same.push(...order(own), ...order(mentions), ...order(titles));
      else longer.push([name, order([...own, ...titles])]);
    }
    longer.sort(([a], [b]) => a.length - b.length || (a < b ? -1 : 1));
    return { same: [...new Set(same)], longer: longer.map(([, list]) => list) };
  }

  async function byCode(index, plain) {
    const found = await byKey(index, plain);
    const base = !found.same.length && squeezed(plain).match(TYPED_CODE);
    return base ? { ...found, same: (await byKey(index, base[1])).same, group: "base" } : found;
  }

  /* The records that a key leads to, as many as are shown. */
  async function keyHits(index, plain, { same, longer, group = "exact" }, fits) {
    const good = (number) => fits(index.marks[index.marked[unitOf(index, number)]]);
    const load = (list, group) => Promise.all(list.slice(0, SHOWN).map((number) => record(index, number, group)));
    const exact = await load(same.filter(good), group);
    // X210/3 and X2103 share a key: what is written just as it was typed goes first, then what is parted where it was.
    const parted = (text) => text.split(/[^\p{L}\p{N}]+/u).join(" ");
    const asTyped = ({ exact: written }) => {
      const texts = written.map(normal);
      return texts.includes(plain) ? 0 : texts.some((text) => parted(text) === parted(plain)) ? 1 : 2;
    };
    exact.sort((a, b) => asTyped(a) - asTyped(b));
    const lists = longer.map((list) => list.filter(good));
    const few = new Set(lists.flat()).size <= SHOWN; // of many, some of each name
    const starts = await load([...new Set(lists.flatMap((list) => (few ? list : list.slice(0, 3))))], "start");
    return [...exact, ...starts];
  }

  /* The units with a word, or with words that begin so, and how much that weighs. */
  function weigh(best, found, isWhole, factor) {
    for (const [name, lists] of found) {
      lists.split("|").forEach((list, level) => {
        const weight = WEIGHTS[level] * factor * (isWhole(name) ? 1 : 0.6);
        for (const unit of numbers(list)) if ((best.get(unit) || 0) < weight) best.set(unit, weight);
      });
    }
  }

  /* The units with a word, however the manual words it, or with other forms of it; where there are none, with what it may
   * be a slip of. `read` are the words by which they were found. */
  async function unitsWith(index, word) {
    const best = new Map();
    const read = alternatives(word);
    for (const one of read) {
      const found = await entries(index, "w", one, 4);
      weigh(best, one.length < 2 ? found.filter(([name]) => name === one) : found, (name) => name === one, 1);
    }
    const cut = stem(word);
    if (cut) {
      read.push(cut);
      weigh(best, await entries(index, "w", cut, 4), () => true, 0.4);
    }
    if (!best.size && mayBeASlip(word)) {
      const near = (await entries(index, "w", word.slice(0, 3), 8)).filter(([name]) => isNear(word, name));
      read.push(...near.map(([name]) => name));
      weigh(best, near, () => true, 0.5);
    }
    return { best, read };
  }

  /* The records of a unit that hold the words, best first: those with all of them, or else the page. */
  function rowsWith(unit, words, score) {
    const tests = words.map((read) => {
      const any = read.map((word) => word.replace(/\./g, "\\.") + (word.length < 3 ? "(?![\\p{L}\\p{N}])" : ""));
      return new RegExp(`(?:^|[^\\p{L}\\p{N}])(?:${any.join("|")})`, "u");
    });
    const rated = unit[2].map((row) => {
      const head = normal([row[1], ...(row[4] || [])].join("\n"));
      const text = normal(row[3]);
      const points = tests.map((test) => (test.test(head) ? 3 : test.test(text) ? 1 : 0));
      const all = points.every(Boolean);
      return { row, all, score: score + (all ? 8 : 0) + points.reduce((a, b) => a + b, 0) };
    });
    const whole = rated.filter((each) => each.all).sort((a, b) => b.score - a.score).slice(0, 3);
    return whole.length ? whole : [rated.reduce((a, b) => (b.score > a.score ? b : a))];
  }

  /* The units that hold all the words; where none does, all that say much, or at last the most of them:
   * `isPartly`. What is of the vehicle on the screen weighs a quarter more. */
  async function byWords(index, typedWords) {
    const found = await Promise.all([...new Set(typedWords)].map(async (word) => ({ word, ...(await unitsWith(index, word)) })));
    const telling = found.filter(({ word }) => !LITTLE.test(word));
    const [first, last] = here(index);
    const isHere = (unit) => index.starts[unit] >= first && index.starts[unit] < last;
    for (const asked of telling.length && telling.length < found.length ? [found, telling] : [found]) {
      const points = pointsOf(asked);
      const most = Math.max(0, ...[...points.values()].map(([count]) => count));
      const isPartly = most < asked.length;
      if (isPartly && asked !== telling && telling.length && telling.length < found.length) continue;
      const units = [];
      for (const [unit, [count, sum]] of points) if (count === most) units.push([unit, isHere(unit) ? sum * 1.25 : sum]);
      units.sort((a, b) => b[1] - a[1] || a[0] - b[0]);
      return { units: isPartly && most * 2 < asked.length ? [] : units, words: asked.map(({ read }) => read), isPartly };
    }
    return { units: [], words: [], isPartly: false };
  }

  /* Of each unit how many of the words it holds, and what they weigh. */
  function pointsOf(found) {
    const points = new Map();
    for (const { best } of found) {
      for (const [unit, weight] of best) {
        const [count, sum] = points.get(unit) || [0, 0];
        points.set(unit, [count + 1, sum + weight]);
      }
    }
    return points;
  }

  /* The best records of the units that hold the words. */
  async function wordHits(index, words, units, fits) {
    const loaded = await Promise.all(
      units.filter(([number]) => fits(index.marks[index.marked[number]])).slice(0, PAGES).map(async ([number, score]) => {
        const at = above(index.units, number) - 1;
        const unit = (await piece(`d${at}`))[number - index.units[at]];
        return rowsWith(unit, words, score).map((each) => ({ ...each, hit: hit(index, number, unit, each.row, "text") }));
      }),
    );
    return loaded
      .flat()
      .sort((a, b) => b.score - a.score)
      .map((each) => each.hit);
  }

  // ---- filters ---------------------------------------------------------------------------------------

  /* Whether the mark of a record has what was chosen, one filter left out of account. */
  function chooser(index, chosen, without) {
    const wanted = FILTERS.map((name, at) =>
      name === without || !chosen[name] ? null : index.names[at].indexOf(chosen[name]));
    return (mark) => wanted.every((one, at) => one === null || mark[at] === one);
  }

  /* For each filter, what may be chosen and how many hits it leaves; `about` where not all of them were read. */
  function filtersOf(index, chosen, marks, about) {
    return FILTERS.map((name, at) => {
      const good = chooser(index, chosen, name);
      const counts = new Map();
      for (const mark of marks) if (mark[at] && good(mark)) counts.set(mark[at], (counts.get(mark[at]) || 0) + 1);
      const choices = [...counts].sort(([a], [b]) => a - b).map(([word, count]) => ({ word: index.names[at][word], count }));
      return { name, choices, about, all: marks.filter(good).length };
    });
  }

  const once = (hits) => {
    const seen = new Set();
    return hits.filter(({ address, title }) => !seen.has(`${address}\n${title}`) && seen.add(`${address}\n${title}`));
  };

  async function lookUp(plain, chosen, early) {
    const index = await piece("index");
    const typedWords = tokens(joined(plain)).flatMap(apart);
    const byItsKey = byCode(index, plain);
    const exact = async (keys) => early(await keyHits(index, plain, { ...keys, longer: [] }, chooser(index, chosen)));
    byItsKey.then((keys) => keys.same.length && exact(keys)).catch(() => {}); // a fault is told below
    const [keys, { units, words, isPartly }] = await Promise.all([byItsKey, byWords(index, typedWords)]);
    const read = async (fits) => {
      const [byItsKey, byItsWords] = await Promise.all([
        keyHits(index, plain, keys, fits), wordHits(index, words, units, fits),
      ]);
      return { found: once([...byItsKey, ...byItsWords.slice(0, SHOWN)]), cut: byItsWords.length > SHOWN };
    };
    const fits = chooser(index, chosen);
    const longer = new Set(keys.longer.flat());
    if (keys.same.length <= SHOWN && longer.size <= SHOWN && units.length <= PAGES) {
      const { found, cut } = await read(() => true);
      const marks = found.map((each) => each.mark);
      if (!cut) return { hits: found.filter(({ mark }) => fits(mark)), filters: filtersOf(index, chosen, marks, false), isPartly };
    }
    const numbered = [...keys.same, ...longer].map((number) => unitOf(index, number));
    const by = new Set(numbered);
    numbered.push(...units.map(([unit]) => unit).filter((unit) => !by.has(unit)));
    const marks = numbered.map((unit) => index.marks[index.marked[unit]]);
    return { hits: (await read(fits)).found, filters: filtersOf(index, chosen, marks, true), isPartly };
  }

  /* Hits, and for each filter what may be chosen. `chosen` holds a word for `vehicle`, `system`, `kind`, `class`.
   * `early` is given the hits for a code, name or number as soon as they are known: reading what has the words takes longer. */
  async function look(text, chosen = {}, early = () => {}, again = true) {
    const plain = normal(text).trim();
    if (!squeezed(plain)) return { hits: [], filters: [] };
    try {
      return await lookUp(plain, chosen, early);
    } catch (error) {
      if (!again || error.message !== "renewed") throw error;
      pieces.clear(); // the browser kept the index of an older manual
      fresh = `?at=${Date.now()}`;
      return look(text, chosen, early, false);
    }
  }

  const find = async (text, chosen) => (await look(text, chosen)).hits;

  /* Begins to read what every search needs; a fault is told by the search itself. */
  const prepare = () => void piece("index").catch(() => {});

  window.bayleafSearch = { take, prepare, look, find, normal, tokens, squeezed };
})();
