// The walk: what is typed is kept, tried and saved; what goes wrong on the way is said, and nothing is lost by it.
if (Walk.form.element) {
  const { form, draft, show, merge } = Walk;
  const TYPING = 400;
  const LONGEST_WAIT = 30000;
  const element = form.element;
  let base = element.dataset.hash;
  let begun = JSON.parse(element.dataset.record);
  let last = null;
  let busy = false;
  let again = false;
  let timer = 0;
  let wait = 0;

  const isDirty = () => !form.same(form.read(), begun);
  const hour = () => new Date().toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
  const keep = () => {
    const dirty = isDirty();
    if (dirty) draft.keep(base, begun, form.read());
    else draft.clear();
    if (draft.works()) show.drop("unkept");
    else if (!show.said("unkept")) {
      show.notice("unkept", ["This browser keeps nothing for this page: what is typed is lost if it closes. Save often."]);
    }
    if (dirty) show.state(draft.works() ? "Not saved; kept in this browser" : "Not saved, and not kept");
    return dirty;
  };

  const send = async (way) => {
    const record = form.read();
    const response = await fetch(way, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ base, begun, record }),
    });
    const told = (response.headers.get("content-type") || "").startsWith("application/json") ? await response.json() : null;
    return { status: response.status, told, record };
  };

  const gone = () => {
    if (!show.said("gone")) {
      show.notice("gone", [
        "The server does not answer. Go on typing: everything is kept in this browser.",
        "Start the walk of this spec again where it ran, and open the address that it prints: what was typed is offered there.",
      ]);
    }
    show.state("Not saved; the server does not answer");
    wait = Math.min(Math.max(wait * 2, 1000), LONGEST_WAIT);
    window.setTimeout(knock, wait);
  };
  const knock = async () => {
    try {
      const response = await fetch("alive");
      if (response.status === 204) {
        wait = 0;
        show.drop("gone");
        show.notice("back", ["The server answers again."], [["Good", () => show.drop("back")]]);
        keep();
        soon();
      } else moved();
    } catch {
      gone();
    }
  };
  const moved = () => {
    show.drop("gone");
    show.notice("moved", [
      "The walk of this spec was started again, at a new address. Open the one that it printed: what was typed here is kept in this browser, and is offered there.",
    ]);
    show.state("Not saved; this address is no longer the server's");
  };

  const taken = (hash, record, lists) => {
    base = hash;
    begun = record;
    if (lists) form.saved(lists);
  };
  const laid = (hash, theirs, tree) => {
    taken(hash, theirs);
    document.getElementById("stale").hidden = false;
    form.fill(tree);
    show.drop("conflict");
    keep();
    soon();
  };
  // Mine over theirs, as they stand now.
  const over = async () => {
    const { status, told } = await ask("try");
    if (status !== 409 || !told.hash) return;
    if (told.conflicts.length === 0) {
      laid(told.hash, told.theirs, told.merged);
      show.notice("merged", ["What was changed in the file and what was typed here are together in the form. Look it over, then save."], [["Good", () => show.drop("merged")]]);
    } else {
      element.inert = true;
      merge.ask(told.merged, told.conflicts, (tree) => {
        element.inert = false;
        laid(told.hash, told.theirs, tree);
      });
      document.querySelector('[data-notice="choose"] .actions button:last-child').addEventListener("click", () => (element.inert = false));
    }
  };
  const conflict = (told) => {
    if (told.unreadable) {
      show.notice("conflict", ["The spec cannot be read as it stands on disk now. Nothing was written; what is typed is kept in this browser.", ...told.unreadable.map((problem) => [problem.message, problem.help].filter(Boolean).join(": "))], [["Try again", soonNow]]);
      return;
    }
    const mine = form.read();
    const held = show.notice(
      "conflict",
      ["The file has changed since this page took it up. Nothing was written; what is typed here is kept in this browser."],
      [
        ["Lay mine over theirs, field by field", over],
        ["Load theirs", () => {
          draft.throwAway({ name: "none", typed: new Date().toISOString(), base, begun, record: mine });
          const back = [base, begun, mine];
          laid(told.hash, told.theirs, told.theirs);
          show.notice("loaded", ["The form holds what the file holds."], [["Bring back what was typed", () => {
            [base, begun] = back;
            form.fill(mine);
            show.drop("loaded");
            keep();
            soon();
          }], ["Good", () => show.drop("loaded")]]);
        }],
        ["Keep mine here for now", () => show.drop("conflict")],
      ],
      [make("details", {}, make("summary", {}, "What differs"), merge.differences(told.theirs, mine, ["in the file", "in the form"]))],
    );
    return held;
  };
  const { make } = show;

  const shown = (told, patient) => {
    last = told;
    if (told.verdict) show.verdict(told.verdict);
    if (told.readings) show.readings(told.readings, told.gone);
    return show.faults(told.problems || [], patient);
  };
  // One request at a time; the newest state of the form is what is sent next.
  const ask = async (way) => {
    const lists = form.sent();
    try {
      const { status, told, record } = await send(way);
      show.drop("gone");
      wait = 0;
      return { status, told: told || {}, record, lists };
    } catch {
      gone();
      return { status: 0, told: {} };
    }
  };
  const refused = (status) => {
    if (status === 404 || status === 403) moved();
    else if (status === 413) show.notice("large", ["This is more than the server takes at once: shorten a note. Nothing was written."]);
    else if (status) show.notice("large", [`The server refused this (${status}). Nothing was written; what is typed is kept in this browser.`]);
  };
  const tryOut = async () => {
    if (busy) {
      again = true;
      return;
    }
    busy = true;
    const { status, told } = await ask("try");
    busy = false;
    if (status === 200 || status === 422) {
      show.drop("conflict");
      show.drop("large");
      shown(told, true);
    } else if (status === 409) {
      if (!show.said("conflict") && !show.said("choose")) conflict(told);
    } else refused(status);
    if (again) {
      again = false;
      soon();
    }
  };
  const soon = () => {
    window.clearTimeout(timer);
    timer = window.setTimeout(tryOut, TYPING);
  };
  const soonNow = () => {
    show.drop("conflict");
    tryOut();
  };
  const save = async () => {
    if (busy) {
      window.setTimeout(save, 100);
      return;
    }
    busy = true;
    const button = document.getElementById("save");
    button.setAttribute("aria-disabled", "true");
    show.state("Saving…");
    const { status, told, record, lists } = await ask("save");
    busy = false;
    button.removeAttribute("aria-disabled");
    if (status === 200) {
      const written = told.hash !== base;
      taken(told.hash, told.record, lists);
      show.drop("large");
      shown(told, true);
      if (!keep()) show.state(written ? `Saved at ${hour()}` : "Nothing to save: the file says the same");
      if (written) {
        document.getElementById("stale").hidden = false;
        draft.tell(told.hash);
      }
      if (form.same(record, form.read())) draft.clear();
      return;
    }
    keep();
    if (status === 422) {
      const first = shown(told, false);
      show.state("Not saved: see what is marked");
      if (first) show.focusOn(first);
      else document.getElementById("notices").scrollIntoView();
    } else if (status === 409) {
      show.state("Not saved: the file has changed");
      const held = conflict(told);
      if (held) held.focus();
    } else if (status) {
      show.state("Not saved");
      refused(status);
    }
  };

  const offer = () => {
    const drafts = draft.others();
    // What stands in the file by now need not be offered.
    for (const held of drafts) if (form.same(held.record, begun)) draft.forget(held.name);
    const [held] = drafts.filter((one) => !form.same(one.record, begun));
    if (!held) return;
    const closed = (act) => () => {
      show.drop("draft");
      element.inert = false;
      act();
    };
    element.inert = true;
    const look = make("details", {}, make("summary", {}, "Look at it"), merge.differences(begun, held.record, ["in the file", "typed"]));
    show.notice(
      "draft",
      [`Typed on ${new Date(held.typed).toLocaleString()} and not saved.`, "Another tab that is still open may hold it as well."],
      [
        // Others that are kept are offered when the page is opened again: one at a time goes into the form.
        ["Take it", closed(() => {
          [base, begun] = [held.base, held.begun];
          form.fill(held.record);
          keep();
          draft.forget(held.name);
          soon();
        })],
        ["Throw it away", closed(() => {
          draft.throwAway(held);
          show.notice("thrown", ["Thrown away."], [["Bring it back", () => {
            show.drop("thrown");
            draft.bringBack(held);
            offer();
          }], ["Good", () => show.drop("thrown")]]);
          offer();
        })],
      ],
      [look],
    );
    const box = document.querySelector('[data-notice="draft"]');
    box.focus();
    box.scrollIntoView({ block: "start" });
  };

  element.addEventListener("input", () => {
    keep();
    soon();
  });
  element.addEventListener("change", () => {
    keep();
    soon();
  });
  element.addEventListener("focusout", () => {
    if (last) window.setTimeout(() => show.faults(last.problems || [], true), 0);
  });
  element.addEventListener("click", (event) => {
    const pressed = event.target instanceof Element ? event.target.closest("button") : null;
    if (!pressed) return;
    if (pressed.matches(".add")) {
      const row = form.add(pressed.closest(".list"));
      form.control(row).focus();
    } else if (pressed.matches(".remove")) {
      const row = pressed.closest(".row");
      const list = form.owner(row);
      const name = form.called(row);
      const back = form.take(row);
      list.querySelector(":scope > .add").focus();
      keep();
      soon();
      show.notice("taken", [`Taken away: ${name}.`], [["Bring it back", () => {
        show.drop("taken");
        back();
        row.scrollIntoView({ block: "center" });
        form.control(row).focus();
        keep();
        soon();
      }], ["Good", () => show.drop("taken")]]);
    } else if (pressed.matches(".today")) {
      const now = new Date();
      const two = (part) => String(part).padStart(2, "0");
      form.control(pressed.parentElement).value = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
      keep();
      soon();
    }
  });
  element.addEventListener("submit", (event) => {
    event.preventDefault();
    save();
  });
  document.addEventListener("keydown", (event) => {
    if ((event.ctrlKey || event.metaKey) && event.key === "s") {
      event.preventDefault();
      if (!element.inert) save();
    }
  });
  window.addEventListener("beforeunload", (event) => {
    if (isDirty() && !draft.works()) event.preventDefault();
  });
  document.getElementById("anew").addEventListener("click", () => window.location.reload());
  draft.listen(
    () => {
      if (!show.said("tab")) show.notice("tab", ["This spec is being filled in in another tab as well. What is saved second is laid against what was saved first."], [["Good", () => show.drop("tab")]]);
    },
    (told) => {
      if (told.hash !== base) soonNow();
    },
  );

  // The form is made by this script: where one was on the page before says nothing.
  window.history.scrollRestoration = "manual";
  form.fill(begun);
  offer();
  soonNow();
}
