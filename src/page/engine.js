// SPDX-License-Identifier: GPL-3.0-or-later
// The engine: the program's words in, answers out. Memory is viewed anew after every call, since it
// may grow.
const TABLES = ["instruments.csv", "strings.csv", "tunings.csv", "players.csv", "families.csv",
  "materials.csv", "wire_strength.csv", "settings.csv", "sizes.csv", "positions.csv"];
const PARTS = { wishes: 1, side: 2, bridge: 4, places: 8, tension: 16, measures: 32, brief: 64, numbered: 128, model: 256, over: 512 }; // of a drawing
const HTML = { answer: 1, working: 2, notes: 4, headline: 8, alarms: 16, nothing: 32 }; // parts of an answer; of a decision its first paragraph; of its notes what to be careful with; nothing where it is only drawn

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
    this.ids = new Map(); // those that were placed
    this.words = { at: 0, most: 0 }; // where those of a question lie
    if (!this.page) throw new Error("out of memory");
  }

  place(bytes) {
    const at = this.calls.malloc(bytes.length || 1);
    if (!at) throw new Error("out of memory");
    new Uint8Array(this.calls.memory.buffer, at, bytes.length).set(bytes);
    return at;
  }

  // Words with a NUL behind each, where those of the question before lay; how many bytes they are.
  placeWords(words) {
    const text = `${words.join("\0")}\0`, most = 3 * text.length; // in UTF-8
    if (most > this.words.most) {
      this.calls.free(this.words.at);
      const at = this.calls.malloc(most);
      this.words = { at, most: at ? most : 0 };
      if (!at) throw new Error("out of memory");
    }
    return this.encoder.encodeInto(text, new Uint8Array(this.calls.memory.buffer, this.words.at, most)).written;
  }

  // The lead of ids, which stays where it is.
  placeId(id) {
    if (!this.ids.has(id)) this.ids.set(id, this.place(this.encoder.encode(`${id}\0`)));
    return this.ids.get(id);
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

  // The table that a file with those column heads is, as its place among TABLES; -1: none of them.
  tableOf(heads) {
    const size = this.placeWords(heads);
    return this.calls.page_table_of(this.words.at, size);
  }

  // Asks in words; {status, text}: 0 answered, 1 wishes cannot be met, else the reason.
  call(name, words, ...more) {
    const size = this.placeWords(words), status = this.calls[name](this.page, this.words.at, size, ...more);
    return { status, text: this.reply() };
  }

  // The program's answer; id: begins the ids of one in HTML; parts: of that, some of HTML; 0: all.
  ask(words, id = "", parts = 0) {
    return this.call("page_ask", words, id ? this.placeId(id) : 0, parts);
  }

  // Parts of the latest answer in HTML, in full or in brief.
  tell(id, parts, full = true) {
    this.calls.page_tell(this.page, this.placeId(id), parts, full);
    return this.reply();
  }

  // The "figures" of the instruments chosen, or an instrument's "fields"; throws a Refusal where there
  // is no answer.
  json(name, words) {
    const { status, text } = this.call(name, words);
    if (status > 1) throw new Refusal(status, text);
    return JSON.parse(text);
  }

  // Those figures of the instruments of the latest decision: now, proposed, recommended,
  // model; alone: of the one that was decided on, the others are left out. null where it has none.
  decided(keys, alone) {
    const { status, text } = this.call("page_decided", keys, alone);
    return status === 0 ? JSON.parse(text) : null;
  }

  // The wishes of the latest decision, each with its ends, where they lie, and what an end grows by a mm.
  wishes() {
    return this.calls.page_wishes(this.page) === 0 ? JSON.parse(this.reply()) : [];
  }

  // Where the axes of the latest drawings stand, in their px and in mm.
  axes() {
    this.calls.page_axes(this.page);
    return JSON.parse(this.reply());
  }

  // While something is moved the answers leave out how sure their figures are, and drawings keep their axes.
  moving(on) {
    this.calls.page_moving(this.page, on);
  }

  // A drawing of the latest answer: names of its parts; id: its place in the page, or a file of its own.
  // changes: an empty line for each that is as in the one before at that place, where both have as many.
  draw(parts, id = "", changes = false) {
    this.calls.page_draw(this.page, parts.reduce((sum, part) => sum | PARTS[part], 0), this.placeId(id), changes);
    return this.reply();
  }

  // The neck (stop) that the latest decision moves to, mm; NaN: there is none, or it stays.
  recommended() {
    return this.calls.page_recommended(this.page);
  }

  table(number) {
    this.calls.page_table(this.page, number);
    return this.reply();
  }
}

class Refusal extends Error {
  constructor(status, text) {
    super(text);
    this.status = status;
  }
}
