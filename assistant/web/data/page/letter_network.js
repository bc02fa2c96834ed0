// The ear's network: sound in, how likely each letter is in every place of it out. Its file is the
// one that `letters_file.py` writes, and lies in the memory as it came, weights in bytes; a panel of
// eight columns at a time is made wide. The arithmetic is the one that `ctc_weights.py` tells.

import { COLUMNS, kernel } from "./matrix_kernel.js";

const PAGE = 65536;
const NUMBER = 4;  // bytes
const FORBIDDEN = -1e30;
const up = (count, to) => Math.ceil(count / to) * to;

/** The network of a file, which comes in `pieces` of bytes, `size` in all. `plain`: with no arithmetic
 * that not every browser has. */
export async function networkOf(pieces, size, plain = false) {
  const memory = new WebAssembly.Memory({ initial: Math.ceil(size / PAGE) });
  const bytes = new Uint8Array(memory.buffer);
  let there = 0;
  for await (const piece of pieces) {
    bytes.set(piece, there);
    there += piece.length;
  }
  const length = new DataView(memory.buffer).getUint32(0, true);
  const about = JSON.parse(new TextDecoder().decode(bytes.slice(NUMBER, NUMBER + length)));
  return new LetterNetwork(about, up(size, COLUMNS * NUMBER), memory, await kernel(memory, plain));
}

class LetterNetwork {
  constructor(about, free, memory, work) {
    Object.assign(this, { about, free, memory, work });
  }

  /** The logarithm of how likely each letter is, places by letters, the blank first. `sound` is
   * samples from -1 to 1 at 16 kHz, a whole number of places of them. */
  letters(sound) {
    const { width, letters, layers } = this.about;
    const places = sound.length / this.about.stride;
    const where = this.room(places);
    this.hear(sound, where);
    for (let layer = 0; layer < layers; layer += 1) this.layer(`layers.${layer}`, where);
    this.norm("norm", where);
    this.map("head", where.normed, width, where.broad, where.rows, where.panel);
    const found = new Float32Array(places * letters);
    const columns = up(letters, COLUMNS);
    for (let place = 0; place < places; place += 1) {
      const row = this.values.subarray(where.broad / NUMBER + place * columns).subarray(0, letters);
      const most = row.reduce((one, other) => Math.max(one, other));
      const all = Math.log(row.reduce((sum, one) => sum + Math.exp(one - most), 0)) + most;
      for (let letter = 0; letter < letters; letter += 1) found[place * letters + letter] = row[letter] - all;
    }
    return found;
  }

  /** Where in the memory each step finds its numbers. What comes before the layers and what is in
   * them is never needed together: it lies at the same place. */
  room(places) {
    const { width, bands, hop, window, wide } = this.about;
    const rows = up(places, COLUMNS);
    const frames = 2 * rows;
    let next = this.free;
    let most = 0;
    const take = (numbers) => {
      next += numbers * NUMBER;
      most = Math.max(most, next);
      return next - numbers * NUMBER;
    };
    const first = take(2 * COLUMNS);
    const panel = take(Math.max(window, 3 * bands, 3 * width, wide, rows) * COLUMNS);
    const state = take(rows * width);
    const shared = next;
    const wave = take((frames - 1) * hop + window);
    const waves = take(frames * up(window + 2, COLUMNS));
    const mel = take((frames + 2) * bands);
    const early = take((frames + 2) * width);
    next = shared;
    const normed = take(rows * width);
    const broad = take(rows * Math.max(wide, 3 * width + rows));
    const shares = broad + rows * 3 * width * NUMBER;
    const missing = most - this.memory.buffer.byteLength;
    if (missing > 0) this.memory.grow(Math.ceil(missing / PAGE));
    this.values = new Float32Array(this.memory.buffer);
    this.clear(first, 2 * COLUMNS);
    // places that are only there to fill the last panel up are not looked at
    this.values.fill(FORBIDDEN, first / NUMBER + 2 * COLUMNS - (rows - places), first / NUMBER + 2 * COLUMNS);
    return { places, rows, frames, first, panel, state, wave, waves, mel, early, normed, broad, shares };
  }

