/* Exact numbers: fractions of whole numbers without bounds, and numbers as somebody types them.
 *
 * A fraction is [above, below], below > 0. Python writes one as `1/1000` or `-5`; nothing here is ever rounded, save by
 * `number`. A typed number is read as in bayleaf/quantities/numbers.py: with a comma or a point, never guessed.
 */
globalThis.bayleafExact = (() => {
  "use strict";

  const BLANK = "[ \\t\\u00a0\\u2007\\u2009\\u202f]";
  const TYPED = new RegExp(`^([+\\-−–]?)${BLANK}*(\\d+|\\d{1,3}(?:${BLANK}\\d{3})+)(?:([.,])(\\d+))?$`);
  const BLANKS = new RegExp(BLANK, "g");
  const AROUND = new RegExp(`^${BLANK}+|${BLANK}+$`, "g");
  const MOST_DIGITS = 24;

  // ---- fractions -------------------------------------------------------------------------------------

  /* A fraction from what Python writes: `1/1000`, `-5`, `12.60`. */
  function fraction(text) {
    const [above, below = "1"] = text.split("/");
    const [whole, decimals = ""] = above.split(".");
    return [BigInt(whole + decimals), BigInt(below) * 10n ** BigInt(decimals.length)];
  }

  const plus = ([a, b], [c, d]) => [a * d + c * b, b * d];
  const minus = (one, [c, d]) => plus(one, [-c, d]);
  const times = ([a, b], [c, d]) => [a * c, b * d];
  const size = ([a, b]) => [a < 0n ? -a : a, b];
  const isBelow = ([a, b], [c, d]) => a * d < c * b;

  /* The nearest number of the machine. */
  function number([above, below]) {
    const digits = (value) => String(value < 0n ? -value : value).length;
    const shift = BigInt(Math.max(0, 30 + digits(below) - digits(above)));
    const scaled = above * 10n ** shift;
    const whole = scaled / below;
    const rest = scaled % below === 0n ? "" : "1"; // beyond 30 figures it matters only that something follows
    return Number(`${whole}${rest}e-${shift + BigInt(rest.length)}`);
  }

  // ---- typed numbers ---------------------------------------------------------------------------------

  /* {value: fraction} or {problem: sentence}. `places` is 3 where a display is known to hold three decimals. */
  function read(text, places) {
    const typed = text.replace(AROUND, "");
    const found = TYPED.exec(typed);
    if (!found) return { problem: wrong(typed) };
    const [, sign, blanked, , decimals = ""] = found;
    const whole = blanked.replace(BLANKS, "");
    if ((whole + decimals).length > MOST_DIGITS) return { problem: `\`${typed}\` has more than ${MOST_DIGITS} digits` };
    if (decimals.length === 3 && places !== 3 && blanked.length <= 3 && whole[0] !== "0") return { problem: twoWays(typed, whole, decimals) };
    const value = fraction(decimals ? `${whole}.${decimals}` : whole);
    return { value: sign === "" || sign === "+" ? value : [-value[0], value[1]] };
  }

  function twoWays(typed, whole, decimals) {
    const sign = /^[\-−–]/.test(typed) ? "-" : "";
    const short = decimals.replace(/0+$/, "");
    const clear = short === "" ? whole : `${whole}.${short.length === 3 ? `${short}0` : short}`;
    const parts = typed.includes(",") ? "comma" : "point";
    return `\`${typed}\` can be read in two ways; write \`${sign}${clear}\` if the ${parts} stands before decimals, \`${sign}${whole}${decimals}\` if it parts thousands`;
  }

  function wrong(typed) {
    if (/^[.,]\d+$/.test(typed)) return `\`${typed}\` begins with a separator; write \`0.${typed.slice(1)}\``;
    if (/^[^.,]*[.,]$/.test(typed) && /\d/.test(typed)) return `\`${typed}\` ends in a separator`;
    if (/\d\s*[\p{L}%°"]/u.test(typed)) return `\`${typed}\` is more than a number; the unit is chosen beside it`;
    if (/^[+\-−–\d.,\s]*[.,][+\-−–\d\s]*[.,]/.test(typed)) {
      return `\`${typed}\` holds more than one separator; write digits with one decimal point`;
    }
    return `\`${typed}\` is not a number; write digits with one decimal point, such as \`1234.5\``;
  }

  return { fraction, plus, minus, times, size, isBelow, number, read };
})();
