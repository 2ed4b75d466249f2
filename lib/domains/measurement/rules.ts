import { medianIntervalSeconds } from "@/lib/core/frame-times";
import { realSecondsBetween, type WantedCheckpoint } from "@/lib/domains/clips/rules";
import type { CameraFacts, SwingPage } from "@/lib/domains/clips/schema";
import { pointIds, type ClipView, type EventView, type PointId } from "@/lib/domains/clips/view";
import type { CheckpointRecord } from "@/lib/domains/library/schema";
import type { LibraryForMeasuring } from "@/lib/domains/library/view";
import type { ClipInput, FramePoints, SwingEvent, SwingInput } from "@/lib/measure/clip-input";
import { markedEventSdSeconds } from "@/lib/measure/event-times";
import { readClip } from "@/lib/measure/read-clip";
import type { Reading } from "@/lib/measure/reading";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import type { ClipReadings, ReadingBook } from "./view";

type Measured = SwingPage["clips"][number];

/** Tick of contact on a clip whose real time is known; null otherwise, and then nothing of it can be timed. */
function contactTick(clip: ClipView): number | null {
  if (clip.timeBasis === "unknown") return null;
  return clip.events.find((it) => it.event === "contact")?.tick ?? null;
}

/** Real seconds between frames of a clip. */
function realPeriod(clip: ClipView): number {
  return medianIntervalSeconds(clip.frameTimes) * clip.realSecondsPerFileSecond;
}

/** A clip as readings need it: real seconds from contact, points by frame in pixels of the upright picture. */
export function clipInput(clip: ClipView, camera: CameraFacts): ClipInput {
  const zero = contactTick(clip);
  const points: Record<number, FramePoints> = {};
  for (const { frameIndex, point, x, y, source } of clip.points) {
    points[frameIndex] = { ...points[frameIndex], [point]: { x, y, source: source === "coach" ? "placed" : "suggested" } };
  }
  return {
    view: clip.view,
    mirrored: clip.isMirrored,
    secondsFromContact: zero === null ? null : clip.frameTimes.ticks.map((tick) => realSecondsBetween(clip, zero, tick)),
    captureFps: null,
    cameraOffDeg: camera.cameraOffDeg,
    cameraMoved: camera.hasCameraMoved,
    cameraZoomed: camera.hasCameraZoomed,
    stabilised: camera.isStabilised,
    widthPx: clip.widthPx,
    heightPx: clip.heightPx,
    points,
  };
}

/** An event in real seconds from contact of its clip; one that nobody has confirmed, heard ones included, is a guess. */
function eventInput(event: EventView & { readonly tick: number }, clip: ClipView, zero: number): SwingEvent {
  const framePeriodSeconds = realPeriod(clip);
  const isPlaced = event.source === "coach";
  const marked = framePeriodSeconds > 0 ? markedEventSdSeconds(event.event, framePeriodSeconds) : NaN;
  return {
    seconds: realSecondsBetween(clip, zero, event.tick),
    sdSeconds: isPlaced ? marked : (event.sdSeconds ?? marked),
    source: isPlaced ? "placed" : "suggested",
    framePeriodSeconds,
  };
}

type OwnEvent = EventView & { readonly tick: number };

/** The events that were set on this clip itself. */
function ownEvents(clip: ClipView): readonly OwnEvent[] {
  return clip.events.filter((it): it is OwnEvent => !it.elsewhere && it.tick !== null);
}

/** The clip by which the swing is timed: of those with contact the one on which most of its events were set. */
export function timedClip(swing: SwingPage): ClipView | null {
  const clips = swing.clips.map(({ clip }) => clip).filter((clip) => contactTick(clip) !== null);
  return clips.reduce<ClipView | null>((best, clip) => (best && ownEvents(best).length >= ownEvents(clip).length ? best : clip), null);
}

/**
 * The swing's events as one of its clips sees them. Each is timed against contact of the clip on which it was set; an
 * event of another clip carries the doubt of both contacts, by which the two are lined up.
 */
function eventsSeenFrom(seen: ClipView, swing: SwingPage): SwingInput["events"] {
  const events: Partial<Record<EventView["event"], SwingEvent>> = {};
  const contactOf = (clip: ClipView) => ownEvents(clip).find(({ event }) => event === "contact");
  const ownContact = contactOf(seen);
  for (const { clip } of swing.clips) {
    const zero = contactTick(clip);
    const contact = contactOf(clip);
    if (zero === null || !contact) continue;
    for (const event of ownEvents(clip)) {
      const found = eventInput(event, clip, zero);
      if (clip.id === seen.id) events[event.event] = found;
      else if (event.event !== "contact" && ownContact) {
        const lines = [eventInput(contact, clip, zero), eventInput(ownContact, seen, ownContact.tick)];
        const isPlaced = [found, ...lines].every(({ source }) => source === "placed");
        events[event.event] = { ...found, sdSeconds: Math.hypot(found.sdSeconds, ...lines.map(({ sdSeconds }) => sdSeconds)), source: isPlaced ? "placed" : "suggested" };
      }
    }
  }
  return events;
}

