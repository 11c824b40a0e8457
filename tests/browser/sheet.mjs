// The sheet in a real browser: from a file, without a network, by keyboard, on a phone, on paper, and with hostile words.
import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { readFile, writeFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { promisify } from "node:util";

import axe from "axe-core";

import { launch, pintle, shop } from "./tool.mjs";

const run = promisify(execFile);
const BUILDS = ["sound-6x12-round", "sound-6x10-wedge", "overload-6x12", "stuffy-5x8", "quote-6x12", "no-brakes-7x14"];
const HELD = "slid-axle-5x8";

let browser;
let ours;

before(async () => {
  browser = await launch();
  ours = await shop();
  // A demo shop has builds that are held: 0 all the same, since every sheet is made.
  await run(pintle, ["sheet", "--all", "site"], { cwd: ours.folder });
});
after(async () => {
  await browser.close();
  await ours.away();
});

/** A page of the site from disk, with what its console says and what it asks of anybody noted. */
const open = async (name, options = {}) => {
  const context = await browser.newContext({ viewport: { width: 1200, height: 900 }, offline: true, ...options });
  const page = await context.newPage();
  page.said = [];
  page.asked = [];
  page.on("console", (message) => page.said.push(message.text()));
  page.on("pageerror", (error) => page.said.push(String(error)));
  page.on("dialog", (dialog) => {
    page.said.push(`a dialog: ${dialog.message()}`);
    dialog.dismiss();
  });
  page.on("request", (request) => page.asked.push(request.url()));
  await page.goto(pathToFileURL(ours.file(`site/${name}.html`)).href);
  return page;
};
/** Nothing was said, and nothing asked for but the page itself. */
const quiet = (page) => {
  assert.deepEqual(page.said, []);
  assert.equal(page.asked.length, 1, page.asked.join("\n"));
};

for (const build of [...BUILDS, HELD, "index"]) {
  test(`${build} has no fault that axe finds, and reaches nothing`, async () => {
    const page = await open(build);
    quiet(page);
    // The policy lets no foreign script in; this one is put in by the browser's own hand.
    await page.evaluate(() => {
      for (const folded of document.querySelectorAll("details")) folded.open = true;
    });
    await page.context().newCDPSession(page).then((session) => session.send("Page.setBypassCSP", { enabled: true }));
    await page.evaluate(axe.source);
    const found = await page.evaluate(() =>
      window.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }),
    );
    const told = found.violations.map((fault) => `${fault.id}: ${fault.nodes.length} × ${fault.nodes[0].html.slice(0, 200)}`);
    assert.deepEqual(told, []);
    assert.ok(found.passes.length > 10);
    await page.context().close();
  });
}

test("a finding and its parts light up together, under the pointer and by keyboard alone", async () => {
  const page = await open(HELD);
  const finding = page.locator("article.finding[data-parts]").first();
  const parts = (await finding.getAttribute("data-parts")).split(" ");
  const shapes = page.locator(`svg [data-part="${parts[0]}"]`);
  assert.ok((await shapes.count()) > 0, "the part is drawn");
  const lit = () => page.locator(`svg [data-part="${parts[0]}"].lit`).count();
  assert.equal(await lit(), 0);
  await finding.hover();
  assert.equal(await lit(), await shapes.count());
  await page.mouse.move(0, 0);
  await page.locator("h1").hover();
  assert.equal(await lit(), 0);
  // The other way round, and by keys: Tab to the shape, Enter to its first finding, Escape puts it out.
  await shapes.first().focus();
  assert.ok(await finding.evaluate((element) => element.classList.contains("lit")));
  await page.keyboard.press("Enter");
  const focused = await page.evaluate(() => document.activeElement.id);
  const about = await page.locator(`#${focused}`).getAttribute("data-parts");
  assert.ok(about.split(" ").includes(parts[0]), `${focused} is about ${about}`);
  await page.keyboard.press("Escape");
  assert.equal(await page.locator(".lit").count(), 0);
  quiet(page);
  await page.context().close();
});

test("Tab alone comes to every finding and every drawn part, and the focus is seen", async () => {
  const page = await open(HELD);
  const wanted = await page.evaluate(() => document.querySelectorAll("[data-parts], svg [data-part]").length);
  const met = new Set();
  for (let presses = 0; presses < 1500; presses += 1) {
    await page.keyboard.press("Tab");
    const at = await page.evaluate(() => {
      const element = document.activeElement;
      if (element === document.body) return null;
      const all = [...document.querySelectorAll("[data-parts], svg [data-part]")];
      const style = getComputedStyle(element);
      const seen = style.outlineStyle !== "none" || element.classList.contains("lit");
      return { index: all.indexOf(element), seen };
    });
    if (at === null) break;
    assert.ok(at.seen, "the focus cannot be seen");
    if (at.index >= 0) met.add(at.index);
  }
  const focusable = await page.evaluate(
    () => [...document.querySelectorAll("[data-parts], svg [data-part]")].filter((element) => element.tabIndex === 0).length,
  );
  assert.equal(met.size, focusable);
  assert.ok(focusable > 20 && focusable <= wanted, `${focusable} of ${wanted}`);
  await page.context().close();
});

