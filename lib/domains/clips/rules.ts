import { medianIntervalSeconds, type FrameTimes, type TimeBasis } from "@/lib/core/frame-times";
import type { ClipInput, FramePoints, SwingEvent } from "@/lib/measure/clip-input";
import { isWeakSuggestion } from "@/lib/measure/suggest-points/weak-suggestions";
import { lineOfClip, type ClipLine } from "@/lib/measure/camera/line-of-clip";
import { eventIds, pointIds, type EventId, type EventView, type PointId, type ClipView, type PointView, type UnseenPointView } from "./view";

// ---- Time ------------------------------------------------------------------------------------------------------

/** What one needs of a clip to turn its frames into real seconds. */
export interface ClipTiming {
  readonly frameTimes: FrameTimes;
  readonly realSecondsPerFileSecond: number;
}

/** Real seconds from one tick of the clip to another; negative when `toTick` is earlier. */
export function realSecondsBetween(clip: ClipTiming, fromTick: number, toTick: number): number {
  const { timeBaseNum, timeBaseDen } = clip.frameTimes;
  return (((toTick - fromTick) * timeBaseNum) / timeBaseDen) * clip.realSecondsPerFileSecond;
}

/** Tick of contact on this clip, null when contact is not set. */
export function contactTickOf(events: readonly EventView[]): number | null {
  return events.find((it) => it.event === "contact")?.tick ?? null;
}

/**
 * Real seconds of a frame on the swing clock: from contact when contact is set, else from the first frame.
 * @throws RangeError when there is no such frame
 */
export function clockSecondsOf(clip: ClipTiming, frameIndex: number, contactTick: number | null): number {
  const tick = clip.frameTimes.ticks[frameIndex];
  if (tick === undefined) throw new RangeError(`no frame ${frameIndex} among ${clip.frameTimes.ticks.length}`);
  return realSecondsBetween(clip, contactTick ?? clip.frameTimes.ticks[0] ?? 0, tick);
}

/**
 * Real seconds of an event on the swing clock, as clockSecondsOf; one that was set on another clip is told from that
 * clip's contact. Null when that is not known.
 */
export function eventSecondsOf(clip: ClipTiming, event: EventView, contactTick: number | null): number | null {
  if (event.elsewhere) return event.elsewhere.secondsFromContact;
  return event.tick === null ? null : realSecondsBetween(clip, contactTick ?? clip.frameTimes.ticks[0] ?? 0, event.tick);
}

/**
 * Events of a swing as they fall on one of its clips: those set on another clip are laid on this one so many seconds
 * from its own contact. They have no place on it while either contact or the real time is missing.
 */
export function lineUpEvents(clip: ClipTiming & { readonly timeBasis: TimeBasis }, events: readonly EventView[]): readonly EventView[] {
  const zero = clip.timeBasis === "unknown" ? null : contactTickOf(events);
  return events.map((event) => {
    if (!event.elsewhere) return event;
    const { secondsFromContact: seconds } = event.elsewhere;
    const tick = zero === null || seconds === null ? null : tickAtClockSeconds(clip, seconds, zero);
    return { ...event, tick, frameIndex: tick === null ? null : frameForTick(clip.frameTimes, tick) };
  });
}

/** Tick, perhaps between frames, that lies so many real seconds after (before, when negative) the clock's zero. */
export function tickAtClockSeconds(clip: ClipTiming, seconds: number, contactTick: number | null): number {
  const { timeBaseNum, timeBaseDen, ticks } = clip.frameTimes;
  return (contactTick ?? ticks[0] ?? 0) + ((seconds / clip.realSecondsPerFileSecond) * timeBaseDen) / timeBaseNum;
}

