// The parts of the page that ask the engine when they are opened: what if, standard boxes, boxes,
// jobs, help. `ask` gives a document, or null where that was told already; `enter` shows a view.

import { byId, element, refill } from "./elements.js";
import { say } from "./words.js";

const MORE = 50;

export function panels(ask, enter) {
  const fresh = {
    "part-standard": standard, "part-boxes": () => boxes(0), "part-jobs": jobs, "part-help": help,
  };
  for (const [id, fill] of Object.entries(fresh)) byId(id).addEventListener("toggle", () => byId(id).open && fill());
  byId("try-form").addEventListener("submit", (event) => { event.preventDefault(); tryOut(byId("try-words").value); });
  byId("standard-form").addEventListener("submit", (event) => { event.preventDefault(); standard(); });
  byId("standard-words").addEventListener("input", standard);
  byId("gangs").addEventListener("change", standard);
  byId("more-boxes").addEventListener("click", () => boxes(byId("boxes").childElementCount));
  byId("job-form").addEventListener("submit", async (event) => {
    event.preventDefault();
    if (await enter({ kind: "start_job", name: byId("job-name").value })) byId("job-name").value = "";
  });
  const refresh = () => Object.entries(fresh).forEach(([id, fill]) => id !== "part-help" && byId(id).open && fill());

  async function tryOut(words) {
    if (!words.trim()) return;
    const told = await ask({ kind: "try_out", words });
    if (!told) return;
    if (!told.tried) { byId("tried").replaceChildren(element("p", {}, told.says)); return; }
    const rows = told.lines.map((line) => element(
      "tr", { class: line.differs ? "differs" : "" },
      element("th", { scope: "row" }, line.what), element("td", {}, line.now), element("td", {}, line.then),
    ));
    const head = element("tr", {}, ...["what", "now", "then"].map((key) => element("th", { scope: "col" }, say(key))));
    const take = element("button", { type: "button", on: { click: async () => {
      if (await enter({ kind: "hear", words })) byId("tried").replaceChildren();
    } } }, say("take_over"));
    byId("tried").replaceChildren(
      ...told.difference.map((words_) => element("p", {}, words_)), take,
      element("table", {}, element("thead", {}, head), element("tbody", {}, ...rows)),
    );
  }

  async function standard() {
    const query = byId("standard-words").value;
    const told = await ask({ kind: "find_boxes", query, gangs: Number(byId("gangs").value) });
    if (!told || query !== byId("standard-words").value) return;
    const rows = told.rows.map((row) => element("li", {},
      element("button", { type: "button", on: { click: () => enter({ kind: "pick_box", row: row.row, gangs: row.gangs, volume: row.row ? "" : row.capacity }) } },
        `${row.what}, ${row.capacity} ${told.unit}`),
      element("span", {}, `${row.told} ${row.section}`.trim())));
    refill(byId("standard"), rows.length ? rows : [element("li", {}, say("none_found"))]);
  }

  async function boxes(first) {
    const told = await ask({ kind: "list_boxes", first, most: MORE });
    if (!told) return;
    const rows = told.rows.map((row) => element("li", { class: row.here ? "here" : "" },
      element("button", { type: "button", "aria-current": row.here && "true", on: { click: () => enter({ kind: "open_box", name: row.name }) } }, row.name),
      element("span", {}, row.told)));
    if (first) byId("boxes").append(...rows); else refill(byId("boxes"), rows);
    byId("more-boxes").hidden = byId("boxes").childElementCount >= told.count;
  }

  async function jobs() {
    const told = await ask({ kind: "list_jobs" });
    if (!told) return;
    refill(byId("jobs"), told.rows.map((row) => element("li", { class: row.here ? "here" : "" },
      element("button", { type: "button", "aria-current": row.here && "true", on: { click: () => enter({ kind: "open_job", file: row.file }) } }, row.name),
      element("span", {}, row.written))));
  }

  async function help() {
    if (byId("help").childElementCount) return;
    const told = await ask({ kind: "examples" });
    if (!told) return;
    byId("help").replaceChildren(...told.topics.map((topic) => element("details", {},
      element("summary", {}, topic.topic),
      element("ul", { class: "plain" }, ...topic.examples.map((words) => element("li", {}, `“${words}”`))))));
  }

  return { refresh };
}
