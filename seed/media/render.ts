import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtemp, rename, rm, stat, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import type { Worker } from "node:worker_threads";
import { paintBackdrop } from "./backdrop";
import { ballOf } from "./ball";
import { cameraOf } from "./camera";
import { clockOf } from "./clock";
import { wardrobeOf } from "./look";
import { borrowThreads, endThreads, giveBackThreads } from "./drawing-threads";
import { hitterOf } from "./skeleton";
import { crackWav } from "./sound";
import type { SwingSpec } from "./spec";
import { truthOf, type SwingTruth } from "./truth";

export interface RenderOptions {
  readonly signal?: AbortSignal;
  /** Called after each frame with the number of frames done and in all. */
  readonly onProgress?: (done: number, all: number) => void;
  /** Drawing threads, 2 when not said. */
  readonly threads?: number;
}

export interface RenderedSwing {
  readonly truth: SwingTruth;
  readonly frames: number;
  readonly bytes: number;
}

/**
 * Draws a swing to an MP4 (H.264, AAC). The file appears under its name only when it is whole.
 * @throws Error when ffmpeg is missing or fails (its own last words are in the sentence), or the signal's reason on abort
 */
export async function renderSwing(spec: SwingSpec, outPath: string, options: RenderOptions = {}): Promise<RenderedSwing> {
  options.signal?.throwIfAborted();
  const folder = await mkdtemp(path.join(tmpdir(), "swing-"));
  const partial = `${outPath}.${process.pid}.${Math.random().toString(36).slice(2, 8)}.part`;
  try {
    const { frameCount, contactAtSeconds } = clockOf(spec);
    const sound = path.join(folder, "sound.wav");
    await writeFile(sound, crackWav(frameCount / spec.framesPerSecond, contactAtSeconds, wardrobeOf(spec).isWood, spec.seed));
    await drawInto(spec, partial, sound, frameCount, options);
    await rename(partial, outPath);
    return { truth: truthOf(spec), frames: frameCount, bytes: (await stat(outPath)).size };
  } finally {
    await rm(partial, { force: true });
    await rm(folder, { recursive: true, force: true });
  }
}

function encoderArguments(spec: SwingSpec, sound: string, out: string): string[] {
  return [
    "-hide_banner", "-loglevel", "error", "-y",
    "-f", "rawvideo", "-pix_fmt", "rgb24", "-s", `${spec.widthPx}x${spec.heightPx}`, "-r", String(spec.framesPerSecond), "-i", "pipe:0",
    "-i", sound,
    "-vf", "scale=out_color_matrix=bt709:out_range=tv", "-pix_fmt", "yuv420p",
    "-c:v", "libx264", "-preset", "veryfast", "-crf", "19", "-g", "60", "-threads", "2",
    "-colorspace", "bt709", "-color_primaries", "bt709", "-color_trc", "bt709", "-color_range", "tv",
    "-video_track_timescale", "24000", "-c:a", "aac", "-b:a", "96k", "-movflags", "+faststart", "-f", "mp4", out,
  ];
}

async function drawInto(spec: SwingSpec, out: string, sound: string, frameCount: number, options: RenderOptions): Promise<void> {
  const encoder = spawn("ffmpeg", encoderArguments(spec, sound, out), { stdio: ["pipe", "ignore", "pipe"] });
  let complaint = "";
  encoder.stderr.on("data", (text) => (complaint = (complaint + String(text)).slice(-600)));
  const ended = new Promise<void>((resolve, reject) => {
    encoder.on("error", (error) => reject(new Error(`ffmpeg could not be started: ${error.message}`)));
    encoder.on("close", (code) => (code === 0 ? resolve() : reject(new Error(`ffmpeg stopped with ${code}: ${complaint.trim()}`))));
  });
  ended.catch(() => undefined);
  encoder.stdin.on("error", () => undefined);
  const threads = borrowThreads(Math.max(1, Math.min(options.threads ?? 2, frameCount)));
  const backdrop = paintBackdrop(spec, cameraOf(spec), ballOf(spec, hitterOf(spec)).contact[2]);
  for (const thread of threads) thread.postMessage({ spec, backdrop });
  try {
    const frames = framesInOrder(threads, frameCount, options.signal);
    let done = 0;
    for await (const pixels of frames) {
      if (!encoder.stdin.write(pixels)) await Promise.race([once(encoder.stdin, "drain"), ended]);
      options.onProgress?.(++done, frameCount);
    }
    encoder.stdin.end();
    await ended;
    giveBackThreads(threads);
  } catch (error) {
    encoder.kill("SIGKILL");
    await endThreads(threads);
    throw error;
  }
}

/** Frames in their order, a few ahead of the reader on every thread. */
async function* framesInOrder(threads: readonly Worker[], frameCount: number, signal?: AbortSignal): AsyncGenerator<Uint8Array> {
  const ready = new Map<number, Uint8Array>();
  let asked = 0;
  let wake: () => void = () => undefined;
  let failure: unknown = null;
  const fail = (reason: unknown): void => {
    failure ??= reason;
    wake();
  };
  const ask = (thread: Worker): void => {
    if (asked < frameCount) thread.postMessage(asked++);
  };
  const onAbort = (): void => fail(signal?.reason);
  signal?.addEventListener("abort", onAbort);
  const idle: Worker[] = [];
  for (const thread of threads) {
    thread.on("error", fail);
    thread.on("message", ({ frameIndex, pixels }: { frameIndex: number; pixels: Uint8Array }) => {
      ready.set(frameIndex, pixels);
      if (ready.size < 12) ask(thread);
      else idle.push(thread);
      wake();
    });
    ask(thread);
    ask(thread);
  }
  try {
    for (let next = 0; next < frameCount; next++) {
      while (!ready.has(next)) {
        if (failure !== null) throw failure;
        await new Promise<void>((resolve) => (wake = resolve));
      }
      if (failure !== null) throw failure;
      const pixels = ready.get(next) as Uint8Array;
      ready.delete(next);
      for (const thread of idle.splice(0)) ask(thread);
      yield pixels;
    }
  } finally {
    signal?.removeEventListener("abort", onAbort);
    for (const thread of threads) {
      thread.off("error", fail);
      thread.removeAllListeners("message");
    }
  }
}
