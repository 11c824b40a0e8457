// What the page says: notices, the verdict, the readings, and what is wrong beside the field that it is about.
{
  const { form } = Walk;
  const notices = document.getElementById("notices");
  const make = (name, attributes, ...children) => {
    const element = document.createElement(name);
    for (const [key, value] of Object.entries(attributes || {})) element.setAttribute(key, value);
    element.append(...children);
    return element;
  };
  const button = (words, act) => {
    const element = make("button", { type: "button" }, words);
    element.addEventListener("click", act);
    return element;
  };

  // One notice of a name at a time. Actions are pairs of words and what they do.
  const notice = (name, words, actions = [], body = []) => {
    drop(name);
    const element = make("section", { class: "notice", "data-notice": name, role: name === "gone" ? "status" : "alert", tabindex: "-1" });
    element.append(...words.map((line) => make("p", {}, line)), ...body);
    if (actions.length) element.append(make("p", { class: "actions" }, ...actions.map(([text, act]) => button(text, act))));
    notices.append(element);
    return element;
  };
  const drop = (name) => {
    const held = notices.querySelector(`[data-notice="${name}"]`);
    if (held) held.remove();
  };
  const said = (name) => Boolean(notices.querySelector(`[data-notice="${name}"]`));

  const own = (field, sort) => field.querySelector(`:scope > .${sort}`);
  const inputs = (field) => [...field.querySelectorAll("input, select, textarea")];
  // Faults beside their fields. The field that one is typing in is left in peace until one leaves it.
  const faults = (problems, patient) => {
    const wrong = new Map();
    const loose = [];
    for (const problem of problems) {
      const field = problem.path ? form.at(problem.path) : null;
      const box = field ? own(field, "error") : null;
      if (!box) loose.push(problem);
      else if (!wrong.has(field)) wrong.set(field, problem);
    }
    let first = null;
    for (const field of form.element.querySelectorAll("[data-key], .row")) {
      const box = own(field, "error");
      if (!box) continue;
      const problem = wrong.get(field);
      const busy = patient && box.hidden && field.contains(document.activeElement) && field.matches(".field");
      if (problem && !busy) {
        box.textContent = [problem.message, problem.help].filter(Boolean).join(": ");
        box.hidden = false;
        first = first || field;
      } else {
        box.hidden = true;
        box.textContent = "";
      }
      if (field.matches(".field")) {
        for (const input of inputs(field)) {
          if (problem && !busy) input.setAttribute("aria-invalid", "true");
          else input.removeAttribute("aria-invalid");
        }
      }
    }
    if (loose.length) notice("loose", loose.map((problem) => [problem.message, problem.help].filter(Boolean).join(": ")));
    else drop("loose");
    return first;
  };
  const focusOn = (field) => {
    const input = form.control(field) || field.querySelector(".add");
    field.scrollIntoView({ block: "center" });
    if (input) input.focus();
  };

  const verdict = (held) => {
    const line = document.getElementById("verdict");
    const words = [held.sign, held.word, held.by].join(" ");
    if (line.dataset.words === words) return;
    line.dataset.words = words;
    document.getElementById("short").textContent = `${held.sign} ${held.word} · `;
    line.className = `verdict ${held.class}`;
    line.replaceChildren(make("span", { class: "sign", "aria-hidden": "true" }, held.sign), make("strong", {}, held.word), " ", make("span", { class: "by" }, held.by));
  };
  const entry = (reading) => {
    const item = make("li", { class: reading.finding ? `telling ${reading.grade}` : "telling" });
    item.append(make("p", {}, make("span", { class: "grade" }, reading.words), ": ", make("strong", {}, reading.title)), make("p", {}, reading.says));
    if (reading.was) item.append(make("p", { class: "soft" }, `In the file: ${reading.was}`));
    if (reading.finding && reading.remedy) item.append(make("p", {}, `To put it right: ${reading.remedy}`));
    const field = reading.path ? form.at(reading.path) : null;
    if (field) item.append(button(`to ${form.called(field)}`, () => focusOn(field)));
    return item;
  };
  const group = (heading, readings, open) => {
    const details = make("details", open ? { open: "" } : {});
    details.append(make("summary", {}, `${heading}: ${readings.length}`), make("ul", { class: "tellings" }, ...readings.map(entry)));
    return details;
  };
  let folded = new Map();
  const readings = (all, gone) => {
    const place = document.getElementById("tellings");
    for (const details of place.querySelectorAll("details")) {
      folded.set(details.querySelector("summary").textContent.split(":")[0], details.open);
    }
    const order = ["critical", "major", "minor", "advice"];
    const sorted = [...all].sort((one, other) => order.indexOf(one.grade) - order.indexOf(other.grade));
    const groups = [
      ["Changed by what was typed", sorted.filter((reading) => reading.changed), true],
      ["Open on the record", sorted.filter((reading) => reading.finding && !reading.accepted && !reading.changed), true],
      ["Passed, accepted or not applicable", sorted.filter((reading) => (!reading.finding || reading.accepted) && !reading.changed), false],
    ];
    place.replaceChildren(
      ...groups
        .filter(([, held]) => held.length)
        .map(([heading, held, open]) => group(heading, held, folded.has(heading) ? folded.get(heading) : open)),
      ...(gone ? [make("p", { class: "soft" }, `Readings of the file that are not taken with what stands in the form: ${gone}`)] : []),
    );
    // What the rules find on an entry or a field stands beside it too.
    const beside = new Map();
    for (const reading of sorted.filter((held) => held.finding && !held.accepted && held.path)) {
      const field = form.at(reading.path);
      if (field && own(field, "note")) beside.set(field, [...(beside.get(field) || []), `${reading.words}: ${reading.says}`]);
    }
    for (const field of form.element.querySelectorAll("[data-key], .row")) {
      const note = own(field, "note");
      if (!note) continue;
      note.textContent = (beside.get(field) || []).join(" ");
      note.hidden = !beside.has(field);
    }
  };

  Walk.show = { make, button, notice, drop, said, faults, focusOn, verdict, readings, state: (words) => (document.getElementById("state").textContent = words) };
}
