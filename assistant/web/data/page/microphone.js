// Hold to talk, with whichever ear there is: the engine's own, or the browser's where it was
// switched on. Without an ear there is no button, and the keyboard's microphone serves.

import { byId, tell } from "./elements.js";
import { browserEar, hush } from "./voice.js";
import { say } from "./words.js";

export function microphone(engine, said, trouble) {
  const button = byId("mic");
  const own = engine.ear ?? null;
  const browsers = own ? null : browserEar();
  const switched = byId("browser-ear");
  byId("own-ear").hidden = !browsers;
  const show = () => { button.hidden = !(own || (browsers && switched.checked)); };
  switched.addEventListener("change", show);
  show();
  let holding = false;

  async function begin(event) {
    if (holding || (event.type === "keydown" && event.key !== " " && event.key !== "Enter")) return;
    event.preventDefault();
    holding = true;
    hush();
    button.setAttribute("aria-pressed", "true");
    tell("hearing", say("listening"));
    try { await (own ?? browsers).start((words) => tell("hearing", say("hearing", { words }))); } catch (fault) {
      rest();
      trouble(say("microphone", { why: fault.message || fault.name }));
    }
  }

  async function end() {
    if (!holding) return;
    const words = await (own ?? browsers).stop();
    rest();
    if (words) await said(words);
  }

  function rest() {
    holding = false;
    button.setAttribute("aria-pressed", "false");
    tell("hearing", "");
  }

  button.addEventListener("pointerdown", begin);
  for (const event of ["pointerup", "pointercancel", "pointerleave", "keyup", "blur"]) button.addEventListener(event, end);
  button.addEventListener("keydown", begin);
}
