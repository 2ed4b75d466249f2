import { viewerBudget, type ByteBudget, type ByteLease } from "./byte-budget";
import type { FrameSource, Travel } from "./frame-source-type";
import { Listeners } from "./listeners";
import type { SteppingCopy } from "./stepping-copy";

/** Frames kept on each side of the one in hand, when the budget allows. */
const keepFrames = 32;
/** Frames readied ahead of and behind the one in hand. */
const aheadFrames = 24;
const behindFrames = 8;
/** A jump further than this is a seek or a quick scrub: only the wanted frame is decoded until the hand rests so long. */
const jumpFrames = 12;
const restMs = 60;
/** A decoder that gives nothing for so long has run out of room for pictures that are still held. */
const stallMs = 3000;
const mostStalls = 3;

const stopped = "This device stopped decoding the clip. Nothing was lost; please open the page again.";

/** "Frames 97 to 104 of this clip cannot be decoded": from first to last, and how many. */
function lostWords(frames: readonly number[]): string {
  const [first = 0, last = 0] = [frames[0], frames.at(-1)];
  const isOneStretch = last - first + 1 === frames.length;
  return `${isOneStretch ? `Frames ${first + 1} to ${last + 1}` : `${frames.length} frames between ${first + 1} and ${last + 1}`} of this clip cannot be decoded. The others can be stepped, and nothing that was placed is lost.`;
}

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
  private readonly ready = new Listeners<number>();
  private readonly doubted = new Listeners<string | null>();
  private readonly failed = new Listeners<string>();
  /** Groups of pictures that this file cannot give, each after it was tried with two decoders. */
  private readonly broken = new Set<number>();
  private decoder: VideoDecoder | null = null;
  private readonly lease: ByteLease;
  /** Frames kept on each side of the wanted one: as many as the budget allows. */
  private radius = keepFrames;
  /** No more than this after the device ran out of room. */
  private mostRadius = keepFrames;
  /** Bytes of one picture, 0 until one has come. */
  private pictureBytes = 0;
  private wanted = 0;
  private travel: Travel = 1;
  private stretch: { readonly from: number; readonly to: number } | null = null;
  private isPumping = false;
  private isHurried = false;
  private restTimer: ReturnType<typeof setTimeout> | undefined;
  private isClosed = false;
  private stalls = 0;
  /** Pictures that came out of decoders so far. */
  private given = 0;

  constructor(
    private readonly copy: SteppingCopy,
    budget: ByteBudget = viewerBudget,
  ) {
    this.indexOfTime = new Map(copy.frames.map((it, i) => [it.microseconds, i]));
    this.lease = budget.lease(() => this.fit());
  }

  get frameCount(): number {
    return this.copy.frames.length;
  }

  want(frameIndex: number, travel: Travel): void {
    if (Math.abs(frameIndex - this.wanted) > jumpFrames) this.hurry();
    this.wanted = frameIndex;
    if (travel !== 0) this.travel = travel;
    this.trim();
    // What is there is painted first; what will be wanted next is readied after that.
    if (this.pictures.has(frameIndex)) requestAnimationFrame(() => setTimeout(() => void this.pump()));
    else void this.pump();
  }

  alsoWant(stretch: { readonly from: number; readonly to: number } | null): void {
    this.stretch = stretch;
    if (stretch) void this.pump();
  }

  private hurry(): void {
    this.isHurried = true;
    clearTimeout(this.restTimer);
    this.restTimer = setTimeout(() => {
      this.isHurried = false;
      void this.pump();
    }, restMs);
  }

  draw(frameIndex: number, show: (picture: CanvasImageSource) => void): boolean {
    const picture = this.pictures.get(frameIndex);
    if (!picture) return false;
    show(picture);
    return true;
  }

  isLost(frameIndex: number): boolean {
    const group = this.copy.frames[frameIndex]?.group;
    return group !== undefined && this.broken.has(group) && !this.pictures.has(frameIndex);
  }

  onReady(listener: (frameIndex: number) => void): () => void {
    return this.ready.add(listener);
  }

  onDoubt(listener: (sentence: string | null) => void): () => void {
    return this.doubted.add(listener);
  }

  onFailed(listener: (sentence: string) => void): () => void {
    return this.failed.add(listener);
  }

  close(): void {
    this.isClosed = true;
    clearTimeout(this.restTimer);
    this.dropDecoder();
    for (const picture of this.pictures.values()) picture.close();
    this.pictures.clear();
    this.lease.close();
    this.copy.close();
  }

  private async pump(): Promise<void> {
    if (this.isPumping || this.isClosed) return;
    this.isPumping = true;
    let group = this.nextGroup();
    try {
      for (; group !== null && !this.isClosed; group = this.nextGroup()) await this.decode(group);
    } catch {
      this.stumble(group);
    } finally {
      this.isPumping = false;
    }
    if (!this.isClosed && this.stalls < mostStalls && this.nextGroup() !== null) void this.pump();
  }

  /** The group of the wanted frame, else of the nearest frame that lacks its picture, the way of travel first. */
  private nextGroup(): number | null {
    const ahead = this.isHurried ? 0 : Math.min(aheadFrames, this.radius);
    const behind = this.isHurried ? 0 : Math.min(behindFrames, this.radius);
    for (let far = 0; far <= ahead; far += 1) {
      const missing = this.groupIfMissing(this.wanted + far * this.travel);
      if (missing !== null) return missing;
    }
    for (let far = 1; far <= behind; far += 1) {
      const missing = this.groupIfMissing(this.wanted - far * this.travel);
      if (missing !== null) return missing;
    }
    return this.isHurried ? null : this.missingOfStretch();
  }

  /** What somebody else wants, as far as there is room for it beside the frame in hand. */
  private missingOfStretch(): number | null {
    if (!this.stretch) return null;
    const to = Math.min(this.stretch.to, this.wanted + this.radius);
    for (let frame = Math.max(this.stretch.from, this.wanted - this.radius); frame <= to; frame += 1) {
      const missing = this.groupIfMissing(frame);
      if (missing !== null) return missing;
    }
    return null;
  }

  private groupIfMissing(frameIndex: number): number | null {
    const frame = this.copy.frames[frameIndex];
    return !frame || this.pictures.has(frameIndex) || this.broken.has(frame.group) ? null : frame.group;
  }

  private async decode(group: number): Promise<void> {
    const whole = await this.copy.readGroup(group);
    // In a hurry no further than to the wanted frame: what it leans on comes before it.
    const last = this.isHurried ? whole.findIndex((it) => it.microsecondTimestamp === this.copy.frames[this.wanted]?.microseconds) : -1;
    const packets = last >= 0 ? whole.slice(0, last + 1) : whole;
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
    if (this.isClosed || index === undefined || this.pictures.has(index)) return picture.close();
    this.weigh(picture);
    if (Math.abs(index - this.wanted) > this.radius || !this.lease.hold(this.pictureBytes)) return picture.close();
    this.pictures.set(index, picture);
    this.ready.tell(index);
  }

  /** The first picture says how much each takes; all of a clip are of one size. */
  private weigh(picture: VideoFrame): void {
    if (this.pictureBytes > 0) return;
    this.pictureBytes = picture.format ? picture.allocationSize() : picture.codedWidth * picture.codedHeight * 4;
    this.lease.want(this.pictureBytes * Math.min(this.frameCount, 2 * keepFrames + 1));
    this.fit();
  }

  /** The frames on both sides of the wanted one that the share of the budget has room for. */
  private fit(): void {
    if (this.pictureBytes === 0) return;
    this.radius = Math.max(0, Math.min(this.mostRadius, (Math.floor(this.lease.allowedBytes / this.pictureBytes) - 1) >> 1));
    this.trim();
    void this.pump();
  }

  private trim(): void {
    for (const [index, picture] of this.pictures) {
      if (Math.abs(index - this.wanted) <= this.radius) continue;
      picture.close();
      this.pictures.delete(index);
      this.lease.giveBack(this.pictureBytes);
    }
  }

  /**
   * A stalled or broken decoder is replaced, with fewer pictures held. A group that fails a second time is left out and
   * named; a device that gives nothing at all says so.
   */
  private stumble(group: number | null): void {
    this.stalls += 1;
    this.dropDecoder();
    if (this.isClosed) return;
    if (group !== null && this.given > 0 && this.stalls >= 2) return this.leaveOut(group);
    this.mostRadius = Math.max(4, this.radius >> 1);
    this.fit();
    if (this.stalls >= mostStalls) this.failed.tell(stopped);
  }

  private leaveOut(group: number): void {
    this.broken.add(group);
    this.stalls = 0;
    this.doubted.tell(lostWords(this.copy.frames.flatMap((it, i) => (this.broken.has(it.group) ? [i] : []))));
    this.copy.frames.forEach((it, i) => it.group === group && this.ready.tell(i));
  }

  private dropDecoder(): void {
    if (this.decoder && this.decoder.state !== "closed") this.decoder.close();
    this.decoder = null;
  }
}