  /** The sound as the states that the layers begin with. */
  hear(sound, where) {
    const { width, bands } = this.about;
    const { places, frames, rows } = where;
    this.spectrum(sound, where);
    const after = where.early + width * NUMBER;
    this.map("conv1", where.mel, bands, after, frames, where.panel);
    this.work.gelu(after, after + frames * width * NUMBER);
    this.clear(where.early, width);
    this.clear(after + 2 * places * width * NUMBER, (frames + 1 - 2 * places) * width);
    this.map("conv2", where.early, 2 * width, where.state, rows, where.panel);
    this.work.gelu(where.state, where.state + rows * width * NUMBER);
    const half = width / 2;
    const state = this.values.subarray(where.state / NUMBER);
    for (let wave = 0; wave < half; wave += 1) {
      const rate = Math.exp(-wave * (Math.log(this.about.longest_wave) / (half - 1)));
      for (let place = 0; place < places; place += 1) {
        state[place * width + wave] += Math.sin(place * rate);
        state[place * width + half + wave] += Math.cos(place * rate);
      }
    }
  }

  /** How loud each band is in each frame, with an empty frame before the first and behind the last. */
  spectrum(sound, where) {
    const { bands, window, hop, least_power: least, dynamic_range: range } = this.about;
    const { frames } = where;
    const there = 2 * where.places;
    const half = window / 2;
    const wave = this.values.subarray(where.wave / NUMBER).fill(0, 0, (frames - 1) * hop + window);
    const loudest = sound.reduce((most, one) => Math.max(most, Math.abs(one)), this.about.least_peak);
    const gain = Math.fround(this.about.peak / loudest);
    const last = sound.length - 1;
    for (let place = -half; place < sound.length + half; place += 1) {
      const from = place < 0 ? -place : place > last ? 2 * last - place : place;
      wave[half + place] = sound[from] * gain;
    }
    const columns = up(window + 2, COLUMNS);
    const row = columns * NUMBER;
    for (let panel = 0; panel < columns; panel += COLUMNS) {
      this.wavesOf(panel / 2, where.panel / NUMBER);
      this.product(where.wave, hop, where.panel, window, where.first, where.waves + panel * NUMBER, row, frames);
    }
    const bins = columns / 2;
    const waves = this.values.subarray(where.waves / NUMBER);
    for (let bin = 0; bin < frames * bins; bin += 1) waves[bin] = waves[2 * bin] ** 2 + waves[2 * bin + 1] ** 2;
    for (let panel = 0; panel < bands; panel += COLUMNS) {
      const made = where.mel + (bands + panel) * NUMBER;
      this.product(where.waves, bins, this.about.bank + panel * bins * NUMBER, bins, where.first, made, bands * NUMBER, frames);
    }
    const mel = this.values.subarray(where.mel / NUMBER + bands).subarray(0, there * bands);
    let top = -Infinity;
    mel.forEach((power, place) => {
      mel[place] = Math.log10(Math.max(power, least));
      top = Math.max(top, mel[place]);
    });
    mel.forEach((level, place) => { mel[place] = (Math.max(level, top - range) + 4) / 4; });
    this.clear(where.mel, bands);
    this.clear(where.mel + (there + 1) * bands * NUMBER, (frames + 1 - there) * bands);
  }

  /** Four waves of the window from one on, a cosine and a sine each, as a panel. */
  wavesOf(first, panel) {
    const { window } = this.about;
    const turn = (2 * Math.PI) / window;
    for (let place = 0; place < window; place += 1) {
      const hann = 0.5 - 0.5 * Math.cos(turn * place);
      for (let wave = 0; wave < COLUMNS / 2; wave += 1) {
        const angle = turn * ((place * (first + wave)) % window);
        const there = first + wave <= window / 2 ? hann : 0;
        this.values[panel + place * COLUMNS + 2 * wave] = there * Math.cos(angle);
        this.values[panel + place * COLUMNS + 2 * wave + 1] = there * Math.sin(angle);
      }
    }
  }

