/* A job as the file that is kept of it (schema/record.schema.json), written and read.
 *
 * What is read is the block style that is written here, and maps and lists in brackets as people write them by hand.
 * Anything else is refused with its line, never guessed, and so is a key that no record has.
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
    return [...written, ...lines(TAIL, record, ""), ""].join("\n");
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

  /* What is told of a text: its beginning, since a broken file may be one line of a million signs. */
  const MOST_TOLD = 60;
  const told = (text) => `\`${text.length > MOST_TOLD ? `${text.slice(0, MOST_TOLD)}…` : text}\``;

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
        return refuse(line, `${told(text)} is not closed as it was opened`);
      }
    }
    if (text[0] === "'") return text.slice(1, -1).replaceAll("''", "'");
    if (/^[&*!|>%@`]/.test(text)) refuse(line, `${told(text)} cannot be read here; put it in quotes on one line`);
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
    if (!found) refuse(line, `${told(text)} has no key with a colon and a blank behind it`);
    return [found[2], found[3] ?? ""];
  }

  function given(text, line) {
    if (text[0] !== "[") return plain(text, line);
    if (!text.endsWith("]")) refuse(line, "a list in brackets has to end on its line");
    return parts(text.slice(1, -1)).map((one) => plain(one, line));
  }

  /* A yes or no, as YAML has it. */
  function yes(text, line) {
    const said = plain(text, line).toLowerCase();
    if (!["yes", "true", "no", "false"].includes(said)) refuse(line, `\`done\` is yes or no, not ${told(text)}`);
    return ["yes", "true"].includes(said);
  }

  function once(map, key, line) {
    if (Object.hasOwn(map, key)) refuse(line, `\`${key}\` stands there twice; take one of them out`);
  }

  function put(entry, keys, text, line) {
    const [key, rest] = pair(text, line);
    if (!keys.includes(key)) refuse(line, `${keys === ENTRY ? "an entry" : "a part fitted"} has no ${told(key)}; take it out`);
    once(entry, key, line);
    if (rest === "") refuse(line, `\`${key}\` has no value`);
    entry[key] = key === "done" ? yes(rest, line) : given(rest, line);
  }

  /* A text that stands on several lines below its key: behind `>` their ends are blanks, behind `|` they stay. */
  function folded(rows, style, line) {
    const indent = /^ */.exec(rows.find((one) => one.trim()) ?? "")[0];
    if (!indent || rows.some((one) => one.trim() && !one.startsWith(indent))) refuse(line, "a text on several lines has to be indented alike below its key");
    const text = rows.map((one) => one.slice(indent.length).trimEnd()).join("\n").trimEnd();
    if (style === "|") return text;
    if (/^\s/m.test(text.replace(/\n+/g, "\n"))) refuse(line, "a text behind `>` has to be indented alike; write it on one line, in quotes");
    return text.replace(/\n+/g, (ends) => (ends.length === 1 ? " " : ends.slice(1)));
  }

  function whole(rows) {
    const record = {};
    let block = null;
    rows.forEach((row, index) => {
      const line = index + 1;
      if (block?.rows && (!row.trim() || /^\s/.test(row))) return block.rows.push(row);
      const text = bare(row);
      if (!text.trim()) return null;
      if (/^\S/.test(text)) {
        close(record, block);
        block = head(record, text, line);
      } else if (!block?.keys) refuse(line, `${told(text.trim())} stands behind nothing`);
      else itemLine(record[block.key], block.keys, text, line);
      return null;
    });
    close(record, block);
    return checked({ entries: [], fitted: [], ...record });
  }

  function close(record, block) {
    if (block?.rows) record[block.key] = folded(block.rows, block.style, block.line);
  }

  /* A line at the left edge, put into the record; gives what may stand below it: {key, keys} or {key, rows, style, line}. */
  function head(record, text, line) {
    const [key, rest] = pair(text, line);
    const keys = { entries: ENTRY, fitted: FITTED }[key];
    if (!keys && ![...HEAD, ...TAIL].includes(key)) refuse(line, `a record has no ${told(key)}; take it out`);
    once(record, key, line);
    if (keys && rest) refuse(line, `behind \`${key}:\` nothing may stand; each of the list begins on a line of its own, with a dash`);
    if (!keys && rest === "") refuse(line, `\`${key}\` has no value`);
    const [, style] = /^([>|])[-+]?$/.exec(rest) ?? [];
    record[key] = keys ? [] : style ? "" : plain(rest, line);
    return style ? { key, rows: [], style, line } : { key, keys };
  }

  function itemLine(items, keys, text, line) {
    const [, dash, rest] = /^\s*(- +)?(.*)$/.exec(text);
    if (dash) items.push({});
    if (!items.length) refuse(line, "each of a list begins with a dash");
    if (rest[0] !== "{") return put(items.at(-1), keys, rest, line);
    if (!rest.endsWith("}")) refuse(line, "what stands in braces has to end on its line");
    for (const one of parts(rest.slice(1, -1))) put(items.at(-1), keys, one, line);
  }

  /* Whole numbers from 1, as numbers. */
  function counts(map, keys) {
    for (const key of keys) {
      if (map[key] === undefined) continue;
      if (!/^[1-9][0-9]{0,8}$/.test(map[key])) throw new Unread(`${told(`${key}: ${map[key]}`)} is no whole number from 1, such as \`${key}: 3\``);
      map[key] = Number(map[key]);
    }
  }

  function checked({ format, ...record }) {
    for (const key of ["job", "procedure", "revision", "started"]) if (!record[key]) throw new Unread(`\`${key}\` is missing`);
    if (format === undefined) throw new Unread("`format` is missing; write `format: 1` in the first line");
    if (format !== "1") throw new Unread(`${told(`format: ${format}`)} is another form of the file; this page reads \`format: 1\``);
    counts(record, ["revision", "minutes"]);
    for (const one of record.fitted) counts(one, ["count"]);
    if (!record.entries.length) throw new Unread("there is no entry in it");
    if (record.entries.some((one) => !one.step)) throw new Unread("an entry does not say its step");
    if (record.fitted.some((one) => !one.part)) throw new Unread("a part fitted does not say which");
    return record;
  }

  return { write, read, told };
})();
