// The page: what is typed, tapped or said goes to the engine as a request, and its view is shown.

import { showContents, showQuestion, showReply, showVerdict, showWorksheet } from "./box_parts.js";
import { byId, tell } from "./elements.js";
import { NoAnswer, engineOf } from "./engine_link.js";
import { handsFree } from "./hands_free.js";
import { bringReply, followVerdict, showBrief } from "./in_view.js";
import { jobFiles } from "./job_files.js";
import { looks } from "./looks.js";
import { microphone } from "./microphone.js";
import { panels } from "./panels.js";
import { share } from "./sharing.js";
import { hush, speakReply } from "./voice.js";
import { say } from "./words.js";

const words = byId("words");
let engine = null;
let view = null;
let parts = null;

/** A document for a request; null where it could not be had, which is told. */
async function ask(request) {
  try {
    const told = await engine.ask(request);
    if (told.document !== "Refused") return told;
    trouble(told.refused);
  } catch (fault) {
    trouble(fault instanceof NoAnswer ? fault.message : say("stopped"));
  }
  return null;
}

/** Send a request that gives a view, and show it. True where it was taken. */
async function enter(request) {
  document.body.setAttribute("aria-busy", "true");
  const told = await ask(request);
  document.body.removeAttribute("aria-busy");
  if (!told) return false;
  // what another page entered is shown and not spoken
  if (request.kind === "look") answered(told, false); else answered(told);
  return true;
}

/** Show a document that an engine has answered with, and speak it where that is switched on. */
function answered(told, aloud = byId("aloud").checked) {
  trouble(told.refused ?? "");
  if (told.document === "Refused") return;
  show(told);
  if (aloud) speakReply(told.reply);
}

function show(told) {
  view = told;
  byId("job").textContent = told.job;
  byId("box").textContent = told.box;
  byId("box-count").textContent = say("boxes", { count: told.boxes });
  document.title = `${told.verdict.word} ${told.verdict.margin} · ${told.box} · Boxaloud`;
  showVerdict(told);
  showBrief(told);
  showReply(told);
  showQuestion(told, (answer) => enter({ kind: "choose", stand: view.stand, answer }), openPart);
  showContents(told, (key, count) => enter({ kind: "recount", stand: view.stand, key, count }));
  showWorksheet(told);
  if (!told.stored.kept) trouble(told.stored.why);
  parts.refresh();
}

function openPart(name) {
  const part = byId({ help: "part-help", pick_box: "part-standard" }[name] ?? "part-help");
  part.open = true;
  part.querySelector("summary").focus();
  part.scrollIntoView({ block: "start" });
}

function trouble(sentence) {
  tell("trouble", sentence);
}

function where() {
  const pocket = engine?.where === "pocket";
  byId("net").textContent = engine ? say(pocket ? (navigator.onLine ? "pocket" : "offline") : "served") : "";
}

/** What was typed: the sign of an answer takes it, everything else is said. */
async function said(text) {
  const place = view?.question.answers.findIndex((answer) => answer.sign && answer.sign === text) ?? -1;
  const answer = view?.question.answers[place];
  if (answer?.opens) return openPart(answer.opens) ?? true;
  return enter(answer ? { kind: "choose", stand: view.stand, answer: place } : { kind: "hear", words: text });
}

async function submit(event) {
  event.preventDefault();
  const text = words.value.trim();
  if (!text || !engine) { words.focus(); return; }
  words.value = "";
  if (!(await said(text)) && !words.value) words.value = text;  // nothing typed is lost
}

function keys(event) {
  const typing = event.target instanceof HTMLInputElement && event.target.value;
  if (event.key === "Escape") { hush(); words.focus(); }
  if ((event.ctrlKey || event.metaKey) && !typing && (event.key === "z" || event.key === "y")) {
    event.preventDefault();
    enter({ kind: "press", key: event.key === "z" ? "undo" : "redo" });
  }
}

function lock(closed) {
  for (const control of document.querySelectorAll("button, input, select")) control.disabled = closed;
}

async function start() {
  looks();
  followVerdict();
  lock(true);
  byId("talk-form").addEventListener("submit", submit);
  document.addEventListener("keydown", keys);
  document.addEventListener("pointerdown", hush);
  for (const button of document.querySelectorAll("[data-press]")) {
    button.addEventListener("click", async () => (await enter({ kind: "press", key: button.dataset.press })) && bringReply());
  }
  parts = panels(ask, enter);
  try {
    engine = await engineOf(document.querySelector("meta[name=engine]").content, (told) => tell("caption", told));
  } catch (fault) {
    trouble(fault instanceof NoAnswer ? fault.message : say("stopped"));
    byId("word").textContent = "";
    return;
  }
  lock(false);
  where();
  addEventListener("online", where);
  addEventListener("offline", where);
  const deaf = engine.where === "served" && !engine.ear;
  byId("about").textContent = engine.where === "pocket" ? say("about_pocket")
    : [say("about_served"), deaf && say("no_secure_microphone")].filter(Boolean).join(" ");
  byId("share").addEventListener("click", () => share(ask, trouble));
  jobFiles(engine, show, trouble);
  microphone(engine, said, answered, trouble);
  handsFree(engine, answered, trouble);
  engine.changed(() => enter({ kind: "look" }));
  await enter({ kind: "look", first: true });
  document.documentElement.dataset.ready = "yes";
  if (matchMedia("(pointer: fine)").matches) words.focus();
}

start();
