// The arithmetic of the ear's network that takes its time, four numbers at once. Addresses and
// lengths are in bytes.

import {
  F32, I32, V128, bytes, code, f32, f32x4, get, i32, moduleOf, move, repeat, set,
} from "./wasm_writer.js";

export const COLUMNS = 8;  // of a panel
export const ROWS = 4;  // that are worked out at once
export const STEP = 4;  // places of a sum that are taken at once
const NUMBER = 4;
const PANEL_ROW = COLUMNS * NUMBER;
const LEAST_EXPONENT = -87;  // of e: what is less is nothing in 32 bits
const SERIES = [1 / 5040, 1 / 720, 1 / 120, 1 / 24, 1 / 6, 1 / 2, 1, 1];  // Taylor's, of e

/** widen(steps, scales, panel, end): rows of 8 bytes as numbers, each column by its scale, up to the
 * `end` of the panel. */
const widen = code(4, (locals) => {
  const [steps, scales, panel, end] = [0, 1, 2, 3];
  const [first, second, row] = locals(V128, 3);
  return [
    set(first, f32x4.load(get(scales), 0)),
    set(second, f32x4.load(get(scales), 16)),
    repeat(
      i32.less(get(panel), get(end)),
      set(row, bytes.load(get(steps))),
      f32x4.store(get(panel), 0, f32x4.mul(bytes.wide(get(row), 0), get(first))),
      f32x4.store(get(panel), 16, f32x4.mul(bytes.wide(get(row), 1), get(second))),
      move(steps, i32.of(COLUMNS)),
      move(panel, i32.of(PANEL_ROW)),
    ),
  ];
});

/** multiply(rows, stride, panel, panelEnd, first, made, madeStride, end): rows, each `stride` behind
 * the one before, times a panel of 8 columns, and `first` added. Four rows at a time are made, up to
 * `end`. Rows may overlap. */
const multiply = (fused) => code(8, (locals) => {
  const [rows, stride, panel, panelEnd, first, made, madeStride, end] = [0, 1, 2, 3, 4, 5, 6, 7];
  const [place, ...from] = locals(I32, 1 + ROWS);
  const sums = locals(V128, 2 * ROWS);
  const [left, right, one] = locals(V128, 3);
  const sum = (one, other, more) => (
    fused ? f32x4.fused(get(one), get(other), get(more)) : f32x4.add(get(more), f32x4.mul(get(one), get(other)))
  );
  const product = (step) => [
    set(left, f32x4.load(get(place), step * PANEL_ROW)),
    set(right, f32x4.load(get(place), step * PANEL_ROW + 16)),
    from.map((row, number) => [
      set(one, f32x4.loadOne(get(row), step * NUMBER)),
      set(sums[2 * number], sum(one, left, sums[2 * number])),
      set(sums[2 * number + 1], sum(one, right, sums[2 * number + 1])),
    ]),
  ];
  return repeat(
    i32.less(get(made), get(end)),
    from.map((row, number) => set(row, number ? i32.add(get(from[number - 1]), get(stride)) : get(rows))),
    set(left, f32x4.load(get(first), 0)),
    set(right, f32x4.load(get(first), 16)),
    sums.map((sum, number) => set(sum, get(number % 2 ? right : left))),
    set(place, get(panel)),
    repeat(
      i32.less(get(place), get(panelEnd)),
      [0, 1, 2, 3].map(product),
      from.map((row) => move(row, i32.of(STEP * NUMBER))),
      move(place, i32.of(STEP * PANEL_ROW)),
    ),
    from.map((_, number) => [
      f32x4.store(get(made), 0, get(sums[2 * number])),
      f32x4.store(get(made), 16, get(sums[2 * number + 1])),
      move(made, get(madeStride)),
    ]),
    from.map(() => move(rows, get(stride))),
  );
});

