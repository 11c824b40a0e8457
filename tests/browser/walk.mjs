// The walk in a real browser: what is typed is tried, saved, kept, and offered again, whatever dies on the way.
import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";
import { after, afterEach, before, beforeEach, test } from "node:test";

import axe from "axe-core";

import { launch, shop, walk } from "./tool.mjs";

const SPEC = "builds/sound-6x10-wedge.toml";

let browser;
let ours;
let server;
let context;

before(async () => {
  browser = await launch();
});
after(() => browser.close());
beforeEach(async () => {
  ours = await shop();
  server = await walk(ours.folder, SPEC);
  context = await browser.newContext();
});
afterEach(async () => {
  await context.close();
  await server.end("SIGKILL");
  await ours.away();
});

const onDisk = () => readFile(ours.file(SPEC), "utf8");
const edit = async (from, to) => {
  const text = await onDisk();
  assert.ok(text.includes(from), `the spec has no ${from}`);
  await writeFile(ours.file(SPEC), text.replace(from, to));
};

/** A page of the walk, with whatever its console says and whatever it asks of anybody else noted. */
const open = async (address = server.address) => {
  const page = await context.newPage();
  page.said = [];
  // That a request was answered with a refusal is no fault of the page's.
  page.on("console", (message) => message.text().startsWith("Failed to load resource") || page.said.push(message.text()));
  page.on("pageerror", (error) => page.said.push(String(error)));
  await page.goto(address);
  return page;
};
const state = (page) => page.locator("#state");
const wait = (page, words) => page.locator("#state", { hasText: words }).waitFor();
const notice = (page, name) => page.locator(`[data-notice="${name}"]`);
const field = (page, path) => page.locator(`#f-${path.replaceAll(".", "\\.")}`);
const rows = (page, list) => page.locator(`[data-key="${list}"] > .rows > .row`);
const tried = (page) => page.waitForResponse((response) => response.url().endsWith("/try"));
const save = async (page) => {
  await page.getByRole("button", { name: "Save" }).click();
};

test("what is typed is tried at once, saved into the spec with its comments kept, and there again", async () => {
  const before = await onDisk();
  const page = await open();
  await tried(page);
  assert.match(await page.locator("#verdict").textContent(), /released/i);
  // A tongue far too heavy on the scale: the verdict turns while one types.
  const ticket = rows(page, "ticket").first();
  const tongue = ticket.locator('[data-key="tongue"] input');
  await tongue.fill("440 lb");
  await page.locator("#verdict.held").waitFor();
  await page.locator(".telling", { hasText: "tongue share" }).first().waitFor();
  await ticket.locator(".note", { hasText: "tongue share as weighed" }).first().waitFor();
  await wait(page, "Not saved; kept in this browser");
  // What the rules find faulty is saved all the same: it was measured.
  await field(page, "vin").fill("1ZZBW10C3NM000109");
  await page.locator('[data-key="serial"] > .add').click();
  const serial = rows(page, "serial").last();
  await serial.locator("select").selectOption("rack");
  await serial.locator('[data-key="number"] input').fill("R-1 \"quoted\" <b>");
  await save(page);
  await wait(page, "Saved at");
  const after = await onDisk();
  const expected = before
    .replace('vin       = "1ZZBW10C3NM000108"', 'vin       = "1ZZBW10C3NM000109"')
    .replace('tongue            = "244 lb"', 'tongue            = "440 lb"');
  const added = '\n[[record.serial]]\nitem   = "rack"\nnumber = "R-1 \\"quoted\\" <b>"\n';
  assert.equal(after.replace(added, ""), expected, "only what was typed has changed");
  assert.ok(after.includes(added));
  await page.reload();
  assert.equal(await field(page, "vin").inputValue(), "1ZZBW10C3NM000109");
  assert.equal(await rows(page, "serial").last().locator('[data-key="number"] input').inputValue(), 'R-1 "quoted" <b>');
  assert.equal(await notice(page, "draft").count(), 0, "what was saved is not offered");
  assert.deepEqual(page.said, []);
});

test("what cannot be read is said beside its field, gets the focus, and nothing is written", async () => {
  const before = await onDisk();
  const page = await open();
  await tried(page);
  const torque = field(page, "lugs.torque");
  await torque.fill("105");
  await field(page, "delivered").fill("2026-02-30");
  await field(page, "vin").focus();
  const error = page.locator("#f-lugs\\.torque-error");
  await error.waitFor();
  assert.match(await error.textContent(), /unit/);
  assert.equal(await torque.getAttribute("aria-invalid"), "true");
  assert.ok((await torque.getAttribute("aria-describedby")).includes("f-lugs.torque-error"));
  await save(page);
  await wait(page, "Not saved: see what is marked");
  assert.ok(await torque.evaluate((input) => input === document.activeElement), "the first faulty field has the focus");
  assert.match(await page.locator("#f-delivered-error").textContent(), /no day/);
  assert.equal(await onDisk(), before);
  await torque.fill("105 lbf·ft");
  await field(page, "delivered").fill("2026-05-05");
  await error.waitFor({ state: "hidden" });
  await save(page);
  await wait(page, "Saved at");
  assert.ok((await onDisk()).includes('delivered = "2026-05-05"'));
});

