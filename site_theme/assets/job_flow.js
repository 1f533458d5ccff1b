/* Where a job stands: its entries, followed from the first to the last. Nothing of it is stored but the entries.
 *
 * `data` is what pages/working_data.py wrote; a job holds `entries` as in a record, `variant`, and `losses`: how many
 * entries there were each time the page was opened anew. From there on nothing counts as proved, nor does what is proved
 * by a step of the page before that step. `records/follow.py` goes the same way.
 */
globalThis.bayleafJobFlow = (() => {
  "use strict";

  /* Exits by which the work goes on as planned. */
  const GOOD = ["next", "within", "dead", "end"];
  const MOST_STEPS_AT_ONCE = 1000;

  const OUTSIDE = ["above", "below", "not_dead"];

  const isProof = (step) => step.kind === "prove_dead";

  /* The exit of a step's readings together: as planned only if each is; else the first that is outside; else not decided.
   * Null while one is missing or is no reading, save at a proof: there one that is outside decides at once, and nobody
   * measures on at what is live. What is left of a test voltage decides nothing, but has to be read as discharged before
   * there is any exit but "not decided".
   */
  function together(step, readings) {
    const places = step.readings.map((_, at) => at);
    const exits = places.filter((at) => !step.readings[at].residual).map((at) => exitOf(readings[at], step));
    const outside = exits.find((one) => OUTSIDE.includes(one));
    if (step.proves && outside) return outside;
    if (exits.some((one) => one === null)) return null;
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
      const pair = (between) => String([...(between ?? [])].sort()); // the leads may have been exchanged
      const here = step.readings.filter((one) => pair(one.between) === pair(entry.between));
      return step.readings.indexOf(here.find((one) => one.text === entry.limits) ?? here[0]);
    }
    const at = step.readings.findIndex((one) => !one.between && one.text === entry.limits);
    return Math.max(0, at);
  }

  /* What a test has charged has been read, and is not discharged. */
  const isCharged = (step, readings) => step.readings.some((one, at) => one.residual && readings[at] && readings[at].verdict !== "within");

  /* Circuits that a step of the page proves, and that do not come proved. */
  const notYetProved = ({ steps }) => new Set(steps.filter((step) => step.proves && !steps[0].dead?.includes(step.proves)).map((step) => step.proves));

  /* Of a visit to a step: `exit` is that of what has been entered, `went` that by which the work last went on, `turn` the
   * entry that did it. */
  const fresh = (visits, ever) => ({ visits, ever, complete: false, exit: null, went: null, turn: 0, readings: [], torques: [], entry: null, barred: null });

  class Way {
    constructor(data, variant) {
      this.variant = variant;
      this.byPath = new Map(data.steps.map((step) => [step.path, step]));
      this.byAnchor = new Map(data.steps.map((step) => [step.anchor, step]));
      this.states = new Map(data.steps.map((step) => [step.path, fresh(0, false)]));
      this.circuits = Object.keys(data.circuits);
      this.lost = notYetProved(data);
      this.ages = new bayleafJobAges.Ages(data);
      this.aged = new Map();
      this.everProved = new Set();
      this.provedAt = new Map();
      this.turn = 0;
      this.from = null; // the step that led to where the job stands
      this.undone = null; // a tick that was taken back, and where the job stood then
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
      for (const circuit of this.circuits) this.forget(circuit);
      this.ages.times.clear();
      this.aged.clear();
    }

    /* The same for one circuit. */
    forget(circuit) {
      this.unprove(circuit);
      for (const [path, step] of this.byPath) if (step.proves === circuit) Object.assign(this.states.get(path), { readings: [], complete: false });
    }

    unprove(circuit) {
      this.lost.add(circuit);
      this.aged.delete(circuit);
      this.ages.times.delete(circuit);
      this.provedAt.delete(circuit);
    }

    /* What was proved too long before this time does not count any more, nor a reading of a proof begun then. */
    growOld(now) {
      const old = this.ages.comeTo(now);
      const lose = (circuit, at) => {
        this.unprove(circuit);
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

    /* A step is done. It leads on where the job stands at it, comes to it for the first time, or must stop; done again it
     * leads on only if it now leads elsewhere: a proof that is renewed takes nobody back, a figure put right does. */
    finish(step, name, entry) {
      const state = this.state(step);
      const leaves = step.exits.find((one) => one.name === name);
      if (!leaves) return this.unknown.push(entry);
      const leads = this.place === step || !state.ever || !GOOD.includes(name) || (state.went !== null && state.went !== name);
      const back = this.undone?.step === step && this.place === step ? this.undone : null;
      if (leads && this.place !== step) this.skip(step);
      Object.assign(state, { complete: true, ever: true, exit: name, went: name, turn: this.turn, entry });
      if (step.proves) this.judge(step, GOOD.includes(name), state, entry);
      this.ages.left(leaves);
      if (back) return Object.assign(this, back.stood);
      if (!leads) return null;
      this.from = step;
      return this.move(leaves.to);
    }

    /* What is proved by a step that was passed over is not proved. */
    skip(step) {
      const steps = [...this.byPath.values()];
      const passed = this.place ? steps.slice(steps.indexOf(this.place), steps.indexOf(step)) : [];
      for (const one of passed) if (one.proves && !this.state(one).complete && this.fits(one)) this.lost.add(one.proves);
    }

    /* A proof is done; only one that went well counts. */
    judge(step, isGood, state, entry) {
      if (!isGood) return this.unprove(step.proves);
      this.aged.delete(step.proves);
      this.lost.delete(step.proves);
      this.everProved.add(step.proves);
      this.provedAt.set(step.proves, this.turn);
      return this.ages.proved(step, state.readings.length ? state.readings : [entry]);
    }

    /* What was entered leads nowhere any more, or not yet. */
    undecide(step, state) {
      if (state.complete && step.proves) this.unprove(step.proves);
      state.complete = false;
      if (this.from !== step && !isCharged(step, state.readings)) return;
      this.place = step;
      this.end = this.exhausted = null;
    }

    /* A tick is taken back: what was proved since then rested on it. */
    undo(step, state) {
      const { place, end, exhausted, from } = this;
      this.undone = state.complete ? { step, stood: { place, end, exhausted, from } } : null;
      for (const [circuit, turn] of [...this.provedAt]) if (state.complete && turn > state.turn) this.forget(circuit);
      Object.assign(state, fresh(state.visits, state.ever));
      this.place = step;
      this.end = null;
    }

    take(entry) {
      this.turn += 1;
      const step = this.byPath.get(entry.step);
      if (!(entry.done && this.undone?.step === step)) this.undone = null;
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
        Object.assign(state, { complete: true, ever: true, exit: entry.exit, went: entry.exit, turn: this.turn, entry });
        this.from = step;
        return leaves && this.move(leaves.to);
      }
      return this.act(step, state, entry);
    }

    act(step, state, entry) {
      if (entry.reading !== undefined && step.readings) {
        state.readings[placeOf(entry, step)] = entry;
        const exit = together(step, state.readings);
        if (exit) this.finish(step, exit, entry);
        else this.undecide(step, state);
      } else if (entry.torque !== undefined && step.torques) {
        const at = step.torques.findIndex((one, index) => !state.torques[index] && one.torque === entry.torque);
        state.torques[Math.max(0, at)] = entry;
        if (step.torques.every((_, index) => state.torques[index])) this.finish(step, "next", entry);
      } else if (entry.answer !== undefined) {
        this.finish(step, entry.answer, entry);
      } else if (entry.done === false) {
        this.undo(step, state);
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
    const [kind, name, finding, say] = way.end;
    const words = data.conclusions[name] ?? [finding, say].filter(Boolean).join(" ");
    if (kind === "stop") return { name, words: words || "Touch nothing, put nothing back, close the zone, tell the person responsible.", stops: true };
    return { name, words: words || "Every step is done.", stops: false };
  }

  return { follow, together, conclusion, GOOD };
})();
