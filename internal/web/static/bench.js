// The bench, live: what is typed goes to the core in the page, and its sheet, the very
// one that the server writes, takes the place of the one that stands there. Without this
// script, or while the core is on its way, the form is handed in as any other.
"use strict";
(() => {
  const said = document.currentScript.dataset;
  const form = document.getElementById("bench");
  const sheet = document.getElementById("sheet");
  const none = document.getElementById("no-sheet");
  const name = (field) => (form.querySelector(`label[for="${CSS.escape(field)}"]`) || {}).textContent || field;
  const sentence = (f) => f.field ? said.fault.replace("FIELD", () => name(f.field)).replace("SAYS", () => f.what) : f.what;
  const fields = () => Array.from(form.elements).filter((e) => e.name);

  // clear takes away what was wrong before.
  function clear() {
    form.querySelectorAll(".faults, .fault").forEach((e) => e.remove());
    form.querySelectorAll(".bad").forEach((e) => e.classList.remove("bad"));
    for (const e of fields()) {
      e.removeAttribute("aria-invalid");
      const about = (e.getAttribute("aria-describedby") || "").split(" ").filter((id) => id && !id.endsWith("-fault"));
      if (about.length) e.setAttribute("aria-describedby", about.join(" ")); else e.removeAttribute("aria-describedby");
    }
  }

  // tell puts a fault beside its field, where something was typed into it.
  function tell(f) {
    const e = f.field && form.elements[f.field];
    if (!e || !e.value.trim() || document.getElementById(f.field + "-fault")) return;
    const p = document.createElement("p");
    p.className = "fault";
    p.id = f.field + "-fault";
    p.textContent = sentence(f);
    e.after(p);
    e.closest(".field").classList.add("bad");
    e.setAttribute("aria-invalid", "true");
    e.setAttribute("aria-describedby", ((e.getAttribute("aria-describedby") || "") + " " + p.id).trim());
  }

  function work() {
    const typed = {};
    for (const e of fields()) if (e.value.trim()) typed[e.name] = e.value;
    const answer = JSON.parse(globalThis.kernbookSheet(JSON.stringify({ calculator: form.dataset.calculator, typed })));
    clear();
    const open = Array.from(sheet.querySelectorAll("details"), (d) => d.open);
    if (answer.sheet) {
      sheet.innerHTML = answer.sheet;
      sheet.querySelectorAll("details").forEach((d, i) => { d.open = Boolean(open[i]); });
    } else {
      const part = none.content.cloneNode(true);
      for (const f of answer.faults) {
        const li = document.createElement("li");
        li.textContent = sentence(f);
        part.querySelector("ul").append(li);
        tell(f);
      }
      sheet.replaceChildren(part);
    }
  }

  let waiting;
  globalThis.kernbookReady = () => {
    form.addEventListener("input", () => { clearTimeout(waiting); waiting = setTimeout(work, 120); });
    document.getElementById("live").textContent = said.live;
  };
  const go = new Go();
  WebAssembly.instantiateStreaming(fetch(said.core), go.importObject)
    .then((core) => go.run(core.instance))
    .catch(() => {}); // the server works it out then
})();
