// The fill drawn to scale: what each kind takes, what is open, and the line of the capacity.

import { drawn, element } from "./elements.js";
import { say } from "./words.js";

const WIDE = 1000;
const TALL = 100;
const HEADROOM = 1.08;

/** A figure element's content for a fill as the engine tells it. Volumes are only drawn by their
 * size here; every figure that is shown is the engine's own text. */
export function fillDrawing(fill) {
  const high = Number(fill.high);
  const total = Number(fill.total);
  const capacity = fill.capacity === null ? null : Number(fill.capacity);
  const top = Math.max(high, total, capacity ?? 0) * HEADROOM || 1;
  const across = (volume) => (volume / top) * WIDE;
  const parts = [];
  let at = 0;
  for (const part of fill.parts) {
    const width = across(Number(part.volume));
    parts.push(drawn("rect", { class: "part", x: at, y: 14, width, height: 72 }, drawn("title", {}, `${part.name} ${part.volume}`)));
    at += width;
  }
  if (high > total) parts.push(drawn("rect", { class: "maybe", x: at, y: 14, width: across(high - total), height: 72 }));
  if (capacity !== null) {
    const line = across(capacity);
    parts.unshift(drawn("rect", { class: "outline", x: 0, y: 6, width: line, height: 88 }));
    if (high > capacity) parts.push(drawn("rect", { class: "beyond", x: line, y: 14, width: across(Math.max(total, high) - capacity), height: 72 }));
    parts.push(drawn("line", { class: "limit", x1: line, y1: 0, x2: line, y2: TALL }));
  }
  const label = say("fill", {
    total: fill.total, unit: fill.unit,
    of: fill.capacity === null ? "" : ` ${say("of_capacity", { capacity: fill.capacity, unit: fill.unit })}`,
    parts: fill.parts.map((part) => `${part.name} ${part.volume}`).join(", "),
  });
  const picture = drawn("svg", { viewBox: `0 0 ${WIDE} ${TALL}`, preserveAspectRatio: "none", role: "img", "aria-label": label }, ...parts);
  return [picture, element("figcaption", {}, legend(fill))];
}

function legend(fill) {
  const rows = fill.parts.map((part) => element("li", {}, `${part.name} ${part.volume}`));
  if (Number(fill.high) > Number(fill.total)) rows.push(element("li", {}, say("fill_open", { high: fill.high })));
  const total = say("total", { volume: fill.total, unit: fill.unit });
  const of = fill.capacity === null ? say("no_capacity") : say("of_capacity", { capacity: fill.capacity, unit: fill.unit });
  rows.unshift(element("li", {}, fill.capacity === null ? `${total}. ${of}` : `${total} ${of}`));
  return element("ul", {}, ...rows);
}
