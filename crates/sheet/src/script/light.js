// A finding and its parts light up together: under the pointer, when focused, when tapped. Keys: Tab goes from finding to
// finding and from part to part; Enter on a part goes to its first finding; Escape puts the light out.
"use strict";
(() => {
  const listed = (element, name) => (element.dataset[name] || "").split(" ").filter(Boolean);
  const findings = [...document.querySelectorAll("[data-parts]")];
  const parts = [...document.querySelectorAll("[data-part]")];
  let held = null;
  const light = (wanted) => {
    for (const element of findings) {
      element.classList.toggle("lit", listed(element, "parts").some((part) => wanted.has(part)));
    }
    for (const element of parts) {
      element.classList.toggle("lit", wanted.has(element.dataset.part));
    }
  };
  const of = (element) =>
    new Set(element.dataset.part === undefined ? listed(element, "parts") : [element.dataset.part]);
  const shown = (target) => (target instanceof Element ? target.closest("[data-parts], [data-part]") : null);
  const back = () => light(held ? of(held) : new Set());
  document.addEventListener("pointerover", (event) => {
    const element = shown(event.target);
    if (element) light(of(element));
    else back();
  });
  document.addEventListener("focusin", (event) => {
    const element = shown(event.target);
    held = element;
    back();
  });
  document.addEventListener("click", (event) => {
    held = shown(event.target);
    back();
  });
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape") {
      held = null;
      light(new Set());
      return;
    }
    const element = event.target instanceof Element ? event.target.closest("[data-part]") : null;
    if (event.key === "Enter" && element) {
      const about = (finding) => finding.tabIndex === 0 && listed(finding, "parts").includes(element.dataset.part);
      const first = findings.find(about);
      if (first) {
        first.scrollIntoView({ block: "center" });
        first.focus();
      }
    }
  });
})();
