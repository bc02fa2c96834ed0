// The ears of the laptop at this page's microphone: sound goes over a socket, the words so far come
// back, and what they came to. Held by a key it is one statement; open, it goes on until it is ended.

import { canCapture, openMicrophone } from "./capture.js";
import { say } from "./words.js";

/** The ear, or null where the browser gives the page no microphone. */
export function servedEar() {
  if (!canCapture) return null;
  let held = null;

  async function start(partial) {
    held = await opened("", (found) => { if (found.partial !== undefined) partial(found.partial); });
  }

  async function stop() {
    if (!held) return "";
    const { close, ended } = held;
    held = null;
    await close();
    return ended;
  }

  /** Listen until `stop` of what is given back is called. `heard` is called with each message:
   * `partial`, `unclear`, `told`, or `over` where it ended by itself. */
  async function listen(heard) {
    const open = await opened("?free=yes", heard);
    return { stop: open.close, ended: open.ended, voice: (speaks) => open.send(speaks ? "speaks" : "spoke") };
  }

  return { start, stop, listen };
}

/** The microphone, and the socket that it goes to. `ended` is the last document, or undefined;
 * it fails where the laptop is gone. */
async function opened(query, heard) {
  const microphone = await openMicrophone();
  let told;
  let asked = false;
  let over = false;
  const socket = new WebSocket(`${location.protocol === "https:" ? "wss" : "ws"}://${location.host}/listen${query}`);
  const ended = new Promise((resolve, reject) => {
    socket.onmessage = ({ data }) => {
      const found = JSON.parse(data);
      told = found.told ?? told;
      asked ||= Boolean(found.over);
      heard(found);
    };
    socket.onclose = () => (told || asked ? resolve(told) : reject(new Error(say("not_reached"))));
    socket.onerror = () => reject(new Error(say("not_reached")));
  }).finally(() => {
    over = true;
    microphone.close();
  });
  ended.catch(() => {});  // it is told where it is waited for
  const send = (what) => { if (socket.readyState === WebSocket.OPEN) socket.send(what); };
  const begun = new Promise((resolve) => { socket.onopen = resolve; ended.catch(resolve); });
  // A server that refuses at once ends it while the module is loading: what it told is the reason.
  await Promise.all([begun, microphone.loaded.catch((error) => { if (!over) throw error; })]);
  if (!over) microphone.start(send);

  async function close() {
    asked = true;
    await microphone.close();
    send("end");
  }
  return { send, close, ended };
}
