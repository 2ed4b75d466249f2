import { frameShownAt, seekPlaces } from "./frame-shown";
import type { FrameSource, Travel } from "./frame-source-type";
import { Listeners } from "./listeners";
import { ToldProblem } from "./told-problem";

const noPictures = "This browser cannot show the clip's pictures. Nothing was lost; please try another browser.";

/**
 * The way for browsers that cannot decode frame by frame: a video element is sent to the middle of the wanted frame and its
 * picture is drawn only after the browser says that it has been presented. The time it says is checked against the frame's
 * own: a picture of another frame is never drawn as the one that is wanted. Where the browser does not say the time the
 * source is not exact.
 */
export class VideoElementFrames implements FrameSource {
  readonly isExact: boolean;
  private readonly ready = new Listeners<number>();
  private readonly doubted = new Listeners<string | null>();
  private readonly failed = new Listeners<string>();
  private isDoubted = false;
  private wanted: number | null = null;
  private shown: number | null = null;
  private isSeeking = false;
  private isClosed = false;

  private constructor(
    private readonly video: HTMLVideoElement,
    private readonly url: string,
    private readonly microseconds: readonly number[],
  ) {
    this.isExact = "requestVideoFrameCallback" in video;
  }

  /** @throws ToldProblem when the browser cannot play the clip at all */
  static async open(blob: Blob, microseconds: readonly number[]): Promise<VideoElementFrames> {
    const url = URL.createObjectURL(blob);
    const video = document.createElement("video");
    video.muted = true;
    video.playsInline = true;
    video.preload = "auto";
    const isReady = new Promise<void>((ready, refuse) => {
      video.addEventListener("loadeddata", () => ready(), { once: true });
      video.addEventListener("error", () => refuse(new ToldProblem(noPictures)), { once: true });
    });
    video.src = url;
    try {
      await isReady;
    } catch (problem) {
      URL.revokeObjectURL(url);
      throw problem;
    }
    return new VideoElementFrames(video, url, microseconds);
  }

  get frameCount(): number {
    return this.microseconds.length;
  }

  want(frameIndex: number, _travel: Travel): void {
    this.wanted = frameIndex;
    void this.seek();
  }

  draw(frameIndex: number, show: (picture: CanvasImageSource) => void): boolean {
    if (this.shown !== frameIndex) return false;
    show(this.video);
    return true;
  }

  isLost(): boolean {
    return false;
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
    this.video.removeAttribute("src");
    this.video.load();
    URL.revokeObjectURL(this.url);
  }

  private async seek(): Promise<void> {
    if (this.isSeeking) return;
    this.isSeeking = true;
    while (!this.isClosed && this.wanted !== null && this.wanted !== this.shown) {
      const target = this.wanted;
      this.shown = null;
      const seen = await this.bring(target);
      if (this.isClosed) break;
      if (seen === "nothing") {
        this.failed.tell(noPictures);
        break;
      }
      this.shown = seen;
      this.tellDoubt(seen === target ? null : target);
      if (seen !== null) this.ready.tell(seen);
      if (seen !== target && this.wanted === target) break;
      if (this.wanted !== target) await twoTurns();
    }
    this.isSeeking = false;
  }

  /** Sends the element to a frame until it shows it, three times at most. @returns the frame it shows; null for none that is known */
  private async bring(target: number): Promise<number | null | "nothing"> {
    let seen: number | null = null;
    for (const seconds of seekPlaces(this.microseconds, target)) {
      const shown = await this.present(seconds);
      if (shown === "nothing") return "nothing";
      if (shown === "unsaid") return target;
      seen = frameShownAt(this.microseconds, shown);
      if (seen === target || this.isClosed || this.wanted !== target) return seen;
    }
    return seen;
  }

  private tellDoubt(missed: number | null): void {
    if (missed === null && !this.isDoubted) return;
    this.isDoubted = missed !== null;
    this.doubted.tell(missed === null ? null : `This browser does not show frame ${missed + 1} when it is asked for it; the picture and its time stay at the frame before. Another browser may.`);
  }

  /** Sends the element to a time. @returns the time of the picture it shows, as far as the browser says it */
  private present(seconds: number): Promise<number | "unsaid" | "nothing"> {
    const { video } = this;
    return new Promise((done) => {
      const timer = setTimeout(() => done(video.readyState < 2 || video.seeking ? "nothing" : "unsaid"), 2000);
      const finish = (shown: number | "unsaid") => {
        clearTimeout(timer);
        done(shown);
      };
      if ("requestVideoFrameCallback" in video) video.requestVideoFrameCallback((_, { mediaTime }) => finish(mediaTime));
      else (video as HTMLVideoElement).addEventListener("seeked", () => finish("unsaid"), { once: true });
      video.currentTime = seconds;
    });
  }
}

/** Time for whoever plays to draw what stands before the element is sent on. */
function twoTurns(): Promise<void> {
  return new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done())));
}
