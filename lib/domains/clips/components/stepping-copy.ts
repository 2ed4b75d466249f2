import type { EncodedPacket } from "mediabunny";
import { medianIntervalSeconds, type FrameTimes } from "@/lib/core/frame-times";

/** One frame of the stepping copy, in order of presentation. */
export interface CopyFrame {
  /** Time as the decoder gives it back; the key by which its pictures are known. */
  readonly microseconds: number;
  /** Group of pictures that must be decoded to see it. */
  readonly group: number;
}

/** The stepping copy, its frames matched by index to the clip's own. */
export interface SteppingCopy {
  readonly config: VideoDecoderConfig;
  readonly frames: readonly CopyFrame[];
  readonly groupCount: number;
  /** The packets of one group in the order in which they must be decoded. */
  readGroup(group: number): Promise<readonly EncodedPacket[]>;
  close(): void;
}

/**
 * Lists the packets of a stepping copy and matches them to the clip's frame times by index.
 * @throws Error with a sentence when the copy has other frames or other times than the clip
 */
export async function readSteppingCopy(blob: Blob, times: FrameTimes): Promise<SteppingCopy> {
  const { BlobSource, EncodedPacketSink, Input, MP4, QTFF } = await import("mediabunny");
  const input = new Input({ source: new BlobSource(blob), formats: [MP4, QTFF] });
  try {
    const track = await input.getPrimaryVideoTrack();
    const config = await track?.getDecoderConfig();
    if (!track || !config) throw new Error("This clip holds no pictures that can be stepped.");
    const sink = new EncodedPacketSink(track);
    const packets: EncodedPacket[] = [];
    for await (const packet of sink.packets(undefined, undefined, { metadataOnly: true })) packets.push(packet);

    const keys: EncodedPacket[] = [];
    const sizes: number[] = [];
    const listed = packets.map((packet) => {
      if (packet.type === "key" || keys.length === 0) {
        keys.push(packet);
        sizes.push(0);
      }
      const group = keys.length - 1;
      sizes[group] = (sizes[group] ?? 0) + 1;
      return { microseconds: packet.microsecondTimestamp, group };
    });
    const frames = listed.sort((a, b) => a.microseconds - b.microseconds);
    refuseOtherFrames(frames, times);
    return {
      config,
      frames,
      groupCount: keys.length,
      async readGroup(group) {
        const key = keys[group];
        if (!key) throw new RangeError(`no group ${group} among ${keys.length}`);
        const read: EncodedPacket[] = [];
        let packet = await sink.getPacket(key.timestamp);
        while (packet && read.length < (sizes[group] ?? 0)) {
          read.push(packet);
          packet = read.length < (sizes[group] ?? 0) ? await sink.getNextPacket(packet) : null;
        }
        return read;
      },
      close: () => input.dispose(),
    };
  } catch (problem) {
    input.dispose();
    throw problem;
  }
}

/** @throws Error when count or spacing differs: then a frame shown would not be the frame that is measured */
export function refuseOtherFrames(frames: readonly Pick<CopyFrame, "microseconds">[], times: FrameTimes): void {
  const { ticks, timeBaseNum, timeBaseDen } = times;
  if (frames.length !== ticks.length)
    throw new Error(`The stepping copy has ${frames.length} frames and the clip ${ticks.length}, so it cannot be measured. The clip itself is kept; make its copy anew.`);
  const toleranceMicroseconds = Math.max(1000, (medianIntervalSeconds(times) || 0) * 1e6) / 2;
  const start = frames[0]?.microseconds ?? 0;
  frames.forEach((frame, i) => {
    const own = (((ticks[i] ?? 0) - (ticks[0] ?? 0)) * timeBaseNum * 1e6) / timeBaseDen;
    if (Math.abs(frame.microseconds - start - own) > toleranceMicroseconds)
      throw new Error(`Frame ${i + 1} of the stepping copy stands at another time than in the clip, so it cannot be measured. The clip itself is kept; make its copy anew.`);
  });
}
