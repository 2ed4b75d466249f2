import type { Size, Spot } from "../rules";
import type { EventView, PointView } from "../view";
import { sheetEvents, type CropWindow, type SheetEvent } from "./view";

/** Width over height of a still. */
export const STILL_ASPECT = 37 / 49;
/** Fewer places than this do not show where the hitter stands. */
const LEAST_PLACES = 6;
/** Room around the body: head and feet are no points, hands go out. Judgement. */
const ROOM_ACROSS = 1.16;
const ROOM_UP = 1.22;
/** A still shows at least this part of the picture's height, however far away the hitter stands. */
const LEAST_PART = 0.3;
/** Windows lie on a grid of so many steps to the picture's height, so that a nudged point does not move them. */
const STEPS = 24;

/**
 * The window of a clip's stills: around the body's places on all event frames together, else the middle of the picture.
 * The bat's tip is left out: it would make the hitter small.
 * @param picture size of the upright picture in pixels
 */
export function cropWindow(picture: Size, points: readonly Pick<PointView, "point" | "x" | "y">[]): CropWindow {
  const tallest = Math.min(picture.height, picture.width / STILL_ASPECT);
  const body = points.filter(({ point }) => point !== "tip").map(({ x, y }) => ({ x: inside(x, picture.width), y: inside(y, picture.height) }));
  if (body.length < LEAST_PLACES) return placed(picture, { x: picture.width / 2, y: picture.height / 2 }, tallest);
  const [xs, ys] = [spanOf(body.map(({ x }) => x)), spanOf(body.map(({ y }) => y))];
  const needed = Math.max(ys.length * ROOM_UP, (xs.length * ROOM_ACROSS) / STILL_ASPECT, LEAST_PART * picture.height);
  const step = picture.height / STEPS;
  return placed(picture, { x: xs.middle, y: ys.middle }, Math.min(tallest, Math.ceil(needed / step) * step), step);
}

function placed(picture: Size, centre: Spot, tall: number, step = 1): CropWindow {
  const height = Math.floor(tall);
  const width = Math.floor(Math.min(picture.width, height * STILL_ASPECT));
  const at = (middle: number, length: number, whole: number) => Math.floor(Math.max(0, Math.min(whole - length, Math.round((middle - length / 2) / step) * step)));
  return { x: at(centre.x, width, picture.width), y: at(centre.y, height, picture.height), width, height };
}

const inside = (place: number, length: number) => Math.max(0, Math.min(length, place));

function spanOf(values: readonly number[]): { readonly middle: number; readonly length: number } {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return { middle: (low + high) / 2, length: high - low };
}

/** Why a cell has no still: what a person can do about it differs. */
export type NoFrame = "not-set" | "outside" | "not-lined-up";

/** The frame of an event on a clip, or why there is none. */
export function frameOfEvent(clip: { readonly events: readonly EventView[]; readonly frameCount: number }, event: SheetEvent): { readonly frameIndex: number } | { readonly why: NoFrame } {
  const found = clip.events.find((it) => it.event === event);
  if (!found) return { why: "not-set" };
  if (found.tick === null) return { why: "not-lined-up" };
  const { frameIndex } = found;
  return frameIndex === null || frameIndex < 0 || frameIndex >= clip.frameCount ? { why: "outside" } : { frameIndex };
}

/** The frames of a clip that a sheet shows, each once, in order. */
export function sheetFrames(clip: Parameters<typeof frameOfEvent>[0]): readonly number[] {
  const frames = sheetEvents.flatMap((event) => {
    const found = frameOfEvent(clip, event);
    return "frameIndex" in found ? [found.frameIndex] : [];
  });
  return [...new Set(frames)].sort((a, b) => a - b);
}
