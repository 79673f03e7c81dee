// SPDX-License-Identifier: GPL-3.0-or-later
"use strict";
// What a module built for wasm32-wasi asks of its surroundings, for one that
// works in memory only: no files, no arguments, no environment.
//
//   const wasi = makeWasi((fd, text) => ...);      // output; may be left out
//   const { instance } = await WebAssembly.instantiate(bytes, wasi.imports);
//   wasi.start(instance);                          // before any other call
//
// exit() comes out as an Error with a number in its "exitCode", abort() as a
// WebAssembly.RuntimeError; after either the instance is not to be used again.
function makeWasi(write = () => {}) {
  const SUCCESS = 0, EBADF = 8, ENOSYS = 52, ESPIPE = 70;
  const CHARACTER_DEVICE = 2;
  let memory;
  const view = () => new DataView(memory.buffer); // anew: memory may have grown
  const decoders = {};
  const calls = {
    fd_write(fd, vectors, count, written) {
      if (fd !== 1 && fd !== 2) return EBADF;
      const decoder = decoders[fd] ??= new TextDecoder();
      let text = "", total = 0;
      for (let i = 0; i < count; i++) {
        const at = view().getUint32(vectors + 8 * i, true);
        const size = view().getUint32(vectors + 8 * i + 4, true);
        text += decoder.decode(new Uint8Array(memory.buffer, at, size), { stream: true });
        total += size;
      }
      view().setUint32(written, total, true);
      if (text) write(fd, text);
      return SUCCESS;
    },
    fd_read(fd, vectors, count, read) { // nothing to read: end of file
      view().setUint32(read, 0, true);
      return fd === 0 ? SUCCESS : EBADF;
    },
    fd_fdstat_get(fd, stat) {
      if (fd > 2) return EBADF;
      new Uint8Array(memory.buffer, stat, 24).fill(0)[0] = CHARACTER_DEVICE;
      return SUCCESS;
    },
    fd_seek: () => ESPIPE,
    fd_close: () => SUCCESS,
    fd_prestat_get: () => EBADF, // no folder is open: fopen fails
    environ_sizes_get(count, size) {
      view().setUint32(count, 0, true);
      view().setUint32(size, 0, true);
      return SUCCESS;
    },
    environ_get: () => SUCCESS,
    clock_time_get(clock, precision, time) {
      const ms = clock === 0 ? Date.now() : performance.now();
      view().setBigUint64(time, BigInt(Math.round(ms * 1e6)), true);
      return SUCCESS;
    },
    random_get(at, size) {
      crypto.getRandomValues(new Uint8Array(memory.buffer, at, size));
      return SUCCESS;
    },
    sched_yield: () => SUCCESS,
    proc_exit(code) {
      throw Object.assign(new Error("the engine left with code " + code), { exitCode: code });
    },
  };
  return {
    imports: {
      wasi_snapshot_preview1: new Proxy(calls, {
        get: (known, name) => known[name] ?? (() => ENOSYS),
      }),
    },
    start(instance) {
      memory = instance.exports.memory;
      instance.exports._initialize();
    },
  };
}
if (typeof module !== "undefined") module.exports = { makeWasi };
