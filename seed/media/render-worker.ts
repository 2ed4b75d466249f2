import { parentPort } from "node:worker_threads";
import { timeOfFrame } from "./clock";
import { Painter } from "./painter";
import type { SwingSpec } from "./spec";

/** What a drawing thread is told before the numbers of the frames it draws. */
export interface PainterTask {
  readonly spec: SwingSpec;
  readonly backdrop: Uint8Array;
}

let spec: SwingSpec;
let painter: Painter;

parentPort?.on("message", (told: PainterTask | number) => {
  if (typeof told !== "number") {
    spec = told.spec;
    painter = new Painter(spec, told.backdrop);
    return;
  }
  const pixels = painter.paint(told, timeOfFrame(spec, told));
  parentPort?.postMessage({ frameIndex: told, pixels }, [pixels.buffer as ArrayBuffer]);
});
