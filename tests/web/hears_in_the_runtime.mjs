// Has the ear of a built page hear recordings, in the runtimes that the page uses, here in Node.js:
//   node hears_in_the_runtime.mjs FOLDER INPUT OUTPUT
// INPUT lists what is typed before, and a file of 16 kHz mono 16-bit samples, for each recording;
// OUTPUT is what each comes to, and how long network and decoder took.

import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { gunzipSync } from "node:zlib";

const [folder, input, output] = process.argv.slice(2);
const place = fs.mkdtempSync(path.join(os.tmpdir(), "ear-"));
const at = (name) => path.join(place, name);
fs.writeFileSync(at("package.json"), '{"type": "module"}');
for (const name of fs.readdirSync(folder)) {
  const raw = fs.readFileSync(path.join(folder, name));
  fs.writeFileSync(at(name.replace(/\.gz$/, "")), name.endsWith(".gz") ? gunzipSync(raw) : raw);
}
const load = (name) => import(pathToFileURL(at(name)).href);
const [{ loadPyodide }, { networkOf }, { cut }] = [
  await load("pyodide.mjs"), await load("letter_network.js"), await load("pocket_ear.js"),
];
const file = fs.readFileSync(at("letters.bin"));
const network = await networkOf([file], file.length);
const python = await loadPyodide({
  indexURL: place, packageBaseUrl: place,
  lockFileContents: fs.readFileSync(at("runtime_lock.json"), "utf8"),
  env: { HOME: "/home/engine", PYTHONPATH: "/engine/engine.zip" },
  fsInit: async (system) => {
    system.mkdirTree("/engine");
    system.writeFile("/engine/engine.zip", fs.readFileSync(at("engine.zip")));
  },
});
const give = (name, value) => python.globals.set(name, value);

python.runPython("import json\nfrom boxaloud.assistant.web.pocket_entry import Pocket\npocket, number = None, 0");
give("models", new Uint8Array(fs.readFileSync(at("ear_models.zip"))));
const told = [];
for (const { typed, samples } of JSON.parse(fs.readFileSync(input, "utf8"))) {
  python.runPython("number += 1\npocket = Pocket(f'/job{number}')\npocket.learn(models.to_bytes())");
  for (const words of typed) {
    give("given", JSON.stringify({ kind: "hear", words }));
    python.runPython("pocket.answer(given)");
  }
  const raw = fs.readFileSync(samples);
  const sound = new Int16Array(raw.buffer.slice(raw.byteOffset, raw.byteOffset + raw.length));
  give("sound", new Uint8Array(sound.buffer));
  const began = performance.now();
  const stretches = JSON.parse(python.runPython("json.dumps(pocket.microphone.stretches(sound.to_bytes()))"));
  const parted = performance.now();
  const letters = [];
  for (const [start, end] of stretches) {
    letters.push(new Uint8Array(network.letters(cut(sound, start, end)).buffer));
  }
  give("letters", letters);
  const heard = performance.now();
  const found = JSON.parse(python.runPython("pocket.hear([each.to_bytes() for each in letters])"));
  const ended = performance.now();
  told.push({ told: found.told, network: heard - parted, decoder: parted - began + ended - heard });
}
fs.writeFileSync(output, JSON.stringify(told));
fs.rmSync(place, { recursive: true });
