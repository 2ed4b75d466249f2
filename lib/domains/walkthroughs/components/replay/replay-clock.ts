import { lengthMs, placeAt, type Stretch } from "../../rules";

/** What the clock needs of an audio element. */
export interface Voice {
  src: string;
  currentTime: number;
  playbackRate: number;
  readonly paused: boolean;
  readonly ended: boolean;
  readonly readyState: number;
  play(): Promise<void>;
  pause(): void;
}

export interface VoiceOfTake {
  readonly url: string | null;
  readonly lengthMs: number;
}

/** A voice that plays has data for the present instant. */
const HAS_DATA = 2;

/** After a jump the voice waits at most so long for the pictures of where it landed. */
const MOST_WAIT_MS = 1000;

/**
 * The clock of a replay. While a voice is heard the voice is the clock, so that pictures cannot drift from it; where none is (nobody spoke,
 * or the voice has ended) the device's steady clock goes on. After a jump it begins with the pictures, not before them.
 */
export class ReplayClock {
  private at = 0;
  private running = false;
  private before: number | null = null;
  private loaded: string | null = null;
  private speed = 1;
  /** How long it has waited for the pictures since a jump; null while it waits for none. */
  private waitedMs: number | null = null;

  constructor(
    private readonly voice: Voice,
    private readonly stretches: readonly Stretch[],
    private readonly voices: Readonly<Record<string, VoiceOfTake>>,
    private readonly onBlocked: () => void = () => undefined,
  ) {}

  get ms(): number {
    return this.at;
  }

  get isRunning(): boolean {
    return this.running;
  }

  get totalMs(): number {
    return lengthMs(this.stretches);
  }

  play(): void {
    if (this.at >= this.totalMs - 1) this.at = 0;
    this.running = true;
    this.before = null;
    // A voice may begin for the first time only with the tap itself.
    this.waitedMs = null;
    this.align(true);
  }

  hold(): void {
    this.running = false;
    this.before = null;
    this.voice.pause();
  }

  seek(ms: number): void {
    this.at = Math.max(0, Math.min(this.totalMs, ms));
    this.before = null;
    this.waitedMs = 0;
    this.align(true);
  }

  setRate(rate: number): void {
    this.speed = rate;
    this.voice.playbackRate = rate;
  }

  /**
   * Goes on to now. @param steadyMs what the device's steady clock says @param arePicturesThere whether the pictures of the present instant are
   * on the screen @returns the instant of the walkthrough
   */
  turn(steadyMs: number, arePicturesThere = true): number {
    if (!this.running) return this.at;
    const place = placeAt(this.stretches, this.at);
    if (!place) return this.at;
    const passed = this.before === null ? 0 : Math.max(0, steadyMs - this.before);
    this.before = steadyMs;
    if (this.waitsOn(passed, arePicturesThere)) return this.at;
    const { stretch, beginsMs, takeMs, index } = place;
    const heard = this.isHeard(stretch.takeId, takeMs);
    const now = heard === "now" ? Math.max(stretch.fromMs, this.voice.currentTime * 1000) : heard === "soon" ? takeMs : takeMs + passed * this.speed;
    this.at = Math.min(this.totalMs, beginsMs + Math.min(now, stretch.toMs) - stretch.fromMs);
    if (now >= stretch.toMs) {
      if (index === this.stretches.length - 1) this.hold();
      else this.goOn(stretch, this.stretches[index + 1]);
    }
    return this.at;
  }

  /** Waits on for the pictures of where a jump landed, or begins with them. */
  private waitsOn(passedMs: number, arePicturesThere: boolean): boolean {
    if (this.waitedMs === null) return false;
    this.waitedMs += passedMs;
    if (this.waitedMs < MOST_WAIT_MS && !arePicturesThere) return true;
    this.waitedMs = null;
    this.align(true);
    return false;
  }

  /** The next stretch: one that follows in the same take is heard on without a break. */
  private goOn(from: Stretch, to: Stretch | undefined): void {
    const isJump = !(to && to.takeId === from.takeId && Math.abs(to.fromMs - from.toMs) < 1);
    if (isJump) this.waitedMs = 0;
    this.align(isJump);
  }

  private isHeard(takeId: string, takeMs: number): "now" | "soon" | "no" {
    const own = this.voices[takeId];
    if (!own?.url || takeMs >= own.lengthMs - 1 || this.voice.ended) return "no";
    return this.voice.readyState >= HAS_DATA && !this.voice.paused ? "now" : "soon";
  }

  /** Brings the voice to where the clock stands. */
  private align(isSeek: boolean): void {
    const place = placeAt(this.stretches, this.at);
    const own = place && this.voices[place.stretch.takeId];
    if (!place || !own?.url || place.takeMs >= own.lengthMs - 1) return this.voice.pause();
    const isOther = this.loaded !== own.url;
    if (isOther) {
      this.voice.src = own.url;
      this.loaded = own.url;
    }
    if (isSeek || isOther) this.voice.currentTime = place.takeMs / 1000;
    this.voice.playbackRate = this.speed;
    if (this.running && this.waitedMs === null) {
      this.voice.play().catch((error: unknown) => {
        // Another seek interrupts what was begun; only a browser that lets nothing be heard stops the clock.
        if (error instanceof DOMException && error.name === "NotAllowedError") {
          this.hold();
          this.onBlocked();
        }
      });
    } else this.voice.pause();
  }
}
