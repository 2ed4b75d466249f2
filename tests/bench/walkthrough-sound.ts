/**
 * A spoken walkthrough, made through the real page of a running house with its demo and taken away again: a made voice (espeak-ng) is fed to Chromium's
 * microphone, a coach talks over two swings of Noor, pauses, goes on and sends it; then its voice file and its film are held against what was said.
 * Pictures to look at (spectrogram, frames of the film) lie in the folder that is named at the end.
 * Run: npx tsx tests/bench/walkthrough-sound.ts [address of the house] [folder]
 */
import { execFileSync } from "node:child_process";
import { mkdir, readdir, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import { chromium, type Page } from "@playwright/test";
import { DEMO_PASSWORD } from "@/seed/demo/people";
import { bestLag, clickAt, decode, gapsIn, levelDb, loudnessOf, RATE, spectrum } from "./sound";

const HOUSE = process.argv[2] ?? "http://localhost:3000";
const FOLDER = path.resolve(process.argv[3] ?? ".data/walkthrough-sound");

const WORDS = [
  "Take a look at your hands before contact.", "Both of them wait behind the back shoulder, and that is quiet.", "Keep it that way, and turn the belt first.", "Pick the moment when the front foot comes down.",
  "Do you see how the barrel is still behind you?", "Play it slowly now, and watch the belt.", "Belt first, then the foot, then the hands.", "Try five of them off the tee, and tell me how it felt.",
];

/** What was said, as the microphone hears it: it begins with a first syllable at once, and goes round. */
function speak(): string {
  const [spoken, heard] = [path.join(FOLDER, "spoken.wav"), path.join(FOLDER, "microphone.wav")];
  execFileSync("espeak-ng", ["-v", "en-gb", "-s", "150", "-w", spoken, WORDS.join(" ")]);
  execFileSync("ffmpeg", ["-v", "error", "-y", "-i", spoken, "-ar", String(RATE), "-ac", "1", "-c:a", "pcm_s16le", heard]);
  return heard;
}

interface Recorded {
  readonly walkthroughId: string;
  readonly playerId: string;
  /** When the recorder was told to run, by which the list's clock goes, and what came in at the microphone meanwhile, by the page's own clock. */
  readonly told: Told;
}

interface Told {
  readonly runs: readonly { readonly kind: "start" | "pause" | "resume" | "stop"; readonly at: number }[];
  readonly heard: readonly { readonly at: number; readonly stampMs: number; readonly rate: number; readonly samples: readonly number[] }[];
}

/** Listens beside the recorder: at which instant of the page's clock which sound came in. */
const LISTEN = `(() => {
  const told = { runs: [], heard: [] };
  window.told = told;
  const open = MediaDevices.prototype.getUserMedia;
  MediaDevices.prototype.getUserMedia = async function (given) {
    const stream = await open.call(this, given);
    const reader = new MediaStreamTrackProcessor({ track: stream.getAudioTracks()[0].clone() }).readable.getReader();
    (async () => {
      for (;;) {
        const { value, done } = await reader.read();
        if (done) return;
        const samples = new Float32Array(value.numberOfFrames);
        value.copyTo(samples, { planeIndex: 0, format: "f32-planar" });
        told.heard.push({ at: performance.now() - (value.numberOfFrames / value.sampleRate) * 1000, stampMs: value.timestamp / 1000, rate: value.sampleRate, samples: Array.from(samples, (it) => Math.round(it * 32767)) });
        value.close();
      }
    })();
    return stream;
  };
  for (const kind of ["start", "pause", "resume", "stop"]) {
    const own = MediaRecorder.prototype[kind];
    MediaRecorder.prototype[kind] = function (...given) {
      told.runs.push({ kind, at: performance.now() });
      return own.apply(this, given);
    };
  }
})()`;

async function enter(page: Page, name: string): Promise<void> {
  await page.context().clearCookies();
  await page.goto(`${HOUSE}/sign-in`, { waitUntil: "networkidle" });
  await page.getByLabel("Mail address or user name").fill(name);
  await page.getByLabel("Password").fill(DEMO_PASSWORD);
  await page.getByLabel("Password").press("Enter");
  await page.waitForURL((url) => !url.pathname.startsWith("/sign-in"), { timeout: 30_000 });
}

/** Two side clips of Noor that stand beside each other, found by the page's own links. */
async function findTalk(page: Page): Promise<string> {
  await page.goto(`${HOUSE}/players`, { waitUntil: "networkidle" });
  await page.getByRole("link", { name: /Noor/ }).first().click();
  await page.waitForURL(/\/players\/[0-9a-f-]{36}/);
  await page.waitForLoadState("networkidle");
  const swings = [...new Set(await page.locator('a[href^="/swings/"]').evaluateAll((all) => all.map((it) => (it as HTMLAnchorElement).pathname)))].filter((it) => /^\/swings\/[0-9a-f-]{36}$/.test(it));
  const clips: { swing: string; clip: string }[] = [];
  for (const swing of swings) {
    const html = await (await page.request.get(`${HOUSE}${swing}`)).text();
    const clip = /\/api\/media\/clips\/([0-9a-f-]{36})/.exec(html)?.[1];
    if (clip && !clips.some((it) => it.clip === clip)) clips.push({ swing, clip });
  }
  const [one, two] = clips;
  if (!one || !two) throw new Error("the demo has no two clips of Noor yet");
  return `${one.swing}/talk?clip=${one.clip}&with=${two.clip}`;
}

async function record(page: Page): Promise<Recorded> {
  await enter(page, "adair@quillet.example");
  await page.goto(`${HOUSE}${await findTalk(page)}`);
  const pictures = page.locator(".talk .pair .frame");
  await page.locator(".talk .pair canvas[data-frame-index]").nth(1).waitFor({ timeout: 60_000 });
  await page.getByRole("button", { name: "Record", exact: true }).click();
  await page.locator('.talk[data-phase="recording"]').waitFor();
  await page.waitForTimeout(3000);
  await page.getByLabel("What the talk is about now").selectOption({ index: 1 });
  await pictures.first().focus();
  await page.keyboard.press("Shift+ArrowLeft");
  await page.waitForTimeout(1500);
  await page.getByRole("button", { name: "Ring" }).click();
  const box = await pictures.first().boundingBox();
  if (!box) throw new Error("no picture");
  await page.mouse.move(box.x + box.width * 0.4, box.y + box.height * 0.35);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.6, box.y + box.height * 0.6, { steps: 8 });
  await page.mouse.up();
  await page.getByRole("button", { name: "Ring" }).click();
  await page.waitForTimeout(4000);
  await page.getByRole("button", { name: "Pause" }).click();
  await page.waitForTimeout(1300);
  await page.getByRole("button", { name: "Go on" }).click();
  await page.getByLabel("What the talk is about now").selectOption({ index: 2 });
  await pictures.first().hover();
  await page.keyboard.down("Control");
  await page.mouse.wheel(0, -400);
  await page.keyboard.up("Control");
  await page.waitForTimeout(3000);
  await pictures.first().focus();
  await page.keyboard.press("Space");
  await page.waitForTimeout(4000);
  await page.keyboard.press("Space");
  await page.waitForTimeout(12_000);
  await page.getByRole("button", { name: "End and keep" }).click();
  await page.getByRole("link", { name: "Look at it" }).waitFor({ timeout: 30_000 });
  const told = await page.evaluate(() => (window as unknown as { told: Told }).told);
  await page.getByRole("link", { name: "Look at it" }).click();
  await page.waitForURL(/\/walkthroughs\//);
  const [, playerId = "", walkthroughId = ""] = /\/players\/([0-9a-f-]{36})\/walkthroughs\/([0-9a-f-]{36})/.exec(page.url()) ?? [];
  return { walkthroughId, playerId, told };
}

async function send(page: Page): Promise<void> {
  await page.waitForLoadState("networkidle");
  await page.getByLabel("Words with their times, as WebVTT").fill(`WEBVTT\n\n00:00.000 --> 00:02.800\n${WORDS[0]}`);
  await page.getByRole("button", { name: "Keep the captions" }).click();
  await page.getByText("One line of captions is kept.").waitFor();
  await page.getByLabel("With which note").selectOption("");
  await page.getByRole("button", { name: "Send to the family" }).click();
  await page.getByRole("button", { name: "Take it back" }).waitFor();
}

async function takeFilm(page: Page, walkthroughId: string): Promise<void> {
  await page.getByRole("button", { name: "Make a film of it" }).click();
  for (let i = 0; i < 120; i++) {
    const film = await page.request.get(`${HOUSE}/api/walkthroughs/${walkthroughId}/film`);
    if (film.ok()) return writeFile(path.join(FOLDER, "film.mp4"), await film.body());
    await page.waitForTimeout(2000);
  }
  throw new Error("the film was not made within four minutes");
}

async function takeParcel(page: Page, walkthroughId: string): Promise<void> {
  const parcel = await page.request.get(`${HOUSE}/api/walkthroughs/${walkthroughId}/parcel`);
  await writeFile(path.join(FOLDER, "parcel.zip"), await parcel.body());
  execFileSync("unzip", ["-o", "-q", path.join(FOLDER, "parcel.zip"), "-d", path.join(FOLDER, "parcel")]);
}

/** What the microphone heard while the recorder ran, cut where it paused: as the voice file ought to be. */
function oughtToBe({ runs, heard }: Told): { readonly sound: Float32Array; readonly jointAt: number } {
  const rate = heard[0]?.rate ?? RATE;
  const firstMs = heard[0]?.stampMs ?? 0;
  // Each piece has its own time: one that was not listened to in time leaves silence. None came before it was heard.
  const all = new Float32Array(Math.ceil((((heard.at(-1)?.stampMs ?? 0) - firstMs) / 1000 + 1) * rate));
  for (const { stampMs, samples } of heard) all.set(samples.map((it) => it / 32_767), Math.round(((stampMs - firstMs) / 1000) * rate));
  const beganAt = Math.min(...heard.map(({ at, stampMs }) => at - (stampMs - firstMs)));
  const placeOf = (at: number) => Math.max(0, Math.round(((at - beganAt) / 1000) * rate));
  const ends = runs.filter(({ kind }) => kind === "pause" || kind === "stop");
  const parts = runs.filter(({ kind }) => kind === "start" || kind === "resume").map(({ at }, i) => all.subarray(placeOf(at), placeOf(ends[i]?.at ?? Infinity)));
  const sound = new Float32Array(parts.reduce((sum, it) => sum + it.length, 0));
  parts.reduce((at, part) => (sound.set(part, at), at + part.length), 0);
  if (rate !== RATE) throw new Error(`the microphone ran at ${rate}`);
  return { sound, jointAt: parts[0]?.length ?? 0 };
}

const PIECE = RATE / 2;

/** How far one sound lies behind another along their length, where somebody speaks. */
function compare(words: string, sound: Float32Array, other: Float32Array): number {
  const lags: { at: number; ms: number; likeness: number; gainDb: number }[] = [];
  for (let at = 0; at + PIECE <= Math.min(sound.length, other.length); at += RATE) {
    if (levelDb(sound, at, PIECE) < -45) continue;
    const { samples, likeness, gainDb } = bestLag(sound, at, PIECE, other, at, RATE / 4);
    lags.push({ at: at / RATE, ms: (samples / RATE) * 1000, likeness, gainDb });
  }
  const sure = lags.filter(({ likeness }) => likeness > 0.5);
  const middle = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? NaN;
  const mean = (values: readonly number[]) => values.reduce((sum, it) => sum + it, 0) / values.length;
  const [t, y] = [mean(sure.map(({ at }) => at)), mean(sure.map(({ ms }) => ms))];
  const slope = sure.reduce((sum, it) => sum + (it.at - t) * (it.ms - y), 0) / sure.reduce((sum, it) => sum + (it.at - t) ** 2, 1e-9);
  console.log(
    `${words}: apart ${middle(sure.map(({ ms }) => ms)).toFixed(1)} ms (${Math.min(...sure.map(({ ms }) => ms)).toFixed(1)} to ${Math.max(...sure.map(({ ms }) => ms)).toFixed(1)}), ` +
      `${(slope * 60).toFixed(1)} ms a minute, likeness ${middle(sure.map(({ likeness }) => likeness)).toFixed(3)} (${sure.length} of ${lags.length} stretches), gain ${middle(sure.map(({ gainDb }) => gainDb)).toFixed(1)} dB`,
  );
  if (process.argv.includes("--each")) console.log(sure.map(({ at, ms }) => `${at} s ${ms.toFixed(1)}`).join(", "));
  return middle(sure.map(({ ms }) => ms));
}

/** A sound so many milliseconds earlier. */
function moved(sound: Float32Array, ms: number): Float32Array {
  const by = Math.round((ms / 1000) * RATE);
  const to = new Float32Array(sound.length);
  for (let i = 0; i < to.length; i++) to[i] = sound[i + by] ?? 0;
  return to;
}

function sayLoudness(words: string, file: string): void {
  const { lufs, truePeakDb, clipped } = loudnessOf(file);
  console.log(`${words}: ${lufs} LUFS, true peak ${truePeakDb} dB, ${clipped} samples at full scale`);
}

async function draw(film: string, sounds: Readonly<Record<string, Float32Array>>): Promise<void> {
  for (const [name, sound] of Object.entries(sounds)) await writeFile(path.join(FOLDER, `spectrum-${name}.png`), spectrum(sound));
  execFileSync("ffmpeg", ["-v", "error", "-y", "-i", film, "-vf", "fps=1/2,scale=640:-2,tile=4x5", "-frames:v", "1", path.join(FOLDER, "frames.png")]);
}

async function main(): Promise<void> {
  await rm(FOLDER, { recursive: true, force: true });
  await mkdir(FOLDER, { recursive: true });
  const heard = speak();
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM_PATH ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu", "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream", `--use-file-for-fake-audio-capture=${heard}`, "--autoplay-policy=no-user-gesture-required"],
  });
  try {
    const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
    page.on("dialog", (dialog) => void dialog.accept());
    await page.addInitScript(LISTEN);
    const { walkthroughId, playerId, told } = await record(page);
    await send(page);
    console.log(`Recorded at ${HOUSE}/family/${playerId}/walkthroughs/${walkthroughId}`);
    await takeFilm(page, walkthroughId);
    await takeParcel(page, walkthroughId);
    const [film, voice] = [path.join(FOLDER, "film.mp4"), path.join(FOLDER, "parcel", "voice.webm")];
    const { sound: ought, jointAt } = oughtToBe(told);
    const [voiceSound, filmSound] = [decode(voice), decode(film)];
    console.log(`Length: heard ${(ought.length / RATE).toFixed(2)} s, voice ${(voiceSound.length / RATE).toFixed(2)} s, film ${(filmSound.length / RATE).toFixed(2)} s`);
    const voiceMs = compare("Voice file behind what the microphone heard by the list's clock", voiceSound, ought);
    compare("Film behind the voice file", filmSound, voiceSound);
    const first = RATE / 5;
    console.log(`First fifth of a second: heard ${levelDb(ought, 0, first).toFixed(1)} dB, voice ${levelDb(voiceSound, 0, first).toFixed(1)} dB, film ${levelDb(filmSound, 0, first).toFixed(1)} dB`);
    console.log(`Where it paused: a step ${clickAt(voiceSound, jointAt).toFixed(1)} times those of speech in the voice, ${clickAt(filmSound, jointAt).toFixed(1)} in the film`);
    console.log(`Gaps: voice ${JSON.stringify(gapsIn(voiceSound, moved(ought, voiceMs)))}, film ${JSON.stringify(gapsIn(filmSound, voiceSound))}`);
    sayLoudness("Microphone", path.join(FOLDER, "microphone.wav"));
    sayLoudness("Voice file", voice);
    sayLoudness("Film", film);
    await draw(film, { heard: ought, voice: voiceSound, film: filmSound });
    console.log(`To look at: ${FOLDER} (${(await readdir(FOLDER)).join(", ")})`);
  } finally {
    await browser.close();
  }
}

await main();
