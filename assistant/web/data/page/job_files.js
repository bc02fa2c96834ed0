// A job as a file, out of the phone and into it: the same file that a laptop keeps.

import { byId, element } from "./elements.js";
import { say } from "./words.js";

export function jobFiles(engine, show, tell) {
  if (!engine.jobFile) return;
  byId("job-files").hidden = false;
  byId("export").addEventListener("click", async () => {
    try {
      const { name, bytes } = await engine.jobFile();
      const address = URL.createObjectURL(new Blob([bytes], { type: "application/octet-stream" }));
      const link = element("a", { href: address, download: name });
      document.body.append(link);
      link.click();
      link.remove();
      setTimeout(() => URL.revokeObjectURL(address), 60_000);
      tell(say("exported", { name }));
    } catch (fault) { tell(fault.message); }
  });
  byId("import").addEventListener("change", async (event) => {
    const file = event.target.files[0];
    event.target.value = "";
    if (!file) return;
    try {
      const told = await engine.takeIn(file);
      show(told);
      tell(told.stored.kept ? say("imported", { name: told.job }) : told.stored.why);
    } catch (fault) { tell(fault.message); }
  });
}
