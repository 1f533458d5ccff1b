/* The verdict on a reading, the same as in bayleaf/quantities/verdict.py: exact, no number of the machine is in it. */
globalThis.bayleafVerdict = (() => {
  "use strict";

  const { fraction, plus, minus, times, size, isBelow, read } = bayleafExact;

  /* What is said of a reading.
   *
   * `typed` is the reading as it stands on the display; null for an overload: see `judgeOverload`. `unit` holds the
   * exact `factor` and `offset` that lead to the coherent unit, and perhaps the `places` that the display has behind
   * its point; `limit` its ends `low` and `high` in that unit, null where there is none; `band` how far the true value
   * may lie from the reading, in that unit, or null. All of them are texts as Python writes fractions. Gives
   * {verdict, side}, or {problem} where the reading is not a number.
   */
  function judge(typed, unit, limit, band) {
    if (typed === null) return { verdict: "no reading", side: null };
    const given = read(typed, unit.places);
    if (given.problem) return given;
    const value = plus(times(given.value, fraction(unit.factor)), fraction(unit.offset));
    const margin = size(fraction(band ?? "0"));
    const lowest = minus(value, margin);
    const highest = plus(value, margin);
    const below = (one) => limit.low !== null && isBelow(one, fraction(limit.low));
    const above = (one) => limit.high !== null && isBelow(fraction(limit.high), one);
    if (![lowest, highest].some((one) => below(one) || above(one))) return { verdict: "within", side: null };
    if (below(highest)) return { verdict: "outside", side: "below" };
    if (above(lowest)) return { verdict: "outside", side: "above" };
    return { verdict: "not decided", side: null };
  }

  /* The verdict on a display that shows no figure: no reading, and somebody is asked whether the leads hold. Once they
   * do, it is a value beyond the range of the instrument: within a limit that is open upwards, and above any other.
   */
  function judgeOverload(limit, leadsHold) {
    if (limit.low === null && limit.high === null) return { verdict: "no reading", side: null, ask: false };
    if (!leadsHold) return { verdict: "no reading", side: null, ask: true };
    if (limit.high === null) return { verdict: "within", side: null, ask: false };
    return { verdict: "outside", side: "above", ask: false };
  }

  return { judge, judgeOverload };
})();
