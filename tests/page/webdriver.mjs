// SPDX-License-Identifier: GPL-3.0-or-later
// Firefox and WebKitGTK behind one interface, the commands of WebDriver (W3C): WebKit through WebKitWebDriver, which
// takes them by HTTP, and Firefox through its own Marionette, which takes the same by a socket. Each has a profile
// of its own and, for hosts, a proxy that passes nothing on. Firefox talks to hosts on its own account, so that what
// the page asks for is what it says of its channels; WebKit's is what reaches the proxy.
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { connect, createServer } from "node:net";
import { join } from "node:path";

const pause = (ms) => new Promise((done) => setTimeout(done, ms));

// command -> its path by HTTP, its name in Marionette
const COMMANDS = {
  url: ["url", "WebDriver:Navigate"], "execute/async": ["execute/async", "WebDriver:ExecuteAsyncScript"],
  frame: ["frame", "WebDriver:SwitchToFrame"], actions: ["actions", "WebDriver:PerformActions"],
  print: ["print", "WebDriver:Print"], "window/rect": ["window/rect", "WebDriver:SetWindowRect"], timeouts: ["timeouts", "WebDriver:SetTimeouts"],
};

async function freePort() {
  const server = createServer().listen(0, "127.0.0.1");
  await new Promise((done) => server.once("listening", done));
  const { port } = server.address();
  await new Promise((done) => server.close(done));
  return port;
}

// A proxy that answers nothing and tells what it was asked for.
async function watchRequests() {
  const asked = [], server = createServer((socket) => {
    socket.on("error", () => {});
    socket.once("data", (bytes) => {
      asked.push(String(bytes).split("\r\n", 1)[0]);
      socket.end("HTTP/1.1 403 Forbidden\r\nContent-Length: 0\r\n\r\n");
    });
  }).listen(0, "127.0.0.1");
  await new Promise((done) => server.once("listening", done));
  return { asked, address: `127.0.0.1:${server.address().port}`, close: () => server.close() };
}

// Processes of the engine that runs; ended with it.
let started = [];
process.on("exit", () => started.forEach((child) => child.kill("SIGKILL")));

function start(program, words, { env = {}, stdio = "ignore" } = {}) {
  const child = spawn(program, words, { stdio, env: { ...process.env, ...env } });
  started.push(child);
  child.ended = new Promise((done) => { child.on("exit", done).on("error", done); });
  return child;
}

async function endAll() {
  const after = setTimeout(() => started.forEach((child) => child.kill("SIGKILL")), 5000);
  started.forEach((child) => child.kill());
  await Promise.all(started.map((child) => child.ended));
  clearTimeout(after);
  started = [];
}

class Http {
  async begin(port, capabilities) {
    this.base = `http://127.0.0.1:${port}`;
    for (let tries = 0; ; tries++) {
      try {
        await fetch(`${this.base}/status`);
        break;
      } catch (error) {
        if (tries > 300) throw error;
        await pause(100);
      }
    }
    const { sessionId, capabilities: had } = await this.ask("POST", "/session", { capabilities: { alwaysMatch: capabilities } });
    this.base += `/session/${sessionId}`;
    return had;
  }

  async ask(method, path, body) {
    const reply = await fetch(this.base + path, { method, headers: { "Content-Type": "application/json" }, ...(body ? { body: JSON.stringify(body) } : {}) });
    const { value } = await reply.json();
    if (!reply.ok) throw new Error(`${path}: ${value?.error}: ${value?.message}`);
    return value;
  }

  send(command, parameters) {
    return this.ask("POST", `/${COMMANDS[command][0]}`, parameters);
  }

  end() {
    return this.ask("DELETE", "");
  }
}

class Marionette {
  replies = new Map();
  count = 0;
  rest = Buffer.alloc(0);

  async begin(port, capabilities) {
    this.socket = connect(port, "127.0.0.1");
    await new Promise((done, fail) => {
      this.greeted = done;
      this.socket.on("error", fail);
      this.socket.on("data", (bytes) => this.read(bytes));
    });
    return (await this.ask("WebDriver:NewSession", capabilities)).capabilities;
  }

  // A message is its length, a colon and JSON: [1, number, error, result].
  read(bytes) {
    this.rest = Buffer.concat([this.rest, bytes]);
    for (let colon = this.rest.indexOf(":"); colon > 0; colon = this.rest.indexOf(":")) {
      const end = colon + 1 + Number(this.rest.subarray(0, colon));
      if (this.rest.length < end) return;
      const message = JSON.parse(this.rest.subarray(colon + 1, end));
      this.rest = this.rest.subarray(end);
      if (!Array.isArray(message)) this.greeted();
      else this.replies.get(message[1])(message);
    }
  }

  async ask(name, parameters) {
    const number = ++this.count, text = JSON.stringify([0, number, name, parameters]);
    const [, , error, result] = await new Promise((done) => {
      this.replies.set(number, done);
      this.socket.write(`${Buffer.byteLength(text)}:${text}`);
    });
    this.replies.delete(number);
    if (error) throw new Error(`${name}: ${error.error}: ${error.message}`);
    return result;
  }

  async send(command, parameters) {
    const result = await this.ask(COMMANDS[command][1], command === "execute/async" ? { ...parameters, sandbox: null } : parameters);
    return result?.value ?? null;
  }

  end() {
    return this.ask("Marionette:Quit", { flags: ["eForceQuit"] });
  }
}

