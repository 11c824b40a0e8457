// Narrows the list of builds down. Without it every build is shown.
"use strict";
(() => {
  const form = document.querySelector("form.filters");
  const rows = [...document.querySelectorAll("tr[data-verdict]")];
  const narrow = () => {
    const words = form.elements.words.value.toLowerCase().split(/\s+/).filter(Boolean);
    const fits = (row) =>
      (!form.elements.verdict.value || row.dataset.verdict === form.elements.verdict.value) &&
      (!form.elements.stage.value || row.dataset.stage === form.elements.stage.value) &&
      words.every((word) => row.textContent.toLowerCase().includes(word));
    let shown = 0;
    for (const row of rows) {
      row.hidden = !fits(row);
      shown += row.hidden ? 0 : 1;
    }
    form.elements.shown.value = `${shown} of ${rows.length} shown`;
  };
  form.addEventListener("input", narrow);
  form.addEventListener("submit", (event) => event.preventDefault());
  form.hidden = false;
  narrow();
})();