test("two tabs in conflict: by themselves, field by field, and nothing lost", async () => {
  const one = await open();
  const two = await open();
  await tried(two);
  await field(one, "vin").fill("ONE");
  await one.locator("#f-note").fill("from one");
  await notice(two, "tab").waitFor();
  await field(two, "vin").fill("TWO");
  await field(two, "lugs.torque").fill("110 lbf·ft");
  await save(one);
  await wait(one, "Saved at");
  // The other tab hears of it, and says so before anything is saved there.
  await notice(two, "conflict").waitFor();
  await save(two);
  await wait(two, "Not saved: the file has changed");
  assert.ok((await onDisk()).includes('vin       = "ONE"'));
  await two.getByRole("button", { name: "Lay mine over theirs" }).click();
  const choose = notice(two, "choose");
  await choose.waitFor();
  assert.equal(await choose.locator("fieldset").count(), 1, "only the number differs on both sides");
  assert.match(await choose.locator("fieldset").textContent(), /typed here: TWO.*in the file: ONE/);
  await choose.getByRole("button", { name: "Take these" }).click();
  assert.equal(await choose.count(), 1, "nothing is taken before it is chosen");
  await choose.locator('input[value="mine"]').check();
  await choose.getByRole("button", { name: "Take these" }).click();
  assert.equal(await field(two, "vin").inputValue(), "TWO");
  assert.equal(await two.locator("#f-note").inputValue(), "from one", "what one side changed came by itself");
  await save(two);
  await wait(two, "Saved at");
  const text = await onDisk();
  assert.ok(text.includes('vin       = "TWO"') && text.includes('"from one"') && text.includes('torque = "110 lbf·ft"'), text);
});

test("the file changed by an editor: theirs can be loaded, and mine brought back", async () => {
  const page = await open();
  await tried(page);
  await field(page, "vin").fill("MINE");
  await edit('vin       = "1ZZBW10C3NM000108"', 'vin       = "THEIRS"');
  await save(page);
  await notice(page, "conflict").waitFor();
  await page.getByRole("button", { name: "Load theirs" }).click();
  assert.equal(await field(page, "vin").inputValue(), "THEIRS");
  await page.getByRole("button", { name: "Bring back what was typed" }).click();
  assert.equal(await field(page, "vin").inputValue(), "MINE");
  // Laid over, and theirs chosen: an entry that both changed as well.
  await edit('gross             = "1,900 lb"', 'gross             = "1,880 lb"');
  await rows(page, "ticket").first().locator('[data-key="gross"] input').fill("1,920 lb");
  await tried(page);
  await notice(page, "conflict").waitFor();
  await page.getByRole("button", { name: "Lay mine over theirs" }).click();
  await notice(page, "choose").locator("fieldset").first().locator('input[value="theirs"]').check();
  await notice(page, "choose").locator("fieldset").last().locator('input[value="theirs"]').check();
  await notice(page, "choose").getByRole("button", { name: "Take these" }).click();
  assert.equal(await field(page, "vin").inputValue(), "THEIRS");
  assert.equal(await rows(page, "ticket").first().locator('[data-key="gross"] input').inputValue(), "1,880 lb");
  await field(page, "vin").fill("MINE");
  // Broken meanwhile: said, nothing written, and what is typed stays.
  await edit("[record]", "[record");
  const broken = await onDisk();
  await save(page);
  await notice(page, "conflict").filter({ hasText: "cannot be read" }).waitFor();
  assert.equal(await onDisk(), broken);
  assert.equal(await field(page, "vin").inputValue(), "MINE");
});

test("the server is killed and started again: what was typed is offered, looked at, taken and saved", async () => {
  const page = await open();
  await tried(page);
  await field(page, "vin").fill("BEFORE THE KILL");
  await wait(page, "Not saved; kept");
  await server.end("SIGKILL");
  await page.locator("#f-note").fill("typed while nobody answered");
  await notice(page, "gone").waitFor();
  await save(page);
  await wait(page, "the server does not answer");
  assert.equal(await page.locator("#f-note").inputValue(), "typed while nobody answered");
  const old = server.address;
  server = await walk(ours.folder, SPEC);
  assert.equal(new URL(server.address).port, new URL(old).port, "a spec has a port of its own");
  assert.notEqual(server.address, old, "and each start an address of its own");
  await notice(page, "moved").waitFor({ timeout: 20000 });
  await page.close();
  const again = await open();
  const draft = notice(again, "draft");
  await draft.waitFor();
  assert.match(await draft.textContent(), /Typed on .* and not saved/);
  assert.ok(await draft.evaluate((box) => box === document.activeElement), "the offer has the focus");
  await draft.locator("summary").click();
  assert.match(await draft.locator(".differences").textContent(), /vin.*1ZZBW10C3NM000108.*BEFORE THE KILL/);
  await draft.getByRole("button", { name: "Take it" }).click();
  assert.equal(await field(again, "vin").inputValue(), "BEFORE THE KILL");
  assert.equal(await again.locator("#f-note").inputValue(), "typed while nobody answered");
  await save(again);
  await wait(again, "Saved at");
  assert.ok((await onDisk()).includes("BEFORE THE KILL"));
});

