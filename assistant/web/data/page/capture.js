// The page's microphone: 16 kHz, mono, 16-bit, a tenth of a second at a time.

const RATE = 16_000;

/** Whether the browser gives a page the microphone: it does over https only. */
export const canCapture = Boolean(globalThis.navigator?.mediaDevices?.getUserMedia && globalThis.AudioWorkletNode);

/** The microphone, opened. `start(give)` calls `give` with each piece once `loaded` has come. */
export async function openMicrophone() {
  const microphone = await navigator.mediaDevices.getUserMedia({ audio: { channelCount: 1, echoCancellation: true } });
  const sound = new AudioContext({ sampleRate: RATE });
  const loaded = sound.audioWorklet.addModule("capture_worklet.js");
  loaded.catch(() => {});  // it is told where it is waited for
  return {
    loaded,
    start(give) {
      const capture = new AudioWorkletNode(sound, "capture");
      capture.port.onmessage = ({ data }) => give(data);
      sound.createMediaStreamSource(microphone).connect(capture);
    },
    async close() {
      for (const track of microphone.getTracks()) track.stop();
      if (sound.state !== "closed") await sound.close();
    },
  };
}
