// How loud the bands are that speech is made of, for each 20 ms of 16 kHz sound: what
// `assistant/asr/vad.py` works out by an array library, whose edges these are.

const FRAME = 320;
const RATE = 16_000;
const EDGES_HZ = [250, 500, 900, 1600, 2600, 4000];
const FULL_SCALE = 32768;

const edges = EDGES_HZ.map((edge) => Math.floor((edge * FRAME) / RATE));
const turn = Float64Array.from({ length: FRAME }, (_, place) => Math.cos((2 * Math.PI * place) / FRAME));
const hann = Float64Array.from({ length: FRAME }, (_, place) => 0.5 - 0.5 * Math.cos((2 * Math.PI * place) / (FRAME - 1)));

function power(frame, wave) {
  let real = 0;
  let imaginary = 0;
  for (let place = 0; place < FRAME; place += 1) {
    const at = (place * wave) % FRAME;
    real += frame[place] * turn[at];
    imaginary += frame[place] * turn[(at + FRAME / 4) % FRAME];  // a sine is a cosine a quarter on
  }
  return real * real + imaginary * imaginary;
}

/** The bands of each whole frame of 16-bit samples, in decibels under full scale. */
export function bandsOf(samples) {
  const found = [];
  for (let start = 0; start + FRAME <= samples.length; start += FRAME) {
    const frame = Float64Array.from(hann, (share, place) => (share * samples[start + place]) / FULL_SCALE);
    found.push(edges.slice(0, -1).map((edge, band) => {
      let sum = 0;
      for (let wave = edge; wave < edges[band + 1]; wave += 1) sum += power(frame, wave);
      return 10 * Math.log10(sum / (FRAME * FRAME) + 1e-12);
    }));
  }
  return found;
}
