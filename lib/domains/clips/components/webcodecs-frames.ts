import type { FrameSource, Travel } from "./frame-source-type";
import type { SteppingCopy } from "./stepping-copy";

/** Frames kept on each side of the one in hand, when the budget allows. */
const keepFrames = 32;
/** Frames readied ahead of and behind the one in hand. */
const aheadFrames = 24;
const behindFrames = 8;
/** A decoder that gives nothing for so long has run out of room for pictures that are still held. */
const stallMs = 3000;
const mostStalls = 3;

const stopped = "This device stopped decoding the clip. Nothing was lost; please open the page again.";

/** The decoder settings that work here; null when none does. Software first: its pictures may be held without starving it. */
async function workingConfig(config: VideoDecoderConfig): Promise<VideoDecoderConfig | null> {
  if (typeof VideoDecoder === "undefined") return null;
  for (const hardwareAcceleration of ["prefer-software", "no-preference"] as const) {
    const wish = { ...config, optimizeForLatency: true, hardwareAcceleration };
    const answer = await VideoDecoder.isConfigSupported(wish).catch(() => null);
    if (answer?.supported) return wish;
  }
  return null;
}

export async function canDecode(config: VideoDecoderConfig): Promise<boolean> {
  return (await workingConfig(config)) !== null;
}

/**
 * Exact frames: one decoder, one group of pictures at a time, the wanted one always first, every picture closed once it is
 * far from the frame in hand.
 */
export class WebCodecsFrames implements FrameSource {
  readonly isExact = true;
  private readonly pictures = new Map<number, VideoFrame>();
  private readonly indexOfTime: ReadonlyMap<number, number>;
  private readonly readyListeners = new Set<(frameIndex: number) => void>();
  private readonly failedListeners = new Set<(sentence: string) => void>();
  private decoder: VideoDecoder | null = null;
  private radius = keepFrames;
  private isRadiusFitted = false;
  private wanted = 0;
  private travel: Travel = 1;
  private isPumping = false;
  private isClosed = false;
  private stalls = 0;
  /** Pictures that came out of decoders so far. */
  private given = 0;

  constructor(
    private readonly copy: SteppingCopy,
    private readonly budgetBytes: number,
  ) {
    this.indexOfTime = new Map(copy.frames.map((it, i) => [it.microseconds, i]));
  }

  get frameCount(): number {
    return this.copy.frames.length;
  }

  want(frameIndex: number, travel: Travel): void {
    this.wanted = frameIndex;
    if (travel !== 0) this.travel = travel;
    this.trim();
    void this.pump();
  }

  draw(frameIndex: number, show: (picture: CanvasImageSource) => void): boolean {
    const picture = this.pictures.get(frameIndex);
    if (!picture) return false;
    show(picture);
    return true;
  }

  onReady(listener: (frameIndex: number) => void): () => void {
    this.readyListeners.add(listener);
    return () => this.readyListeners.delete(listener);
  }

  onFailed(listener: (sentence: string) => void): () => void {
    this.failedListeners.add(listener);
    return () => this.failedListeners.delete(listener);
  }

  close(): void {
    this.isClosed = true;
    this.dropDecoder();
    for (const picture of this.pictures.values()) picture.close();
    this.pictures.clear();
    this.copy.close();
  }

  private async pump(): Promise<void> {
    if (this.isPumping || this.isClosed) return;
    this.isPumping = true;
    try {
      for (let group = this.nextGroup(); group !== null && !this.isClosed; group = this.nextGroup()) await this.decode(group);
    } catch {
      this.stumble();
    } finally {
      this.isPumping = false;
    }
    if (!this.isClosed && this.stalls < mostStalls && this.nextGroup() !== null) void this.pump();
  }

  /** The group of the wanted frame, else of the nearest frame that lacks its picture, the way of travel first. */
  private nextGroup(): number | null {
    const ahead = Math.min(aheadFrames, this.radius);
    const behind = Math.min(behindFrames, this.radius);
    for (let far = 0; far <= ahead; far += 1) {
      const missing = this.groupIfMissing(this.wanted + far * this.travel);
      if (missing !== null) return missing;
    }
    for (let far = 1; far <= behind; far += 1) {
      const missing = this.groupIfMissing(this.wanted - far * this.travel);
      if (missing !== null) return missing;
    }
    return null;
  }

  private groupIfMissing(frameIndex: number): number | null {
    const frame = this.copy.frames[frameIndex];
    return !frame || this.pictures.has(frameIndex) ? null : frame.group;
  }

  private async decode(group: number): Promise<void> {
    const packets = await this.copy.readGroup(group);
    const decoder = await this.readyDecoder();
    if (this.isClosed || !decoder) return;
    const before = this.given;
    for (const packet of packets) decoder.decode(packet.toEncodedVideoChunk());
    let timer: ReturnType<typeof setTimeout> | undefined;
    const stall = new Promise<never>((_, refuse) => {
      timer = setTimeout(() => refuse(new Error("stalled")), stallMs);
    });
    await Promise.race([decoder.flush(), stall]).finally(() => clearTimeout(timer));
    if (this.given - before !== packets.length) throw new Error("pictures missing");
    this.stalls = 0;
    this.trim();
  }

  private async readyDecoder(): Promise<VideoDecoder | null> {
    if (this.decoder?.state === "configured") return this.decoder;
    const config = await workingConfig(this.copy.config);
    if (!config || this.isClosed) return null;
    const decoder = new VideoDecoder({
      output: (picture) => this.take(picture),
      error: () => this.dropDecoder(),
    });
    decoder.configure(config);
    this.decoder = decoder;
    return decoder;
  }

  private take(picture: VideoFrame): void {
    this.given += 1;
    const index = this.indexOfTime.get(picture.timestamp);
    if (this.isClosed || index === undefined || Math.abs(index - this.wanted) > this.radius) return picture.close();
    this.fitRadius(picture);
    this.pictures.get(index)?.close();
    this.pictures.set(index, picture);
    for (const listener of this.readyListeners) listener(index);
  }

  /** The first picture says how many the budget holds. A group is larger than one picture, so a few always fit. */
  private fitRadius(picture: VideoFrame): void {
    if (this.isRadiusFitted) return;
    this.isRadiusFitted = true;
    const bytes = picture.format ? picture.allocationSize() : picture.codedWidth * picture.codedHeight * 4;
    this.radius = Math.max(8, Math.min(keepFrames, Math.floor(this.budgetBytes / bytes / 2)));
  }

  private trim(): void {
    for (const [index, picture] of this.pictures) {
      if (Math.abs(index - this.wanted) <= this.radius) continue;
      picture.close();
      this.pictures.delete(index);
    }
  }

  /** A stalled or broken decoder is replaced, with fewer pictures held; after a few times one gives up and says so. */
  private stumble(): void {
    this.stalls += 1;
    this.dropDecoder();
    this.radius = Math.max(4, this.radius >> 1);
    this.trim();
    if (this.stalls >= mostStalls && !this.isClosed) for (const listener of this.failedListeners) listener(stopped);
  }

  private dropDecoder(): void {
    if (this.decoder && this.decoder.state !== "closed") this.decoder.close();
    this.decoder = null;
  }
}
