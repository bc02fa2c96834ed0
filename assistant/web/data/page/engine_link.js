// The one way from the page to an engine: `ask(request)` gives a document. Which engine it is, a
// laptop's behind its server or the phone's own in a worker, only this module knows.

/** An engine that could not answer; `message` is a sentence to show. */
export class NoAnswer extends Error {}

/** The engine that this page was made for. Each has
 * `ask(request)`  a document as `page_documents.py` describes it; raises NoAnswer;
 * `where`         "served" or "pocket";
 * `changed(act)`  calls `act` when another page has entered something;
 * `jobFile()`, `takeIn(file)`  only in the pocket: the job as a file, and one taken in;
 * `ear`           only where it has one: see `voice.js` and `served_ear.js`. */
export async function engineOf(kind, progress) {
  const module = kind === "pocket" ? await import("./pocket_engine.js") : await import("./served_engine.js");
  return module.open(progress);
}
