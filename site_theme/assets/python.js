/* What Python does and JavaScript does otherwise, for calculations that are translated from Python.
 *
 * A division by zero, the root or the logarithm of what has none, and a power beyond all numbers are refused as Python
 * refuses them; numbers are written and rounded as Python does it.
 */
globalThis.bayleafPython = (() => {
  "use strict";

  const fail = (name, text) => {
    const error = new Error(text);
    error.name = name;
    throw error;
  };
  const domain = (good) => good || fail("ArithmeticError", "math domain error");
  const finite = (value, ...given) =>
    Number.isFinite(value) || !given.every(Number.isFinite) ? value : fail("ArithmeticError", "math range error");

  // ---- figures ---------------------------------------------------------------------------------------

  /* The figures of a number above 0, far beyond those that it has, and the power of ten of the first of them. */
  function all(value) {
    const [digits, power] = value.toExponential(99).split("e");
    return [digits.replace(".", ""), Number(power)];
  }

  /* Whether figures that are left out round up what is kept; a tie goes to the even figure. */
  const up = (rest, kept) => (/^50*$/.test(rest) ? kept % 2n === 1n : rest[0] >= "5");

  /* So many figures of a number above 0 and the power of ten of the first of them. */
  function figures(value, count) {
    const [digits, power] = all(value);
    let kept = BigInt(digits.slice(0, count));
    if (up(digits.slice(count), kept)) kept += 1n;
    const text = String(kept);
    return text.length > count ? [text.slice(0, count), power + 1] : [text, power];
  }

  const signed = (value) => (value < 0 || Object.is(value, -0) ? "-" : "");
  const power = (number) => `e${number < 0 ? "-" : "+"}${String(Math.abs(number)).padStart(2, "0")}`;
  const special = (value) => (Number.isNaN(value) ? "nan" : value > 0 ? "inf" : "-inf");

  function fixed(value, decimals) {
    const size = Math.abs(value);
    if (size === 0) return signed(value) + (0).toFixed(decimals);
    const [exactly, first] = all(size);
    const before = first + 1 + decimals; // so many figures are kept
    let digits = "0";
    if (before > 0) {
      const [kept, at] = figures(size, before);
      digits = kept + "0".repeat(Math.max(0, at + decimals + 1 - kept.length));
    } else if (before === 0 && up(exactly, 0n)) digits = "1";
    digits = digits.padStart(decimals + 1, "0");
    const whole = digits.slice(0, digits.length - decimals);
    return signed(value) + (decimals ? `${whole}.${digits.slice(-decimals)}` : whole);
  }

  function exponential(value, decimals) {
    if (value === 0) return signed(value) + (0).toFixed(decimals) + power(0);
    const [digits, at] = figures(Math.abs(value), decimals + 1);
    return signed(value) + digits[0] + (decimals ? `.${digits.slice(1)}` : "") + power(at);
  }

  function general(value, count) {
    if (value === 0) return `${signed(value)}0`;
    const [digits, at] = figures(Math.abs(value), count);
    const short = digits.replace(/0+$/, "");
    if (at < -4 || at >= count) return signed(value) + short[0] + (short[1] ? `.${short.slice(1)}` : "") + power(at);
    if (at < 0) return `${signed(value)}0.${"0".repeat(-at - 1)}${short}`;
    const whole = short.slice(0, at + 1).padEnd(at + 1, "0");
    return signed(value) + whole + (short.length > at + 1 ? `.${short.slice(at + 1)}` : "");
  }

  /* As an f-string writes it. A whole number has no `.0`: whether it was one with a point, JavaScript does not know. */
  function py_format(value, spec) {
    if (typeof value === "boolean") return value ? "True" : "False";
    if (typeof value !== "number") return String(value);
    const kind = spec.slice(-1);
    if (!Number.isFinite(value)) return special(value) + (kind === "%" ? "%" : "");
    const given = spec.match(/^\.(\d+)/);
    if (kind === "e") return exponential(value, given ? Number(given[1]) : 6);
    if (kind === "f") return fixed(value, given ? Number(given[1]) : 6);
    if (kind === "%") return `${fixed(value * 100, given ? Number(given[1]) : 6)}%`;
    if (kind === "g") return general(value, given ? Number(given[1]) || 1 : 6);
    const [digits, at] = Math.abs(value).toExponential().split("e"); // the shortest that gives the number back
    return value !== 0 && (at < -4 || at >= 16) ? signed(value) + digits + power(Number(at)) : plain(value, digits, at);
  }

  const plain = (value, digits, at) => general(value, Math.max(digits.replace(".", "").length, Number(at) + 1));

  // ---- arithmetic ------------------------------------------------------------------------------------

  const py_div = (a, b) => (b === 0 ? fail("ArithmeticError", "division by zero") : a / b);
  const py_floordiv = (a, b) => Math.floor(py_div(a, b));
  const py_mod = (a, b) => {
    const rest = b === 0 ? fail("ArithmeticError", "modulo by zero") : a % b;
    return rest !== 0 && rest < 0 !== b < 0 ? rest + b : rest;
  };
  const py_pow = (a, b) => {
    if (a === 0 && b < 0) fail("ArithmeticError", "0 to a negative power");
    const value = a ** b;
    if (Number.isNaN(value) && !Number.isNaN(a) && !Number.isNaN(b)) domain(false); // the root of a negative number
    return finite(value, a, b);
  };

  const py_round = (value, places = 0) => Number(fixed(value, Math.max(0, places)));
  const least = (list) => (list.length ? list : fail("ValueError", "nothing to choose from"));
  const listed = (given) => (given.length === 1 ? items(given[0]) : given);
  const items = (some) => (Array.isArray(some) || typeof some === "string" ? some : Object.keys(some));
  const py_min = (...given) => least(listed(given)).reduce((a, b) => (b < a ? b : a));
  const py_max = (...given) => least(listed(given)).reduce((a, b) => (b > a ? b : a));
  const py_sum = (list, start = 0) => list.reduce((a, b) => a + b, start);
  const py_len = (some) => items(some).length;
  const py_int = (some) => {
    const value = Math.trunc(Number(some));
    return Number.isFinite(value) ? value : fail("ArithmeticError", `${some} is not a whole number`);
  };
  const py_float = (some) => (some === "inf" ? Infinity : some === "-inf" ? -Infinity : Number(some));
  const py_str = (some) => py_format(some, "");
  const py_join = (...parts) => parts.join("");

  // ---- the module math -------------------------------------------------------------------------------

  const math = {
    acos: (x) => domain(Math.abs(x) <= 1) && Math.acos(x),
    asin: (x) => domain(Math.abs(x) <= 1) && Math.asin(x),
    atan: Math.atan,
    atan2: Math.atan2,
    ceil: (x) => Math.ceil(x),
    cos: (x) => domain(x - x === 0) && Math.cos(x),
    degrees: (x) => x * (180 / Math.PI),
    exp: (x) => finite(Math.exp(x), x),
    fabs: Math.abs,
    floor: (x) => Math.floor(x),
    hypot: Math.hypot,
    isfinite: Number.isFinite,
    isinf: (x) => x === Infinity || x === -Infinity,
    isnan: Number.isNaN,
    log: (x, base) => domain(x > 0) && (base === undefined ? Math.log(x) : py_div(Math.log(x), math.log(base))),
    log10: (x) => domain(x > 0) && Math.log10(x),
    log2: (x) => domain(x > 0) && Math.log2(x),
    pow: py_pow,
    radians: (x) => x * (Math.PI / 180),
    sin: (x) => domain(x - x === 0) && Math.sin(x),
    sqrt: (x) => domain(x >= 0 || Number.isNaN(x)) && Math.sqrt(x),
    tan: (x) => domain(x - x === 0) && Math.tan(x),
    trunc: (x) => Math.trunc(x),
  };

  return {
    py_div, py_float, py_floordiv, py_format, py_int, py_join, py_len, py_max, py_min, py_mod, py_pow, py_round, py_str,
    py_sum,
    ...Object.fromEntries(Object.entries(math).map(([name, does]) => [`math_${name}`, does])),
  };
})();
