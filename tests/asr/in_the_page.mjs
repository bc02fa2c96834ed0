// Works the learnt ear by the page's own scripts, here in Node.js:
//   node in_the_page.mjs SCRIPTS FILE SOUND LETTERS LENGTHS plain|any
// SOUND holds one sound behind another, of so many samples each as LENGTHS says with commas between;
// LETTERS is what each comes to. Told is how many bytes of memory that took, and whether sums are
// fused.

import fs from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [scripts, file, sounds, letters, lengths, arithmetic] = process.argv.slice(2);
const { networkOf } = await import(pathToFileURL(path.join(scripts, "letter_network.js")).href);
const raw = fs.readFileSync(file);
const half = raw.length >> 1;
const pieces = [raw.subarray(0, half), raw.subarray(half)];
let fused = false;
const { validate } = WebAssembly;
WebAssembly.validate = (code) => { fused = validate(code); return fused; };
const network = await networkOf(pieces, raw.length, arithmetic === "plain");
const given = fs.readFileSync(sounds);
const all = new Float32Array(given.buffer, given.byteOffset, given.length / 4);
let begin = 0;
const found = lengths.split(",").map((length) => {
  begin += Number(length);
  return Buffer.from(network.letters(all.slice(begin - length, begin)).buffer);
});
fs.writeFileSync(letters, Buffer.concat(found));
process.stdout.write(JSON.stringify({ bytes: network.memory.buffer.byteLength, fused }));
