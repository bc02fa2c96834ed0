// The worker of a page that stands alone: Python, the engine in it, and the browser's storage. What
// was said is stored before the page is told; what could not be stored is told as not kept.

import { openStore } from "./pocket_store.js";
import { say } from "./words.js";

const here = new BroadcastChannel("boxaloud");
const TAKEN = "boxaloud-jobs";
let python = null;
let store = null;
let troubleWithStore = "";

/** Call the engine with text; text comes back. */
function call(expression, text = "") {
  python.globals.set("given", text);
  return python.runPython(expression);
}

async function raw(name) {
  return new Uint8Array(await (await fetch(name)).arrayBuffer());
}

async function runtime(options) {
  const { loadPyodide } = await import("./pyodide.mjs");
  const engine = await raw("engine.zip");
  return loadPyodide({
    indexURL: "./", packageBaseUrl: "./", lockFileContents: await (await fetch("runtime_lock.json")).text(),
    env: { HOME: "/home/engine", PYTHONPATH: "/engine/engine.zip" },
    fsInit: async (system) => {
      system.mkdirTree("/engine");
      system.writeFile("/engine/engine.zip", engine, { canOwn: true });
    },
    ...options,
  });
}

/** What the runtime keeps of how it was started, and needs no more: among it a copy of its memory. */
function letGo(made) {
  for (const name of ["_loadSnapshot", "createPyodideModule", "fsInit"]) delete made._api?.config?.[name];
  return made;
}

/** Python with the engine loaded. The first start leaves a copy of its memory in the cache, with
 * all modules loaded and warm; every later start takes that up, which is many times as quick. */
async function start(version) {
  const cache = await caches.open(`boxaloud-${version}`);
  const copy = await cache.match("memory");
  if (copy) {
    try { return await restored(new Uint8Array(await copy.arrayBuffer())); } catch { await cache.delete("memory"); }
  }
  const made = await runtime({ _makeSnapshot: true });
  made.runPython("from boxaloud.assistant.web import pocket_entry\npocket_entry.warm()\nimport gc\ngc.collect()");
  try { await cache.put("memory", new Response(made.makeMemorySnapshot())); } catch { /* the next start is as slow as this one */ }
  return made;
}

async function restored(memory) {
  const { default: createModule } = await import("./pyodide.asm.mjs");
  const createPyodideModule = (settings) => {
    // the memory must be as large as the copy before that is put in its place
    (settings.preRun ??= []).unshift(() => { while (settings.HEAP8.length < memory.length) settings._malloc(1 << 20); });
    return createModule(settings);
  };
  return letGo(await runtime({ _loadSnapshot: memory, createPyodideModule }));
}

async function open(version) {
  [python, store] = await Promise.all([start(version), openStore().catch(() => null)]);
  if (!store) troubleWithStore = say("no_storage");
  call("pocket = pocket_entry.Pocket()\n''");
  return { opened: true };
}

/** One request, alone among all pages of this browser. */
async function turn(ask) {
  return navigator.locks.request(TAKEN, async () => {
    if (store) {
      try {
        const news = await store.news();
        if (news?.jobs.length || news?.words != null) call("pocket.take_in(given)\n''", JSON.stringify(news));
      } catch (fault) { troubleWithStore = why(fault); }
    }
    const { told, unsaved } = JSON.parse(ask());
    const kept = await keep(unsaved);
    if (told.stored && !kept) told.stored = { kept: false, why: say("not_kept", { why: troubleWithStore }) };
    return told;
  });
}

async function keep(unsaved) {
  if (!store) return false;
  try {
    await store.save(unsaved);
    call("pocket.saved()\n''");
    if (unsaved.jobs.some((job) => job.rows.length)) here.postMessage("changed");
    troubleWithStore = "";
    return true;
  } catch (fault) {
    troubleWithStore = why(fault);
    return false;
  }
}

function why(fault) {
  return fault?.name === "QuotaExceededError" ? say("full") : say("storage", { why: fault?.message || fault?.name });
}

async function told(data) {
  if (data.open) return open(data.open);
  if (data.request) return turn(() => call("pocket.answer(given)", JSON.stringify(data.request)));
  if (data.export) {
    const path = call("pocket.export()");
    return { name: path.split("/").at(-1), bytes: python.FS.readFile(path) };
  }
  const path = `/imported/${data.name.replace(/[^\w.-]/g, "-")}`;
  python.FS.mkdirTree("/imported");
  python.FS.writeFile(path, data.bytes);
  return turn(() => call("pocket.take_in_file(given)", path));
}

let line = Promise.resolve();
self.addEventListener("message", ({ data }) => {
  line = line.then(async () => {
    try { self.postMessage({ id: data.id, told: await told(data) }); } catch (fault) {
      self.postMessage({ id: data.id, fault: say("stopped"), detail: String(fault) });
    }
  });
});