/** Frame whose time is nearest to a tick; the earlier of two equally near. The ends stand for all that lies beyond. */
export function nearestFrame(times: FrameTimes, tick: number): number {
  const { ticks } = times;
  let low = 0;
  let high = Math.max(0, ticks.length - 1);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((ticks[middle] ?? Infinity) <= tick) low = middle;
    else high = middle;
  }
  return tick - (ticks[low] ?? 0) <= (ticks[high] ?? 0) - tick ? low : high;
}

/** Frame of this clip for an instant of the swing; null when it lies more than one interval outside the clip. */
export function frameForTick(times: FrameTimes, tick: number): number | null {
  const first = times.ticks[0];
  const last = times.ticks[times.ticks.length - 1];
  if (first === undefined || last === undefined) return null;
  const interval = medianIntervalSeconds(times);
  const slack = Number.isNaN(interval) ? 0 : (interval * times.timeBaseDen) / times.timeBaseNum;
  return tick < first - slack || tick > last + slack ? null : nearestFrame(times, tick);
}

/** Frame index after a step, kept inside the clip. */
export function stepFrame(frameIndex: number, by: number, frameCount: number): number {
  return Math.max(0, Math.min(frameCount - 1, frameIndex + by));
}

/** Seconds as people read them on the clock: a true minus, a plus, three places; "0.000" at zero. */
export function sayClock(seconds: number, places = 3): string {
  const digits = Math.abs(seconds).toFixed(places);
  if (Number(digits) === 0) return digits;
  return (seconds < 0 ? "−" : "+") + digits;
}

// ---- Keys ------------------------------------------------------------------------------------------------------

/** The events a coach sets by key, in the order of the swing, each with its letter. */
export const eventKeys: readonly { readonly event: EventId; readonly key: string }[] = [
  { event: "stance", key: "S" },
  { event: "first-move", key: "M" },
  { event: "load", key: "L" },
  { event: "toe", key: "T" },
  { event: "plant", key: "P" },
  { event: "launch", key: "U" },
  { event: "contact", key: "C" },
  { event: "extension", key: "E" },
  { event: "finish", key: "F" },
  { event: "release", key: "R" },
];

export type ViewerCommand =
  | { readonly kind: "step"; readonly by: number }
  | { readonly kind: "go-end"; readonly end: "first" | "last" }
  | { readonly kind: "set-event"; readonly event: EventId }
  | { readonly kind: "go-event"; readonly event: EventId }
  | { readonly kind: "nudge-event"; readonly by: -1 | 1 }
  | { readonly kind: "clear-event" }
  | { readonly kind: "take-guess" }
  | { readonly kind: "swap-points"; readonly isLimb: boolean }
  | { readonly kind: "copy-points"; readonly from: -1 | 1 }
  | { readonly kind: "go-best" }
  | { readonly kind: "follow-bat" }
  | { readonly kind: "take-points"; readonly isAll: boolean }
  | { readonly kind: "play-or-hold" }
  | { readonly kind: "undo" }
  | { readonly kind: "redo" }
  | { readonly kind: "cancel" };

export interface KeyPress {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
}

const plainKeys: Readonly<Record<string, ViewerCommand>> = {
  Home: { kind: "go-end", end: "first" },
  End: { kind: "go-end", end: "last" },
  "[": { kind: "nudge-event", by: -1 },
  "]": { kind: "nudge-event", by: 1 },
  Delete: { kind: "clear-event" },
  Backspace: { kind: "clear-event" },
  " ": { kind: "play-or-hold" },
  Escape: { kind: "cancel" },
};

/**
 * What a key asks of the swing view; null when it is not ours. Arrows step one frame, with shift ten; a letter sets its
 * event, with shift goes to it; brackets nudge the event in hand; Y takes the suggested event; X exchanges front and back of
 * all points, with shift of one limb; B takes points over from the frame before, with shift from the one after; N goes to the
 * frame that helps most; K follows the bat between placed frames, and once more takes what was followed; A takes the suggested points of the frame,
 * with shift the weak ones too. Keys of the browser (ctrl, alt, command) are left alone, save undo.
 */
