// Hands-free talk: the microphone stays open until a tap or a key ends it, what is said is answered
// at each pause, and the answer is spoken. What the microphone is doing is shown all the while, and
// said aloud as it begins and ends.

import { byId, tell } from "./elements.js";
import { microphoneFault, offerEar } from "./microphone.js";
import { canSpeak, hush, onVoice, speak, speakReply } from "./voice.js";
import { say } from "./words.js";

export function handsFree(engine, answered, trouble) {
  const button = byId("free");
  if (!engine.ear?.listen) return;
  button.hidden = false;
  byId("aloud-free-row").hidden = !canSpeak;
  let open = null;
  let lamp = null;
  let last = null;
  const aloud = () => canSpeak && byId("aloud-free").checked;

  /** Show the state on the button and in words; speak it too where that is wanted. */
  function state(key, on, spoken = "") {
    button.setAttribute("aria-pressed", String(on));
    button.textContent = say(on ? "free_stop" : "free_start");
    byId("mic").disabled = on;
    tell("hearing", key ? say(key) : "");
    if (spoken && aloud()) speak([say(spoken)]);
  }

  function heard(found) {
    if (found.partial) tell("hearing", say("hearing", { words: found.partial }));
    if (found.unclear) tell("hearing", found.unclear);
    if (found.over) trouble(found.over);
    if (found.told) {
      answered(found.told, false);
      if (open) tell("hearing", say("free_on"));
      reply(found.told);
    }
  }

  /** Speak an answer, unless a later one has come or somebody speaks again: they would not be heard. */
  async function reply(told) {
    last = told;
    if (told.document === "Refused" || !aloud()) return;
    if (open?.quiet && !(await open.quiet())) return;
    if (last === told && open) speakReply(told.reply);
  }

  async function begin() {
    hush();
    if (engine.ear.missing) { offerEar(); byId("ear-take").focus(); return; }
    state("free_opening", true);
    try {
      open = await engine.ear.listen(heard);
    } catch (fault) {
      state("", false);
      trouble(microphoneFault(fault));
      return;
    }
    // a screen that goes dark ends the microphone: it is kept on where the browser can
    lamp = await navigator.wakeLock?.request("screen").catch(() => null);
    state("free_on", true, "free_on_spoken");
    const ended = open.ended.catch((fault) => trouble(fault.message));
    await ended;
    open = null;
    lamp?.release();
    state("", false, "free_off_spoken");
  }

  function end() {
    if (!open) return;
    hush();
    tell("hearing", say("free_closing"));
    open.stop();
  }

  onVoice((speaks) => open?.voice(speaks));
  button.addEventListener("click", () => (open ? end() : begin()));
  document.addEventListener("keydown", (event) => { if (event.key === "Escape") end(); });
}