  layer(name, where) {
    const { width, wide } = this.about;
    this.norm(`${name}.norm1`, where);
    this.map(`${name}.qkv`, where.normed, width, where.broad, where.rows, where.panel);
    for (let head = 0; head < this.about.heads; head += 1) this.look(head, where);
    this.map(`${name}.out`, where.normed, width, where.broad, where.rows, where.panel);
    this.add(where.broad, where);
    this.norm(`${name}.norm2`, where);
    this.map(`${name}.up`, where.normed, width, where.broad, where.rows, where.panel);
    this.work.gelu(where.broad, where.broad + where.rows * wide * NUMBER);
    this.map(`${name}.down`, where.broad, wide, where.normed, where.rows, where.panel);
    this.add(where.normed, where);
  }

  /** Each place's look at all places, by one head; its queries, keys and values lie in `broad`. */
  look(head, where) {
    const { width, heads } = this.about;
    const { rows, panel } = where;
    const deep = width / heads;
    const row = 3 * width;
    const asked = where.broad + head * deep * NUMBER;
    const keys = asked / NUMBER + width;
    const seen = keys + width;
    const length = rows * NUMBER;
    const scale = deep ** -0.5;
    const into = panel / NUMBER;
    for (let place = 0; place < rows; place += COLUMNS) {
      for (let column = 0; column < COLUMNS; column += 1) {
        const from = keys + (place + column) * row;
        for (let deepness = 0; deepness < deep; deepness += 1) {
          this.values[into + deepness * COLUMNS + column] = this.values[from + deepness] * scale;
        }
      }
      const first = where.first + (place + COLUMNS > where.places ? COLUMNS * NUMBER : 0);
      this.product(asked, row, panel, deep, first, where.shares + place * NUMBER, length, rows);
    }
    this.work.shares(where.shares, length, where.shares + rows * length);
    for (let column = 0; column < deep; column += COLUMNS) {
      for (let place = 0; place < rows; place += 1) {
        const from = seen + place * row + column;
        this.values.copyWithin(into + place * COLUMNS, from, from + COLUMNS);
      }
      const made = where.normed + (head * deep + column) * NUMBER;
      this.product(where.shares, rows, panel, rows, where.first, made, width * NUMBER, rows);
    }
  }

  /** A map of rows, each `stride` numbers behind the one before, into rows that follow each other. */
  map(name, from, stride, made, rows, panel) {
    const { steps, scales, shift, inputs, outputs } = this.about.maps[name];
    for (let column = 0; column < outputs; column += COLUMNS) {
      const place = column * NUMBER;
      this.work.widen(steps + column * inputs, scales + place, panel, panel + inputs * COLUMNS * NUMBER);
      this.product(from, stride, panel, inputs, shift + place, made + place, outputs * NUMBER, rows);
    }
  }

  product(from, stride, panel, depth, first, made, row, rows) {
    const end = panel + depth * COLUMNS * NUMBER;
    this.work.multiply(from, stride * NUMBER, panel, end, first, made, row, made + rows * row);
  }

  /** The states, each evened out, in `normed`. */
  norm(name, where) {
    const { width, epsilon, norms } = this.about;
    const { state, normed } = where;
    const [gain, shift] = [norms[name].gain, norms[name].shift].map((at) => this.values.subarray(at / NUMBER, at / NUMBER + width));
    for (let place = 0; place < where.rows; place += 1) {
      const row = this.values.subarray(state / NUMBER + place * width).subarray(0, width);
      const made = this.values.subarray(normed / NUMBER + place * width).subarray(0, width);
      let [sum, squares] = [0, 0];
      for (let at = 0; at < width; at += 1) sum += row[at];
      const mean = sum / width;
      for (let at = 0; at < width; at += 1) squares += (row[at] - mean) ** 2;
      const even = 1 / Math.sqrt(squares / width + epsilon);
      for (let at = 0; at < width; at += 1) made[at] = (row[at] - mean) * even * gain[at] + shift[at];
    }
  }

  add(from, where) {
    const more = from / NUMBER;
    const state = where.state / NUMBER;
    const count = where.rows * this.about.width;
    for (let at = 0; at < count; at += 1) this.values[state + at] += this.values[more + at];
  }

  clear(from, count) {
    this.values.fill(0, from / NUMBER, from / NUMBER + count);
  }
}
