import type { EncodedPacket } from "mediabunny";
import { ToldProblem } from "./told-problem";
import { mostEncodedBytes } from "./byte-budget";
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

/** A film as it is opened here: its frames, and how it must be turned to stand upright, clockwise. */
export interface OpenedFilm extends SteppingCopy {
  readonly turnDeg: 0 | 90 | 180 | 270;
  readonly widthPx: number;
  readonly heightPx: number;
}

/**
 * Lists the packets of a film, of a stepping copy or as it came from the phone.
 * @throws ToldProblem when there are no pictures in it that can be stepped
 */
export async function openFilm(blob: Blob): Promise<OpenedFilm> {
  const { ALL_FORMATS, BlobSource, BufferSource, EncodedPacketSink, Input } = await import("mediabunny");
  const source = blob.size <= mostEncodedBytes ? new BufferSource(await blob.arrayBuffer()) : new BlobSource(blob);
  const input = new Input({ source, formats: ALL_FORMATS });
  try {
    const track = await input.getPrimaryVideoTrack();
    const config = await track?.getDecoderConfig();
    if (!track || !config) throw new ToldProblem("This clip holds no pictures that can be stepped.");
    const sink = new EncodedPacketSink(track);
    const packets: EncodedPacket[] = [];
    for await (const packet of sink.packets(undefined, undefined, { metadataOnly: true })) packets.push(packet);

    const keys: EncodedPacket[] = [];
    const sizes: number[] = [];
    const firsts: number[] = [];
    const listed = packets.map((packet) => {
      if (packet.type === "key" || keys.length === 0) {
        keys.push(packet);
        sizes.push(0);
        firsts.push(packet.microsecondTimestamp);
      }
      const group = keys.length - 1;
      sizes[group] = (sizes[group] ?? 0) + 1;
      firsts[group] = Math.min(firsts[group] ?? 0, packet.microsecondTimestamp);
      return { microseconds: packet.microsecondTimestamp, group };
    });
    const readOne = async (group: number): Promise<EncodedPacket[]> => {
      const key = keys[group];
      if (!key) throw new RangeError(`no group ${group} among ${keys.length}`);
      const read: EncodedPacket[] = [];
      let packet = await sink.getPacket(key.timestamp);
      while (packet && read.length < (sizes[group] ?? 0)) {
        read.push(packet);
        packet = read.length < (sizes[group] ?? 0) ? await sink.getNextPacket(packet) : null;
      }
      return read;
    };
    return {
      config,
      frames: listed.sort((a, b) => a.microseconds - b.microseconds),
      groupCount: keys.length,
      turnDeg: await track.getRotation(),
      widthPx: await track.getDisplayWidth(),
      heightPx: await track.getDisplayHeight(),
      async readGroup(group) {
        // Pictures shown before their own key frame lean on the group before it.
        const leans = group > 0 && (firsts[group] ?? 0) < (keys[group]?.microsecondTimestamp ?? 0);
        return leans ? [...(await readOne(group - 1)), ...(await readOne(group))] : readOne(group);
      },
      close: () => input.dispose(),
    };
  } catch (problem) {
    input.dispose();
    throw problem;
  }
}

/**
 * Opens a stepping copy and matches its frames to the clip's own times by index.
 * @throws ToldProblem when the copy has other frames or other times than the clip
 */
export async function readSteppingCopy(blob: Blob, times: FrameTimes): Promise<SteppingCopy> {
  const film = await openFilm(blob);
  try {
    refuseOtherFrames(film.frames, times);
    return film;
  } catch (problem) {
    film.close();
    throw problem;
  }
}

/** @throws ToldProblem when count or spacing differs: then a frame shown would not be the frame that is measured */
export function refuseOtherFrames(frames: readonly Pick<CopyFrame, "microseconds">[], times: FrameTimes): void {
  const { ticks, timeBaseNum, timeBaseDen } = times;
  if (frames.length !== ticks.length)
    throw new ToldProblem(`The stepping copy has ${frames.length} frames and the clip ${ticks.length}, so it cannot be measured. The clip itself is kept; make its copy anew.`);
  const toleranceMicroseconds = Math.max(1000, (medianIntervalSeconds(times) || 0) * 1e6) / 2;
  const start = frames[0]?.microseconds ?? 0;
  frames.forEach((frame, i) => {
    const own = (((ticks[i] ?? 0) - (ticks[0] ?? 0)) * timeBaseNum * 1e6) / timeBaseDen;
    if (Math.abs(frame.microseconds - start - own) > toleranceMicroseconds)
      throw new ToldProblem(`Frame ${i + 1} of the stepping copy stands at another time than in the clip, so it cannot be measured. The clip itself is kept; make its copy anew.`);
  });
}
