/* A value that is computed from the readings of other steps, and whether what was entered for it is that value.
 *
 * As in bayleaf/records/computed.py, with exact fractions: a value may be rounded, and agrees within half of its last digit
 * and within half of the fifth figure, to which it is offered here.
 */
globalThis.bayleafJobComputed = (() => {
  "use strict";

  const { fraction, plus, minus, times, size, isBelow, number } = bayleafExact;
  /* Half a unit of the fifth figure, at its worst for a number that begins with 1. */
  const FIFTH_FIGURE = fraction("5/100000");
  /* Per cent of the reading by which the meter may be off: the same as `by_voltmeter` in calculations/insulation.py takes. */
  const METER = fraction("0.5/100");

  const NOUGHT = fraction("0");
  const inverse = ([above, below]) => (above < 0n ? [-below, -above] : [below, above]);
  const higher = (one, other) => (isBelow(one, other) ? other : one);

  /* The value of an entered reading as a fraction; null for none, "endless" for an overload on leads that hold. */
  function valueOf(step, way, units) {
    const entries = (step && way.state(step).readings.filter(Boolean)) ?? [];
    if (!step?.readings || entries.length < step.readings.length) return null;
    const values = entries.map((entry) => {
      if (entry.reading === "no reading") return ["within", "above"].includes(entry.verdict) ? "endless" : null;
      return bayleafReading.judge(entry.reading, step.readings[0], units).value;
    });
    if (values.includes(null) || values.includes(undefined)) return null;
    const finite = values.filter((one) => one !== "endless");
    if (!finite.length || (step.take === "highest" && finite.length < values.length)) return "endless";
    return finite.reduce((one, other) => (isBelow(one, other) === (step.take === "highest") ? other : one));
  }

  /* Ro · Vb · (1/V' − 1/V), V the higher of V1 and V2; null for readings that no circuit can give. */
  function byVoltmeter([vb, v1, v2, loaded], known) {
    const [most, sum] = [higher(v1, v2), plus(v1, v2)];
    const share = (off) => times(vb, plus(fraction("1"), off));
    const isBeyond = [vb, loaded, known].some((one) => !isBelow(NOUGHT, one)) || isBelow(v1, NOUGHT) || isBelow(v2, NOUGHT);
    if (isBeyond || !isBelow(NOUGHT, most)) return null;
    if (isBelow(share(METER), times(sum, minus(fraction("1"), METER)))) return null;
    if (isBelow(most, loaded) || (!isBelow(loaded, most) && isBelow(most, share(minus(NOUGHT, METER))))) return null;
    return times(times(known, vb), minus(inverse(loaded), inverse(most)));
  }

  /* The computed value of a step in the coherent unit; null while a reading is missing, and where they give none. */
  function computed(step, desk) {
    if (!step.formula) return null;
    const values = step.of.map((path) => valueOf(desk.way.byPath.get(path), desk.way, desk.data.units));
    if (values.includes(null)) return null;
    const finite = values.filter((one) => one !== "endless");
    if (step.formula === "parallel") {
      if (!finite.length || finite.some(([above]) => above <= 0n)) return null;
      return inverse(finite.map(inverse).reduce(plus));
    }
    if (finite.length < values.length) return null;
    if (step.formula === "difference") return minus(values[0], values[1]);
    if (step.formula === "average") return times(values.reduce(plus), [1n, BigInt(values.length)]);
    return step.resistor && values.length === 4 ? byVoltmeter(values, fraction(step.resistor)) : null;
  }

  /* The computed value as it may be entered, in the unit of the field; null where there is none. */
  function suggested(step, field, desk) {
    const value = computed(step, desk);
    if (!value) return null;
    const unit = desk.data.units[field.unit];
    const own = times(minus(value, fraction(unit.offset)), inverse(fraction(unit.factor)));
    return bayleafReading.unmistakable(String(Number(number(own).toPrecision(5))));
  }

  /* Whether a reading, judged as `bayleafReading` does, is the computed value; where there is none, every reading is. */
  function agrees(found, step, desk) {
    const value = computed(step, desk);
    if (!value) return true;
    if (!found.value) return false; // a display may show no figure, a computation always has one
    const [, digits, symbol] = /^([-\d.]+)\s*(.*)$/.exec(found.text);
    const decimals = (digits.split(".")[1] ?? "").length;
    const last = times(fraction(desk.data.units[symbol].factor), [1n, 2n * 10n ** BigInt(decimals)]);
    return !isBelow(higher(last, times(size(value), FIFTH_FIGURE)), size(minus(found.value, value)));
  }

  /* Whether what was entered at a step does not fit the readings any more that it was computed from. */
  function isStale(step, desk) {
    const entry = step.formula && desk.way.state(step).readings[0];
    if (!entry) return false;
    const typed = entry.reading === "no reading" ? "OL" : entry.reading;
    return !agrees(bayleafReading.judge(typed, step.readings[0], desk.data.units), step, desk);
  }

  return { computed, suggested, agrees, isStale };
})();
