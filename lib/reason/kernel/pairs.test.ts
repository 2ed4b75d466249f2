import { readFile } from "node:fs/promises";
import { expect, it } from "vitest";
import { compileKernel } from "@/tests/support/compile-kernel";
import { PAIRS_CODE } from "./pairs-code";

it("the kernel that runs is what its source compiles to (npm run kernel)", async () => {
  const source = await readFile("lib/reason/kernel/pairs.assembly.ts", "utf8");
  expect(Buffer.from(await compileKernel(source)).toString("base64")).toBe(PAIRS_CODE);
});
