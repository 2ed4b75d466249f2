import { medianIntervalSeconds } from "@/lib/core/frame-times";
import type { Id } from "@/lib/core/ids";
import { plainClipInput, realSecondsBetween, type WantedCheckpoint } from "@/lib/domains/clips/rules";
import type { CameraFacts, SwingPage } from "@/lib/domains/clips/schema";
import { pointIds, type CameraView, type ClipView, type EventView, type PointId } from "@/lib/domains/clips/view";
import type { CheckpointRecord } from "@/lib/domains/library/schema";
import type { LibraryForMeasuring } from "@/lib/domains/library/view";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import type { ClipInput, SwingEvent, SwingInput } from "@/lib/measure/clip-input";
import { markedEventSdSeconds } from "@/lib/measure/event-times";
import { findFormula } from "@/lib/measure/formula-registry";
import type { Reading } from "@/lib/measure/reading";
import { openReaderWithDrafts, readWithDrafts } from "@/lib/measure/read-with-drafts";
import type { ClipReader } from "@/lib/measure/reread-clip";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import { STARTER_COMPARABLE, type ComparableRule } from "@/lib/measure/several/comparable-swings";
import { takenFacts } from "@/lib/measure/several/like-for-like";
import type { RepeatedReading } from "@/lib/measure/several/repeated-reading";
import { STARTER_HABIT, type HabitRule } from "@/lib/measure/several/seen-count";
import type { CheckpointOverSwings, ClipReadings, ComparableReadings, ReadingBook } from "./view";

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
  return {
    ...plainClipInput(clip, clip.points, zero),
    cameraOffDeg: camera.cameraOffDeg,
    cameraOffSdDeg: camera.cameraOffSdDeg,
    cameraMoved: camera.hasCameraMoved,
    cameraZoomed: camera.hasCameraZoomed,
    stabilised: camera.isStabilised,
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
  return asksForReadings(book) ? read({ swingReadings: firstValues(first) }) : first;
}

function readOne({ clip, camera }: Measured, input: SwingInput, book: ReadingBook, isTimed: boolean): readonly Reading[] {
  return readWithDrafts(definitionsFor(book, isTimed), clipInput(clip, camera), input, { rules: book.rules });
}

function definitionsFor(book: ReadingBook, isTimed: boolean): readonly CheckpointDefinition[] {
  return book.checkpoints.map(({ definition }) => definition).filter(({ scope }) => scope === "clip" || isTimed);
}

/** One clip of a swing, read as readSwing reads it and ready to be read again while a point of it is dragged; null for no such clip. */
export function openClipReader(swing: SwingPage, book: ReadingBook, clipId: Id): ClipReader | null {
  const own = swing.clips.find(({ clip }) => clip.id === clipId);
  if (!own) return null;
  const timed = timedClip(swing) ?? swing.clips[0]?.clip;
  const swingReadings = asksForReadings(book) ? firstValues(readSwing(swing, book)) : undefined;
  const input = { ...swingInput(swing, own.clip), ...(swingReadings ? { swingReadings } : {}) };
  return openReaderWithDrafts(definitionsFor(book, own.clip === timed), clipInput(own.clip, own.camera), input, { rules: book.rules });
}

function asksForReadings(book: ReadingBook): boolean {
  return book.checkpoints.some(({ definition }) => definition.nullWhen.some((rule) => rule.fact === "swing-reading"));
}

function firstValues(clips: readonly ClipReadings[]): Record<string, number | null> {
  const values: Record<string, number | null> = {};
  for (const { readings } of clips) for (const it of readings) values[it.checkpointId] ??= it.value;
  return values;
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
    maxCameraOffDeg, window, censor, bandOfFlight, words,
  } = full;
  return {
    id, name, scope, views, formulaId, formulaVersion, events, stillCamera, estimate, unit, band, bandYouth, ownBaselineOnly, named, nullWhen, minFps,
    maxCameraOffDeg, window, ...(censor ? { censor } : {}), ...(bandOfFlight ? { bandOfFlight } : {}), ...(words ? { words } : {}),
  };
}

/** Whether its points are wanted on its events' frames; what is read over a window wants them on the frames between. */
function isReadAtInstants({ window, formulaId, formulaVersion }: CheckpointRecord): boolean {
  return window === null || Object.keys(findFormula(formulaId, formulaVersion)?.reads ?? {}).length > 0;
}

const LENGTHS_AT_STANCE: readonly string[] = ["T", "F", "Fs"];
const isPoint = (text: string): text is PointId => (pointIds as readonly string[]).includes(text);

/** Which points of which events the readings of a view need, as the swing view asks for them. */
export function wantedCheckpoints(records: readonly CheckpointRecord[], view: ClipView["view"]): readonly WantedCheckpoint[] {
  return records
    .filter((it) => it.scope === "clip" && it.views.measured.includes(view))
    .map((it) => ({
      id: it.id,
      points: isReadAtInstants(it) ? it.points.filter(isPoint) : [],
      events: it.events as WantedCheckpoint["events"],
      scales: Object.entries(it.scalePoints).map(([length, points]) => ({
        points: (points ?? []).filter(isPoint),
        over: LENGTHS_AT_STANCE.includes(length) ? ("stance" as const) : ("clip" as const),
      })),
    }));
}

