// Elements made of data; text is only ever text.

/** An element with attributes and children; a child that is no node becomes text. */
export function element(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (key === "on") for (const [event, act] of Object.entries(value)) made.addEventListener(event, act);
    else if (value === true) made.setAttribute(key, "");
    else if (value !== false && value !== null && value !== undefined) made.setAttribute(key, value);
  }
  made.append(...children.filter((child) => child !== "" && child !== null));
  return made;
}

const SVG = "http://www.w3.org/2000/svg";

/** An element of a drawing. */
export function drawn(name, attributes = {}, ...children) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

/** The element of the page with this id. */
export const byId = (id) => document.getElementById(id);

/** New rows for a list; whoever was on one of its buttons stays on the one of that name. */
export function refill(list, rows) {
  const held = list.contains(document.activeElement) ? document.activeElement.textContent : null;
  list.replaceChildren(...rows);
  if (held !== null) [...list.querySelectorAll("button")].find((one) => one.textContent === held)?.focus();
}

/** Put text into an element, and hide its row where there is none. */
export function tell(id, text, row = id) {
  byId(id).textContent = text;
  byId(row).hidden = !text;
}
