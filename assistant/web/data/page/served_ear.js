// The ears of the laptop at this page's microphone: sound goes over a socket while the key is held,
// the words so far come back, and in the end what they came to.

import { say } from "./words.js";

const RATE = 16_000;

/** The ear, or null where the browser gives a page no microphone (it does over https only). */
export function servedEar() {
  if (!navigator.mediaDevices?.getUserMedia || !globalThis.AudioWorkletNode) return null;
  let held = null;

  async function start(partial) {
    const microphone = await navigator.mediaDevices.getUserMedia({ audio: { channelCount: 1 } });
    const sound = new AudioContext({ sampleRate: RATE });
    await sound.audioWorklet.addModule("capture_worklet.js");
    const socket = new WebSocket(`${location.protocol === "https:" ? "wss" : "ws"}://${location.host}/listen`);
    const told = new Promise((resolve, reject) => {
      socket.onmessage = ({ data }) => {
        const found = JSON.parse(data);
        if (found.told) resolve(found.told); else partial(found.partial);
      };
      socket.onclose = socket.onerror = () => reject(new Error(say("not_reached")));
    });
    told.catch(() => {});  // it is told when the key is let go
    await new Promise((resolve) => { socket.onopen = resolve; told.catch(resolve); });
    const capture = new AudioWorkletNode(sound, "capture");
    capture.port.onmessage = ({ data }) => { if (socket.readyState === WebSocket.OPEN) socket.send(data); };
    sound.createMediaStreamSource(microphone).connect(capture);
    held = { microphone, sound, socket, told };
  }

  async function stop() {
    if (!held) return "";
    const { microphone, sound, socket, told } = held;
    held = null;
    for (const track of microphone.getTracks()) track.stop();
    await sound.close();
    if (socket.readyState === WebSocket.OPEN) socket.send("end");
    return told.finally(() => socket.close());
  }

  return { start, stop };
}
