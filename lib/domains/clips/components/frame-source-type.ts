/** The way one is going: decides which frames are fetched ahead. */
export type Travel = -1 | 0 | 1;

/** Pictures of one clip by frame index. Whatever is handed to `show` may be drawn at once and must not be kept. */
export interface FrameSource {
  readonly frameCount: number;
  /** False when the browser cannot promise that the frame shown is the frame asked for. */
  readonly isExact: boolean;
  /** Say which frame is wanted and which way one goes; the source readies it and its neighbours. */
  want(frameIndex: number, travel: Travel): void;
  /** Draw a frame now; false when it is not ready. */
  draw(frameIndex: number, show: (picture: CanvasImageSource) => void): boolean;
  /** Called with each frame that becomes ready. Returns the way to stop. */
  onReady(listener: (frameIndex: number) => void): () => void;
  /** Called when the source can show no more, with a sentence. */
  onFailed(listener: (sentence: string) => void): () => void;
  close(): void;
}
