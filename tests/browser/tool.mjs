// The built program and the browser that its pages are looked at with.
import { spawn } from "node:child_process";
import { cp, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";

import { chromium } from "playwright-core";

export const top = fileURLToPath(new URL("../..", import.meta.url));
export const pintle = process.env.PINTLE || path.join(top, "target/debug/pintle");

/** A browser that asks nobody but the page's own server. */
export const launch = () =>
  chromium.launch({
    executablePath: process.env.CHROMIUM || "/usr/bin/chromium",
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });

/** A folder of its own with a copy of the demo shop in it. */
export const shop = async () => {
  const folder = await mkdtemp(path.join(tmpdir(), "pintle-browser-"));
  await cp(path.join(top, "specs"), folder, { recursive: true });
  return { folder, file: (name) => path.join(folder, name), away: () => rm(folder, { recursive: true, force: true }) };
};

/** The walk of a spec: its address, and a way to end it. */
export const walk = async (folder, spec, args = []) => {
  const child = spawn(pintle, ["walk", spec, ...args], { cwd: folder, stdio: ["ignore", "pipe", "pipe"] });
  const address = await new Promise((found, failed) => {
    let said = "";
    const listen = (part) => {
      said += part;
      const at = said.match(/http:\/\/\S+/);
      if (at) found(at[0]);
    };
    child.stdout.on("data", listen);
    child.stderr.on("data", listen);
    child.on("exit", (code, signal) => failed(new Error(`pintle walk ended with ${code ?? signal}: ${said}`)));
  });
  const over = new Promise((done) => child.on("exit", (code, signal) => done({ code, signal })));
  const end = (signal = "SIGINT") => {
    child.kill(signal);
    return over;
  };
  return { address, end, over, child };
};
