// Works an ONNX graph of the learnt ear in the runtime that a browser uses, here in Node.js:
//   node in_onnxruntime.mjs RUNTIME_FOLDER GRAPH MEL FRAMES BANDS LETTERS
// MEL and LETTERS are files of 32-bit numbers, frames by bands and places by letters.

import fs from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [folder, graph, mel, frames, bands, letters] = process.argv.slice(2);
const dist = pathToFileURL(path.join(folder, "dist") + path.sep).href;
const { default: ort, ...named } = await import(new URL("ort.wasm.min.mjs", dist).href);
const { InferenceSession, Tensor, env } = ort ?? named;
env.wasm.wasmPaths = dist;
env.wasm.numThreads = 1;
const session = await InferenceSession.create(fs.readFileSync(graph), { executionProviders: ["wasm"] });
const raw = fs.readFileSync(mel);
const values = new Float32Array(raw.buffer, raw.byteOffset, raw.length / 4).slice();
const given = { mel: new Tensor("float32", values, [1, Number(frames), Number(bands)]) };
await session.run(given);
const began = performance.now();
const made = await session.run(given);
process.stdout.write(`${Math.round(performance.now() - began)} ms\n`);
fs.writeFileSync(letters, Buffer.from(made.letters.data.buffer, made.letters.data.byteOffset, made.letters.data.byteLength));
