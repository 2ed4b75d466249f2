import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { cachedSwing } from "./cache";
import { readFrameNumber } from "./frame-number";
import { renderSwing } from "./render";
import { swingSpec } from "./spec";
import type { SwingTruth } from "./truth";

vi.setConfig({ testTimeout: 60_000 });

const [widthPx, heightPx] = [320, 180];
const spec = swingSpec({ widthPx, heightPx, framesPerSecond: 60, seconds: 1.7, seed: 3 });
const folder = mkdtempSync(path.join(tmpdir(), "swing-test-"));
let file = "";
let truth: SwingTruth;

const ffmpeg = (...words: string[]) => execFileSync("ffmpeg", ["-loglevel", "error", ...words], { maxBuffer: 1 << 28 });

beforeAll(async () => {
  const drawn = await cachedSwing(spec, folder, { threads: 1 });
  [file, truth] = [drawn.path, drawn.truth];
  expect(drawn.wasCached).toBe(false);
}, 60_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("a rendered swing", () => {
  test("carries on every frame its own number, in order, after coding and decoding", () => {
    const grey = ffmpeg("-i", file, "-f", "rawvideo", "-pix_fmt", "gray", "-");
    const size = widthPx * heightPx;
    const numbers = Array.from({ length: grey.length / size }, (_, i) => readFrameNumber(grey.subarray(i * size, (i + 1) * size), widthPx, heightPx));
    expect(numbers).toEqual(truth.frames.map((frame) => frame.index));
  });

  test("begins its crack on the frame of contact, without a delay for the way to the camera", () => {
    const sound = ffmpeg("-i", file, "-map", "0:a", "-f", "s16le", "-ac", "1", "-ar", "48000", "-");
    let first = -1;
    for (let i = 0; i < sound.length / 2 && first < 0; i++) if (Math.abs(sound.readInt16LE(2 * i)) > 6000) first = i;
    expect(Math.abs(first / 48_000 - truth.soundAtSeconds)).toBeLessThan(0.002);
    expect(truth.soundAtSeconds).toBe(truth.contactAtSeconds);
  });

  test("shows the white ball where the truth says it is", () => {
    const { ball, index } = truth.frames[10]!;
    const [x, y] = [Math.floor(ball!.picture.x), Math.floor(ball!.picture.y)];
    const rgb = ffmpeg("-i", file, "-vf", `select=eq(n\\,${index})`, "-frames:v", "1", "-f", "rawvideo", "-pix_fmt", "rgb24", "-");
    const at = 3 * (y * widthPx + x);
    expect(Math.min(rgb[at]!, rgb[at + 1]!, rgb[at + 2]!)).toBeGreaterThan(165);
  });

  test("is drawn once: a second wish gets the same file, and nothing unfinished stays in the folder", async () => {
    const again = await cachedSwing(spec, folder);
    expect(again.wasCached).toBe(true);
    expect(again.path).toBe(file);
    expect(readdirSync(folder)).toEqual([path.basename(file)]);
  });

  test("can be stopped, and leaves no file behind", async () => {
    const stop = new AbortController();
    const out = path.join(folder, "stopped.mp4");
    const drawing = renderSwing(spec, out, { signal: stop.signal, threads: 1, onProgress: (done) => (done === 5 ? stop.abort() : undefined) });
    await expect(drawing).rejects.toThrow("abort");
    expect(readdirSync(folder)).toEqual([path.basename(file)]);
  }, 60_000);
});
