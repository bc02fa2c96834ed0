// What the page shows of the box at hand. Each function takes a part of the engine's view.

import { byId, element, tell } from "./elements.js";
import { fillDrawing } from "./fill_drawing.js";
import { WORDS, say } from "./words.js";

/** Verdict, margin, edition, fill. */
export function showVerdict(view) {
  const { verdict: card } = view;
  byId("verdict").dataset.verdict = card.verdict;
  byId("sign").textContent = WORDS.signs[card.verdict];
  byId("word").textContent = card.word;
  const early = card.at_least ? `${say("at_least")} ` : "";
  const ends = say(card.verdict === "over" ? "over_by" : "left");
  tell("margin", card.margin && `${early}${card.margin} ${card.unit} ${ends}`);
  byId("caption").textContent = card.caption;
  // a verdict's caption names its section and edition; before it, they stand here
  const under = card.verdict === "incomplete" ? view.under : "";
  tell("edition", [under, view.provisional, view.enclosure].filter(Boolean).join(" "));
  byId("fill").replaceChildren(...fillDrawing(view.fill));
}

/** The reply act by act, what was heard and entered, and what was not understood. */
export function showReply(view) {
  const { reply } = view;
  const acts = reply.acts.filter((act) => act.act !== "question");
  byId("reply").replaceChildren(...acts.map((act) => element("p", { class: `${act.act}-act` }, act.says)));
  tell("heard", reply.heard, "heard-row");
  tell("entered", reply.heard ? reply.understood.join(", ") : "", "entered-row");
  tell("unread", reply.left_over.map((words) => `“${words}”`).join(", "), "unread-row");
  tell("assumed", reply.assumed.join(", "), "assumed-row");
  byId("said").hidden = !reply.heard && !reply.assumed.length;
  byId("standing").textContent = view.standing_caution;
  byId("cautions").replaceChildren(...reply.cautions.map((words) => element("li", {}, words)));
}

/** The open question and its answers; `take(place)` enters one, `open(part)` leads elsewhere. */
export function showQuestion(view, take, open) {
  byId("asks").textContent = view.question.asks;
  const answers = view.question.answers.map((answer, place) => element(
    "button", { type: "button", on: { click: () => (answer.opens ? open(answer.opens) : take(place)) } },
    ...(answer.sign && !answer.label.startsWith(answer.sign) ? [element("kbd", { "aria-hidden": "true" }, `${answer.sign} `)] : []),
    answer.label,
  ));
  byId("answers").replaceChildren(...answers);
}

/** What is in the box; `recount(key, count)` changes a count. */
export function showContents(view, recount) {
  byId("contents").replaceChildren(...view.contents.map((row) => {
    const line = element("li", {}, element("span", {}, row.what));
    if (row.key === null) return line;
    const change = (by, sign, key) => element(
      "button", { type: "button", "aria-label": say(key, { what: row.what }), on: { click: () => recount(row.key, row.count + by) } }, sign,
    );
    line.append(element("span", { class: "step" }, change(-1, "−", row.count > 1 ? "less" : "take_out"), element("output", {}, row.count), change(1, "+", "more")));
    return line;
  }));
}

/** The worksheet: every line opens to its reasoning and its source. */
export function showWorksheet(view) {
  byId("worksheet").replaceChildren(...view.sheets.map((sheet) => {
    const lines = sheet.rows.map((row) => element(
      "details", {},
      element("summary", {}, element("span", {}, row.volume), element("span", {}, row.what), element("span", { class: "counted" }, row.counted), element("span", { class: "section" }, row.section)),
      ...row.explained.map((words) => element("p", {}, words)),
    ));
    const of = sheet.capacity === null ? "" : ` ${say("of_capacity", sheet)}`;
    const total = element("p", { class: "total" }, say("total", { volume: sheet.total, unit: sheet.unit }) + of);
    const head = sheet.space === null ? [] : [element("h3", {}, say("space", { number: sheet.space }))];
    return element("div", { class: "sheet" }, ...head, ...(lines.length ? [...lines, total] : [element("p", {}, say("no_lines"))]));
  }));
}
