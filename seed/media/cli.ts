import { writeFile } from "node:fs/promises";
import { renderSwing } from "./render";
import { FAULT_PARAMETERS, swingSpec, type SwingSpec } from "./spec";

const HELP = `usage: npx tsx seed/media/cli.ts out.mp4 [options]
  --side right|left   --view side|rear|front   --body child|teen|adult   --task tee|toss
  --fps 60|120|240    --size 1280x720          --seconds 2               --seed 1
  --camera-off 0      --clothes navy           --scene cage|field        --fault lunge-forward=0.7 (repeatable)
  --truth out.json    writes the true events, points and readings
faults: ${FAULT_PARAMETERS.join(", ")}`;

/** Reads a command line. @throws RangeError with a sentence when an option is not known or not possible */
export function readArguments(words: readonly string[]): { out: string; truthPath: string | null; spec: SwingSpec } {
  const parts: Record<string, unknown> = {};
  const look: Record<string, string> = {};
  const faults: Record<string, number> = {};
  let out: string | null = null;
  let truthPath: string | null = null;
  for (let i = 0; i < words.length; i++) {
    const word = words[i] ?? "";
    if (!word.startsWith("--")) {
      out = word;
      continue;
    }
    const value = words[++i];
    if (value === undefined) throw new RangeError(`${word} needs a value`);
    if (word === "--side" || word === "--view" || word === "--body" || word === "--task") parts[word.slice(2)] = value;
    else if (word === "--fps") parts["framesPerSecond"] = Number(value);
    else if (word === "--seconds" || word === "--seed") parts[word.slice(2)] = Number(value);
    else if (word === "--camera-off") parts["cameraOffDeg"] = Number(value);
    else if (word === "--size") [parts["widthPx"], parts["heightPx"]] = value.split("x").map(Number);
    else if (word === "--clothes" || word === "--scene") look[word.slice(2)] = value;
    else if (word === "--fault") faults[value.split("=")[0] ?? ""] = Number(value.split("=")[1] ?? 1);
    else if (word === "--truth") truthPath = value;
    else throw new RangeError(`there is no option ${word}`);
  }
  if (out === null) throw new RangeError("say where the video goes, for example out.mp4");
  return { out, truthPath, spec: swingSpec({ ...parts, look, faults } as Partial<SwingSpec>) };
}

async function main(words: readonly string[]): Promise<void> {
  if (words.length === 0 || words.includes("--help")) {
    console.log(HELP);
    return;
  }
  const { out, truthPath, spec } = readArguments(words);
  const started = Date.now();
  const { truth, frames, bytes } = await renderSwing(spec, out, {
    onProgress: (done, all) => {
      if (process.stdout.isTTY && done % 20 === 0) process.stdout.write(`\r${done} of ${all} frames`);
    },
  });
  if (truthPath !== null) await writeFile(truthPath, JSON.stringify(truth));
  console.log(`\r${out}: ${frames} frames, ${(bytes / 1e6).toFixed(1)} MB, ${((Date.now() - started) / 1000).toFixed(1)} s`);
}

if (process.argv[1]?.endsWith("seed/media/cli.ts")) {
  main(process.argv.slice(2)).catch((error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  });
}