export function commandOfKey(press: KeyPress): ViewerCommand | null {
  if ((press.ctrlKey || press.metaKey) && !press.altKey && press.key.toLowerCase() === "z") return { kind: press.shiftKey ? "redo" : "undo" };
  if (press.ctrlKey || press.metaKey || press.altKey) return null;
  if (press.key === "ArrowLeft") return { kind: "step", by: press.shiftKey ? -10 : -1 };
  if (press.key === "ArrowRight") return { kind: "step", by: press.shiftKey ? 10 : 1 };
  if (press.key.toLowerCase() === "y") return { kind: "take-guess" };
  if (press.key.toLowerCase() === "x") return { kind: "swap-points", isLimb: press.shiftKey };
  if (press.key.toLowerCase() === "a") return { kind: "take-points", isAll: press.shiftKey };
  if (press.key.toLowerCase() === "n") return { kind: "go-best" };
  if (press.key.toLowerCase() === "k") return { kind: "follow-bat" };
  if (press.key.toLowerCase() === "b") return { kind: "copy-points", from: press.shiftKey ? 1 : -1 };
  const letter = eventKeys.find((it) => it.key === press.key.toUpperCase());
  if (letter) return { kind: press.shiftKey ? "go-event" : "set-event", event: letter.event };
  return Object.hasOwn(plainKeys, press.key) ? (plainKeys[press.key] ?? null) : null;
}

// ---- Picture and screen ------------------------------------------------------------------------------------------

export interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** How closely one looks: 1 shows the whole picture; the centre is the picture pixel in the middle of the box. */
export interface Look {
  readonly zoom: number;
  readonly centre: Spot;
}

/** Screen = picture × scale + (dx, dy), in CSS pixels from the box's upper left corner; flipped: −x instead of x. */
export interface Placement {
  readonly scale: number;
  readonly dx: number;
  readonly dy: number;
  readonly isFlipped?: boolean;
}

export const maxZoom = 8;

/** The whole picture, in the middle. */
export function wholeLook(picture: Size): Look {
  return { zoom: 1, centre: { x: picture.width / 2, y: picture.height / 2 } };
}

/** Nearest look that shows no more emptiness than letter-boxing needs. */
export function clampLook(look: Look, picture: Size, box: Size): Look {
  const zoom = Math.max(1, Math.min(maxZoom, look.zoom));
  const scale = fitScale(picture, box) * zoom;
  const clampAxis = (centre: number, length: number, room: number) => {
    const half = room / scale / 2;
    return half * 2 >= length ? length / 2 : Math.max(half, Math.min(length - half, centre));
  };
  return {
    zoom,
    centre: { x: clampAxis(look.centre.x, picture.width, box.width), y: clampAxis(look.centre.y, picture.height, box.height) },
  };
}

/** Screen pixels per picture pixel at which the whole picture just fits the box. */
export function fitScale(picture: Size, box: Size): number {
  return Math.min(box.width / picture.width, box.height / picture.height);
}

/** Where the picture lies in the box; flipped, left and right of it are exchanged on the screen and nowhere else. */
export function placementOf(look: Look, picture: Size, box: Size, isFlipped = false): Placement {
  const { zoom, centre } = clampLook(look, picture, box);
  const scale = fitScale(picture, box) * zoom;
  const dy = box.height / 2 - centre.y * scale;
  return isFlipped ? { scale, dx: box.width / 2 + centre.x * scale, dy, isFlipped } : { scale, dx: box.width / 2 - centre.x * scale, dy };
}

export function toScreen(place: Placement, spot: Spot): Spot {
  return { x: (place.isFlipped ? -spot.x : spot.x) * place.scale + place.dx, y: spot.y * place.scale + place.dy };
}

export function toPicture(place: Placement, spot: Spot): Spot {
  const x = (spot.x - place.dx) / place.scale;
  return { x: place.isFlipped ? -x : x, y: (spot.y - place.dy) / place.scale };
}

