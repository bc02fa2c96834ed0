// A copy of Python's memory without what is empty in it, a third of the whole: less to keep, less to
// read at a start, and pages that were empty stay untouched until they are needed.

const PAGE = 4096;
const HEAD = 2;

const words = (bytes) => new Uint32Array(bytes.buffer, bytes.byteOffset, bytes.byteLength / 4);

function isEmpty(page) {
  for (const word of page) if (word) return false;
  return true;
}

/** The runtime's copy in pieces to keep: what stands before the memory, which pages hold anything,
 * and those pages. The copy's second word says where the memory begins in it. */
export function packed(copy) {
  const begins = words(copy)[1];
  const memory = copy.subarray(begins);
  const cells = words(memory.slice());
  const count = memory.length / PAGE;
  const held = [];
  for (let page = 0; page < count; page += 1) {
    if (!isEmpty(cells.subarray(page * (PAGE / 4), (page + 1) * (PAGE / 4)))) held.push(page);
  }
  const table = Uint32Array.of(begins, count, ...held);
  return new Blob([
    Uint32Array.of(table.length), table, copy.subarray(0, begins),
    ...held.map((page) => memory.subarray(page * PAGE, (page + 1) * PAGE)),
  ]);
}

/** Such pieces read: `before` is the runtime's copy with no memory in it, `size` how much memory
 * there must be, in bytes, and `into` puts it in its place. */
export function unpacked(raw) {
  const length = new Uint32Array(raw, 0, 1)[0];
  const [begins, count] = new Uint32Array(raw, 4, HEAD);
  const held = new Uint32Array(raw, 4 * (1 + HEAD), length - HEAD);
  const first = 4 * (1 + length);
  const pages = new Uint8Array(raw, first + begins);
  /** `used` is how much of the memory was there at first: it may hold something where the copy
   * holds nothing. What was added since is empty. */
  function into(memory, used) {
    const cells = words(memory);
    let next = 0;
    for (let place = 0; place < held.length;) {
      const page = held[place];
      let run = 1;
      while (held[place + run] === page + run) run += 1;
      clear(memory, cells, next, Math.min(page, used / PAGE));
      memory.set(pages.subarray(place * PAGE, (place + run) * PAGE), page * PAGE);
      place += run;
      next = page + run;
    }
    clear(memory, cells, next, used / PAGE);
  }
  return { before: new Uint8Array(raw.slice(first, first + begins)), size: count * PAGE, into };
}

/** Empty the pages from one to another, touching only those that hold something. */
function clear(memory, cells, from, to) {
  for (let page = from; page < to; page += 1) {
    const cell = page * (PAGE / 4);
    if (!isEmpty(cells.subarray(cell, cell + PAGE / 4))) memory.fill(0, page * PAGE, (page + 1) * PAGE);
  }
}
