// The ear's network, in a worker of its own: stretches of sound in, how likely each letter is out.

import { networkOf } from "./letter_network.js";
import { say } from "./words.js";

const network = fetch("letters.bin").then((found) => {
  if (!found.ok) throw new Error(`letters.bin: ${found.status}`);
  return networkOf(pieces(found.body.getReader()), Number(found.headers.get("Content-Length")));
});
network.catch(() => {});  // it is told when it is waited for

/** What is read, as it comes: it is never there twice. */
async function* pieces(reader) {
  for (let { done, value } = await reader.read(); !done; { done, value } = await reader.read()) yield value;
}

let line = Promise.resolve();
self.addEventListener("message", ({ data }) => {
  line = line.then(async () => {
    try {
      const heard = await network;
      const told = data.sounds.map((sound) => new Uint8Array(heard.letters(sound).buffer));
      self.postMessage({ id: data.id, told }, told.map((each) => each.buffer));
    } catch (fault) {
      self.postMessage({ id: data.id, fault: say("ear_stopped", { why: fault?.message || String(fault) }) });
    }
  });
});
