// Takes the microphone's samples as they come and hands them on as 16-bit, a tenth of a second each.

const PIECE = 1600;

class Capture extends AudioWorkletProcessor {
  constructor() {
    super();
    this.held = new Int16Array(PIECE);
    this.count = 0;
  }

  process([input]) {
    for (const sample of input[0] ?? []) {
      this.held[this.count] = Math.max(-1, Math.min(1, sample)) * 32767;
      this.count += 1;
      if (this.count === PIECE) {
        this.port.postMessage(this.held.slice().buffer);
        this.count = 0;
      }
    }
    return true;
  }
}

registerProcessor("capture", Capture);
