// The jobs in the browser's own storage, row by row. A row is there for good once `save` resolves;
// a place in a journal is taken once, or the whole of `save` is refused.

const NAME = "boxaloud";
const STRICT = { durability: "strict" };

const done = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

const finished = (change) => new Promise((resolve, reject) => {
  change.oncomplete = () => resolve();
  change.onerror = change.onabort = () => reject(change.error ?? new DOMException("", "AbortError"));
});

export async function openStore() {
  const asked = indexedDB.open(NAME, 1);
  asked.onupgradeneeded = () => {
    asked.result.createObjectStore("jobs", { keyPath: "file" });
    asked.result.createObjectStore("rows");
    asked.result.createObjectStore("settings");
  };
  const base = await done(asked);
  const held = {};
  let stamp = -1;
  let words = null;

  /** What other pages have stored since: `{ jobs, words }` as the engine takes it in, else null. */
  async function news() {
    const look = base.transaction(["jobs", "rows", "settings"]);
    const now = (await done(look.objectStore("settings").get("stamp"))) ?? 0;
    if (now === stamp) return null;
    const found = [];
    for (const job of await done(look.objectStore("jobs").getAll())) {
      const known = held[job.file] ?? 0;
      if (job.file in held && job.rows === known) continue;
      const range = IDBKeyRange.bound([job.file, known + 1], [job.file, Infinity]);
      found.push({ file: job.file, about: job.about, written: job.written, rows: await done(look.objectStore("rows").getAll(range)) });
      held[job.file] = job.rows;
    }
    const own = (await done(look.objectStore("settings").get("words"))) ?? null;
    const changed = own !== words;
    words = own;
    stamp = now;
    found.sort((one, other) => one.written - other.written);
    return { jobs: found, words: changed ? own : null };
  }

  /** Store what the engine handed out, whole or not at all. */
  async function save(unsaved) {
    if (!unsaved.jobs.length && unsaved.words === null) return;
    const change = base.transaction(["jobs", "rows", "settings"], "readwrite", STRICT);
    const end = finished(change);
    const counts = {};
    for (const job of unsaved.jobs) {
      const count = (held[job.file] ?? 0) + job.rows.length;
      for (const row of job.rows) change.objectStore("rows").add(row, [job.file, row[0]]);
      change.objectStore("jobs").put({ file: job.file, about: job.about, rows: count, written: Date.now() / 1000 });
      counts[job.file] = count;
    }
    if (unsaved.words !== null) change.objectStore("settings").put(unsaved.words, "words");
    change.objectStore("settings").put(stamp + 1, "stamp");
    await end;
    Object.assign(held, counts);
    stamp += 1;
    words = unsaved.words ?? words;
  }

  return { news, save };
}