/** A spot kept inside the picture. */
export function insidePicture(spot: Spot, picture: Size): Spot {
  return { x: Math.max(0, Math.min(picture.width, spot.x)), y: Math.max(0, Math.min(picture.height, spot.y)) };
}

/** Look after zooming by a factor about a picture spot that stays where it is on the screen, as far as the edges allow. */
export function zoomAbout(look: Look, factor: number, about: Spot, picture: Size, box: Size): Look {
  const from = clampLook(look, picture, box);
  const zoom = Math.max(1, Math.min(maxZoom, from.zoom * factor));
  const keep = from.zoom / zoom;
  const centre = { x: about.x + (from.centre.x - about.x) * keep, y: about.y + (from.centre.y - about.y) * keep };
  return clampLook({ zoom, centre }, picture, box);
}

/** Look after the picture has been pushed by so many screen pixels. */
export function panBy(look: Look, dx: number, dy: number, picture: Size, box: Size): Look {
  const from = clampLook(look, picture, box);
  const scale = fitScale(picture, box) * from.zoom;
  return clampLook({ zoom: from.zoom, centre: { x: from.centre.x - dx / scale, y: from.centre.y - dy / scale } }, picture, box);
}

// ---- Which point to ask for ------------------------------------------------------------------------------------

/** What a checkpoint needs before it can be read, as the library says it. */
export interface WantedCheckpoint {
  readonly id: string;
  readonly points: readonly PointId[];
  readonly events: readonly EventId[];
  /** The lengths it divides by: placed at stance, or on several frames of the clip for the longest seen. */
  readonly scales: readonly { readonly points: readonly PointId[]; readonly over: "stance" | "clip" }[];
}

/** One point on one event's frame, and how many of the wanted readings wait for it. */
export interface PointNeed {
  readonly event: EventId;
  readonly point: PointId;
  readonly readings: number;
}

/** A longest-seen length is refused on fewer frames than this. */
const framesForLongest = 3;

/**
 * The points that the wanted checkpoints need, in the order that saves most: frame by frame, so that nobody jumps to and
 * fro; the frame for which most points are needed first; on a frame the point that most readings wait for first.
 */
export function pointNeeds(wanted: readonly WantedCheckpoint[]): readonly PointNeed[] {
  const counts = new Map<string, PointNeed>();
  const need = (event: EventId, point: PointId) => {
    const key = `${event} ${point}`;
    const before = counts.get(key);
    counts.set(key, { event, point, readings: (before?.readings ?? 0) + 1 });
  };
  const frames: readonly EventId[] = eventIds.filter((event) => event !== "release" && wanted.some((it) => it.points.length > 0 && it.events.includes(event)));
  for (const checkpoint of wanted) {
    const needed = new Set<string>();
    const once = (event: EventId, point: PointId) => {
      if (!needed.has(`${event} ${point}`)) need(event, point);
      needed.add(`${event} ${point}`);
    };
    for (const event of checkpoint.events) if (event !== "release") for (const point of checkpoint.points) once(event, point);
    for (const scale of checkpoint.scales) {
      const at: readonly EventId[] = scale.over === "stance" ? ["stance"] : framesThatShowMost(checkpoint.events, frames);
      for (const event of at) for (const point of scale.points) once(event, point);
    }
  }
  const all = [...counts.values()];
  const weight = (event: EventId) => all.filter((it) => it.event === event).reduce((sum, it) => sum + it.readings, 0);
  return all.sort(
    (a, b) =>
      weight(b.event) - weight(a.event) ||
      eventIds.indexOf(a.event) - eventIds.indexOf(b.event) ||
      b.readings - a.readings ||
      pointIds.indexOf(a.point) - pointIds.indexOf(b.point),
  );
}

