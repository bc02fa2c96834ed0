// The phone's own ear: its network hears letters in a worker of its own, and the engine's worker
// makes words of them and decides how far they are believed. What it needs is taken in once, when
// somebody first wants to talk.

import { canCapture, openMicrophone } from "./capture.js";
import { NoAnswer } from "./engine_link.js";
import { say } from "./words.js";
import { linkTo } from "./worker_link.js";

const MOST_PIECES = 600;  // of one holding of the key: a minute
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

  /** The network is on its way while the speaker still speaks. */
  function prepare() {
    worker ??= new Worker("ear_worker.js", { type: "module" });
    network ??= linkTo(worker, say("ear_stopped", { why: say("ear_no_worker") }));
    network.ask({ sounds: [] }).catch(() => {});
  }

  /** Where it failed, the next press begins anew: memory may be free again. */
  function giveUp() {
    worker?.terminate();
    worker = network = null;
  }

  async function lettersOf(samples) {
    const stretches = await link.ask({ listen: samples });
    try {
      return await network.ask({ sounds: stretches.map(([start, end]) => cut(samples, start, end)) });
    } catch (fault) {
      giveUp();
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
      if (pieces.length > MOST_PIECES) throw new NoAnswer(say("ear_too_long"));
      const samples = new Int16Array(pieces.length * PIECE);
      pieces.forEach((piece, place) => samples.set(new Int16Array(piece), place * PIECE));
      return link.ask({ heard: await lettersOf(samples) });
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