/** Code that makes e to the power of `local`'s numbers of it, with two locals to work with. */
function exponential(local, whole, sum) {
  return [
    set(local, f32x4.max(get(local), f32x4.each(LEAST_EXPONENT))),
    set(local, f32x4.min(get(local), f32x4.each(-LEAST_EXPONENT))),
    set(whole, f32x4.nearest(f32x4.mul(get(local), f32x4.each(Math.LOG2E)))),
    // the logarithm of two in two parts, so that nothing of it is lost
    set(local, f32x4.sub(get(local), f32x4.mul(get(whole), f32x4.each(0.693359375)))),
    set(local, f32x4.sub(get(local), f32x4.mul(get(whole), f32x4.each(Math.LN2 - 0.693359375)))),
    set(sum, f32x4.each(SERIES[0])),
    SERIES.slice(1).map((term) => set(sum, f32x4.add(f32x4.mul(get(sum), get(local)), f32x4.each(term)))),
    set(local, f32x4.mul(get(sum), f32x4.power(get(whole)))),
  ];
}

/** gelu(from, end): each number x as x (1 + tanh(√(2/π) (x + 0.044715 x³))) / 2. */
const gelu = code(2, (locals) => {
  const [from, end] = [0, 1];
  const [x, bent, whole, sum] = locals(V128, 4);
  const rate = -2 * Math.sqrt(2 / Math.PI);
  const cubed = f32x4.mul(f32x4.mul(get(x), get(x)), f32x4.mul(get(x), f32x4.each(rate * 0.044715)));
  return repeat(
    i32.less(get(from), get(end)),
    set(x, f32x4.load(get(from), 0)),
    set(bent, f32x4.add(f32x4.mul(get(x), f32x4.each(rate)), cubed)),
    exponential(bent, whole, sum),
    f32x4.store(get(from), 0, f32x4.div(get(x), f32x4.add(get(bent), f32x4.each(1)))),
    move(from, i32.of(16)),
  );
});

/** shares(from, length, end): rows of that length, each as its softmax. */
const shares = code(3, (locals) => {
  const [from, length, end] = [0, 1, 2];
  const [place, until] = locals(I32, 2);
  const [top] = locals(F32);
  const [four, most, all, whole, sum] = locals(V128, 5);
  const lanes = (local, join) => [1, 2, 3].reduce(
    (found, lane) => join(found, f32x4.lane(get(local), lane)), f32x4.lane(get(local), 0),
  );
  const along = (...body) => [
    set(place, get(from)),
    repeat(i32.less(get(place), get(until)), body, move(place, i32.of(16))),
  ];
  return repeat(
    i32.less(get(from), get(end)),
    set(until, i32.add(get(from), get(length))),
    set(most, f32x4.load(get(from), 0)),
    along(set(most, f32x4.max(get(most), f32x4.load(get(place), 0)))),
    set(top, lanes(most, f32.max)),
    set(all, f32x4.each(0)),
    along(
      set(four, f32x4.sub(f32x4.load(get(place), 0), f32x4.all(get(top)))),
      exponential(four, whole, sum),
      set(all, f32x4.add(get(all), get(four))),
      f32x4.store(get(place), 0, get(four)),
    ),
    set(top, f32.div(f32.of(1), lanes(all, f32.add))),
    along(f32x4.store(get(place), 0, f32x4.mul(f32x4.load(get(place), 0), f32x4.all(get(top))))),
    set(from, get(until)),
  );
});

/** The functions, over a memory: with fused sums (WebAssembly 3.0, relaxed vectors) where the browser
 * has them and `plain` is not asked for. */
export async function kernel(memory, plain = false) {
  const made = (fused) => moduleOf({ widen, multiply: multiply(fused), gelu, shares });
  const fused = made(true);
  const chosen = !plain && WebAssembly.validate(fused) ? fused : made(false);
  return (await WebAssembly.instantiate(chosen, { page: { memory } })).instance.exports;
}
