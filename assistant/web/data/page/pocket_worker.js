// The worker of a page that stands alone: Python, the engine in it, and the browser's storage. What
// was said is stored before the page is told; what could not be stored is told as not kept.

import { packed, unpacked } from "./memory_copy.js";
import { openStore } from "./pocket_store.js";
import { say } from "./words.js";

const here = new BroadcastChannel("boxaloud");
const TAKEN = "boxaloud-jobs";
// once the first answer is shown, a turn is tried on nothing, so that the first real one is as quick as
// those behind it
const REHEARSE_AFTER_MS = 250;
let python = null;
let store = null;
let troubleWithStore = "";
let hasModels = false;

/** Call the engine with text; text comes back. */
function call(expression, text = "") {
  python.globals.set("given", text);
  return python.runPython(expression);
}

// all that every start needs is on its way before the page asks for anything
const coming = {
  script: import("./pyodide.mjs"),
  module: import("./pyodide.asm.mjs"),
  code: WebAssembly.compileStreaming(fetch("pyodide.asm.wasm")),
  engine: fetch("engine.zip").then((found) => found.arrayBuffer()),
  lock: fetch("runtime_lock.json").then((found) => found.text()),
};
for (const each of Object.values(coming)) each.catch(() => {});  // it is told when it is waited for

/** Python; its memory is as it was left, where there is a copy. */
async function runtime(copy) {
  const [{ loadPyodide }, lockFileContents] = await Promise.all([coming.script, coming.lock]);
  let used = 0;
  const streamed = WebAssembly.instantiateStreaming;
  // the runtime compiles its code by this: that has begun already
  WebAssembly.instantiateStreaming = async (again, imports) => {
    Promise.resolve(again).then((found) => found.body?.cancel());
    WebAssembly.instantiateStreaming = streamed;
    const module = await coming.code;
    const instance = await WebAssembly.instantiate(module, imports);
    const { memory } = instance.exports;
    used = memory.buffer.byteLength;
    if (copy && copy.size > used) memory.grow((copy.size - used) / 65536);
    return { module, instance };
  };
  async function createPyodideModule(settings) {
    const made = await (await coming.module).default(settings);
    copy?.into(made.HEAPU8, used);
    return made;
  }
  return loadPyodide({
    indexURL: "./", packageBaseUrl: "./", lockFileContents, createPyodideModule,
    env: { HOME: "/home/engine", PYTHONPATH: "/engine/engine.zip" },
    fsInit: async (system) => {
      system.mkdirTree("/engine");
      system.writeFile("/engine/engine.zip", new Uint8Array(await coming.engine), { canOwn: true });
    },
    ...(copy ? { _loadSnapshot: copy.before } : { _makeSnapshot: true }),
  });
}

const WARMED = `
import gc
from boxaloud.assistant.web import pocket_entry
pocket_entry.warm()
gc.collect()
gc.freeze()  # what is loaded stays: it is not looked through for garbage again
`;

/** Python with the engine loaded. The first start leaves a copy of its memory in the cache, with
 * all modules loaded and warm; every later start takes that up, which is many times as quick. */
async function start(version) {
  const cache = await caches.open(`boxaloud-${version}`);
  const left = await cache.match("memory");
  if (left) {
    try {
      const made = letGo(await runtime(unpacked(await left.arrayBuffer())));
      performance.mark("memory");
      return made;
    } catch { await cache.delete("memory"); }
  }
  const made = await runtime(null);
  made.runPython(WARMED);
  try { await cache.put("memory", new Response(packed(made.makeMemorySnapshot()))); } catch { /* the next start is as slow as this one */ }
  return made;
}

/** What the runtime keeps of how it was started, and needs no more: among it a copy of its memory. */
function letGo(made) {
  for (const name of ["_loadSnapshot", "createPyodideModule", "fsInit"]) delete made._api?.config?.[name];
  return made;
}

async function open(version) {
  [python, store] = await Promise.all([start(version), openStore().catch(() => null)]);
  if (!store) troubleWithStore = say("no_storage");
  call("import json\npocket = pocket_entry.Pocket()\n''");
  setTimeout(() => { line = line.then(() => call("pocket_entry.rehearse()\n''")); }, REHEARSE_AFTER_MS);
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
    if (told?.stored && !kept) told.stored = { kept: false, why: say("not_kept", { why: troubleWithStore }) };
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

/** The ear's language models, once. */
async function learn() {
  if (hasModels) return;
  try {
    const found = await fetch("ear_models.zip");
    if (!found.ok) throw new Error(`ear_models.zip: ${found.status}`);
    python.globals.set("models", new Uint8Array(await found.arrayBuffer()));
    call("pocket.learn(models.to_bytes())\n''");
    python.globals.set("models", null);
    hasModels = true;
  } catch (fault) {
    throw Object.assign(new Error(), { told: say("ear_stopped", { why: fault?.message || fault }) });
  }
}

/** The stretches of a sound, 16-bit samples, that the ear's network is to hear. */
function stretchesOf(samples) {
  python.globals.set("sound", new Uint8Array(samples.buffer));
  return JSON.parse(call("json.dumps(pocket.microphone.stretches(sound.to_bytes()))"));
}

/** A piece of an open microphone; where it brings a statement to be heard, that and its stretches. */
function statement(wanted) {
  if (wanted !== "pause" && wanted !== "end") return { wanted };
  const bytes = python.runPython("pocket.microphone.statement");
  const samples = new Int16Array(bytes.toJs().slice().buffer);
  bytes.destroy();
  return { wanted, samples, stretches: stretchesOf(samples) };
}

/** What the page's ear asks for; see `pocket_ear.js`. */
async function heard(data) {
  await learn();
  if (data.ear === "listen") return stretchesOf(data.samples);
  if (data.ear === "open") return call("pocket.microphone.open()\n''");
  if (data.ear === "voice") return call(`pocket.microphone.voice(${data.speaks ? "True" : "False"})\n''`);
  if (data.ear === "quiet") return !python.runPython("pocket.microphone.speaking");
  if (data.ear === "close") return statement(call("pocket.microphone.close()"));
  if (data.ear === "piece") {
    python.globals.set("sound", new Uint8Array(data.samples.buffer));
    return statement(call("pocket.microphone.feed(sound.to_bytes(), json.loads(given))", JSON.stringify(data.bands)));
  }
  if (data.ear !== "hear") return null;
  python.globals.set("letters", data.letters);
  const pause = data.pause ? "True" : "False";
  return turn(() => call(`pocket.hear([each.to_bytes() for each in letters], ${pause})`));
}

async function told(data) {
  if (data.open) return open(data.open);
  if (data.request) return turn(() => call("pocket.answer(given)", JSON.stringify(data.request)));
  if (data.ear) return heard(data);
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
      self.postMessage({ id: data.id, fault: fault.told ?? say("stopped"), detail: String(fault) });
    }
  });
});
