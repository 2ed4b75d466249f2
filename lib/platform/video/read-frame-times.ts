import type { FrameTimes } from "@/lib/core/frame-times";
import { settings } from "../settings";
import type { VideoProbe } from "./probe";
import { VIDEO_LIMITS, VideoRefused } from "./refusal";
import { inputOptions, runTool } from "./run-tool";

/**
 * When each frame is shown, from the packets, in whole ticks of the file's own time base, in order of presentation.
 * Packets that an edit list takes away are left out. @throws VideoRefused
 */
export async function readFrameTimes(path: string, probe: VideoProbe): Promise<FrameTimes> {
  const packets = await readPackets(path, probe);
  if (packets.length === 0) throw new VideoRefused("no-frames");
  if (probe.promisedFrames !== null && packets.length < probe.promisedFrames) await refuseCut(path, probe, probe.promisedFrames);
  const shown = packets.filter((it) => !it.isTakenAway);
  if (shown.length === 0) throw new VideoRefused("no-frames");
  const ticks = shown.map((it) => it.tick).sort((a, b) => a - b);
  const isUsable = ticks.every((tick, i) => Number.isSafeInteger(tick) && tick > (ticks[i - 1] ?? -Infinity));
  if (!isUsable) throw new VideoRefused("times-unusable");
  const spanS = (((ticks.at(-1) ?? 0) - (ticks[0] ?? 0)) * probe.timeBaseNum) / probe.timeBaseDen;
  if (spanS > VIDEO_LIMITS.seconds) throw new VideoRefused("too-long");
  if (ticks.length - 1 > spanS * VIDEO_LIMITS.framesASecond) throw new VideoRefused("too-many-frames");
  return { timeBaseNum: probe.timeBaseNum, timeBaseDen: probe.timeBaseDen, ticks };
}

/** An edit list may leave packets out; what is not there without the list either is missing. @throws VideoRefused "cut" */
async function refuseCut(path: string, probe: VideoProbe, promised: number): Promise<void> {
  const all = probe.container === "webm" ? [] : await readPackets(path, probe, ["-ignore_editlist", "1"]);
  if (all.length < promised) throw new VideoRefused("cut");
}

async function readPackets(path: string, { stream, container }: VideoProbe, more: readonly string[] = []): Promise<{ tick: number; isTakenAway: boolean }[]> {
  const args = ["-v", "error", "-select_streams", String(stream), "-show_entries", "packet=pts,flags", "-of", "csv=p=0", ...more, ...inputOptions(path, container)];
  const output = await runTool(settings().FFPROBE_PATH, args, { timeMs: 120_000, outputBytes: 64_000_000 });
  const lines = output.toString("latin1").split("\n").filter((line) => line !== "");
  if (lines.length > VIDEO_LIMITS.frames) throw new VideoRefused("too-long");
  return lines.map((line) => {
    const [pts = "", flags = ""] = line.split(",");
    return { tick: /^-?\d+$/.test(pts) ? Number(pts) : NaN, isTakenAway: flags.includes("D") };
  });
}
