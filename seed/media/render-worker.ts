import { parentPort, workerData } from "node:worker_threads";
import { timeOfFrame } from "./clock";
import { Painter } from "./painter";
import type { SwingSpec } from "./spec";

/** What a drawing thread is started with. */
export interface PainterTask {
  readonly spec: SwingSpec;
  readonly backdrop: Uint8Array;
}

const { spec, backdrop } = workerData as PainterTask;
const painter = new Painter(spec, backdrop);

parentPort?.on("message", (frameIndex: number) => {
  const pixels = painter.paint(frameIndex, timeOfFrame(spec, frameIndex));
  parentPort?.postMessage({ frameIndex, pixels }, [pixels.buffer as ArrayBuffer]);
});
