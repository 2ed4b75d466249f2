/**
 * A talk of five minutes over two drawn swings, replayed in Chromium without a graphics card: how far pictures and voice are apart at random
 * points, how many bytes a minute it takes, and how fast its film is rendered.
 * Run: npx tsx tests/bench/walkthrough.ts [points] [film seconds]
 */
import { execFileSync } from "node:child_process";
import { mkdtemp, readFile, rm, stat } from "node:fs/promises";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import path from "node:path";
import { chromium } from "@playwright/test";
import { build } from "esbuild";
import { cachedSwing } from "@/seed/media/cache";
import { swingSpec } from "@/seed/media/spec";
import { seededRandom } from "@/lib/core/random";
import { FILM_SIZE, sceneOf } from "@/lib/domains/walkthroughs/film/rules";
import { followList } from "@/lib/domains/walkthroughs/list/rules";
import { FILM_FPS, makeFilm, takeFrames } from "@/lib/platform/video/make-film";
import { keepVoice } from "@/lib/platform/voice/keep-voice";
import { talkOver, ticksOf } from "./walkthrough-list";
import type { DriftPoint } from "./walkthrough-page";

// No database is opened; the settings want to know of one all the same.
process.env.DATABASE_URL ??= "postgresql://bench@localhost/none";
process.env.AUTH_SECRET ??= "a secret for the bench only, long enough for all";

const POINTS = Number(process.argv[2] ?? 200);
const FILM_SECONDS = Number(process.argv[3] ?? 60);
const TALK_SECONDS = 300;
const GOALS = { driftMs: 40, bytesPerMinute: 1_000_000, filmOverReal: 1 };

const quantile = (values: readonly number[], part: number) => [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(part * values.length))] ?? NaN;

async function main(): Promise<void> {
  const folder = await mkdtemp(path.join(tmpdir(), "cagebook-bench-"));
  try {
    const film = (await cachedSwing(swingSpec({ side: "right", body: "child", seed: 11, look: { clothes: "navy", scene: "field" } }), path.resolve(".data/drawn-swings"))).path;
    const copy = path.join(folder, "stepping.mp4");
    execFileSync("ffmpeg", [
      "-v", "error", "-y", "-i", film, "-map", "0:v:0", "-fps_mode", "passthrough", "-enc_time_base", "-1", "-video_track_timescale", "90000", "-pix_fmt", "yuv420p",
      "-c:v", "libx264", "-preset", "veryfast", "-crf", "23", "-g", "8", "-bf", "0", "-sc_threshold", "0", "-movflags", "+faststart", copy,
    ]);
    // A prepared voice: tones and noise that come and go as speech does, at the rate at which the browser records.
    const spoken = path.join(folder, "spoken.webm");
    execFileSync("ffmpeg", [
      "-v", "error", "-y", "-f", "lavfi", "-i", `aevalsrc='0.3*sin(2*PI*(140+40*sin(3*t))*t)*(0.5+0.5*sin(2*PI*3*t))*gt(sin(0.7*t),-0.6)+0.02*(random(0)-0.5)':s=48000:d=${TALK_SECONDS}`,
      "-c:a", "libopus", "-b:a", "32k", "-live", "1", "-f", "webm", spoken,
    ]);
    const voice = await keepVoice(spoken, (extension) => path.join(folder, `voice.${extension}`));
    const kept = path.join(folder, `voice.${voice.extension}`);
    const frameCount = Number(execFileSync("ffprobe", ["-v", "error", "-select_streams", "v:0", "-count_packets", "-show_entries", "stream=nb_read_packets", "-of", "csv=p=0", copy], { encoding: "utf8" }).trim());
    const contact = Math.floor(frameCount * 0.6);
    console.log(`A talk of ${TALK_SECONDS / 60} minutes over two clips of ${frameCount} frames, ${POINTS} points`);
    sayBytes((await stat(kept)).size, frameCount, contact);
    await sayDrift(copy, kept, contact);
    await sayFilm(folder, copy, kept, frameCount, contact);
  } finally {
    await rm(folder, { recursive: true });
  }
}

function sayBytes(voiceBytes: number, frameCount: number, contact: number): void {
  const list = Buffer.byteLength(JSON.stringify(talkOver(frameCount, contact, 1, TALK_SECONDS)));
  const perMinute = (voiceBytes + list) / (TALK_SECONDS / 60);
  console.log(`Bytes a minute: ${Math.round(perMinute).toLocaleString("en-US")} (voice ${Math.round(voiceBytes / 5).toLocaleString("en-US")}, list ${Math.round(list / 5).toLocaleString("en-US")}); goal under ${GOALS.bytesPerMinute.toLocaleString("en-US")}: ${perMinute < GOALS.bytesPerMinute ? "met" : "missed"}`);
}

