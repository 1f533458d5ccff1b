/* A reading as it is typed in the bay: its number and unit, the error of the instrument there, the verdict.
 *
 * The same as in bayleaf/limits/reading.py and bayleaf/limits/instrument.py, with exact fractions all the way. A field
 * holds what pages/working_readings.py wrote of it; `units` is the table of the page.
 */
globalThis.bayleafReading = (() => {
  "use strict";

  const { fraction, plus, minus, times, size, isBelow, number, read } = bayleafExact;

  /* 2/√3 from above: the expanded uncertainty of an error that may lie anywhere within ±1. */
  const EXPANDED = fraction("1.154701");
  const HALF = fraction("1/2");
  const HUNDREDTH = fraction("1/100");
  /* What displays show when they show no figure, without blanks and points. */
  const OVERLOADS = ["ol", "0l", "overload", "overrange", "open", "----", "∞"];

  const text = ([above, below]) => `${above}/${below}`;
  const greater = (one, other) => (isBelow(one, other) ? other : one);

  /* Whether a display shows no figure. A 1 counts only with its point (`1 .`), as older displays show it. */
  function isOverload(typed) {
    const plain = typed.trim().toLowerCase();
    const bare = plain.replace(/[ .]/g, "");
    return OVERLOADS.includes(bare) || (bare === "1" && plain.endsWith("."));
  }

  /* The smallest range that shows a size, or null. */
  function rangeFor(value, ranges) {
    let found = null;
    for (const one of ranges) {
      const top = fraction(one.top);
      if (isBelow(top, size(minus(value, fraction(one.offset))))) continue;
      if (found === null || isBelow(top, fraction(found.top))) found = one;
    }
    return found;
  }

  /* Percent of the reading plus digits of the last place; half a digit is the least, since a display rounds. */
  function errorAt(value, range) {
    if (range.percent === null) return null;
    const shown = size(minus(value, fraction(range.offset)));
    const digit = range.resolution === null ? times(fraction(range.top), HUNDREDTH) : fraction(range.resolution);
    const share = times(times(shown, fraction(range.percent)), HUNDREDTH);
    return plus(share, times(greater(fraction(range.digits), HALF), digit));
  }

  /* How far a reading has to stay from a limit: max(a, r·U). */
  const bandOf = (error, guard) => (guard == null ? error : greater(error, times(times(fraction(guard), error), EXPANDED)));

  // ---- what is typed ---------------------------------------------------------------------------------

  /* {digits, symbol}: the number and its unit, typed behind it or chosen beside it; or {problem}. */
  function parted(typed, field, units, chosen) {
    const [, digits, spelling] = /^([^\p{L}%°"Ω℃℉]*)(.*)$/u.exec(typed.trim());
    if (!spelling) return { digits, symbol: chosen ?? field.unit };
    const key = (one) => one.replace(/[\s.·⋅∙•*]/g, "").replace(/\u2126/g, "Ω").replace(/\u03bc/g, "µ");
    const symbol = field.ladder.find((one) => units[one].spellings.some((each) => key(each) === key(spelling)));
    if (symbol) return { digits, symbol };
    return { problem: `\`${spelling}\` does not fit here; a number with ${field.ladder.join(" or ")} is read` };
  }

  /* The number as a file may hold it: `1.125`, which can be read in two ways, gets a nought behind it. */
  function unmistakable(typed) {
    const plain = typed.trim().replace(/[\s\u00a0\u2007\u2009\u202f+]/g, "").replace(/[−–]/, "-").replace(",", ".");
    const [whole, decimals = ""] = plain.replace("-", "").split(".");
    if (decimals.length !== 3 || whole.length > 3 || whole[0] === "0") return plain;
    return decimals.endsWith("0") ? plain.slice(0, -1) : `${plain}0`;
  }

  /* What is said of a typed reading: {problem}, or {verdict, side, exit, ask, value, error, band, text}.
   *
   * `verdict` is null without a limit. `value`, `error` and `band` are fractions in the coherent unit, null where there
   * is none; `text` is the reading as a record holds it. Where only the size counts, as in a proof that a circuit is
   * dead, a minus makes it no less.
   */
  function judge(typed, field, units, chosen, leadsHold) {
    if (isOverload(typed)) return overload(field, leadsHold);
    const found = parted(typed, field, units, chosen);
    if (found.problem) return found;
    const unit = { ...units[found.symbol], places: field.places[found.symbol] };
    const digits = field.sizeOnly ? found.digits.replace(/^\s*[-−–]\s*/, "") : found.digits;
    const given = read(digits, unit.places);
    if (given.problem) return given;
    const value = plus(times(given.value, fraction(unit.factor)), fraction(unit.offset));
    const range = rangeFor(value, field.ranges);
    const error = range === null ? null : errorAt(value, range);
    const band = field.band ? fraction(field.band) : error === null ? null : bandOf(error, field.guard);
    const written = `${unmistakable(found.digits)}${found.symbol === "°" ? "" : " "}${found.symbol}`;
    const said = field.limit
      ? bayleafVerdict.judge(digits, unit, field.limit, band === null ? null : text(band))
      : { verdict: null, side: null };
    return { ...said, exit: exitOf(said), ask: false, value, error, band, text: written };
  }

  function overload(field, leadsHold) {
    const said = field.limit ? bayleafVerdict.judgeOverload(field.limit, Boolean(leadsHold)) : { verdict: "no reading", side: null, ask: false };
    return { ...said, exit: exitOf(said), value: null, error: null, band: null, text: "no reading" };
  }

  /* The exit that a verdict takes; without a reading, none. */
  function exitOf({ verdict, side }) {
    if (verdict === null || verdict === "no reading") return null;
    return side ?? verdict.replace(" ", "_");
  }

  return { judge, isOverload, rangeFor, errorAt, bandOf, number, unmistakable };
})();
