/* How somebody words what they look for, and how the manual words it: units by their names, trouble codes with a failure
 * type, negations, other endings, slips of the finger. Only what is typed is read so; the index holds the words as they stand.
 */
globalThis.bayleafSearchWords = (() => {
  "use strict";

  // As they are spoken, and as they stand beside a figure (SI Brochure, 9th edition, tables 2, 4 and 7; in normal form).
  // What is a word by itself is left out: A, C, s, l.
  const UNITS = {
    v: "volts?", kv: "kilovolts?", mv: "millivolts?", ma: "milliamp(?:ere)?s?", ohm: "ohms?",
    kohm: "kil(?:o-?)?ohms?", mohm: "(?:meg(?:a-?)?|milli-?)ohms?", w: "watts?", kw: "kilowatts?", hz: "hertz",
    khz: "kilohertz", uf: "microfarads?", mf: "millifarads?", nm: "newton-?met(?:re|er)s?", kpa: "kilopascals?",
    mm: "millimet(?:re|er)s?", min: "minutes?",
    lbfft: "foot-?pounds?|(?:ft|lbf?)-?(?:lbf?|ft)", psi: "pounds?-per-square-inch",
  };
  const SPOKEN = Object.entries(UNITS).map(([sign, words]) => [new RegExp(`^(?:${words})$`), sign]);
  // Two words that are one unit.
  const PAIRS = [
    [/(^|[^a-z])newtons?[ -]+met(?:re|er)s?(?![a-z])/g, "$1nm"],
    [/(^|[^a-z])n[ -]m(?![a-z])/g, "$1nm"],
    [/(^|[^a-z])(?:ft|foot|feet)[ -]+(?:lbf?|pounds?)(?![a-z])|(^|[^a-z])lbf?[ -]+ft(?![a-z])/g, "$1$2lbfft"],
    [/(^|[^a-z])(?:won|can|doesn|don|isn|didn|wasn)['’ ]?t(?![a-z])/g, "$1not"], // on the pages: will not charge
  ];
  // A figure and its unit stand apart on the pages; typed in a hurry or with a hyphen they do not.
  const FIGURE =
    /^(\d+(?:\.\d+)?)-?(nm|[mk]?v|m?a|[mk]?ohm|[mu]?f|k?w|m?bar|k?pa|mm2?|min|k?hz|s|l|psi|volts?|amps?|ohms?|watts?)$/;
  /* A trouble code with its failure-type byte (ISO 14229-1, Annex D: two hex digits) where the manual has none. */
  const TYPED_CODE = /^([pcbu][0-3][0-9a-f]{3})-?[0-9a-f]{2}$/;
  const ENDINGS = /(?:ings?|ers?|ed|es|s|ly)$/;
  const SHORTEST_STEM = 3;
  /* Words that say little beside others: the kind of thing, and short ones of letters alone. */
  const LITTLE = /^(?:number|part|code|pin|plug|connector|the|does|[a-z]{1,2})$/;

  /* The query with what is one thing as one word. */
  const joined = (plain) => PAIRS.reduce((text, [pattern, word]) => text.replace(pattern, word), plain);

  const apart = (word) => (FIGURE.test(word) ? word.match(FIGURE).slice(1) : [word]);

  /* The same word as the manual may have it; the word itself is the first. */
  function alternatives(word) {
    const sign = SPOKEN.find(([pattern]) => pattern.test(word))?.[1];
    return [word, ...(sign ? [sign] : []), ...(TYPED_CODE.test(word) ? [word.match(TYPED_CODE)[1]] : [])];
  }

  /* The beginning that other forms of a word share, or null: slowly, slow; heaters, heater. */
  function stem(word) {
    const cut = word.replace(ENDINGS, "");
    return cut !== word && cut.length >= SHORTEST_STEM && /^\p{L}+$/u.test(cut) ? cut : null;
  }

  /* Whether two words differ by no more slips than their length allows: a letter too many, too few, another, or two turned
   * round (Damerau 1964, the optimal string alignment). */
  function isNear(typed, word) {
    const most = typed.length >= 7 ? 2 : 1;
    if (Math.abs(typed.length - word.length) > most) return false;
    let [before, last] = [[], Array.from({ length: word.length + 1 }, (_, at) => at)];
    for (let row = 1; row <= typed.length; row += 1) {
      const now = [row];
      for (let at = 1; at <= word.length; at += 1) {
        const differs = typed[row - 1] === word[at - 1] ? 0 : 1;
        now[at] = Math.min(last[at] + 1, now[at - 1] + 1, last[at - 1] + differs);
        const turned = row > 1 && at > 1 && typed[row - 1] === word[at - 2] && typed[row - 2] === word[at - 1];
        if (turned) now[at] = Math.min(now[at], before[at - 2] + 1);
      }
      [before, last] = [last, now];
    }
    return last[word.length] <= most;
  }

  /* What a slip may have been made in: words of letters, long enough that few others are near. */
  const mayBeASlip = (word) => word.length >= 5 && /^\p{L}+$/u.test(word);

  return { joined, apart, alternatives, stem, isNear, mayBeASlip, TYPED_CODE, LITTLE };
})();
