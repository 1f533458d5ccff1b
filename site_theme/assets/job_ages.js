/* How old the proofs of a job are, from the times of its entries. A record is reckoned alike (records/proof_ages.py). */
globalThis.bayleafJobAges = (() => {
  "use strict";

  const { fraction } = bayleafExact;

  /* Minutes of a time as a record holds it, 2026-09-30 08:15; null where it holds none. */
  function minutes(at) {
    const found = /^(\d{4})-(\d\d)-(\d\d)[T ](\d\d):(\d\d)$/.exec(at ?? "");
    return found && Date.UTC(found[1], found[2] - 1, found[3], found[4], found[5]) / 60000;
  }

  /* Whether a proof of one time is too old at another. Clocks show whole minutes, so the oldest that it may be counts; a
   * proof from the future is of no known age. */
  function isTooOld(proved, now, holds) {
    const [from, to] = [minutes(proved), minutes(now)];
    if (from === null || to === null) return false;
    const [above, below] = fraction(holds);
    return to < from || BigInt((to - from + 1) * 60) * below > above;
  }

  /* The proofs that stand, by circuit. */
  class Ages {
    constructor(data) {
      this.holds = data.proof_holds;
      this.aging = new Set(data.aging);
      this.times = new Map();
    }

    /* A proof rests on these entries: it is as old as the oldest of them, and makes no other one older. */
    proved(step, entries) {
      const times = entries.map((entry) => entry?.at?.replace("T", " ")).filter(Boolean).sort();
      if (!this.aging.has(step.proves) || !times.length) return;
      const before = this.times.get(step.proves);
      if (before === undefined || !step.partly) this.times.set(step.proves, times[0] > (before ?? "") ? times[0] : before);
    }

    /* A step was left by this exit: proofs end with what makes a circuit live again. */
    left(exit) {
      for (const circuit of exit.ends ?? []) this.times.delete(circuit);
    }

    /* The circuits whose proof is too old now, with its time; these proofs end. */
    comeTo(now) {
      const old = new Map([...this.times].filter(([, at]) => isTooOld(at, now, this.holds)));
      for (const circuit of old.keys()) this.times.delete(circuit);
      return old;
    }

    /* The time of the oldest reading of a circuit's proof that is not complete, where it is too old for it; else undefined. */
    oldestTooOld(circuit, entries, now) {
      if (!this.aging.has(circuit)) return undefined;
      return entries.map((entry) => entry?.at).filter((at) => isTooOld(at, now, this.holds)).sort()[0];
    }

    /* For each proof that stands: since when, how old, until when it holds, and how many minutes are left. */
    told(now) {
      const [above, below] = fraction(this.holds);
      const whole = Number(above / (60n * below));
      return [...this.times].map(([circuit, at]) => {
        const age = minutes(now) - minutes(at);
        const until = new Date((minutes(at) + whole) * 60000).toISOString().slice(11, 16);
        return { circuit, since: at.slice(11), age, until, left: whole - age };
      });
    }
  }

  return { Ages, isTooOld };
})();