/** A kept reading with how its clip was filmed, as it lies in the database. */
export interface KeptReadingFacts {
  readonly swingId: string;
  readonly checkpointId: string;
  readonly formulaId: string;
  readonly formulaVersion: number;
  readonly value: number | null;
  readonly sd: number | null;
  readonly verdict: string | null;
  readonly isGrey: boolean;
  /** The whole reading as it was kept. */
  readonly body: unknown;
  readonly clip: { readonly view: string; readonly isMirrored: boolean; readonly cameraOffDeg: number | null; readonly fileId: string; readonly hasCameraMoved: boolean };
}

/**
 * Which set-up a clip was filmed from: nobody notes it, so that clips of one day, view and noted camera angle count as
 * one. A camera that moved is a set-up of its own.
 */
function setUpOf({ view, isMirrored, cameraOffDeg, fileId, hasCameraMoved }: KeptReadingFacts["clip"], day: string): string {
  return hasCameraMoved ? fileId : `${day} ${view} ${isMirrored} ${cameraOffDeg === null ? "angle not noted" : Math.round(cameraOffDeg)}`;
}

/** The kept readings of comparable swings by checkpoint and view, newest swing first; without those that no swing has. Readings of an older formula are not compared. */
export function overSwings(swingId: Id, swings: readonly { readonly id: Id; readonly day: string }[], kept: readonly KeptReadingFacts[], book: Pick<ReadingBook, "checkpoints">): readonly CheckpointOverSwings[] {
  const rank = new Map(swings.map(({ id }, i) => [id, i]));
  return book.checkpoints.flatMap(({ id, definition }) => {
    const own = kept.filter((it) => it.checkpointId === id && it.formulaId === definition.formulaId && it.formulaVersion === definition.formulaVersion);
    const views = definition.scope === "swing" ? [null] : definition.views.measured;
    return views.flatMap((view): CheckpointOverSwings[] => {
      const bySwing = new Map<string, KeptReadingFacts>();
      for (const it of own) {
        if (view !== null && it.clip.view !== view) continue;
        const known = bySwing.get(it.swingId);
        if (!known || isSurer(it, known)) bySwing.set(it.swingId, it);
      }
      const rows = [...bySwing.values()].filter((it) => rank.has(it.swingId)).sort((a, b) => (rank.get(a.swingId) ?? 0) - (rank.get(b.swingId) ?? 0));
      if (!rows.some(({ value }) => value !== null)) return [];
      const newest = rows.find((it) => it.swingId === swingId) ?? rows[0];
      const band = (newest?.body as Reading | undefined)?.band ?? definition.band;
      return [{ checkpointId: id, view, unit: definition.unit, band, readings: rows.map((it) => repeated(it, swings[rank.get(it.swingId) ?? 0]?.day ?? "")) }];
    });
  });
}

/** Of two clips of a swing from one view the one whose reading says more. */
function isSurer(one: KeptReadingFacts, other: KeptReadingFacts): boolean {
  const doubt = (it: KeptReadingFacts) => (it.value === null ? Infinity : (it.isGrey ? 1e6 : 0) + (it.sd ?? 1e3));
  return doubt(one) < doubt(other);
}

function repeated({ swingId, value, sd, verdict, isGrey, body, clip }: KeptReadingFacts, day: string): RepeatedReading {
  // Readings are written by the measuring code in its own form, and made anew when the form changes.
  const { sdCamera, deviation, reasons } = body as Reading;
  return {
    swingId, day, value, sd, sdCamera: sdCamera ?? 0, setUp: setUpOf(clip, day), isCameraKnown: isCameraKnown(reasons ?? []),
    verdict: verdict as RepeatedReading["verdict"], deviation: deviation ?? null, isGrey,
  };
}

const isCameraKnown = (reasons: Reading["reasons"]) => !reasons.some(({ id }) => id === "camera-unknown");

/**
 * One checkpoint over the swings from a view, with this swing's reading as it is now on the screen in the place of the
 * kept one; null when no swing has one.
 */
export function withReadingNow(several: ComparableReadings, reading: Reading, view: CameraView): CheckpointOverSwings | null {
  const row = several.checkpoints.find((it) => it.checkpointId === reading.checkpointId && (it.view === null || it.view === view));
  const { checkpointId, unit, value, sd, sdCamera, verdict, deviation, isGrey, band } = reading;
  const kept = row?.readings ?? [];
  const readings = several.swings.flatMap(({ id, filmedOn }): RepeatedReading[] => {
    const own = kept.find(({ swingId }) => swingId === id);
    if (id !== several.swingId) return own ? [own] : [];
    return [{ swingId: id, day: filmedOn, setUp: own?.setUp ?? null, isCameraKnown: isCameraKnown(reading.reasons), value, sd, sdCamera, verdict, deviation, isGrey }];
  });
  return readings.length > 0 ? { checkpointId, unit, view: row ? row.view : view, band: band ?? row?.band ?? null, readings } : null;
}

type Terms = LibraryForMeasuring["terms"];

/** Which swings the library lets be compared; a fact that swings do not have is left out. */
export function comparableRule(terms: Terms | undefined): ComparableRule {
  return terms ? { withinDays: terms.comparableRule.withinDays, same: takenFacts(terms.comparableRule.same) } : STARTER_COMPARABLE;
}

/** The library's rule, but never a habit from one swing or two. */
export function habitRule(terms: Terms | undefined): HabitRule {
  const { seenAtLeast, ofLast } = terms?.habitRule ?? STARTER_HABIT;
  const least = Math.max(STARTER_HABIT.seenAtLeast, seenAtLeast);
  return { seenAtLeast: least, ofLast: Math.max(least, ofLast) };
}
