import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { ingestVideo } from "@/lib/platform/video/ingest";
import { VideoRefused } from "@/lib/platform/video/refusal";
import type { HostileFile } from "./hostile-files";

/** How one hostile file was met. */
export interface Met {
  readonly kind: string;
  /** The reason of a refusal, "taken" for a file that can be stepped after all, "broke" for anything else, which must not happen. */
  readonly outcome: string;
  readonly sentence: string;
  readonly ms: number;
  /** Files that appeared where none may. */
  readonly strays: readonly string[];
}

/** What a worker's folder may hold after a film was read. */
const MADE = ["poster.jpg", "stepping.mp4"];

/** Lets the worker's own steps read a file, in a folder of their own, and looks what became of it. */
export async function meet(file: HostileFile, where: string): Promise<Met> {
  const given = file.make();
  const before = readdirSync(where);
  const folder = mkdtempSync(path.join(tmpdir(), "cagebook-hostile-"));
  const here = readdirSync(".");
  const start = performance.now();
  const outcome = await ingestVideo(given, folder).then(
    () => ({ outcome: "taken", sentence: "" }),
    (error: unknown) => (error instanceof VideoRefused ? { outcome: error.reason, sentence: error.message } : { outcome: "broke", sentence: String(error) }),
  );
  const ms = performance.now() - start;
  const strays = [
    ...readdirSync(folder).filter((name) => !MADE.includes(name)),
    ...readdirSync(where).filter((name) => !before.includes(name)),
    ...readdirSync(".").filter((name) => !here.includes(name)),
  ];
  rmSync(folder, { recursive: true, force: true });
  rmSync(given, { force: true });
  return { kind: file.kind, ...outcome, ms, strays };
}

/** A refusal is one clear sentence, or two: it begins large, ends with a full stop, and names no program, path or number of an error. */
export const isClear = (sentence: string) => /^[A-Z][^\n/\\<>]*\.$/.test(sentence) && !/ffmpeg|ffprobe|error|exit|null|undefined/i.test(sentence);
