// Works an ONNX graph of the learnt ear in the runtime that a browser uses, here in Node.js:
//   node in_onnxruntime.mjs RUNTIME_FOLDER GRAPH NAME GIVEN SHAPE LETTERS
// GIVEN and LETTERS are files of 32-bit numbers, what is called NAME and is of SHAPE, such as
// 1,300,80; and places by letters.

import fs from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [folder, graph, name, file, shape, letters] = process.argv.slice(2);
const { InferenceSession, Tensor, env } = await import(pathToFileURL(path.join(folder, "ort.wasm.bundle.min.mjs")).href);
env.wasm.wasmBinary = fs.readFileSync(path.join(folder, "ort-wasm-simd-threaded.wasm")).buffer;
env.wasm.numThreads = 1;
const session = await InferenceSession.create(fs.readFileSync(graph), { executionProviders: ["wasm"] });
const raw = fs.readFileSync(file);
const values = new Float32Array(raw.buffer, raw.byteOffset, raw.length / 4).slice();
const given = { [name]: new Tensor("float32", values, shape.split(",").map(Number)) };
await session.run(given);
const began = performance.now();
const made = await session.run(given);
process.stdout.write(`${Math.round(performance.now() - began)} ms\n`);
fs.writeFileSync(letters, Buffer.from(made.letters.data.buffer, made.letters.data.byteOffset, made.letters.data.byteLength));