test("the browser dies and the file changes meanwhile: the draft is laid against it", async () => {
  const page = await open();
  await tried(page);
  await field(page, "vin").fill("DRAFT");
  await wait(page, "Not saved; kept");
  await page.close({ runBeforeUnload: false });
  await edit('delivered = "2026-05-04"', 'delivered = "2026-05-06"');
  const again = await open();
  await notice(again, "draft").getByRole("button", { name: "Take it" }).click();
  await notice(again, "conflict").waitFor();
  await again.getByRole("button", { name: "Lay mine over theirs" }).click();
  await notice(again, "merged").waitFor();
  assert.equal(await field(again, "delivered").inputValue(), "2026-05-06");
  assert.equal(await field(again, "vin").inputValue(), "DRAFT");
  await save(again);
  await wait(again, "Saved at");
  const text = await onDisk();
  assert.ok(text.includes('"2026-05-06"') && text.includes('"DRAFT"'));
});

test("a draft that is thrown away is not offered again, and an entry taken away can be brought back", async () => {
  const page = await open();
  await tried(page);
  const count = await rows(page, "torque").count();
  const first = await rows(page, "torque").first().locator("select").inputValue();
  await rows(page, "torque").first().getByRole("button", { name: /Take away/ }).click();
  assert.equal(await rows(page, "torque").count(), count - 1);
  await page.getByRole("button", { name: "Bring it back" }).click();
  assert.equal(await rows(page, "torque").count(), count);
  assert.equal(await rows(page, "torque").first().locator("select").inputValue(), first);
  await field(page, "vin").fill("AWAY");
  await page.reload();
  await notice(page, "draft").getByRole("button", { name: "Throw it away" }).click();
  await notice(page, "thrown").getByRole("button", { name: "Bring it back" }).click();
  await notice(page, "draft").getByRole("button", { name: "Throw it away" }).click();
  await page.reload();
  await tried(page);
  assert.equal(await notice(page, "draft").count(), 0);
  assert.equal(await field(page, "vin").inputValue(), "1ZZBW10C3NM000108");
});

test("of two drafts one is taken and the other waits", async () => {
  for (const typed of ["FIRST", "SECOND"]) {
    const page = await open();
    const offered = notice(page, "draft");
    if (typed === "SECOND") {
      // Another tab, in which the first is left where it is.
      await offered.waitFor();
      await page.evaluate(() => (document.getElementById("walk").inert = false));
    } else await tried(page);
    await field(page, "vin").fill(typed);
    await wait(page, "Not saved; kept");
    await page.close();
  }
  const page = await open();
  await notice(page, "draft").getByRole("button", { name: "Take it" }).click();
  assert.equal(await field(page, "vin").inputValue(), "SECOND", "the newest first");
  assert.equal(await notice(page, "draft").count(), 0);
  await save(page);
  await wait(page, "Saved at");
  await page.reload();
  await notice(page, "draft").filter({ hasText: "FIRST" }).waitFor({ state: "attached" });
});

test("offline: a banner, and all well again when the server answers", async () => {
  const page = await open();
  await tried(page);
  await context.setOffline(true);
  await field(page, "vin").fill("OFFLINE");
  await notice(page, "gone").waitFor();
  await wait(page, "does not answer");
  await context.setOffline(false);
  await notice(page, "back").waitFor({ timeout: 20000 });
  await save(page);
  await wait(page, "Saved at");
  assert.ok((await onDisk()).includes('"OFFLINE"'));
});

