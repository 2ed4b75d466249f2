import { execFileSync } from "node:child_process";
import path from "node:path";
import { afterAll, expect, test } from "vitest";
import { makeVoice } from "@/lib/platform/video/make-film";
import { SPEECH_LUFS } from "@/lib/platform/voice/even-loudness";
import { decode, loudnessOf } from "../bench/sound";
import { filmRoom } from "./video-files";

const room = filmRoom();
afterAll(room.remove);

/** Something like speech: a gliding tone that comes and goes, with short blows on it, so loud. */
function spoken(name: string, gainDb: number): string {
  const file = path.join(room.folder, `${name}.webm`);
  const sound = `aevalsrc='(0.25*sin(2*PI*(150+60*sin(3*t))*t)+0.5*lt(mod(t\\,1)\\,0.01)*sin(2*PI*400*t))*(0.3+0.7*gt(sin(5*t)\\,0))':s=48000:d=8,volume=${gainDb}dB`;
  execFileSync("ffmpeg", ["-v", "error", "-y", "-f", "lavfi", "-i", sound, "-c:a", "libopus", "-b:a", "32k", "-f", "webm", file]);
  return file;
}
const partsOf = (file: string) => [{ file: { path: file, container: "webm" as const }, fromMs: 0, toMs: 4000 }, { file: { path: file, container: "webm" as const }, fromMs: 4000, toMs: 8000 }];

test("a voice that is far too quiet, and one that is far too loud, are given out as loud as speech ought to be, without a peak beyond full scale", async () => {
  for (const [name, gainDb] of [["quiet", -22], ["loud", 6]] as const) {
    const target = path.join(room.folder, `${name}-even.webm`);
    await makeVoice(partsOf(spoken(name, gainDb)), target);
    const { lufs, truePeakDb } = loudnessOf(target);
    expect(Math.abs(lufs - SPEECH_LUFS), name).toBeLessThan(1);
    expect(truePeakDb, name).toBeLessThanOrEqual(-0.5);
    expect(Math.abs(decode(target).length / 48_000 - 8)).toBeLessThan(0.05);
  }
}, 120_000);

test("where nobody speaks, silence stays silence", async () => {
  const target = path.join(room.folder, "silence.webm");
  await makeVoice([{ file: null, fromMs: 0, toMs: 2000 }], target);
  expect(Math.max(...decode(target))).toBeLessThan(0.001);
}, 120_000);
