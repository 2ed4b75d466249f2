/** Compiles the kernel of the reasoning anew: npm run kernel. */
import { readFile, writeFile } from "node:fs/promises";
import { compileKernel } from "./compile-kernel";

const code = await compileKernel(await readFile("lib/reason/kernel/pairs.assembly.ts", "utf8"));
const lines = Buffer.from(code).toString("base64").match(/.{1,120}/g) ?? [];
await writeFile(
  "lib/reason/kernel/pairs-code.ts",
  `/** \`pairs.assembly.ts\` as WebAssembly, in base64: written by \`npm run kernel\`, never by hand. */\nexport const PAIRS_CODE =\n${lines.map((line) => `  "${line}"`).join(" +\n")};\n`,
);
console.log(`pairs-code.ts: ${code.length} bytes`);
