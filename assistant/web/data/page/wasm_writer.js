// Just enough of WebAssembly's binary form to write a few functions in it (WebAssembly Core
// Specification 2.0, section 5): they take whole numbers of 32 bits, give nothing back, and work on one
// memory that is handed in. Code is nested lists of bytes.

export const I32 = 0x7f;
export const V128 = 0x7b;
export const F32 = 0x7d;
const NOTHING = 0x40;

function unsigned(value) {
  const bytes = [];
  for (let left = value; ; left >>>= 7) {
    if (left < 128) return [...bytes, left];
    bytes.push((left & 127) | 128);
  }
}

function signed(value) {
  const bytes = [];
  for (let left = value; ; left >>= 7) {
    if (left >= -64 && left < 64) return [...bytes, left & 127];
    bytes.push((left & 127) | 128);
  }
}

const ofFloat = (value) => [...new Uint8Array(Float32Array.of(value).buffer)];
const simd = (number) => [0xfd, unsigned(number)];
/** A place in memory: `offset` bytes behind where an address points, on any 4th byte. */
const at = (offset) => [2, unsigned(offset)];
const two = (code) => (one, other) => [one, other, code];

export const i32 = {
  of: (value) => [0x41, signed(value)],
  add: two(0x6a),
  less: two(0x49),
};
export const f32 = {
  of: (value) => [0x43, ofFloat(value)],
  add: two(0x92),
  div: two(0x95),
  max: two(0x97),
};
/** Four numbers at once. */
export const f32x4 = {
  all: (one) => [one, simd(19)],
  each: (value) => [0xfd, 12, [0, 1, 2, 3].map(() => ofFloat(value))],
  lane: (four, place) => [four, simd(31), place],
  nearest: (four) => [four, simd(106)],
  add: two(simd(228)),
  sub: two(simd(229)),
  mul: two(simd(230)),
  div: two(simd(231)),
  min: two(simd(232)),
  max: two(simd(233)),
  load: (address, offset) => [address, simd(0), at(offset)],
  loadOne: (address, offset) => [address, simd(9), at(offset)],
  store: (address, offset, four) => [address, four, simd(11), at(offset)],
  /** `one` times `other` and `more`, rounded once where the device can: about twice as quick. */
  fused: (one, other, more) => [one, other, more, simd(261)],
  /** Two to the power of each, which are whole. */
  power: (four) => [four, simd(248), [0xfd, 12, [0, 1, 2, 3].map(() => [127, 0, 0, 0])], simd(174), i32.of(23), simd(171)],
};
/** Eight signed bytes as numbers: the first four (0), the second four (1). */
export const bytes = {
  load: (address) => [address, simd(1), at(0)],
  wide: (eight, half) => [eight, simd(167 + half), simd(250)],
};
export const get = (local) => [0x20, local];
export const set = (local, value) => [value, 0x21, local];
export const move = (local, by) => set(local, i32.add(get(local), by));
/** Do it, and again as long as `more` is not nought. */
export const repeat = (more, ...body) => [0x03, NOTHING, body, more, 0x0d, 0, 0x0b];

/** A function of so many whole numbers. `write(locals)` gives its code, where `locals(kind, count)`
 * makes further local variables and gives their numbers. */
export function code(parameters, write) {
  const groups = [];
  let next = parameters;
  const body = write((kind, count = 1) => {
    groups.push([unsigned(count), kind]);
    next += count;
    return Array.from({ length: count }, (_, place) => next - count + place);
  });
  return { parameters, whole: [unsigned(groups.length), groups, body, 0x0b].flat(Infinity) };
}

const listed = (items) => [unsigned(items.length), items];
const text = (words) => [unsigned(words.length), [...words].map((letter) => letter.charCodeAt(0))];
function section(number, content) {
  const whole = [content].flat(Infinity);
  return [number, unsigned(whole.length), whole];
}

/** The module of functions by their names, over the memory `page.memory`. */
export function moduleOf(functions) {
  const made = Object.entries(functions);
  return Uint8Array.from([
    0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0,
    section(1, listed(made.map(([, one]) => [0x60, listed(Array(one.parameters).fill(I32)), 0]))),
    section(2, listed([[text("page"), text("memory"), 2, 0, 1]])),
    section(3, listed(made.map((_, place) => unsigned(place)))),
    section(7, listed(made.map(([name], place) => [text(name), 0, unsigned(place)]))),
    section(10, listed(made.map(([, one]) => [unsigned(one.whole.length), one.whole]))),
  ].flat(Infinity));
}
