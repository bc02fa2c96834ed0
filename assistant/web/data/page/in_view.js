// Whoever scrolls down to a count sees the verdict all the same: while its card is out of view, its
// word and margin stand at the top. What was asked for by a button is brought into view.

import { byId } from "./elements.js";

/** Follow whether the card of the verdict is in view. */
export function followVerdict() {
  // on a busy phone several changes are told at once: the last of them is how it stands
  new IntersectionObserver((changes) => { byId("brief").hidden = changes.at(-1).isIntersecting; }).observe(byId("verdict"));
}

/** The verdict as it stands at the top. The card says it to who hears the page. */
export function showBrief(view) {
  byId("brief").dataset.verdict = view.verdict.verdict;
  byId("brief").textContent = ["sign", "word", "margin"].map((part) => byId(part).textContent).join(" ").trim();
}

/** Bring the reply into view where it is not. */
export function bringReply() {
  const { top, bottom } = byId("reply").getBoundingClientRect();
  const dock = byId("dock").getBoundingClientRect().top;
  if (top < byId("pinned").getBoundingClientRect().bottom || bottom > dock) byId("reply").scrollIntoView({ block: "start" });
}
