// Two versions side by side: what was typed against what stands in the file, and the choice where both changed.
{
  const { form, show } = Walk;
  const { make } = show;

  const told = (held) => {
    if (held === null || held === undefined) return "not stated";
    if (Array.isArray(held)) return held.map(told).join("; ");
    if (typeof held === "object") {
      return Object.entries(held)
        .filter(([key]) => key !== form.WAS)
        .map(([key, value]) => `${key.replaceAll("_", " ")}: ${told(value)}`)
        .join(", ");
    }
    return String(held);
  };
  const words = (path) =>
    path
      .split(".")
      .map((step) => (/^\d+$/.test(step) ? String(Number(step) + 1) : step.replaceAll("_", " ")))
      .join(" ");

  // A tree as lines of path and value.
  const flat = (tree, path = "", lines = new Map()) => {
    for (const [key, held] of Object.entries(tree)) {
      if (key === form.WAS) continue;
      const here = path ? `${path}.${key}` : key;
      if (held && typeof held === "object" && !(Array.isArray(held) && typeof held[0] !== "object")) flat(held, here, lines);
      else lines.set(here, told(held));
    }
    return lines;
  };
  // What differs between two trees, as a table.
  const differences = (one, other, headings) => {
    const [left, right] = [flat(one), flat(other)];
    const paths = [...new Set([...left.keys(), ...right.keys()])].filter((path) => left.get(path) !== right.get(path));
    const cell = (text) => make("td", {}, text === undefined ? "not stated" : text);
    return make(
      "table",
      { class: "differences" },
      make("thead", {}, make("tr", {}, ...["field", ...headings].map((text) => make("th", { scope: "col" }, text)))),
      make("tbody", {}, ...paths.map((path) => make("tr", {}, make("th", { scope: "row" }, words(path)), cell(left.get(path)), cell(right.get(path))))),
    );
  };

  const steps = (path) => path.split(".").map((step) => (/^\d+$/.test(step) ? Number(step) : step));
  // A tree with choices made in it: entries that were taken away go last, from the end, so that the others keep their places.
  const chosen = (tree, choices) => {
    const made = structuredClone(tree);
    const gone = [];
    for (const [path, held] of choices) {
      const way = steps(path);
      const last = way.pop();
      const place = way.reduce((here, step) => here && here[step], made);
      if (!place) continue;
      if (typeof last === "number") {
        if (held === null) gone.push([place, last]);
        else place[last] = { ...held, [form.WAS]: place[last][form.WAS] };
      } else if (held === null) delete place[last];
      else place[last] = held;
    }
    for (const [list, at] of gone.sort(([, one], [, other]) => other - one)) list.splice(at, 1);
    return made;
  };

  // Asks which of two values is meant, conflict by conflict; `done` gets the tree with the answers in it.
  const ask = (merged, conflicts, done) => {
    const picks = new Map();
    const take = show.button("Take these", () => {
      const open = conflicts.find((conflict) => !picks.has(conflict.path));
      if (open) {
        body.querySelectorAll("fieldset")[conflicts.indexOf(open)].querySelector("input").focus();
        return;
      }
      show.drop("choose");
      done(chosen(merged, conflicts.map((conflict) => [conflict.path, picks.get(conflict.path)])));
    });
    const body = make(
      "div",
      { class: "conflicts" },
      ...conflicts.map((conflict, at) => {
        const choice = (side, heading) => {
          const input = make("input", { type: "radio", name: `conflict-${at}`, value: side });
          input.addEventListener("change", () => picks.set(conflict.path, conflict[side]));
          return make("label", {}, input, " ", make("strong", {}, heading), ` ${told(conflict[side])}`);
        };
        return make(
          "fieldset",
          {},
          make("legend", {}, words(conflict.path)),
          make("p", { class: "soft" }, `Both began from: ${told(conflict.begun)}`),
          make("div", { class: "choices" }, choice("mine", "typed here:"), choice("theirs", "in the file:")),
        );
      }),
    );
    const notice = show.notice("choose", ["These were changed here and in the file. Choose one of each."], [], [body, make("p", { class: "actions" }, take, " ", show.button("Not now", () => show.drop("choose")))]);
    notice.scrollIntoView({ block: "start" });
    notice.focus();
  };

  Walk.merge = { differences, ask, chosen };
}
