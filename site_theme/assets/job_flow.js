/* Where a job stands: its entries, followed from the first to the last. Nothing of it is stored but the entries.
 *
 * `data` is what pages/working_data.py wrote; a job holds `entries` as in a record, `variant`, and `losses`: how many
 * entries there were each time the page was opened anew. From there on nothing counts as proved.
 */
globalThis.bayleafJobFlow = (() => {
  "use strict";

  /* Exits by which the work goes on as planned. */
  const GOOD = ["next", "within", "dead", "end"];
  const MOST_STEPS_AT_ONCE = 1000;

  const isProof = (step) => step.kind === "prove_dead";

  /* The exit of a step's readings together: as planned only if each is; else the first that is outside; else not decided.
   * Null while one is missing or is no reading. What is left of a test voltage decides nothing, but has to be read as
   * discharged before there is any exit but "not decided".
   */
  function together(step, readings) {
    const places = step.readings.map((_, at) => at);
    const exits = places.filter((at) => !step.readings[at].residual).map((at) => exitOf(readings[at], step));
    if (exits.some((one) => one === null)) return null;
    const outside = exits.find((one) => ["above", "below", "not_dead"].includes(one));
    const exit = outside ?? exits.find((one) => one === "not_decided") ?? exits[0];
    const isDischarged = places.every((at) => !step.readings[at].residual || readings[at]?.verdict === "within");
    return isDischarged || exit === "not_decided" ? exit : null;
  }

  function exitOf(entry, step) {
    if (!entry) return null;
    if (!entry.verdict) return isProof(step) || step.readings.some((one) => one.limit) ? null : "next";
    return entry.verdict === "no reading" ? null : entry.verdict.replace(" ", "_");
  }

  /* Which reading of a step an entry holds. */
  function placeOf(entry, step) {
    if (entry.between) {
      const here = step.readings.filter((one) => String(one.between) === String(entry.between));
      return step.readings.indexOf(here.find((one) => one.text === entry.limits) ?? here[0]);
    }
    const at = step.readings.findIndex((one) => !one.between && one.text === entry.limits);
    return Math.max(0, at);
  }

  const fresh = (visits, ever) => ({ visits, ever, complete: false, exit: null, readings: [], torques: [], entry: null, barred: null });

  class Way {
    constructor(data, variant) {
      this.variant = variant;
      this.byPath = new Map(data.steps.map((step) => [step.path, step]));
      this.byAnchor = new Map(data.steps.map((step) => [step.anchor, step]));
      this.states = new Map(data.steps.map((step) => [step.path, fresh(0, false)]));
      this.circuits = Object.keys(data.circuits);
      this.lost = new Set();
      this.ages = new bayleafJobAges.Ages(data);
      this.aged = new Map();
      this.everProved = new Set();
      this.place = null;
      this.end = null;
      this.exhausted = null;
      this.unknown = [];
    }

    state(step) {
      return this.states.get(step.path);
    }

    /* Whether a step is for the vehicle in the bay; while nobody has said which that is, every step is. */
    fits(step) {
      return !step.only || !this.variant || step.only.includes(this.variant);
    }

    /* To where an exit leads: past steps for other variants, into what is performed, and round a loop only so often. */
    move(target) {
      let to = target;
      this.end = this.exhausted = null;
      for (let count = 0; count < MOST_STEPS_AT_ONCE; count += 1) {
        if (to[0] !== "step") {
          this.place = null;
          this.end = to;
          return;
        }
        const step = this.byAnchor.get(to[1]);
        if (!this.fits(step)) to = step.behind;
        else to = this.arrive(step);
        if (!to) return;
      }
    }

    /* Arrive at a step; gives where it leads at once, or null where there is something to do. */
    arrive(step) {
      const visits = this.state(step).visits + 1;
      this.states.set(step.path, fresh(visits, this.state(step).ever));
      if (step.repeat !== undefined && visits > step.repeat + 1) {
        this.exhausted = step;
        return step.exits.find((one) => one.name === "exhausted").to;
      }
      if (step.first) {
        for (const path of this.states.keys()) if (path.startsWith(`${step.path}/`)) this.states.set(path, fresh(0, this.states.get(path).ever));
        return ["step", step.first];
      }
      this.place = step;
      return null;
    }

    /* Nothing counts as proved any more, and a proof begins anew with its first reading. */
    lose() {
      for (const circuit of this.circuits) this.lost.add(circuit);
      this.ages.times.clear();
      this.aged.clear();
      for (const [path, step] of this.byPath) if (step.proves) Object.assign(this.states.get(path), { readings: [], complete: false });
    }

    /* What was proved too long before this time does not count any more, nor a reading of a proof begun then. */
    growOld(now) {
      const old = this.ages.comeTo(now);
      const lose = (circuit, at) => {
        this.lost.add(circuit);
        this.aged.set(circuit, at);
      };
      for (const [circuit, at] of old) lose(circuit, at);
      for (const [path, step] of this.byPath) {
        if (!step.proves) continue;
        const state = this.states.get(path);
        const begun = state.complete ? undefined : this.ages.oldestTooOld(step.proves, state.readings, now);
        if (begun && !this.ages.times.has(step.proves)) lose(step.proves, begun);
        if (begun || old.has(step.proves)) Object.assign(state, { readings: [], complete: false });
      }
    }

    finish(step, name, entry) {
      const state = this.state(step);
      const isAhead = !state.ever;
      const leaves = step.exits.find((one) => one.name === name);
      if (!leaves) return this.unknown.push(entry);
      Object.assign(state, { complete: true, ever: true, exit: name, entry });
      if (step.proves) this.judge(step, GOOD.includes(name), state, entry);
      this.ages.left(leaves);
      return this.place === step || isAhead || !GOOD.includes(name) ? this.move(leaves.to) : null;
    }

    /* A proof is done; only one that went well counts. */
    judge(step, isGood, state, entry) {
      this.aged.delete(step.proves);
      if (!isGood) {
        this.lost.add(step.proves);
        this.ages.times.delete(step.proves);
        return;
      }
      this.lost.delete(step.proves);
      this.everProved.add(step.proves);
      this.ages.proved(step, state.readings.length ? state.readings : [entry]);
    }

    take(entry) {
      const step = this.byPath.get(entry.step);
      if (!step) return this.unknown.push(entry);
      this.growOld(entry.at);
      const state = this.state(step);
      if (entry.paused) {
        this.lose();
        return step.pause && this.place === step ? this.finish(step, "next", entry) : null;
      }
      if (entry.exit) {
        this.lose();
        state.barred = entry;
        const leaves = step.exits.find((one) => one.name === entry.exit);
        Object.assign(state, { complete: true, ever: true, exit: entry.exit, entry });
        return leaves && this.move(leaves.to);
      }
      return this.act(step, state, entry);
    }

    act(step, state, entry) {
      if (entry.reading !== undefined && step.readings) {
        state.readings[placeOf(entry, step)] = entry;
        const exit = together(step, state.readings);
        if (exit) this.finish(step, exit, entry);
        else state.complete = false;
      } else if (entry.torque !== undefined && step.torques) {
        const at = step.torques.findIndex((one, index) => !state.torques[index] && one.torque === entry.torque);
        state.torques[Math.max(0, at)] = entry;
        if (step.torques.every((_, index) => state.torques[index])) this.finish(step, "next", entry);
      } else if (entry.answer !== undefined) {
        this.finish(step, entry.answer, entry);
      } else if (entry.done === false) {
        Object.assign(state, fresh(state.visits, state.ever));
        this.place = step;
        this.end = null;
      } else if (entry.done) {
        this.finish(step, step.exits[0].name, entry);
      }
    }
  }

  /* {place, end, lost, aged, ages, state(step), unknown, exhausted} of a job at this time. */
  function follow(data, job, now) {
    const way = new Way(data, job.variant);
    if (data.steps.length) way.move(["step", data.steps[0].anchor]);
    job.entries.forEach((entry, at) => {
      if (job.losses.includes(at)) way.lose();
      way.take(entry);
    });
    if (job.losses.includes(job.entries.length)) way.lose();
    if (now) way.growOld(now);
    return way;
  }

  /* The conclusion that a job has reached, as a record names it, and in words for what has no name of its own. */
  function conclusion(data, way) {
    if (!way.end) return { name: null, words: "" };
    const [kind, name, finding] = way.end;
    const words = data.conclusions[name] ?? finding ?? "";
    if (kind === "stop") return { name, words: words || "Touch nothing, put nothing back, close the zone, tell the person responsible.", stops: true };
    return { name, words: words || "Every step is done.", stops: false };
  }

  return { follow, together, conclusion, GOOD };
})();
