// Prepares the engine's archive in the very runtime that it will run in: modules compiled without their
// docstrings, the types of their functions and the columns of their lines, which nobody reads on a phone
// and which are more than a tenth of them (the types of classes' fields make data classes and stay),
// and the grammar compiled in place of its data files, which would lie there twice; nothing in it is
// packed, since the whole file is. Run by `boxaloud web build`:
//   node prepare.mjs RUNTIME_FOLDER ARCHIVE_IN ARCHIVE_OUT

import fs from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [runtime, source, target] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(path.join(runtime, "pyodide.mjs")).href);
const lock = fs.readFileSync(path.join(runtime, "runtime_lock.json"), "utf8");

async function python(file) {
  return loadPyodide({
    indexURL: runtime, lockFileContents: lock, packageBaseUrl: runtime,
    env: { HOME: "/home/engine", PYTHONPATH: "/engine/engine.zip" },
    fsInit: async (system) => {
      system.mkdirTree("/engine");
      system.writeFile("/engine/engine.zip", file);
    },
  });
}

const COMPILE = `
import ast, importlib._bootstrap_external as bootstrap, zipfile
def bare(raw):
    tree = ast.parse(raw)
    for node in ast.walk(tree):
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
            node.returns = None
        elif isinstance(node, ast.arg):
            node.annotation = None
        if hasattr(node, "col_offset"):
            node.col_offset = node.end_col_offset = 0
            node.end_lineno = node.lineno
    return tree
DATE = (2020, 1, 1, 0, 0, 0)
source = zipfile.ZipFile("/engine/engine.zip")
with zipfile.ZipFile("/engine/compiled.zip", "w") as target:
    for item in source.infolist():
        name, raw = item.filename, source.read(item)
        if name.endswith(".py"):
            code = compile(bare(raw), f"/engine/engine.zip/{name}", "exec", dont_inherit=True, optimize=2)
            name, raw = f"{name}c", bootstrap._code_to_hash_pyc(code, bytes(8), False)
        target.writestr(zipfile.ZipInfo(name, DATE), raw)
`;
const GRAMMAR = `
import zipfile
from boxaloud.grammar import package_files
from boxaloud.grammar.compilation import compiled
from boxaloud.grammar.phrases.compiled_cache import SHIPPED
DATE = (2020, 1, 1, 0, 0, 0)
made = {
    SHIPPED: compiled(),
    package_files.STATE: f"{package_files.digest()}\\n{package_files.fingerprint()}\\n",
}
source = zipfile.ZipFile("/engine/engine.zip")
with zipfile.ZipFile("/engine/whole.zip", "w") as target:
    for item in source.infolist():
        if not item.filename.startswith("boxaloud/grammar/data/"):
            target.writestr(item, source.read(item))
    for name, raw in made.items():
        target.writestr(zipfile.ZipInfo(f"boxaloud/grammar/{name}", DATE), raw)
`;
const WARM = `
from boxaloud.assistant.web.pocket_entry import warm
warm()
`;

try {
  const first = await python(fs.readFileSync(source));
  first.runPython(COMPILE);
  const second = await python(first.FS.readFile("/engine/compiled.zip"));
  second.runPython(GRAMMAR);
  const whole = second.FS.readFile("/engine/whole.zip");
  const third = await python(whole);  // it must run by what is in it alone
  third.runPython(WARM);
  fs.writeFileSync(target, whole);
} catch (fault) {
  // by itself Node.js would print the runtime's whole source before the reason
  process.stderr.write(`${fault.message}\n`);
  process.exitCode = 1;
}