/** Its own events' frames and as many others as the longest-seen length wants. */
function framesThatShowMost(own: readonly EventId[], frames: readonly EventId[]): readonly EventId[] {
  const mine: readonly EventId[] = own.filter((event) => event !== "release");
  const others = frames.filter((event) => !mine.includes(event));
  return [...mine, ...others].slice(0, Math.max(framesForLongest, mine.length));
}

/** A need that waits, with the frame on which it is to be placed. */
export interface NextPoint extends PointNeed {
  readonly frameIndex: number;
}

/**
 * Needs that still wait: their event falls on this clip, and nobody has placed the point there or said that it cannot be
 * seen. A suggestion counts as waiting, because nobody has confirmed it.
 */
export function waitingNeeds(
  needs: readonly PointNeed[],
  events: readonly EventView[],
  points: readonly PointView[],
  unseen: readonly UnseenPointView[],
): readonly NextPoint[] {
  const done = new Set<string>();
  for (const it of points) if (it.source === "coach") done.add(`${it.frameIndex} ${it.point}`);
  for (const it of unseen) done.add(`${it.frameIndex} ${it.point}`);
  return needs.flatMap((need) => {
    const frameIndex = events.find((it) => it.event === need.event)?.frameIndex ?? null;
    return frameIndex === null || done.has(`${frameIndex} ${need.point}`) ? [] : [{ ...need, frameIndex }];
  });
}

/** The next point to ask for: one on the frame shown while any waits there, else the first that waits anywhere. */
export function nextPoint(waiting: readonly NextPoint[], frameIndex: number): NextPoint | null {
  return waiting.find((it) => it.frameIndex === frameIndex) ?? waiting[0] ?? null;
}

/** Points by frame as measuring takes them. */
export function framePoints(points: readonly PointView[]): Record<number, FramePoints> {
  const byFrame: Record<number, Partial<Record<PointId, FramePoints[PointId]>>> = {};
  for (const { frameIndex, point, x, y, source, followedSdPx } of points) {
    (byFrame[frameIndex] ??= {})[point] = { x, y, source: source === "coach" ? "placed" : "suggested", ...(followedSdPx === undefined ? {} : { followedSdPx }) };
  }
  return byFrame;
}

/**
 * A clip as measuring takes it where nothing depends on the camera. A weak suggestion is left out: no reading sees it before a person has confirmed it.
 * @param zero tick of contact; null = real time from contact is not known
 */
export function plainClipInput(clip: ClipTiming & Pick<ClipView, "view" | "isMirrored" | "widthPx" | "heightPx">, points: readonly PointView[], zero: number | null): ClipInput {
  return {
    view: clip.view, mirrored: clip.isMirrored, widthPx: clip.widthPx, heightPx: clip.heightPx, points: framePoints(points.filter(({ source, point }) => source === "coach" || !isWeakSuggestion(point, clip.view))),
    secondsFromContact: zero === null ? null : clip.frameTimes.ticks.map((tick) => realSecondsBetween(clip, zero, tick)),
    cameraOffDeg: null, cameraMoved: false, cameraZoomed: false, stabilised: false, captureFps: null,
  };
}

/** Where a clip's camera stood: from the corners of home plate, when they are marked, and from the body at the stance. */
export function cameraLineOf(clip: ClipView, corners: readonly Spot[] | null): ClipLine {
  const zero = clip.timeBasis === "unknown" ? null : contactTickOf(clip.events);
  const events: Partial<Record<EventId, SwingEvent>> = {};
  for (const event of clip.events) {
    const seconds = eventSecondsOf(clip, event, zero);
    if (zero !== null && seconds !== null) events[event.event] = { seconds, sdSeconds: 0, source: "placed" };
  }
  return lineOfClip(
    plainClipInput(clip, clip.points, zero),
    { side: clip.side, swingKind: null, task: null, ageYears: null, events },
    corners && corners.map(({ x, y }) => [x, y] as const),
  );
}
