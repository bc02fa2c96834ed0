// Questions to a worker, each answered by its number.

import { NoAnswer } from "./engine_link.js";

/** The link to a worker. What it cannot answer is a NoAnswer with its own sentence, or, where it
 * stopped altogether, with `stopped`. */
export function linkTo(worker, stopped) {
  const waiting = new Map();
  let last = 0;
  let over = false;
  worker.addEventListener("message", ({ data }) => {
    const { resolve, reject } = waiting.get(data.id);
    waiting.delete(data.id);
    if (data.fault) reject(new NoAnswer(data.fault)); else resolve(data.told);
  });
  worker.addEventListener("error", () => {
    over = true;
    for (const { reject } of waiting.values()) reject(new NoAnswer(stopped));
    waiting.clear();
  });
  return {
    ask: (what, moved = []) => new Promise((resolve, reject) => {
      if (over) { reject(new NoAnswer(stopped)); return; }
      last += 1;
      waiting.set(last, { resolve, reject });
      worker.postMessage({ id: last, ...what }, moved);
    }),
  };
}
