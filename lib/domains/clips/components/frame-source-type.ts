/** The way one is going: decides which frames are fetched ahead. */
export type Travel = -1 | 0 | 1;

/** Pictures of one clip by frame index. Whatever is handed to `show` may be drawn at once and must not be kept. */
export interface FrameSource {
  readonly frameCount: number;
  /** False when the browser can neither promise nor check that the frame shown is the frame asked for. */
  readonly isExact: boolean;
  /** Say which frame is wanted and which way one goes; the source readies it and its neighbours. */
  want(frameIndex: number, travel: Travel): void;
  /** Say which frames somebody else wants beside the one in hand, both ends included, and null when that is over; left out where frames come one by one. */
  alsoWant?(stretch: { readonly from: number; readonly to: number } | null): void;
  /** Draw a frame now; false when it is not ready. */
  draw(frameIndex: number, show: (picture: CanvasImageSource) => void): boolean;
  /** True for a frame that can never be shown: its part of the file cannot be decoded. */
  isLost(frameIndex: number): boolean;
  /** Called with each frame that becomes ready, or turns out to be lost. Returns the way to stop. */
  onReady(listener: (frameIndex: number) => void): () => void;
  /** Called with a sentence when some of what is asked cannot be shown, and with null once that has passed. */
  onDoubt(listener: (sentence: string | null) => void): () => void;
  /** Called when the source can show no more, with a sentence. */
  onFailed(listener: (sentence: string) => void): () => void;
  close(): void;
}
