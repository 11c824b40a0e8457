// What is typed is kept in this browser with every keystroke, under the spec and the build, until it is saved. Each tab
// keeps its own; none overwrites another's.
{
  const { form } = Walk;
  const prefix = form.element ? `pintle walk\n${form.element.dataset.spec}\n${form.element.dataset.build}\n` : "";
  const SAVED = "saved";
  const THROWN = "thrown";
  const tab = Array.from(crypto.getRandomValues(new Uint32Array(2)), (part) => part.toString(36)).join("");
  let works = true;

  const write = (name, value) => {
    try {
      if (value === null) localStorage.removeItem(prefix + name);
      else localStorage.setItem(prefix + name, JSON.stringify(value));
      works = true;
    } catch {
      works = false;
    }
    return works;
  };
  const parsed = (text) => {
    try {
      const draft = JSON.parse(text);
      return draft && typeof draft.base === "string" && draft.record && draft.begun ? draft : null;
    } catch {
      return null;
    }
  };
  // Every draft of this spec but this tab's own, the newest first.
  const others = () => {
    const found = [];
    try {
      for (let at = 0; at < localStorage.length; at += 1) {
        const key = localStorage.key(at);
        const name = key.startsWith(prefix) ? key.slice(prefix.length) : SAVED;
        const draft = [SAVED, THROWN, tab].includes(name) ? null : parsed(localStorage.getItem(key));
        if (draft) found.push({ name, ...draft });
      }
    } catch {
      works = false;
    }
    return found.sort((one, other) => (one.typed < other.typed ? 1 : -1));
  };

  Walk.draft = {
    keep: (base, begun, record) => write(tab, { typed: new Date().toISOString(), base, begun, record }),
    clear: () => write(tab, null),
    forget: (name) => write(name, null),
    throwAway: (draft) => write(THROWN, draft) && write(draft.name, null),
    others,
    works: () => works,
    tell: (hash) => write(SAVED, { hash, at: new Date().toISOString() }),
    bringBack: (draft) => write(draft.name, draft) && write(THROWN, null),
    // What other tabs do.
    listen: (typed, saved) =>
      window.addEventListener("storage", (event) => {
        if (!event.key || !event.key.startsWith(prefix) || event.newValue === null) return;
        const name = event.key.slice(prefix.length);
        if (name === SAVED) saved(JSON.parse(event.newValue));
        else if (name !== THROWN) typed();
      }),
  };
}
