/**
 * How fast a frame comes to the screen, beside a plain video element on the same clip, in turns in the same run, in Chromium
 * without a graphics card: stepping by one against painting a decoded picture again, random seeks against the element's; and four locked clips while they are scrubbed.
 * Run: npx tsx tests/bench/viewer.ts [rounds]
 */
import { execFileSync } from "node:child_process";
import { readFile, mkdtemp, rm } from "node:fs/promises";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import path from "node:path";
import { chromium } from "@playwright/test";
import { build } from "esbuild";
import { cachedSwing } from "@/seed/media/cache";
import { swingSpec } from "@/seed/media/spec";
import type { ScrubRound, ViewerRound } from "./viewer-page";

const ROUNDS = Number(process.argv[2] ?? 60);
const SCRUB_SECONDS = 10;
const GOALS = { step: 1.5, seekMedian: 0.65, seekLate: 0.85 };

const quantile = (values: readonly number[], part: number) => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))] ?? NaN;
};

async function main(): Promise<void> {
  const folder = await mkdtemp(path.join(tmpdir(), "cagebook-bench-"));
  const film = (await cachedSwing(swingSpec({ side: "right", body: "child", seed: 11, look: { clothes: "navy", scene: "field" } }), path.resolve(".data/drawn-swings"))).path;
  const copy = path.join(folder, "stepping.mp4");
  // As the worker makes stepping copies.
  execFileSync("ffmpeg", [
    "-v", "error", "-y", "-i", film, "-map", "0:v:0", "-fps_mode", "passthrough", "-enc_time_base", "-1", "-video_track_timescale", "90000", "-pix_fmt", "yuv420p",
    "-c:v", "libx264", "-preset", "veryfast", "-crf", "23", "-g", "8", "-bf", "0", "-sc_threshold", "0", "-movflags", "+faststart", copy,
  ]);
  const script = (await build({ entryPoints: ["tests/bench/viewer-page.ts"], bundle: true, write: false, format: "iife", target: "es2022", tsconfig: "tsconfig.json" })).outputFiles[0]?.text ?? "";
  const page = `<!doctype html><canvas width="960" height="540"></canvas><video muted playsinline preload="auto" width="960" height="540"></video><script>${script.replaceAll("</script", "<\\/script")}</script>`;
  const bytes = await readFile(copy);
  const server = createServer((request, answer) => {
    if (request.url === "/copy.mp4") answer.writeHead(200, { "content-type": "video/mp4", "content-length": bytes.length }).end(bytes);
    else answer.writeHead(200, { "content-type": "text/html" }).end(page);
  }).listen(0);
  const { port } = server.address() as AddressInfo;
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM_PATH ?? "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
  try {
    const tab = await browser.newPage({ viewport: { width: 1440, height: 1200 } });
    await tab.goto(`http://localhost:${port}/`);
    const frames = await tab.evaluate(() => (window as unknown as { viewerBench: { open(url: string): Promise<number> } }).viewerBench.open("/copy.mp4"));
    const rounds: ViewerRound[] = [];
    for (let i = 0; i < ROUNDS; i += 1) {
      // Far apart, so that no seek finds its frame loaded.
      const frame = Math.floor(((i * 0.618034) % 1) * (frames - 20)) + 5;
      rounds.push(await tab.evaluate((at) => (window as unknown as { viewerBench: { round(at: number): Promise<ViewerRound> } }).viewerBench.round(at), frame));
    }
    report(rounds, frames);
    reportScrub(await tab.evaluate((seconds) => (window as unknown as { viewerBench: { scrub(url: string, seconds: number): Promise<ScrubRound> } }).viewerBench.scrub("/copy.mp4", seconds), SCRUB_SECONDS));
  } finally {
    await browser.close();
    server.close();
    await rm(folder, { recursive: true });
  }
}

function report(rounds: readonly ViewerRound[], frames: number): void {
  console.log(`${rounds.length} rounds on ${frames} frames of 720p at 240 a second`);
  for (const until of ["drawn", "painted"] as const) {
    const of = (way: keyof ViewerRound) => rounds.map((it) => it[way][until]);
    console.log(until === "drawn" ? "\nUntil the frame's pixels lie on a canvas" : "\nUntil the page has painted");
    const say = (name: string, way: keyof ViewerRound) => console.log(`${name.padEnd(34)} median ${quantile(of(way), 0.5).toFixed(1)} ms, 95 % ${quantile(of(way), 0.95).toFixed(1)} ms`);
    say("a decoded picture again", "repaint");
    say("one frame on", "stepOn");
    say("one frame back", "stepBack");
    say("random seek", "seek");
    say("random seek of a video element", "elementSeek");
    const ratio = (name: string, part: number, way: keyof ViewerRound, over: keyof ViewerRound, goal: number) => {
      const is = quantile(of(way), part) / quantile(of(over), part);
      console.log(`${name.padEnd(34)} ${is.toFixed(2)} (goal ${goal}) ${is <= goal ? "held" : "MISSED"}`);
    };
    ratio("one on over repainting", 0.5, "stepOn", "repaint", GOALS.step);
    ratio("one back over repainting", 0.5, "stepBack", "repaint", GOALS.step);
    ratio("seek over element, median", 0.5, "seek", "elementSeek", GOALS.seekMedian);
    ratio("seek over element, 95 %", 0.95, "seek", "elementSeek", GOALS.seekLate);
  }
}

function reportScrub({ asked, shown, lagMs, unlike, restMs, mostBytes }: ScrubRound): void {
  console.log(`\nFour locked clips scrubbed for ${SCRUB_SECONDS} s`);
  console.log(`${asked} instants asked for, ${shown} shown, the others dropped; ${unlike} with clips at different instants`);
  console.log(`behind the hand: median ${quantile(lagMs, 0.5).toFixed(0)} ms, 95 % ${quantile(lagMs, 0.95).toFixed(0)} ms; at rest the last one after ${restMs.toFixed(0)} ms`);
  console.log(`decoded pictures held: ${(mostBytes / 1e6).toFixed(0)} MB at most`);
}

await main();
