/** What the browser can tell of a video before it is sent. */
export interface VideoFileFacts {
  readonly seconds: number;
  /** Frames a second as the file plays, over its first frames. */
  readonly fps: number;
  /** Distances of frames differ by more than a third: variable rate, or slow and normal in one file. */
  readonly isUneven: boolean;
  /** Upright size. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly turnDeg: 0 | 90 | 180 | 270;
  readonly codec: string;
  readonly hasSound: boolean;
  /** Whether this browser can show it before it is sent. */
  readonly canShow: boolean;
}

/** Files larger than this are not hashed in the browser: it would have to hold them whole. */
const MOST_HASHED_BYTES = 256 * 1024 ** 2;
const FRAMES_LOOKED_AT = 240;

/** What a chosen video says of itself; null when the browser cannot read it. */
export async function readVideoFile(file: Blob): Promise<VideoFileFacts | null> {
  const { ALL_FORMATS, BlobSource, EncodedPacketSink, Input } = await import("mediabunny");
  const input = new Input({ source: new BlobSource(file), formats: ALL_FORMATS });
  try {
    const track = await input.getPrimaryVideoTrack();
    if (!track) return null;
    const times: number[] = [];
    for await (const packet of new EncodedPacketSink(track).packets(undefined, undefined, { metadataOnly: true })) {
      times.push(packet.timestamp);
      if (times.length >= FRAMES_LOOKED_AT) break;
    }
    const steps = stepsOf(times);
    const median = steps[steps.length >> 1] ?? 0;
    const odd = steps.filter((step) => Math.abs(step - median) > median / 3).length;
    const span = steps.reduce((sum, step) => sum + step, 0);
    return {
      seconds: await track.computeDuration(),
      fps: span > 0 ? Math.round(steps.length / span) : 0,
      isUneven: odd > steps.length / 10,
      widthPx: await track.getDisplayWidth(),
      heightPx: await track.getDisplayHeight(),
      turnDeg: await track.getRotation(),
      codec: (await track.getCodec()) ?? "unknown",
      hasSound: (await input.getPrimaryAudioTrack()) !== null,
      canShow: await track.canDecode(),
    };
  } catch {
    return null;
  } finally {
    input.dispose();
  }
}

/** Distances of frames in order of presentation, sorted. The last frames that were looked at may lack neighbours that come later in the file. */
function stepsOf(times: readonly number[]): readonly number[] {
  const shown = [...times].sort((a, b) => a - b).slice(0, times.length < FRAMES_LOOKED_AT ? undefined : -8);
  return shown.slice(1).map((time, i) => time - (shown[i] ?? time)).sort((a, b) => a - b);
}

/** SHA-256 of a file, hex; null where the browser may not (http) or should not (large) work it out. */
export async function hashFile(file: Blob): Promise<string | null> {
  if (file.size > MOST_HASHED_BYTES || !globalThis.crypto?.subtle) return null;
  const digest = await crypto.subtle.digest("SHA-256", await file.arrayBuffer());
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
}
