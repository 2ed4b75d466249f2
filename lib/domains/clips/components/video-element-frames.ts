import type { FrameSource, Travel } from "./frame-source-type";

const noPictures = "This browser cannot show the clip's pictures. Nothing was lost; please try another browser.";

/**
 * The way for browsers that cannot decode frame by frame: a video element is sent to the middle of the wanted frame and its
 * picture is drawn only after the browser says that it has been presented. It cannot promise the frame.
 */
export class VideoElementFrames implements FrameSource {
  readonly isExact = false;
  private readonly readyListeners = new Set<(frameIndex: number) => void>();
  private readonly failedListeners = new Set<(sentence: string) => void>();
  private wanted: number | null = null;
  private shown: number | null = null;
  private isSeeking = false;
  private isClosed = false;

  private constructor(
    private readonly video: HTMLVideoElement,
    private readonly url: string,
    private readonly microseconds: readonly number[],
  ) {}

  /** @throws Error with a sentence when the browser cannot play the clip at all */
  static async open(blob: Blob, microseconds: readonly number[]): Promise<VideoElementFrames> {
    const url = URL.createObjectURL(blob);
    const video = document.createElement("video");
    video.muted = true;
    video.playsInline = true;
    video.preload = "auto";
    const isReady = new Promise<void>((ready, refuse) => {
      video.addEventListener("loadeddata", () => ready(), { once: true });
      video.addEventListener("error", () => refuse(new Error(noPictures)), { once: true });
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
      if (!(await this.present(this.middleSeconds(target)))) {
        for (const listener of this.failedListeners) listener(noPictures);
        break;
      }
      if (this.isClosed) break;
      this.shown = target;
      for (const listener of this.readyListeners) listener(target);
      if (this.wanted !== target) await twoTurns();
    }
    this.isSeeking = false;
  }

  private middleSeconds(frameIndex: number): number {
    const start = this.microseconds[frameIndex] ?? 0;
    const next = this.microseconds[frameIndex + 1] ?? start + (start - (this.microseconds[frameIndex - 1] ?? start - 2000));
    return (start + next) / 2e6;
  }

  private present(seconds: number): Promise<boolean> {
    const { video } = this;
    return new Promise((done) => {
      const timer = setTimeout(() => done(video.readyState >= 2 && !video.seeking), 2000);
      const finish = () => {
        clearTimeout(timer);
        done(true);
      };
      if ("requestVideoFrameCallback" in video) video.requestVideoFrameCallback(finish);
      else (video as HTMLVideoElement).addEventListener("seeked", finish, { once: true });
      video.currentTime = seconds;
    });
  }
}

/** Time for whoever plays to draw what stands before the element is sent on. */
function twoTurns(): Promise<void> {
  return new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done())));
}
