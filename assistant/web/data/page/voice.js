// The voice of the browser, which a tap anywhere hushes; and what an ear must be.
//
// An ear is `{ start(partial), stop() }`: `start` opens the microphone and calls `partial` with the
// words so far; `stop` gives the words heard, "" for none, or the document that an engine answered
// them with. One that can stay open has `listen(heard)` too: see `served_ear.js`. `browserEar` is
// the browser's own; an ear of ours that runs in the page takes its place without another change.

const voice = globalThis.speechSynthesis;

/** Whether this browser can speak. */
export const canSpeak = Boolean(voice);

let speaking = 0;
let follow = () => {};

/** Call `act` with true as the voice begins to speak, and with false when it has ended. */
export function onVoice(act) {
  follow = act;
}

function count(begun) {
  const before = speaking > 0;
  speaking = Math.max(0, speaking + begun);
  if (speaking > 0 !== before) follow(speaking > 0);
}

/** Speak sentences one after another; what was being said is cut off. */
export function speak(sentences) {
  hush();
  for (const words of sentences) {
    const said = new SpeechSynthesisUtterance(words);
    let begun = false;
    said.lang = "en-US";
    said.onstart = () => { begun = true; count(1); };
    said.onend = said.onerror = () => { if (begun) count(-1); begun = false; };
    voice?.speak(said);
  }
}

/** Speak a reply as it is said aloud. */
export function speakReply(reply) {
  speak(reply.acts.map((act) => act.spoken).filter(Boolean));
}

/** Be quiet at once. */
export function hush() {
  voice?.cancel();
}

const Recogniser = globalThis.SpeechRecognition ?? globalThis.webkitSpeechRecognition;

/** The browser's own recogniser as an ear; null where there is none. */
export function browserEar() {
  if (!Recogniser) return null;
  let running = null;
  let words = "";
  return {
    async start(partial) {
      words = "";
      running = new Recogniser();
      running.lang = "en-US";
      running.interimResults = true;
      running.continuous = true;
      running.onresult = (event) => {
        words = [...event.results].map((result) => result[0].transcript).join(" ").trim();
        partial(words);
      };
      running.start();
    },
    stop() {
      return new Promise((resolve) => {
        running.onend = () => resolve(words);
        running.onerror = () => resolve("");
        running.stop();
      });
    },
  };
}
