/* A job as the file that is kept of it (schema/record.schema.json), written and read.
 *
 * What is read is the block style that is written here, and maps and lists in brackets as people write them by hand.
 * Anything else is refused with its line, never guessed. Keys that the page does not know are kept as they stand.
 */
globalThis.bayleafJobFile = (() => {
  "use strict";

  const ENTRY = ["step", "at", "done", "reading", "between", "limits", "instrument", "verdict", "torque", "answer", "exit", "reason", "paused"];
  const FITTED = ["part", "number", "count"];
  const HEAD = ["format", "job", "procedure", "revision", "digest", "started", "odometer", "vin", "variant"];
  const TAIL = ["minutes", "conclusion", "remarks"];
  const SAFE = /^[\p{L}\p{N}](?:[\p{L}\p{N} ./@Ω°%²·_\-]*[\p{L}\p{N}Ω°%²])?$/u;

  // ---- writing ---------------------------------------------------------------------------------------

  /* A text as it may stand behind a key: bare where nothing in it can be mistaken, else in double quotes. */
  const quoted = (text) => JSON.stringify(text).replace(/[\u007f-\u009f\u2028\u2029]/g, (one) => `\\u${one.charCodeAt(0).toString(16).padStart(4, "0")}`);
  const isWord = (text) => /^(?:on|off|y|n|yes|no|true|false|null|~)$/i.test(text);
  const scalar = (text) => (SAFE.test(text) && !isWord(text) && !/^[0-9.]+$/.test(text) ? text : quoted(text));

  function value(key, given) {
    if (key === "done") return given ? "yes" : "no";
    if (Array.isArray(given)) return `[${given.map(scalar).join(", ")}]`;
    if (typeof given === "number" || key === "at" || key === "started") return String(given);
    return scalar(given);
  }

  const lines = (keys, from, indent) =>
    keys.filter((key) => from[key] !== undefined && from[key] !== null && from[key] !== "").map((key) => `${indent}${key}: ${value(key, from[key])}`);

  /* The text of a record. */
  function write(record) {
    const written = [...lines(HEAD, { format: 1, ...record }, ""), ...block("entries", ENTRY, record.entries)];
    if (record.fitted?.length) written.push(...block("fitted", FITTED, record.fitted));
    return [...written, ...lines(TAIL, record, ""), ...(record.others ?? []), ""].join("\n");
  }

  function block(name, keys, items) {
    const written = [`${name}:`];
    for (const item of items) {
      const own = lines(keys, item, "    ");
      own[0] = own[0].replace("    ", "  - ");
      written.push(...own);
    }
    return written;
  }

  // ---- reading ---------------------------------------------------------------------------------------

  class Unread extends Error {}

  const refuse = (line, why) => {
    throw new Unread(`line ${line}: ${why}`);
  };

  /* The text without a remark at its end; `#` counts only behind a blank and outside of quotes. */
  function bare(text) {
    let quote = null;
    for (let at = 0; at < text.length; at += 1) {
      const one = text[at];
      if (quote === '"' && one === "\\") at += 1;
      else if (quote) quote = one === quote ? null : quote;
      else if (one === '"' || one === "'") quote = at === 0 || /[\s,[{:]/.test(text[at - 1]) ? one : null;
      else if (one === "#" && (at === 0 || /\s/.test(text[at - 1]))) return text.slice(0, at).trimEnd();
    }
    return text.trimEnd();
  }

  function plain(text, line) {
    if (text[0] === '"') {
      try {
        return JSON.parse(text);
      } catch {
        return refuse(line, `${text} is not closed as it was opened`);
      }
    }
    if (text[0] === "'") return text.slice(1, -1).replaceAll("''", "'");
    if (/^[&*!|>%@`]/.test(text)) refuse(line, `\`${text}\` cannot be read here; put it in quotes on one line`);
    return text;
  }

  /* The parts of a text at its commas, those within quotes or brackets left alone. */
  function parts(text) {
    const found = [""];
    let depth = 0;
    let quote = null;
    for (const one of text) {
      if (quote) quote = one === quote ? null : quote;
      else if ((one === '"' || one === "'") && !found.at(-1).replace(/^[^:]*:/, "").trim()) quote = one;
      else if ("[{".includes(one)) depth += 1;
      else if ("]}".includes(one)) depth -= 1;
      if (one === "," && !depth && !quote) found.push("");
      else found[found.length - 1] += one;
    }
    return found.map((one) => one.trim()).filter(Boolean);
  }

  function read(text) {
    try {
      return { record: whole(text.replace(/^\ufeff/, "").split(/\r?\n/)) };
    } catch (error) {
      if (error instanceof Unread) return { problem: error.message };
      throw error;
    }
  }

  function pair(text, line) {
    const found = /^("?)([\w-]+)\1:(?:\s+(.*))?$/.exec(text);
    if (!found) refuse(line, `\`${text}\` has no key with a colon and a blank behind it`);
    return [found[2], found[3] ?? ""];
  }

  function given(text, line) {
    if (text[0] !== "[") return plain(text, line);
    if (!text.endsWith("]")) refuse(line, "a list in brackets has to end on its line");
    return parts(text.slice(1, -1)).map((one) => plain(one, line));
  }

  function put(entry, keys, text, line) {
    const [key, rest] = pair(text, line);
    if (!keys.includes(key)) refuse(line, `${keys === ENTRY ? "an entry" : "a part fitted"} has no \`${key}\``);
    if (rest === "") refuse(line, `\`${key}\` has no value`);
    entry[key] = key === "done" ? /^(?:yes|true)$/.test(plain(rest, line)) : given(rest, line);
  }

  function whole(rows) {
    const record = { entries: [], fitted: [], others: [] };
    let block = null;
    rows.forEach((row, index) => {
      const line = index + 1;
      const text = bare(row);
      if (!text.trim()) return;
      if (/^\S/.test(text)) {
        const [key, rest] = pair(text, line);
        block = key;
        if (key === "entries" || key === "fitted") return;
        if (![...HEAD, ...TAIL].includes(key)) record.others.push(row);
        else if (/^[>|]/.test(rest)) refuse(line, `\`${key}\` stands on several lines; write it on one, in quotes`);
        else record[key] = plain(rest, line);
      } else if (block === "entries" || block === "fitted") {
        itemLine(record[block], block === "entries" ? ENTRY : FITTED, text, line);
      } else if (record.others.length) {
        record.others.push(row);
      } else {
        refuse(line, `\`${text.trim()}\` stands behind nothing`);
      }
    });
    return checked(record);
  }

  function itemLine(items, keys, text, line) {
    const [, dash, rest] = /^\s*(- +)?(.*)$/.exec(text);
    if (dash) items.push({});
    if (!items.length) refuse(line, "each of a list begins with a dash");
    if (rest[0] !== "{") return put(items.at(-1), keys, rest, line);
    if (!rest.endsWith("}")) refuse(line, "what stands in braces has to end on its line");
    for (const one of parts(rest.slice(1, -1))) put(items.at(-1), keys, one, line);
  }

  function checked(record) {
    for (const key of ["job", "procedure", "revision", "started"]) if (!record[key]) throw new Unread(`\`${key}\` is missing`);
    for (const key of ["revision", "minutes"]) if (record[key] !== undefined) record[key] = Number(record[key]);
    if (!record.entries.length) throw new Unread("there is no entry in it");
    if (record.entries.some((one) => !one.step)) throw new Unread("an entry does not say its step");
    if (record.fitted.some((one) => !one.part)) throw new Unread("a part fitted does not say which");
    delete record.format;
    return record;
  }

  return { write, read };
})();
