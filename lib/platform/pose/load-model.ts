import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import { fileURLToPath } from "node:url";
import vm from "node:vm";
import type { PoseModel } from "./follow-bodies";

const WEIGHTS = "@mediapipe/pose";
const RUNTIME = "@litertjs/core";
const MODEL = "pose_landmark_full.tflite";
/** The name under which the weights' package keeps the detector. */
const DETECTOR = "pose_solution_packed_assets.data";

/** Which model it is, as it is kept with every suggestion. */
export interface ModelName {
  readonly model: string;
  readonly version: string;
}

/** The model that is installed; null when its packages are not there. */
export async function installedModel(): Promise<ModelName | null> {
  try {
    const weights = packageFolder(WEIGHTS);
    packageFolder(RUNTIME);
    const said = JSON.parse(await readFile(path.join(weights, "package.json"), "utf8")) as { version?: unknown };
    return { model: "mediapipe-pose-full", version: String(said.version) };
  } catch {
    return null;
  }
}

/** Where a package lies; the bundler of the pages never sees what is asked for here. */
function packageFolder(name: string): string {
  const require = createRequire(path.join(process.cwd(), "package.json"));
  const paths = require.resolve.paths(name) ?? [];
  for (const folder of paths) {
    try {
      require(path.join(folder, name, "package.json"));
      return path.join(folder, name);
    } catch {
      continue;
    }
  }
  throw new Error(`the package ${name} is not installed`);
}

/** Loads weights and runtime into this process. @throws Error when a package is missing or does not fit */
export async function loadModel(): Promise<PoseModel> {
  const weights = packageFolder(WEIGHTS);
  const runtime = path.join(packageFolder(RUNTIME), "wasm");
  standInForBrowser(runtime);
  const { loadLiteRt, loadAndCompile, Tensor } = await import("@litertjs/core");
  await loadLiteRt(path.join(runtime, "litert_wasm_compat_internal.js"));
  const open = async (file: string) => {
    const model = await loadAndCompile(new Uint8Array(await readFile(path.join(weights, file))), { accelerator: "wasm" });
    const shape = [...(model.getInputDetails()[0]?.shape ?? [])];
    return async (input: Float32Array): Promise<readonly Float32Array[]> => {
      const given = new Tensor(input, shape);
      const outputs = await model.run(given);
      given.delete();
      return Object.values(outputs).map((output) => {
        const numbers = Float32Array.from(output.toTypedArray());
        output.delete();
        return numbers;
      });
    };
  };
  const [detector, joints] = [await open(DETECTOR), await open(MODEL)];
  const ofLength = (outputs: readonly Float32Array[], length: number) => {
    const found = outputs.find((output) => output.length === length);
    if (!found) throw new Error(`the model gives no output of ${length} numbers`);
    return found;
  };
  return {
    detect: async (input) => {
      const outputs = await detector(input);
      return { scores: ofLength(outputs, 2254), numbers: ofLength(outputs, 2254 * 12) };
    },
    joints: async (input) => {
      const outputs = await joints(input);
      return { numbers: ofLength(outputs, 195), heat: outputs.find(({ length }) => length === 64 * 64 * 39) ?? null, flag: ofLength(outputs, 1)[0] ?? NaN };
    },
  };
}

/** The runtime is made for a browser's worker and fetches its parts from there: here it gets them from its own folder. */
function standInForBrowser(folder: string): void {
  const there = path.join(folder, "runtime.js");
  const browser = globalThis as unknown as Record<string, unknown>;
  browser["self"] = globalThis;
  browser["require"] ??= createRequire(there);
  browser["__filename"] = there;
  browser["__dirname"] = folder;
  browser["importScripts"] = (address: string) => {
    const file = address.startsWith("file:") ? fileURLToPath(address) : address;
    vm.runInThisContext(`${process.getBuiltinModule("node:fs").readFileSync(file, "utf8")};globalThis.ModuleFactory=ModuleFactory`, { filename: file });
  };
}
