import { mkdir } from "node:fs/promises";
import path from "node:path";
import { settings } from "../settings";
import { evenLoudness } from "../voice/even-loudness";
import { joinVoices, type VoicePart } from "../voice/join-voices";
import { ScenePainter, type Scene } from "./paint";
import { inputOptions, runTool } from "./run-tool";

const QUIET = ["-v", "error", "-y", "-threads", "2"] as const;

/**
 * Frames of a stepping copy as JPEGs of its own size. One pass: frames are counted, not looked up by time.
 * @param frames their indexes, in any order @returns path by index
 */
export async function takeFrames(steppingPath: string, frames: readonly number[], folder: string): Promise<ReadonlyMap<number, string>> {
  const ranges = rangesOf([...new Set(frames)].sort((a, b) => a - b));
  const wanted = ranges.flatMap(([from, to]) => Array.from({ length: to - from + 1 }, (_, i) => from + i));
  if (wanted.length === 0) return new Map();
  await mkdir(folder, { recursive: true });
  const chosen = ranges.map(([from, to]) => `between(n\\,${from}\\,${to})`).join("+");
  const args = [
    "-nostdin", ...QUIET, ...inputOptions(steppingPath), "-map", "0:v:0", "-vf", `select=${chosen}`, "-fps_mode", "passthrough", "-frames:v", String(wanted.length),
    "-q:v", "3", "-f", "image2", `file:${folder}/frame-%06d.jpg`,
  ];
  await runTool(settings().FFMPEG_PATH, args, { timeMs: 10 * 60_000, outputBytes: 1_000_000 });
  return new Map(wanted.map((frame, i) => [frame, path.join(folder, `frame-${String(i + 1).padStart(6, "0")}.jpg`)]));
}

/** The tool reads no longer sums than about a hundred parts. */
const MOST_RANGES = 60;

/** Runs of neighbouring numbers, first and last; where there are too many, those with the least between them become one, and what lies between comes along. */
export function rangesOf(sorted: readonly number[]): readonly (readonly [number, number])[] {
  const gaps = sorted.slice(1).map((it, i) => it - (sorted[i] ?? it));
  const least = [...gaps].sort((a, b) => b - a)[MOST_RANGES - 1] ?? 1;
  const ranges: [number, number][] = [];
  for (const it of sorted) {
    const last = ranges.at(-1);
    if (last && (it - last[1] === 1 || it - last[1] <= (least > 1 ? least : 1))) last[1] = it;
    else ranges.push([it, it]);
  }
  return ranges;
}

export const FILM_FPS = 30;

/** A film of scenes, one for each thirtieth of a second, with voices laid one after another under it. */
export async function makeFilm(size: { readonly width: number; readonly height: number }, frameCount: number, sceneAt: (index: number) => Scene, voices: readonly VoicePart[], target: string): Promise<void> {
  const painter = new ScenePainter(size.width, size.height);
  const scenes = async function* () {
    let before = "";
    let bytes = Buffer.alloc(0);
    for (let i = 0; i < frameCount; i++) {
      const scene = sceneAt(i);
      const key = JSON.stringify(scene);
      if (key !== before) {
        await painter.paint(scene);
        bytes = Buffer.from(painter.bytes());
        before = key;
      }
      yield bytes;
    }
  };
  const { inputs, filter } = joinVoices(voices, 1);
  const loudness = await evenLoudness(voices);
  const args = [
    ...QUIET, "-f", "rawvideo", "-pix_fmt", "rgba", "-s", `${size.width}x${size.height}`, "-r", String(FILM_FPS), "-i", "pipe:0", ...inputs,
    "-filter_complex", `${filter};[voice]${loudness}[even]`, "-map", "0:v:0", "-map", "[even]", "-map_metadata", "-1",
    "-pix_fmt", "yuv420p", "-c:v", "libx264", "-preset", "veryfast", "-crf", "23", "-c:a", "aac", "-b:a", "96k", "-movflags", "+faststart", "-shortest", "-f", "mp4", `file:${target}`,
  ];
  await runTool(settings().FFMPEG_PATH, args, { timeMs: 60 * 60_000, outputBytes: 1_000_000, input: scenes() });
}

/** Voices laid one after another as one file of Opus in WebM. */
export async function makeVoice(voices: readonly VoicePart[], target: string): Promise<void> {
  const { inputs, filter } = joinVoices(voices, 0);
  const loudness = await evenLoudness(voices);
  const args = ["-nostdin", ...QUIET, ...inputs, "-filter_complex", `${filter};[voice]${loudness}[even]`, "-map", "[even]", "-map_metadata", "-1", "-c:a", "libopus", "-b:a", "32k", "-f", "webm", `file:${target}`];
  await runTool(settings().FFMPEG_PATH, args, { timeMs: 10 * 60_000, outputBytes: 1_000_000 });
}
