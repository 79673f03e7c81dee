// SPDX-License-Identifier: GPL-3.0-or-later
// The engine: questions in, answers out. Memory is viewed anew after every call, since it may grow.
const TABLES = ["instruments.csv", "strings.csv", "tunings.csv", "players.csv", "families.csv",
  "materials.csv", "wire_strength.csv"];

class Engine {
  constructor(bytes) {
    this.bytes = bytes;
    this.decoder = new TextDecoder();
    this.encoder = new TextEncoder();
    this.files = new Map(); // the user's own: place among TABLES -> Uint8Array
  }

  // A fresh instance; what was open is lost.
  async start() {
    const wasi = makeWasi();
    this.module ??= await WebAssembly.compile(this.bytes);
    const instance = await WebAssembly.instantiate(this.module, wasi.imports);
    wasi.start(instance);
    this.calls = instance.exports;
    this.page = this.calls.page_new();
    if (!this.page) throw new Error("out of memory");
  }

  place(bytes) {
    const at = this.calls.malloc(bytes.length || 1);
    if (!at) throw new Error("out of memory");
    new Uint8Array(this.calls.memory.buffer, at, bytes.length).set(bytes);
    return at;
  }

  reply() {
    const at = this.calls.page_reply(this.page), size = this.calls.page_reply_size(this.page);
    return this.decoder.decode(new Uint8Array(this.calls.memory.buffer, at, size));
  }

  // Opens the demonstration with the user's files in place of its own; {status, ...what it holds}.
  open(files) {
    for (const [table, bytes] of files) {
      this.calls.page_give(this.page, table, this.place(bytes), bytes.length);
    }
    const status = this.calls.page_open(this.page);
    const answer = { status, ...JSON.parse(this.reply()) };
    if (status === 0) this.files = files;
    return answer;
  }

  // {status, text}: 0 answered, 1 wishes cannot be met, else the reason
  ask(question) {
    const bytes = this.encoder.encode(JSON.stringify(question));
    const at = this.place(bytes);
    const status = this.calls.page_ask(this.page, at, bytes.length);
    this.calls.free(at);
    return { status, text: this.reply() };
  }

  // The answer as an object, with its drawings where the question lists some; throws a Refusal where
  // there is none.
  json(question) {
    const { status, text } = this.ask(question);
    if (status > 1) throw new Refusal(status, text);
    if (!question.drawings) return JSON.parse(text);
    const [answer, ...drawings] = text.split("\0");
    return { ...JSON.parse(answer), drawings };
  }
}

class Refusal extends Error {
  constructor(status, text) {
    super(text);
    this.status = status;
  }
}
