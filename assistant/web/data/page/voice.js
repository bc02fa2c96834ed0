// The voice of the browser, which a tap anywhere hushes; and what an ear must be.
//
// An ear is `{ start(partial), stop() }`: `start` opens the microphone and calls `partial` with the
// words so far; `stop` gives the words heard, "" for none, or the document that an engine answered
// them with. `browserEar` is the browser's own; an
// ear of ours that runs in the page takes its place without another change.

const voice = globalThis.speechSynthesis;

/** Whether this browser can speak. */
export const canSpeak = Boolean(voice);

/** Speak sentences one after another; what was being said is cut off. */
export function speak(sentences) {
  hush();
  for (const words of sentences) {
    const said = new SpeechSynthesisUtterance(words);
    said.lang = "en-US";
    voice?.speak(said);
  }
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
