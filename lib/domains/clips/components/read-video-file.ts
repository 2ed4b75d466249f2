/** What the browser can tell of a video before it is sent. */
export interface VideoFileFacts {
  readonly seconds: number;
  readonly fps: number;
}

/** Files larger than this are not hashed in the browser: it would have to hold them whole. */
const MOST_HASHED_BYTES = 256 * 1024 ** 2;

/** Length and rate of a chosen video; null when the browser cannot read it. */
export async function readVideoFile(file: File): Promise<VideoFileFacts | null> {
  const { ALL_FORMATS, BlobSource, Input } = await import("mediabunny");
  const input = new Input({ source: new BlobSource(file), formats: ALL_FORMATS });
  try {
    const track = await input.getPrimaryVideoTrack();
    if (!track) return null;
    const { averagePacketRate } = await track.computePacketStats(120);
    return { seconds: await track.computeDuration(), fps: Math.round(averagePacketRate) };
  } catch {
    return null;
  } finally {
    input.dispose();
  }
}

/** SHA-256 of a file, hex; null where the browser may not (http) or should not (large) work it out. */
export async function hashFile(file: File): Promise<string | null> {
  if (file.size > MOST_HASHED_BYTES || !globalThis.crypto?.subtle) return null;
  const digest = await crypto.subtle.digest("SHA-256", await file.arrayBuffer());
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
}
