// The phone's own engine: Python in a worker. The page waits until all files are taken in, so that
// what works once works again without a network.

import { NoAnswer } from "./engine_link.js";
import { say } from "./words.js";
import { linkTo } from "./worker_link.js";

const here = new BroadcastChannel("boxaloud");

// This module is asked for before the page's others: where all files are taken in already, Python
// is on its way while the page is still being drawn.
const engineWorker = () => new Worker("pocket_worker.js", { type: "module" });
const early = globalThis.Worker && navigator.serviceWorker?.controller ? engineWorker() : null;

export async function open(progress) {
  const able = isSecureContext && navigator.serviceWorker && navigator.locks && globalThis.Worker
    && globalThis.indexedDB && globalThis.DecompressionStream;
  if (!able) throw new NoAnswer(say("no_worker"));
  if (!navigator.serviceWorker.controller) progress(say("starting_first"));
  const { version, later, there } = await takenIn();
  const link = linkTo(early ?? engineWorker(), say("stopped"));
  const ears = import("./pocket_ear.js");
  await link.ask({ open: version });
  const { pocketEar } = await ears;
  let asked = false;
  return {
    where: "pocket",
    ear: pocketEar(link, later, there),
    async ask(request) {
      const told = await link.ask({ request });
      if (!asked && request.kind === "hear") {
        asked = true;
        navigator.storage?.persist?.();  // the browser is asked not to clear the jobs by itself
      }
      return told;
    },
    async jobFile() {
      return link.ask({ export: true });
    },
    async takeIn(file) {
      const bytes = new Uint8Array(await file.arrayBuffer());
      const told = await link.ask({ name: file.name, bytes }, [bytes.buffer]);
      if (told.document === "Refused") throw new NoAnswer(told.refused);
      return told;
    },
    changed(act) {
      here.addEventListener("message", act);
    },
  };
}

/** Wait until the service worker has all files and serves this page; its version, and the files
 * that it takes in later. */
async function takenIn() {
  let trouble = "";
  const registered = await navigator.serviceWorker.register("service_worker.js").catch((fault) => {
    // without a network the one that was registered before serves on
    if (!navigator.serviceWorker.controller) throw new NoAnswer(say("not_taken_in", { why: fault.message }));
    return null;
  });
  if (!navigator.serviceWorker.controller) {
    await new Promise((resolve, reject) => {
      navigator.serviceWorker.addEventListener("controllerchange", resolve, { once: true });
      const installing = registered.installing ?? registered.waiting;
      installing?.addEventListener("statechange", () => {
        if (installing.state === "redundant") reject(new NoAnswer(say("not_taken_in", { why: trouble || "a file is missing" })));
      });
      if (navigator.serviceWorker.controller) resolve();
    });
  }
  return new Promise((resolve) => {
    navigator.serviceWorker.addEventListener("message", (event) => event.data.version && resolve(event.data), { once: true });
    navigator.serviceWorker.startMessages();
    navigator.serviceWorker.controller.postMessage("version");
  });
}
