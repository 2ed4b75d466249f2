import { open } from "node:fs/promises";
import { z } from "zod";
import { settings } from "../settings";
import { runTool, ToolFailed } from "../video/run-tool";

/** Most bytes of a voice: half an hour at 128 kilobits a second. */
export const MOST_VOICE_BYTES = 30 * 1024 ** 2;
const MOST_VOICE_SECONDS = 31 * 60;

/** Bytes that are no voice that can be kept; the sentence is for who sent them. */
export class VoiceRefused extends Error {}

export interface KeptVoice {
  readonly type: "audio/webm" | "audio/mp4";
  readonly extension: "webm" | "m4a";
  /** Worked out from its last packet: what a recorder writes says nothing of it. */
  readonly durationMs: number;
}

const answer = z.object({
  streams: z.array(z.object({ codec_type: z.string().optional(), codec_name: z.string().optional() })),
  format: z.object({ duration: z.coerce.number().optional() }),
});
const KINDS = { webm: { demuxer: "matroska", codecs: ["opus"] }, ogg: { demuxer: "ogg", codecs: ["opus"] }, mp4: { demuxer: "mov", codecs: ["aac", "opus"] } } as const;

/**
 * Makes of what a browser recorded a file of known length in which one can go to any instant: the sound itself stays as it is,
 * everything else that was in the file goes. Bytes are hostile until looked at.
 * @param source a file of this machine @param targetOf where to write, by extension
 * @throws VoiceRefused when it is no recording of one voice
 */
export async function keepVoice(source: string, targetOf: (extension: KeptVoice["extension"]) => string): Promise<KeptVoice> {
  const kind = KINDS[await kindOf(source)];
  const input = ["-protocol_whitelist", "file", "-f", kind.demuxer, "-i", `file:${source}`];
  const { streams } = await look(input);
  const [voice] = streams;
  if (streams.length !== 1 || voice?.codec_type !== "audio" || !(kind.codecs as readonly string[]).includes(voice.codec_name ?? "")) throw new VoiceRefused("This is not a recording of one voice.");
  const isWebm = kind.demuxer !== "mov";
  const extension = isWebm ? "webm" : "m4a";
  const target = targetOf(extension);
  const kept = isWebm ? ["-f", "webm", "-cues_to_front", "1", "-reserve_index_space", "100k"] : ["-f", "mp4", "-movflags", "+faststart"];
  const args = ["-nostdin", "-v", "error", "-y", ...input, "-map", "0:a:0", "-map_metadata", "-1", "-map_chapters", "-1", "-c", "copy", ...kept, `file:${target}`];
  await runTool(settings().FFMPEG_PATH, args, { timeMs: 60_000, outputBytes: 100_000 }).catch(refuseBroken);
  const { format } = await look(["-protocol_whitelist", "file", "-f", isWebm ? "matroska" : "mov", "-i", `file:${target}`]);
  const seconds = format.duration ?? 0;
  if (!(seconds > 0)) throw new VoiceRefused("There is no sound in this recording.");
  if (seconds > MOST_VOICE_SECONDS) throw new VoiceRefused("A recording may last half an hour at most.");
  return { type: isWebm ? "audio/webm" : "audio/mp4", extension, durationMs: Math.round(seconds * 1000) };
}

async function look(input: readonly string[]): Promise<z.infer<typeof answer>> {
  const output = await runTool(settings().FFPROBE_PATH, ["-v", "error", "-print_format", "json", "-show_format", "-show_streams", ...input], { timeMs: 30_000, outputBytes: 1_000_000 }).catch(refuseBroken);
  return answer.parse(JSON.parse(output.toString("utf8")));
}

function refuseBroken(error: unknown): never {
  // A tool that is not there is our own trouble; one that gives up on the bytes tells of them.
  if (error instanceof ToolFailed && error.exitCode !== null) throw new VoiceRefused("This recording cannot be read.");
  throw error;
}

/** By its first bytes: EBML, Ogg, or a box named ftyp. */
async function kindOf(source: string): Promise<keyof typeof KINDS> {
  const file = await open(source, "r");
  try {
    const { buffer } = await file.read(Buffer.alloc(12), 0, 12, 0);
    if (buffer.readUInt32BE(0) === 0x1a45dfa3) return "webm";
    if (buffer.toString("latin1", 0, 4) === "OggS") return "ogg";
    if (buffer.toString("latin1", 4, 8) === "ftyp") return "mp4";
    throw new VoiceRefused("This is not a recording of one voice.");
  } finally {
    await file.close();
  }
}
