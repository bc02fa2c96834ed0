// Hold to talk, with whichever ear there is: the engine's own, or the browser's where it was
// switched on. Without an ear there is no button, and the keyboard's microphone serves. An ear
// gives back words, or a document where an engine has heard and answered them already.

import { byId, tell } from "./elements.js";
import { NoAnswer } from "./engine_link.js";
import { browserEar, hush } from "./voice.js";
import { say } from "./words.js";

/** Why the microphone could not be had, plainly. */
export function microphoneFault(fault) {
  if (fault instanceof NoAnswer) return fault.message;
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
  let ending = false;
  if (own?.takeIn) earOffer(own, trouble);

  function begin(event) {
    if (opening || (event.type === "keydown" && event.key !== " " && event.key !== "Enter")) return;
    event.preventDefault();
    hush();
    if (own?.missing) { offerEar(); return; }
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
    ending = false;
    button.setAttribute("aria-pressed", "false");
    tell("hearing", "");
  }

  async function end(event) {
    // the key is let go first: held on, it would press what the focus goes to
    if (own?.missing && !byId("ear-offer").hidden && event.type !== "blur") byId("ear-take").focus();
    if (!opening || ending) return;
    ending = true;
    try { await opening; } catch { ending = false; return; }  // that was told as it failed
    tell("hearing", say("hearing_out"));
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

/** Offer to take the ear in that is not there yet. */
export function offerEar() {
  byId("ear-offer").hidden = false;
}

/** What such an ear takes in is told before; it is taken in at a tap. */
function earOffer(ear, trouble) {
  const panel = byId("ear-offer");
  const button = byId("mic");
  const size = (bytes) => (bytes / 1e6).toFixed(1);
  byId("ear-offer-words").textContent = say("ear_offer", { size: size(ear.missing) });
  byId("ear-leave").addEventListener("click", () => { panel.hidden = true; button.focus(); });
  byId("ear-take").addEventListener("click", async () => {
    const whole = size(ear.missing);
    panel.hidden = true;
    button.disabled = byId("free").disabled = true;
    const progress = (done) => tell("hearing", say("ear_taking", { done: size(done), whole }));
    progress(0);
    try {
      await ear.takeIn(progress);
      tell("hearing", say("ear_ready"));
    } catch (fault) {
      tell("hearing", "");
      trouble(say("ear_not_taken_in", { why: fault?.message || fault?.name }));
    }
    button.disabled = byId("free").disabled = false;
    button.focus();
  });
}
