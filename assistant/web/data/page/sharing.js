// The worksheet as text, handed to the phone's own sheet of ways to send, or copied.

import { say } from "./words.js";

export async function share(ask, tell) {
  const told = await ask({ kind: "share" });
  if (!told) return;
  if (navigator.share) {
    try { await navigator.share({ title: told.title, text: told.text }); return; } catch (fault) {
      if (fault.name === "AbortError") return;
    }
  }
  try { await navigator.clipboard.writeText(told.text); tell(say("shared")); } catch { tell(say("not_shared")); }
}
