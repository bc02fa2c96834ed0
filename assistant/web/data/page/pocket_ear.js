// The phone's own ear: its network hears letters in a worker of its own, and the engine's worker
// makes words of them and decides how far they are believed. What it needs is taken in once, when
// somebody first wants to talk.

import { canCapture, openMicrophone } from "./capture.js";
import { NoAnswer } from "./engine_link.js";
import { bandsOf } from "./speech_bands.js";
import { say } from "./words.js";
import { linkTo } from "./worker_link.js";

const MOST_PIECES = 600;  // of one holding of the key: a minute
const IDLE_MS = 120_000;  // after so long without talk the network's memory is given back
const PIECE = 1600;
const FULL_SCALE = 32768;

/** The ear over an engine's `link`; null where there can be none. `files` are the ear's by name,
 * with the bytes that each is on its way; `there` says whether they have been taken in. */
export function pocketEar(link, files, there) {
  const whole = Object.values(files).reduce((sum, size) => sum + size, 0);
  if (!whole || !canCapture) return null;
  let network = null;
  let worker = null;
  let held = null;
  let idle = 0;

  /** Network and decoder get ready while the speaker still speaks. */
  function prepare() {
    clearTimeout(idle);
    worker ??= new Worker("ear_worker.js", { type: "module" });
    network ??= linkTo(worker, say("ear_stopped", { why: say("ear_no_worker") }));
    for (const ready of [network.ask({ sounds: [] }), link.ask({ ear: "learn" })]) ready.catch(() => {});
  }

  /** The next press begins anew. */
  function letGo() {
    worker?.terminate();
    worker = network = null;
  }

  async function lettersOf(samples, stretches) {
    try {
      return await network.ask({ sounds: stretches.map(([start, end]) => cut(samples, start, end)) });
    } catch (fault) {
      letGo();  // memory may be free again then
      throw fault;
    }
  }

  const ear = {
    /** Bytes that are still to be taken in before it can hear. */
    missing: there ? 0 : whole,

    /** Take in what it needs; `progress` is told how many bytes are there. */
    async takeIn(progress) {
      let done = 0;
      for (const [name, size] of Object.entries(files)) {
        const found = await fetch(name);
        if (!found.ok) throw new NoAnswer(say("ear_file", { name, status: found.status }));
        done += size;
        progress(done);
      }
      ear.missing = 0;
    },

    async start() {
      prepare();
      const microphone = await openMicrophone();
      const pieces = [];
      held = { microphone, pieces };
      await microphone.loaded;
      microphone.start((piece) => pieces.push(piece));
    },

    async stop() {
      if (!held) return "";
      const { microphone, pieces } = held;
      held = null;
      await microphone.close();
      idle = setTimeout(letGo, IDLE_MS);
      if (pieces.length > MOST_PIECES) throw new NoAnswer(say("ear_too_long"));
      const samples = new Int16Array(pieces.length * PIECE);
      pieces.forEach((piece, place) => samples.set(new Int16Array(piece), place * PIECE));
      const letters = await lettersOf(samples, await link.ask({ ear: "listen", samples }));
      return link.ask({ ear: "hear", letters });
    },

    /** Listen hands free until `stop` of what is given back is called. `heard` is called with
     * `told`, `unclear`, or `over` where it ended by itself. The sound itself is the clock, so that
     * a slow phone moves no pause. */
    async listen(heard) {
      prepare();
      await link.ask({ ear: "open" });  // before “Listening” is shown, so that no word is lost
      const microphone = await openMicrophone();
      let line = Promise.resolve();
      let over = false;
      let ends = null;
      const ended = new Promise((resolve, reject) => { ends = { resolve, reject }; });
      ended.catch(() => {});  // it is told where it is waited for
      const step = (act) => { line = line.then(act).catch((fault) => close(ends.reject, fault)); };

      async function close(end, value) {
        if (over) return;
        over = true;
        await microphone.close();
        idle = setTimeout(letGo, IDLE_MS);
        end(value);
      }

      async function answer({ wanted, samples, stretches }) {
        if (wanted === "idle") {
          heard({ over: say("free_idle") });
          await close(ends.resolve);
        }
        if (!samples) return;
        const letters = await lettersOf(samples, stretches);
        const told = await link.ask({ ear: "hear", letters, pause: wanted === "pause" });
        if (told) heard(told.document === "Refused" ? { unclear: told.refused } : { told });
      }

      async function piece(samples) {
        if (!over) await answer(await link.ask({ ear: "piece", samples, bands: bandsOf(samples) }));
      }

      try {
        await microphone.loaded;
      } catch (fault) {
        await close(() => {});
        throw fault;
      }
      microphone.start((sound) => step(() => piece(new Int16Array(sound))));
      return {
        ended,
        voice: (speaks) => step(() => link.ask({ ear: "voice", speaks })),
        /** Whether nobody is speaking, once all that has been said so far is heard. */
        quiet: () => new Promise((resolve) => step(async () => resolve(await link.ask({ ear: "quiet" })))),
        stop: () => step(async () => {
          await answer(await link.ask({ ear: "close" }));
          await close(ends.resolve);
        }),
      };
    },
  };
  return ear;
}

/** A stretch of the sound as numbers from -1 to 1; it is silent where there is none. */
export function cut(samples, start, end) {
  const found = new Float32Array(end - start);
  for (let place = Math.max(0, start); place < Math.min(end, samples.length); place += 1) {
    found[place - start] = samples[place] / FULL_SCALE;
  }
  return found;
}
