/* Two windows that hold the same job: what each has changed is put together, so that neither takes anything from the other.
 *
 * A kept job carries the stamp of its last writing and of the one `before` it. A window remembers what it has known under
 * these stamps, and so can tell what the other one has changed since; jobs of older pages have no stamps.
 */
globalThis.bayleafJobMerge = (() => {
  "use strict";

  const MAPS = ["waits", "drafts"];
  /* A key pressed is a writing: so many keys may be on their way between two windows. */
  const MOST_KNOWN = 40;
  const LOSS = "loss";

  const text = (one) => JSON.stringify(one);
  const isSame = (one, other) => text(one) === text(other);

  // ---- entries ---------------------------------------------------------------------------------------

  /* The entries in a row, each as text, with a mark wherever proofs were lost. */
  function row({ entries = [], losses = [] }) {
    const marked = entries.flatMap((entry, at) => [...(losses.includes(at) ? [LOSS] : []), text(entry)]);
    return losses.includes(entries.length) ? [...marked, LOSS] : marked;
  }

  function unrow(marked) {
    const found = { entries: [], losses: [] };
    for (const one of marked) {
      if (one !== LOSS) found.entries.push(JSON.parse(one));
      else if (found.losses.at(-1) !== found.entries.length) found.losses.push(found.entries.length);
    }
    return found;
  }

  /* What the first row has beyond the second, each as often as it is there more often. */
  function beyond(row, other) {
    const left = [...other];
    return row.filter((one) => {
      const at = left.indexOf(one);
      if (at >= 0) left.splice(at, 1);
      return at < 0;
    });
  }

  /* Theirs, with what was added here; what both added stands in the same order in both windows. */
  function rows(base, mine, theirs) {
    if (isSame(mine, base)) return theirs;
    const added = beyond(beyond(mine, base), beyond(theirs, base));
    if (!added.length) return beyond(theirs, mine).length || text(theirs) < text(mine) ? theirs : mine;
    let shared = 0;
    while (shared < base.length && theirs[shared] === base[shared]) shared += 1;
    const [kept, tail] = [theirs.slice(0, shared), theirs.slice(shared)];
    const time = (part) => text([JSON.parse(part.find((one) => one !== LOSS) ?? "{}").at ?? "", part]);
    return time(added) < time(tail) && tail.length ? [...kept, ...added, ...tail] : [...kept, ...tail, ...added];
  }

  // ---- a job -----------------------------------------------------------------------------------------

  /* For each name: mine where it was changed here, else theirs. */
  function chosen(names, base, mine, theirs) {
    const found = {};
    for (const name of names) {
      const value = isSame(mine[name], base[name]) ? theirs[name] : mine[name];
      if (value !== undefined) found[name] = value;
    }
    return found;
  }

  const names = (...all) => [...new Set(all.flatMap((one) => Object.keys(one)))];

  /* The job with what was changed here and there since both were `base`. */
  function merge(base, mine, theirs) {
    const merged = chosen(names(theirs, mine), base, mine, theirs);
    for (const name of MAPS) {
      const [was, here, there] = [base, mine, theirs].map((one) => one[name] ?? {});
      merged[name] = chosen(names(there, here), was, here, there);
    }
    if (mine.fitted && theirs.fitted && ![mine, theirs].some((one) => isSame(one.fitted, base.fitted))) {
      const [was, here, there] = [base, mine, theirs].map((one) => (one.fitted ?? []).map(text));
      const gone = beyond(was, here);
      merged.fitted = [...beyond(there, gone), ...beyond(here, was)].map((one) => JSON.parse(one));
    }
    return { ...merged, ...unrow(rows(row(base), row(mine), row(theirs))), stamp: theirs.stamp, before: theirs.before };
  }

  /* What a window has known of a job, by stamp. */
  class Known {
    constructor(job) {
      this.texts = new Map();
      this.add(job);
    }

    add(job) {
      this.last = text(job);
      this.texts.set(job.stamp, this.last);
      if (this.texts.size > MOST_KNOWN) this.texts.delete(this.texts.keys().next().value);
    }

    /* Whether it is nothing new. */
    has(job) {
      return job.stamp !== undefined && this.texts.has(job.stamp);
    }

    /* `mine` and what another window has kept, put together. */
    merge(mine, theirs) {
      const base = theirs.before === undefined ? this.last : (this.texts.get(theirs.before ?? undefined) ?? this.last);
      return merge(JSON.parse(base), mine, theirs);
    }
  }

  return { Known, merge, isSame };
})();
