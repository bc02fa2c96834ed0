// Hold to talk, with whichever ear there is: the engine's own, or the browser's where it was
// switched on. Without an ear there is no button, and the keyboard's microphone serves. An ear
// gives back words, or a document where an engine has heard and answered them already.

import { byId, tell } from "./elements.js";
import { browserEar, hush } from "./voice.js";
import { say } from "./words.js";

/** Why the microphone could not be had, plainly. */
export function microphoneFault(fault) {
  if (fault?.name === "NotAllowedError" || fault?.name === "SecurityError") return say("microphone_refused");
  if (fault?.name === "NotFoundError") return say("microphone_none");
  return say("microphone", { why: fault?.message || fault?.name });
}

export function microphone(engine, said, answered, trouble) {
  const button = byId("mic");
  const own = engine.ear ?? null;
  const browsers = own ? null : browserEar();
  const ear = own ?? browsers;
  const switched = byId("browser-ear");
  byId("own-ear").hidden = !browsers;
  const show = () => { button.hidden = !(own || (browsers && switched.checked)); };
  switched.addEventListener("change", show);
  show();
  let opening = null;

  function begin(event) {
    if (opening || (event.type === "keydown" && event.key !== " " && event.key !== "Enter")) return;
    event.preventDefault();
    hush();
    button.setAttribute("aria-pressed", "true");
    tell("hearing", say("listening"));
    opening = ear.start((words) => tell("hearing", say("hearing", { words })));
    opening.catch((fault) => {
      trouble(microphoneFault(fault));
      closed();
    });
  }

  function closed() {
    opening = null;
    button.setAttribute("aria-pressed", "false");
    tell("hearing", "");
  }

  async function end() {
    if (!opening) return;
    try { await opening; } catch { return; }  // that was told as it failed
    try {
      const heard = await ear.stop();
      if (typeof heard === "string") { if (heard) await said(heard); } else answered(heard);
    } catch (fault) {
      trouble(microphoneFault(fault));
    }
    closed();
  }

  button.addEventListener("pointerdown", begin);
  for (const event of ["pointerup", "pointercancel", "keyup", "blur"]) button.addEventListener(event, end);
  button.addEventListener("keydown", begin);
}
