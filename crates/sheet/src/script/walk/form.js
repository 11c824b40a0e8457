// The form as a tree: what stands in it by the keys of the record, and a tree put into it.
"use strict";
const Walk = {};
{
  const form = document.getElementById("walk");
  const WAS = "@was";
  let rowsMade = 0;

  const owner = (element) => element.parentElement.closest("[data-key], .row, #walk");
  const fields = (container) =>
    [...container.querySelectorAll("[data-key]")].filter((element) => owner(element) === container);
  const rows = (list) => [...list.querySelectorAll(":scope > .rows > .row")];
  const control = (field) => field.querySelector("input, select, textarea");
  const ticked = (field) => [...field.querySelectorAll("input:checked")].map((input) => input.value).filter(Boolean);

  // What stands in a field; nothing where nothing does.
  const value = (field) => {
    switch (field.dataset.kind) {
      case "table": {
        const tree = read(field);
        return Object.keys(tree).length ? tree : undefined;
      }
      case "rows": {
        const all = filled(field).map((row) => {
          const tree = read(row);
          return row.dataset.was === undefined ? tree : { ...tree, [WAS]: Number(row.dataset.was) };
        });
        return all.length ? all : undefined;
      }
      case "words": {
        const words = ticked(field);
        return words.length ? words : undefined;
      }
      case "flag":
        return ticked(field)[0];
      case "lines": {
        const lines = control(field).value.split("\n").map((line) => line.trim()).filter(Boolean);
        return lines.length ? lines : undefined;
      }
      default:
        return control(field).value.trim() || undefined;
    }
  };
  const read = (container) => {
    const tree = {};
    for (const field of fields(container)) {
      const held = value(field);
      if (held !== undefined) tree[field.dataset.key] = held;
    }
    return tree;
  };
  // Entries in which something was typed. Others are not there for anybody else.
  const filled = (list) => rows(list).filter((row) => Object.keys(read(row)).length > 0);

  const number = (list) => {
    rows(list).forEach((row, at) => {
      row.querySelector(":scope > .row-head .row-number").textContent = String(at + 1);
      const name = row.querySelector(":scope > .row-head").textContent;
      row.setAttribute("aria-label", name);
      row.querySelector(":scope > .remove").setAttribute("aria-label", `Take away: ${name}`);
    });
  };
  const add = (list) => {
    const made = list.querySelector(":scope > template").content.cloneNode(true);
    const row = made.querySelector(".row");
    rowsMade += 1;
    for (const element of row.querySelectorAll("[id], [for], [name], [aria-describedby]")) {
      for (const name of ["id", "for", "name", "aria-describedby"]) {
        const held = element.getAttribute(name);
        if (held) element.setAttribute(name, held.replaceAll("#", `n${rowsMade}`));
      }
    }
    list.querySelector(":scope > .rows").append(made);
    number(list);
    return row;
  };
  // Takes an entry away, and gives what puts it back.
  const take = (row) => {
    const list = owner(row);
    const next = row.nextElementSibling;
    row.remove();
    number(list);
    return () => {
      const place = list.querySelector(":scope > .rows");
      place.insertBefore(row, next && next.parentElement === place ? next : null);
      number(list);
    };
  };

  const put = (field, held) => {
    switch (field.dataset.kind) {
      case "table":
        fill(field, held || {});
        break;
      case "rows":
        for (const row of rows(field)) row.remove();
        for (const tree of held || []) {
          const row = add(field);
          fill(row, tree);
          if (tree[WAS] !== undefined) row.dataset.was = String(tree[WAS]);
        }
        break;
      case "words":
      case "flag":
        for (const input of field.querySelectorAll("input")) {
          input.checked = field.dataset.kind === "flag" ? input.value === (held || "") : (held || []).includes(input.value);
        }
        break;
      case "lines":
        control(field).value = (held || []).join("\n");
        break;
      default: {
        const box = control(field);
        if (held && box instanceof HTMLSelectElement && ![...box.options].some((option) => option.value === held)) {
          box.append(new Option(`${held} (the spec has none)`, held));
        }
        box.value = held || "";
      }
    }
  };
  const fill = (container, tree) => {
    for (const field of fields(container)) put(field, tree[field.dataset.key]);
  };

  // The element at a path such as `ticket.0.gross`: entries are counted as they were sent.
  const at = (path) => {
    let here = form;
    for (const step of path.split(".").filter(Boolean)) {
      const next = here.dataset.kind === "rows" ? filled(here)[Number(step)] : fields(here).find((field) => field.dataset.key === step);
      if (!next) return here === form ? null : here;
      here = next;
    }
    return here === form ? null : here;
  };
  const nameOf = (element) => {
    if (element.classList.contains("row")) return element.getAttribute("aria-label");
    const label = element.querySelector(":scope > label .name, :scope > legend");
    return label ? label.firstChild.textContent.trim() : element.dataset.key;
  };
  // A field's name with those of what it stands in.
  const called = (element) => {
    const names = [];
    for (let here = element; here && here !== form; here = owner(here)) {
      if (here.dataset.kind !== "rows" || here === element) names.unshift(nameOf(here));
    }
    return names.join(", ");
  };

  // Two trees that say the same, whichever entries of the file they were.
  const plain = (tree) =>
    JSON.stringify(tree, (key, held) =>
      held && typeof held === "object" && !Array.isArray(held)
        ? Object.fromEntries(Object.entries(held).filter(([name]) => name !== WAS).sort(([a], [b]) => (a < b ? -1 : 1)))
        : held,
    );
  const same = (one, other) => plain(one) === plain(other);

  // Which entries are sent, so that the answer can be set against them later.
  const sent = () => [...form.querySelectorAll(".list")].map((list) => [list, filled(list)]);
  const saved = (lists) => {
    for (const [list, entries] of lists) {
      for (const row of rows(list)) delete row.dataset.was;
      entries.forEach((row, at) => {
        row.dataset.was = String(at);
      });
    }
  };

  Walk.form = { element: form, WAS, read: () => read(form), fill: (tree) => fill(form, tree), at, add, take, called, same, plain, sent, saved, control, owner };
}