/** The swing as readings on one of its clips need it; without a clip as its timed clip sees it. */
export function swingInput(swing: SwingPage, seen: ClipView | null = timedClip(swing)): SwingInput {
  const events = seen && contactTick(seen) !== null ? eventsSeenFrom(seen, swing) : {};
  const { swingKind, task, effort, pitchHeight, pitchSide, pitchSpeed, batClass } = swing.facts;
  return {
    side: swing.side, swingKind, task, ageYears: swing.ageYears, standingHeightM: swing.heightM, events, effort, batClass,
    pitchHeight: known(pitchHeight), pitchSide: known(pitchSide), pitchSpeed: known(pitchSpeed),
  };
}

const known = (answer: string) => (answer === "unknown" ? null : answer);

/** Reads every clip of a swing by a book. What belongs to the swing alone is read once, on the clip that times it. */
export function readSwing(swing: SwingPage, book: ReadingBook): readonly ClipReadings[] {
  const timed = timedClip(swing) ?? swing.clips[0]?.clip;
  const inputs = swing.clips.map((own) => ({ own, input: swingInput(swing, own.clip) }));
  const read = (more: Pick<SwingInput, "swingReadings">) => inputs.map(({ own, input }) => ({ clipId: own.clip.id, readings: readOne(own, { ...input, ...more }, book, own.clip === timed) }));
  const first = read({});
  // Some rules ask for another reading of the same swing: with the first round's values they can be answered.
  const swingReadings: Record<string, number | null> = {};
  for (const { readings } of first) for (const it of readings) swingReadings[it.checkpointId] ??= it.value;
  const isAsked = book.checkpoints.some(({ definition }) => definition.nullWhen.some((rule) => rule.fact === "swing-reading"));
  return isAsked ? read({ swingReadings }) : first;
}

function readOne({ clip, camera }: Measured, input: SwingInput, book: ReadingBook, isTimed: boolean): readonly Reading[] {
  const own = book.checkpoints.map(({ definition }) => definition).filter(({ scope }) => scope === "clip" || isTimed);
  return readClip(own, clipInput(clip, camera), input, { rules: book.rules });
}

/** The swing while one of its clips is being worked on: an event set or cleared there is set or cleared for all of them. */
export function withLiveClip(swing: SwingPage, clipId: string, live: Pick<ClipView, "points" | "events">): SwingPage {
  const isStill = (event: EventView, onClip: string) => event.event === "contact" || live.events.some((it) => it.event === event.event && it.elsewhere?.clipId === onClip);
  return {
    ...swing,
    clips: swing.clips.map(({ clip, camera }) => ({
      camera,
      clip: clip.id === clipId ? { ...clip, ...live } : { ...clip, events: clip.events.filter((event) => event.elsewhere !== undefined || isStill(event, clip.id)) },
    })),
  };
}

/** The checkpoints that can be read here, with the academy's own numbers where it has them. */
export function readingBook(library: LibraryForMeasuring | null): ReadingBook {
  if (!library) return { editionId: null, checkpoints: [], rules: STARTER_RULES };
  const { on, ownBaselineOnly } = library.slap;
  return {
    editionId: library.edition.id,
    checkpoints: library.checkpoints.filter((it) => it.isMeasured).map(({ id, name, area, phase, definition }) => ({ id, name, area, phase, definition: bare(definition) })),
    rules: { ...STARTER_RULES, slap: { ...STARTER_RULES.slap, on, ownBaselineOnly } },
  };
}

/** Only what measuring uses; the library's prose stays where it is. */
function bare(full: ReadingBook["checkpoints"][number]["definition"]): ReadingBook["checkpoints"][number]["definition"] {
  const {
    id, name, scope, views, formulaId, formulaVersion, events, stillCamera, estimate, unit, band, bandYouth, ownBaselineOnly, named, nullWhen, minFps,
    maxCameraOffDeg, window,
  } = full;
  return {
    id, name, scope, views, formulaId, formulaVersion, events, stillCamera, estimate, unit, band, bandYouth, ownBaselineOnly, named, nullWhen, minFps,
    maxCameraOffDeg, window,
  };
}

const LENGTHS_AT_STANCE: readonly string[] = ["T", "F", "Fs"];
const isPoint = (text: string): text is PointId => (pointIds as readonly string[]).includes(text);

/** Which points of which events the readings of a view need, as the swing view asks for them. */
export function wantedCheckpoints(records: readonly CheckpointRecord[], view: ClipView["view"]): readonly WantedCheckpoint[] {
  return records
    .filter((it) => it.scope === "clip" && it.views.measured.includes(view))
    .map((it) => ({
      id: it.id,
      points: it.points.filter(isPoint),
      events: it.events as WantedCheckpoint["events"],
      scales: Object.entries(it.scalePoints).map(([length, points]) => ({
        points: (points ?? []).filter(isPoint),
        over: LENGTHS_AT_STANCE.includes(length) ? ("stance" as const) : ("clip" as const),
      })),
    }));
}
