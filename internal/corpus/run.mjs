// node run.mjs WASM_EXEC WASM < records > outcomes
//
// Runs the core as a page does: loads wasm_exec.js, starts the module once, and
// calls kernbookDecide for each record, one as JSON per line on standard input.
// Writes each answer, as it came, as one JSON string per line.
import { readFileSync, writeSync } from "node:fs";
import { webcrypto } from "node:crypto";
import vm from "node:vm";

const [, , wasmExec, wasm] = process.argv;
if (!wasm) {
  throw new Error("run.mjs: name wasm_exec.js and the module");
}
globalThis.crypto ??= webcrypto;
vm.runInThisContext(readFileSync(wasmExec, "utf8"), { filename: wasmExec });

const go = new globalThis.Go();
const { instance } = await WebAssembly.instantiate(readFileSync(wasm), go.importObject);
const ready = new Promise((resolve) => {
  globalThis.kernbookReady = resolve;
});
go.run(instance);
await ready;

for (const record of readFileSync(0, "utf8").split("\n")) {
  if (record === "") continue;
  const line = Buffer.from(JSON.stringify(globalThis.kernbookDecide(record)) + "\n");
  for (let at = 0; at < line.length; ) {
    try {
      at += writeSync(1, line, at);
    } catch (e) {
      if (e.code !== "EAGAIN") throw e; // a full pipe: try again
    }
  }
}
process.exit(0);