async function sayDrift(copy: string, voice: string, contact: number): Promise<void> {
  const script = (await build({ entryPoints: ["tests/bench/walkthrough-page.ts"], bundle: true, write: false, format: "iife", target: "es2022", tsconfig: "tsconfig.json" })).outputFiles[0]?.text ?? "";
  const page = `<!doctype html><canvas width="960" height="270"></canvas><script>${script.replaceAll("</script", "<\\/script")}</script>`;
  const files: Readonly<Record<string, { readonly type: string; readonly bytes: Buffer }>> = { "/copy.mp4": { type: "video/mp4", bytes: await readFile(copy) }, "/voice": { type: "audio/webm", bytes: await readFile(voice) } };
  const server = createServer((request, answer) => {
    const file = files[request.url ?? ""];
    if (!file) return void answer.writeHead(200, { "content-type": "text/html" }).end(page);
    const [from = 0, to = file.bytes.length - 1] = (/bytes=(\d+)-(\d*)/.exec(request.headers.range ?? "") ?? []).slice(1).map((it) => (it === "" ? file.bytes.length - 1 : Number(it)));
    const isPart = request.headers.range !== undefined;
    const headers = { "content-type": file.type, "accept-ranges": "bytes", "content-length": to - from + 1, ...(isPart ? { "content-range": `bytes ${from}-${to}/${file.bytes.length}` } : {}) };
    answer.writeHead(isPart ? 206 : 200, headers).end(file.bytes.subarray(from, to + 1));
  }).listen(0);
  const { port } = server.address() as AddressInfo;
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM_PATH ?? "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu", "--autoplay-policy=no-user-gesture-required"] });
  try {
    const tab = await browser.newPage();
    await tab.goto(`http://localhost:${port}/`);
    await tab.evaluate(([at, seconds]) => (window as unknown as { walkthroughBench: { open(copy: string, voice: string, contact: number, seconds: number): Promise<number> } }).walkthroughBench.open("/copy.mp4", "/voice", at ?? 0, seconds ?? 0), [contact, TALK_SECONDS]);
    const random = seededRandom(7);
    const found: DriftPoint[] = [];
    for (let i = 0; i < POINTS; i++) found.push(await tab.evaluate((ms) => (window as unknown as { walkthroughBench: { point(ms: number): Promise<DriftPoint> } }).walkthroughBench.point(ms), Math.floor(random.uniform() * (TALK_SECONDS - 2) * 1000)));
    const drifts = found.map(({ driftMs }) => driftMs);
    const under = drifts.filter((it) => it < GOALS.driftMs).length;
    console.log(`Voice and pictures apart: median ${quantile(drifts, 0.5).toFixed(1)} ms, 95 % ${quantile(drifts, 0.95).toFixed(1)} ms, most ${Math.max(...drifts).toFixed(1)} ms; under ${GOALS.driftMs} ms at ${under} of ${POINTS} points`);
    console.log(`From seek to pictures and voice: median ${quantile(found.map(({ seekMs }) => seekMs), 0.5).toFixed(0)} ms, 95 % ${quantile(found.map(({ seekMs }) => seekMs), 0.95).toFixed(0)} ms`);
  } finally {
    await browser.close();
    server.close();
  }
}

async function sayFilm(folder: string, copy: string, voice: string, frameCount: number, contact: number): Promise<void> {
  const list = talkOver(frameCount, contact, 1, TALK_SECONDS);
  const follow = followList(list, [ticksOf(frameCount), ticksOf(frameCount)]);
  const count = FILM_SECONDS * FILM_FPS;
  const begun = performance.now();
  const wanted = Array.from({ length: count }, (_, i) => follow((i / FILM_FPS) * 1000).frames[0] ?? 0);
  const pictures = await takeFrames(copy, wanted, path.join(folder, "frames"));
  const scene = (i: number) => sceneOf(list, follow((i / FILM_FPS) * 1000), (_clip, frame) => pictures.get(frame) ?? null, () => null, { said: "What is said here, in words", hasFoot: true });
  await makeFilm(FILM_SIZE, count, scene, [{ file: { path: voice, container: "webm" }, fromMs: 0, toMs: FILM_SECONDS * 1000 }], path.join(folder, "film.mp4"));
  const ratio = (performance.now() - begun) / 1000 / FILM_SECONDS;
  console.log(`Film: ${FILM_SECONDS} s of 720p rendered in ${(ratio * FILM_SECONDS).toFixed(1)} s, ${ratio.toFixed(2)} of real time (${pictures.size} frames decoded): ${ratio < GOALS.filmOverReal ? "met" : "missed"}`);
}

await main();