test("by the keyboard alone", async () => {
  const page = await open();
  await tried(page);
  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "To the form");
  await page.keyboard.press("Enter");
  const reach = async (match) => {
    for (let pressed = 0; pressed < 400; pressed += 1) {
      await page.keyboard.press("Tab");
      const here = await page.evaluate(() => {
        const held = document.activeElement;
        const box = held.getBoundingClientRect();
        return { id: held.id, text: held.textContent, shown: getComputedStyle(held).outlineStyle !== "none" || held.matches("input[type=radio], input[type=checkbox]"), wide: box.width > 0 };
      });
      assert.ok(here.shown && here.wide, `the focus is not to be seen on ${JSON.stringify(here)}`);
      if (match(here)) return;
    }
    assert.fail("the keyboard does not get there");
  };
  await reach((here) => here.id === "f-lugs.torque");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("108 lbf·ft");
  await reach((here) => here.text.startsWith("Add the test of an alarm"));
  await page.keyboard.press("Enter");
  assert.ok(await page.evaluate(() => document.activeElement.matches("[data-key=alarm] select")), "a new entry has the focus");
  await page.keyboard.press("Control+s");
  await wait(page, "Saved at");
  assert.ok((await onDisk()).includes('torque = "108 lbf·ft"'));
});

test("hostile strings in every field do nothing to the page", async (one) => {
  // One that came back to the shop: the rules have something to say of what was changed.
  const back = await walk(ours.folder, "builds/stuffy-5x8.toml");
  one.after(() => back.end("SIGKILL"));
  const page = await open(back.address);
  await tried(page);
  let asked = 0;
  await page.route("**/*", (route) => {
    if (!route.request().url().startsWith(back.address)) asked += 1;
    return route.continue();
  });
  page.on("dialog", () => assert.fail("a script ran"));
  const nasty = `</textarea></script><script>alert(1)</script><img src="http://evil.invalid/x" onerror="alert(2)">" onfocus="alert(3)" '\u{5d0}`;
  for (const list of ["change", "recheck", "sign_off", "photo"]) {
    await page.locator(`[data-key="${list}"] > .add`).click();
    const added = rows(page, list).last();
    for (const box of await added.locator("select").all()) await box.selectOption({ index: 1 });
  }
  const boxes = await page.locator("#walk input[type=text], #walk textarea").all();
  assert.ok(boxes.length > 100, `${boxes.length}`);
  await page.evaluate((text) => {
    for (const box of document.querySelectorAll("#walk input[type=text], #walk textarea")) box.value = text;
    document.querySelector("#walk").dispatchEvent(new Event("input", { bubbles: true }));
  }, nasty);
  // All that can be written is written, and comes back as what it is; what is no quantity and no day is cleared.
  await save(page);
  await wait(page, "Not saved: see what is marked");
  const cleared = await page.evaluate(() => {
    const wrong = [...document.querySelectorAll("#walk .field")].filter((field) => field.querySelector(":scope > .error:not([hidden])"));
    for (const field of wrong) field.querySelector("input[type=text]").value = "";
    return wrong.length;
  });
  assert.ok(cleared > 20 && cleared < boxes.length - 20, `${cleared} of ${boxes.length} could not be written`);
  await save(page);
  await wait(page, "Saved at");
  // Rules quote what was changed: as text.
  await page.locator(".telling", { hasText: "onerror=" }).first().waitFor({ state: "attached" });
  assert.equal(await page.locator(".telling img, .note img, .telling script").count(), 0);
  await page.reload();
  await tried(page);
  assert.equal(await field(page, "vin").inputValue(), nasty);
  assert.equal(await page.locator("script").count(), 1);
  assert.equal(await page.locator("img[onerror]").count(), 0);
  assert.equal(asked, 0);
  assert.deepEqual(page.said, []);
});

test("a very long name, and a record that is more than the server takes", async () => {
  const page = await open();
  await tried(page);
  await page.locator("#f-note").fill("n".repeat(300 * 1024));
  await notice(page, "large").waitFor();
  await save(page);
  await wait(page, "Not saved");
  await page.locator("#f-note").fill("n".repeat(10_000));
  await page.locator("#f-vin").focus();
  await page.locator("#f-note-error").waitFor();
  assert.match(await page.locator("#f-note-error").textContent(), /10000 characters|10,000 characters/);
});

test("axe finds nothing wrong, on a phone, on a tablet and on a desk; nothing runs off the page; what is touched is large", async () => {
  for (const [width, height] of [[390, 844], [820, 1180], [1280, 900]]) {
    const page = await open();
    await page.setViewportSize({ width, height });
    await tried(page);
    await page.locator(".telling").first().waitFor({ state: "attached" });
    await page.evaluate(axe.source.replace(/^/, "")).catch(() => {});
    // The policy lets no script be added to the page; the debugger may.
    await page.evaluate(axe.source);
    const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
    const told = found.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.target.join(" ")).slice(0, 3).join(", ")}`);
    assert.deepEqual(told, [], `${width}`);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth), true, `${width} runs off`);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll("#walk button, #walk input[type=text], #walk select, #walk textarea, .choices label, .stations a")]
        .filter((element) => element.checkVisibility())
        .filter((element) => element.getBoundingClientRect().height < 44)
        .map((element) => element.outerHTML.slice(0, 80)),
    );
    assert.deepEqual(small, [], `${width}`);
    await page.close();
  }
});
