// Runs a Python file in the runtime of a built page, with the page's own engine:
//   node in_the_runtime.mjs FOLDER SCRIPT INPUT OUTPUT

import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { gunzipSync } from "node:zlib";

const [folder, script, input, output] = process.argv.slice(2);
const place = fs.mkdtempSync(path.join(os.tmpdir(), "runtime-"));
for (const name of fs.readdirSync(folder).filter((each) => each.endsWith(".gz"))) {
  fs.writeFileSync(path.join(place, name.slice(0, -3)), gunzipSync(fs.readFileSync(path.join(folder, name))));
}
const { loadPyodide } = await import(pathToFileURL(path.join(place, "pyodide.mjs")).href);
const python = await loadPyodide({
  indexURL: place, packageBaseUrl: place,
  lockFileContents: fs.readFileSync(path.join(place, "runtime_lock.json"), "utf8"),
  env: { HOME: "/home/engine", PYTHONPATH: "/engine/engine.zip" },
  fsInit: async (system) => {
    system.mkdirTree("/engine");
    system.writeFile("/engine/engine.zip", fs.readFileSync(path.join(place, "engine.zip")));
  },
});
python.globals.set("dialogues", fs.readFileSync(input, "utf8"));
python.runPython(fs.readFileSync(script, "utf8"));
fs.writeFileSync(output, python.globals.get("told"));
fs.rmSync(place, { recursive: true });
