// Colours and voice, remembered by the browser where it remembers anything.

import { byId } from "./elements.js";
import { hush } from "./voice.js";

function remembered(key) {
  try { return localStorage.getItem(key) ?? ""; } catch { return ""; }
}

function remember(key, value) {
  try { localStorage.setItem(key, value); } catch { /* the choice holds until the page is closed */ }
}

/** Set the page's looks as they were left, and take changes. */
export function looks() {
  const paint = (colours) => {
    if (colours) document.documentElement.dataset.colours = colours;
    else delete document.documentElement.dataset.colours;
  };
  const was = remembered("colours");
  paint(was);
  for (const choice of document.querySelectorAll("input[name=colours]")) {
    choice.checked = choice.value === was;
    choice.addEventListener("change", () => { paint(choice.value); remember("colours", choice.value); });
  }
  const aloud = byId("aloud");
  aloud.checked = remembered("aloud") === "yes";
  aloud.addEventListener("change", () => { remember("aloud", aloud.checked ? "yes" : ""); hush(); });
  const free = byId("aloud-free");
  free.checked = remembered("aloud-free") !== "no";
  free.addEventListener("change", () => { remember("aloud-free", free.checked ? "" : "no"); hush(); });
}
