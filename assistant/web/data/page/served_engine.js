// The engine of a laptop: each request is one POST to the server that gave this page.

import { NoAnswer } from "./engine_link.js";
import { servedEar } from "./served_ear.js";
import { say } from "./words.js";

const other = "BroadcastChannel" in globalThis ? new BroadcastChannel("boxaloud") : null;
const CHANGES = new Set(["hear", "choose", "press", "recount", "open_box", "pick_box", "open_job", "start_job"]);

export async function open() {
  return { ask, where: "served", changed, ear: servedEar() };
}

async function ask(request) {
  let answer;
  try {
    answer = await fetch("engine", {
      method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(request),
    });
  } catch {
    throw new NoAnswer(say("not_reached"));
  }
  if (answer.status === 403) throw new NoAnswer(say("not_let_in"));
  if (!answer.ok) throw new NoAnswer((await answer.text()) || say("not_reached"));
  const told = await answer.json();
  if (CHANGES.has(request.kind)) other?.postMessage("changed");
  return told;
}

function changed(act) {
  other?.addEventListener("message", act);
}
