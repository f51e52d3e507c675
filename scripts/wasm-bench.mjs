// node wasm-bench.mjs WASM_EXEC WASM RECORD.json: how long the core takes as
// WebAssembly for one record, explanation and forecasts included. Ten calls to
// warm up, then 100; prints the median and the slowest in milliseconds, and the
// time from loading to ready.
import { readFileSync } from "node:fs";
import { webcrypto } from "node:crypto";
import { performance } from "node:perf_hooks";
import vm from "node:vm";

const [, , wasmExec, wasm, file] = process.argv;
if (!file) {
  throw new Error("wasm-bench.mjs: name wasm_exec.js, the module and a record as JSON");
}
globalThis.crypto ??= webcrypto;
vm.runInThisContext(readFileSync(wasmExec, "utf8"), { filename: wasmExec });
const began = performance.now();
const go = new globalThis.Go();
const { instance } = await WebAssembly.instantiate(readFileSync(wasm), go.importObject);
const ready = new Promise((resolve) => {
  globalThis.kernbookReady = resolve;
});
go.run(instance);
await ready;
const start = performance.now() - began;
const record = readFileSync(file, "utf8");
if (!globalThis.kernbookDecide(record).includes('"kernbook outcome 1"')) {
  throw new Error("wasm-bench.mjs: the record was not judged");
}
for (let i = 1; i < 10; i++) globalThis.kernbookDecide(record);
const took = [];
for (let i = 0; i < 100; i++) {
  const t = performance.now();
  globalThis.kernbookDecide(record);
  took.push(performance.now() - t);
}
took.sort((a, b) => a - b);
console.log(`ready after ${start.toFixed(0)} ms; a call: median ${took[50].toFixed(2)} ms, slowest of 100 ${took[99].toFixed(2)} ms`);
process.exit(0);