// What each engine is, how it is started, and what it wrote down of a page that went wrong.
const FIREFOX = process.env.FIREFOX ?? "/usr/bin/firefox-esr";

const FIREFOX_PREFERENCES = { "marionette.port": 0, "app.update.auto": false, "browser.aboutwelcome.enabled": false, "browser.newtabpage.enabled": false,
  "browser.shell.checkDefaultBrowser": false, "browser.startup.page": 0, "datareporting.policy.dataSubmissionEnabled": false };

async function startFirefox(folder, proxy) {
  writeFileSync(join(folder, "user.js"), Object.entries(FIREFOX_PREFERENCES).map(([name, value]) => `user_pref("${name}", ${JSON.stringify(value)});\n`).join(""));
  start(FIREFOX, ["--headless", "--marionette", "--remote-allow-system-access", "--no-remote", "--profile", folder], { env: { HOME: folder } });
  const told = join(folder, "MarionetteActivePort");
  for (let tries = 0; !(existsSync(told) && readFileSync(told, "utf8")); tries++) {
    if (tries > 600) throw new Error("Firefox does not listen");
    await pause(100);
  }
  const driver = new Marionette(), had = await driver.begin(Number(readFileSync(told, "utf8")), { proxy });
  const inBrowser = async (script) => {
    await driver.ask("Marionette:SetContext", { value: "chrome" });
    const { value } = await driver.ask("WebDriver:ExecuteScript", { args: [], script, sandbox: null });
    await driver.ask("Marionette:SetContext", { value: "content" });
    return value;
  };
  await inBrowser(`window.asked = [];
    window.asking = { observe(channel) {
      const { triggeringPrincipal } = channel.QueryInterface(Ci.nsIHttpChannel).loadInfo;
      if (triggeringPrincipal.isContentPrincipal) window.asked.push(channel.URI.spec);
    } };
    Services.obs.addObserver(window.asking, "http-on-modify-request")`);
  let seen = 0;
  const log = async () => {
    const all = await inBrowser(`return Services.console.getMessageArray()
      .filter((one) => one instanceof Ci.nsIScriptError && !(one.flags & Ci.nsIScriptError.warningFlag) && /^file:/.test(one.sourceName)).map(String)`);
    const fresh = all.slice(seen);
    seen = all.length;
    return fresh;
  };
  return { driver, version: had.browserVersion, log, asked: () => inBrowser("return window.asked.splice(0)"),
    forceColours: (on) => inBrowser(`Services.prefs.setIntPref("browser.display.document_color_use", ${on ? 2 : 0})`) };
}

async function startWebKit(folder, proxy) {
  const screen = start("Xvfb", ["-displayfd", "3", "-screen", "0", "1600x1200x24", "-nolisten", "tcp"], { stdio: ["ignore", "ignore", "ignore", "pipe"] });
  const number = await new Promise((done, fail) => {
    screen.stdio[3].once("data", (text) => done(String(text).trim()));
    screen.once("error", fail);
  });
  const port = await freePort(), driver = new Http();
  start("WebKitWebDriver", [`--port=${port}`], { env: { DISPLAY: `:${number}`, GDK_BACKEND: "x11", HOME: folder, XDG_DATA_HOME: folder, XDG_CACHE_HOME: folder } });
  const had = await driver.begin(port, { proxy }); // WebKitWebDriver knows where its own browser is
  return { driver, version: had.browserVersion, log: null };
}

export const ENGINES = {
  firefox: { start: startFirefox, needs: [FIREFOX] },
  webkit: { start: startWebKit, needs: ["/usr/bin/WebKitWebDriver", "/usr/bin/Xvfb"] },
};

// The engine, or what it needs and has not.
export const missing = (name) => ENGINES[name].needs.filter((file) => !existsSync(file));

export async function startEngine(name, scratch) {
  const watch = await watchRequests(), proxy = { proxyType: "manual", httpProxy: watch.address, sslProxy: watch.address };
  const { driver, version, log, asked, forceColours } = await ENGINES[name].start(mkdtempSync(join(scratch, `${name}-`)), proxy);
  await driver.send("timeouts", { script: 60000, pageLoad: 60000 });
  return {
    name, version, log, asked: asked ?? (async () => watch.asked.splice(0)),
    go: (url) => driver.send("url", { url }),
    size: (width, height) => driver.send("window/rect", { x: 0, y: 0, width, height }),
    frame: (element) => driver.send("frame", { id: element }),
    forceColours,
    // The page on paper of that many centimetres, as PDF; null where the engine does not print.
    print: (width, height) => driver.send("print", { page: { width, height }, margin: { top: 1.2, bottom: 1.2, left: 1.2, right: 1.2 } })
      .then((text) => Buffer.from(text, "base64"), (error) => { if (/unknown command/.test(error.message)) return null; throw error; }),
    act: (actions) => driver.send("actions", { actions }),
    // Runs a function in the page with these arguments; its result, awaited.
    async run(body, ...args) {
      const reply = await driver.send("execute/async", { args, script: `const given = [...arguments], done = given.pop();
        Promise.resolve().then(() => (${body})(...given)).then((value) => done({ value }), (error) => done({ fault: String(error?.stack ?? error) }));` });
      if (reply?.fault !== undefined) throw new Error(reply.fault);
      return reply?.value;
    },
    async close() {
      await driver.end().catch(() => {});
      await endAll();
      watch.close();
    },
  };
}
