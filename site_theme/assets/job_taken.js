/* A job that was kept elsewhere or earlier: its file is checked, and its readings are judged by this page, whatever they
 * were called before.
 */
globalThis.bayleafJobTaken = (() => {
  "use strict";

  const { told } = bayleafJobFile;
  const VERDICTS = ["within", "below", "above", "not decided", "no reading", "dead", "not dead"];
  /* An overload that was called one of these: somebody had looked at the leads. */
  const LOOKED_AT = ["within", "above", "not dead"];
  const PAUSES = ["break", "hand-over", "vehicle left"];
  const VIN = /^[A-HJ-NPR-Z0-9]{17}$/;

  // ---- readings are judged anew ----------------------------------------------------------------------

  const isSamePair = (one, entry) => String(one.between ?? "") === String(entry.between ?? "");

  function judge(entry, field, units) {
    if (entry.reading === "no reading") return bayleafReading.judge("OL", field, units, null, LOOKED_AT.includes(entry.verdict));
    return bayleafReading.judge(entry.reading, field, units);
  }

  /* The fields of a step to which an entry may belong: those between its contacts. */
  function fieldsOf(entry, step) {
    const here = step.readings.filter((one) => isSamePair(one, entry));
    return here.length || entry.between ? here : step.readings;
  }

  function verdictOf({ verdict, side }, step) {
    if (step.kind === "prove_dead") return { within: "dead", outside: "not dead" }[verdict] ?? verdict;
    return (verdict === "outside" ? side : verdict) ?? undefined;
  }

  /* {field, problem, verdict, isAlone} of an entry with a reading; null for one that the page has no field for. Of several
   * fields between the same contacts it belongs to that of its limits, else to that of its unit.
   */
  function weigh(entry, step, units) {
    if (entry.reading === undefined || !step?.readings) return null;
    const all = fieldsOf(entry, step);
    const field = all.find((one) => one.text === entry.limits) ?? all.find((one) => !judge(entry, one, units).problem) ?? all[0];
    if (!field) return null;
    const found = judge(entry, field, units);
    return { field, problem: found.problem, verdict: found.problem ? undefined : verdictOf(found, step), isAlone: all.length === 1 };
  }

  const stepsOf = (data) => new Map(data.steps.map((step) => [step.path, step]));

  /* Gives each reading of a job the verdict of this page, with the limits it was judged by, and tells where that is
   * another one: {step, reading, said, is}. What cannot be judged any more has none, and has to be read again.
   */
  function anew(job, data) {
    const steps = stepsOf(data);
    const differing = [];
    for (const entry of job.entries) {
      const step = steps.get(entry.step);
      const found = weigh(entry, step, data.units);
      if (!found) continue;
      if (!found.isAlone) entry.limits = found.field.text; // else the page could take it for the reading beside it
      if (found.verdict === entry.verdict) continue;
      differing.push({ step: step.number, reading: entry.reading, said: entry.verdict ?? null, is: found.verdict ?? null });
      if (found.verdict) Object.assign(entry, { verdict: found.verdict, limits: found.field.text });
      else delete entry.verdict;
    }
    return differing;
  }

  // ---- a file is checked -----------------------------------------------------------------------------

  /* Whether it is a day of the calendar, with a time of the clock where there is one. */
  function isTime(text, needsClock) {
    const found = /^(\d{4})-(\d\d)-(\d\d)(?:[T ](\d\d):(\d\d))?$/.exec(text);
    if (!found || (needsClock && found[4] === undefined)) return false;
    const [, year, month, day, hour = "00", minute = "00"] = found;
    const date = new Date(Date.UTC(year, month - 1, day));
    return date.getUTCMonth() === month - 1 && date.getUTCDate() === Number(day) && hour < "24" && minute < "60";
  }

  function ofHead(record, data) {
    if (record.procedure !== data.procedure) return `This file belongs to another procedure: ${told(record.procedure)}`;
    if (!isTime(record.started)) return `${told(`started: ${record.started}`)} is no date and time; write it as \`2026-09-30 08:15\``;
    if (record.variant !== undefined && !data.variants.some(([name]) => name === record.variant)) {
      const known = data.variants.map(([name]) => `\`${name}\``).join(" or ");
      return `This procedure is not for ${told(`variant: ${record.variant}`)}; ${known ? `write ${known}` : "take the line out"}`;
    }
    if (record.vin !== undefined && !data.vin) return "It holds a vehicle identification number, and this workshop keeps none in its records: take the line `vin:` out";
    if (record.vin !== undefined && !VIN.test(record.vin)) return `${told(`vin: ${record.vin}`)} is no vehicle identification number: 17 letters and digits, without I, O and Q`;
    return null;
  }

  function ofEntry(entry, step, data) {
    if (entry.at !== undefined && !isTime(entry.at, true)) return `${told(`at: ${entry.at}`)} is no date and time; write it as \`2026-09-30 08:15\``;
    if (entry.at === undefined && (entry.reading !== undefined || step?.proves)) return "nobody can tell how old it is; write its time, such as `at: 2026-09-30 08:15`";
    if (entry.verdict !== undefined && !VERDICTS.includes(entry.verdict)) return `${told(`verdict: ${entry.verdict}`)} is none; write one of ${VERDICTS.join(", ")}`;
    if (entry.paused !== undefined && !PAUSES.includes(entry.paused)) return `${told(`paused: ${entry.paused}`)} is none; write one of ${PAUSES.join(", ")}`;
    const found = weigh(entry, step, data.units);
    return found?.problem && found.field.limit ? `${told(`reading: ${entry.reading}`)}: ${found.problem}` : null;
  }

  /* The job in the text of a file: {job} or {problem}, a sentence that says the mend. */
  function read(text, data) {
    const { record, problem } = bayleafJobFile.read(text);
    if (problem) return { problem: `This file cannot be read: ${problem}.` };
    const wrong = ofHead(record, data);
    if (wrong) return { problem: `${wrong}.` };
    const steps = stepsOf(data);
    for (const [at, entry] of record.entries.entries()) {
      const step = steps.get(entry.step);
      const strange = ofEntry(entry, step, data);
      if (strange) return { problem: `Entry ${at + 1}, ${step ? `step ${step.number}` : told(entry.step)}: ${strange}.` };
    }
    const known = bayleafJobStore.number(record.job, data);
    return known.problem ? known : { job: { losses: [], waits: {}, drafts: {}, ...record, job: known.job } };
  }

  return { read, anew };
})();
