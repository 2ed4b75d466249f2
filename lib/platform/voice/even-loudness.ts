import { settings } from "../settings";
import { runTool } from "../video/run-tool";
import { joinVoices, type VoicePart } from "./join-voices";

/** Loudness of speech that is fetched over the net, and the highest true peak: AES TD1008.1.21-9 (−18 LUFS, −1 dBTP). */
export const SPEECH_LUFS = -18;
/** The limiter looks at samples; between them, and after the coding, a peak is up to a decibel higher. */
const LIMIT_DB = -2;
/** What is quieter than this is a room without a voice and is left as it is. */
const LEAST_LUFS = -55;
const MOST_GAIN_DB = 24;
const BYTES_A_SECOND = 2_000;

/** How loud voices are, laid one after another, in LUFS as EBU R 128 measures them; null where there is nothing to be heard. */
async function loudnessOf(parts: readonly VoicePart[]): Promise<number | null> {
  const { inputs, filter } = joinVoices(parts, 0);
  const seconds = parts.reduce((sum, { fromMs, toMs }) => sum + (toMs - fromMs) / 1000, 0);
  const args = [
    "-nostdin", "-v", "error", "-threads", "2", ...inputs, "-filter_complex", `${filter};[voice]ebur128=metadata=1,ametadata=mode=print:key=lavfi.r128.I:file=pipe\\\\:1[measured]`,
    "-map", "[measured]", "-f", "null", "-",
  ];
  const told = await runTool(settings().FFMPEG_PATH, args, { timeMs: 10 * 60_000, outputBytes: 100_000 + Math.ceil(seconds) * BYTES_A_SECOND });
  const lufs = Number(/.*lavfi\.r128\.I=(-?[\d.]+)/s.exec(told.toString("latin1"))?.[1]);
  return Number.isFinite(lufs) && lufs > LEAST_LUFS ? lufs : null;
}

/** The filter that brings voices to one loudness, whoever spoke into whatever; with no peak beyond what a phone can play. */
export async function evenLoudness(parts: readonly VoicePart[]): Promise<string> {
  const lufs = parts.some(({ file }) => file !== null) ? await loudnessOf(parts) : null;
  if (lufs === null) return "anull";
  const gain = Math.min(MOST_GAIN_DB, SPEECH_LUFS - lufs);
  return `volume=${gain.toFixed(2)}dB,alimiter=limit=${(10 ** (LIMIT_DB / 20)).toFixed(4)}:attack=5:release=50:level=disabled:latency=1`;
}