test("a phone shows it all without sideways scrolling of the page", async () => {
  for (const build of [...BUILDS, HELD, "index"]) {
    const page = await open(build, { viewport: { width: 360, height: 780 }, isMobile: true, hasTouch: true });
    // A page that is too wide widens the window of a phone: it is held against the screen itself.
    const width = await page.evaluate(() => Math.max(document.documentElement.scrollWidth, window.innerWidth));
    assert.ok(width <= 361, `${build}: ${width} px on a screen of 360`);
    await page.context().close();
  }
});

test("a tap lights the parts of a finding", async () => {
  const page = await open(HELD, { viewport: { width: 390, height: 800 }, isMobile: true, hasTouch: true });
  await page.locator("article.finding[data-parts]").first().tap();
  assert.ok((await page.locator("svg [data-part].lit").count()) > 0);
  await page.context().close();
});

/** Pages of a PDF, counted as its page objects. */
const pages = (pdf) => (pdf.toString("latin1").match(/\/Type\s*\/Page[^s]/g) || []).length;

test("it prints on Letter and A4, with no row cut in two and what is folded away unfolded", async () => {
  for (const build of ["sound-6x12-round", HELD]) {
    const page = await open(build);
    await page.emulateMedia({ media: "print" });
    for (const format of ["Letter", "A4"]) {
      const count = pages(await page.pdf({ format, preferCSSPageSize: false }));
      assert.ok(count >= 8 && count <= 45, `${build} on ${format}: ${count} pages`);
    }
    const cut = await page.evaluate(() =>
      [...document.querySelectorAll("tr, figure")].filter((element) => getComputedStyle(element).breakInside !== "avoid").length,
    );
    assert.equal(cut, 0, "rows and figures are kept whole");
    const folded = await page.evaluate(() =>
      [...document.querySelectorAll("details.long")].filter((element) => element.lastElementChild.getClientRects().length === 0).length,
    );
    assert.equal(folded, 0);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(wide <= 1);
    await page.context().close();
  }
});

test("it reads without its script", async () => {
  const page = await open(HELD, { javaScriptEnabled: false });
  assert.ok((await page.locator("article.finding").count()) > 5);
  assert.ok(await page.locator(".verdict").isVisible());
  const index = await open("index", { javaScriptEnabled: false });
  assert.equal(await index.locator("tr[data-verdict]:visible").count(), 12);
  await page.context().close();
  await index.context().close();
});

test("the index is narrowed down by verdict, stage and words", async () => {
  const page = await open("index");
  const shown = () => page.locator("tr[data-verdict]:visible").count();
  assert.equal(await shown(), 12);
  await page.getByLabel("verdict").selectOption("released");
  assert.equal(await shown(), 4);
  await page.getByLabel("stage").selectOption("delivery");
  assert.equal(await shown(), 1);
  await page.getByLabel("words").fill("om-101");
  assert.equal(await shown(), 0);
  assert.match(await page.locator("output").textContent(), /0 of 12/);
  await page.context().close();
});

test("hostile words do nothing", async () => {
  const evil = "</style></script><script>alert(1)</script><img src=x onerror=alert(1)><svg onload=alert(1)>\\\" onmouseover=\\\"alert(1) '";
  const spec = await readFile(ours.file(`builds/${HELD}.toml`), "utf8");
  const hostile = spec
    .replace(/^(\s*(?:number|title|note|by|who|instrument)\s*=\s*)"[^"\n]*"/gm, `$1"${evil}"`)
    .replaceAll('"galley"', `"${evil}${"y".repeat(1500)}"`);
  assert.notEqual(hostile, spec);
  await writeFile(ours.file("builds/hostile.toml"), hostile);
  await run(pintle, ["sheet", "builds/hostile.toml", "-o", "site/hostile.html"], { cwd: ours.folder });
  const page = await open("hostile");
  await page.mouse.wheel(0, 100000);
  for (const part of await page.locator("svg [data-part]").all()) await part.hover({ force: true, timeout: 2000 }).catch(() => {});
  quiet(page);
  assert.equal(await page.locator("img").count(), 0);
  assert.equal(await page.locator("script").count(), 1);
  assert.ok((await page.locator("h1").textContent()).includes("<script>alert(1)</script>"));
  await page.context().close();
});

test("the tool prints a PDF by this browser", async () => {
  const environment = { ...process.env, PINTLE_CHROMIUM: process.env.CHROMIUM || "/usr/bin/chromium" };
  await run(pintle, ["sheet", "builds/sound-5x8-round.toml", "--pdf"], { cwd: ours.folder, env: environment });
  const pdf = await readFile(ours.file("sound-5x8-round.pdf"));
  assert.ok(pdf.subarray(0, 5).toString() === "%PDF-" && pages(pdf) >= 8, `${pages(pdf)} pages`);
});
