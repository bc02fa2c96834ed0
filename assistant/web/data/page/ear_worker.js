// The ear's network, in a worker of its own: stretches of sound in, how likely each letter is out.

import { InferenceSession, Tensor, env } from "./ort.wasm.bundle.min.mjs";
import { say } from "./words.js";

env.wasm.wasmPaths = { wasm: new URL("ort-wasm-simd-threaded.wasm", import.meta.url).href };
env.wasm.numThreads = 1;  // more threads need headers that not every host of files sends
const network = InferenceSession.create("letters.onnx", { executionProviders: ["wasm"] });
network.catch(() => {});  // it is told when it is waited for

async function letters(sound) {
  const heard = await (await network).run({ sound: new Tensor("float32", sound, [1, sound.length]) });
  return new Uint8Array(heard.letters.data.slice().buffer);
}

let line = Promise.resolve();
self.addEventListener("message", ({ data }) => {
  line = line.then(async () => {
    try {
      const told = [];
      for (const sound of data.sounds) told.push(await letters(sound));
      self.postMessage({ id: data.id, told }, told.map((each) => each.buffer));
    } catch (fault) {
      self.postMessage({ id: data.id, fault: say("ear_stopped", { why: fault?.message || String(fault) }) });
    }
  });
});
