import { mixed, type LengthId } from "@/lib/measure/body-lengths";
import type { ClipContext } from "@/lib/measure/clip-context";
import type { EventId } from "@/lib/measure/clip-input";
import { placeSdPx } from "@/lib/measure/between/followed-frames";
import { EVENT_NAMES, frameQuantisationSd, MARKED_SD_SECONDS } from "@/lib/measure/event-times";
import type { Expression, Moment, PlaceAtMoment } from "@/lib/measure/formula";
import { median, medianSdFactor } from "@/lib/measure/order-statistics";
import { POINT_NAMES } from "@/lib/measure/point-names";
import { mixesOf, type PlaceId, type PointId, type PointMix } from "@/lib/measure/points";
import type { InputsUsed } from "@/lib/measure/reading";
import { prepareWindow } from "@/lib/measure/prepare-window";
import type { Named, Sample, SampleInput, SamplePlace } from "@/lib/measure/sample";
import type { WindowRead } from "@/lib/measure/window-read";
import { stanceFrames } from "@/lib/measure/stance-frames";
import { secondsOf, type ClipTracks, type Track } from "@/lib/measure/tracks";
import { reasonOf, type TrustReason, type TrustReasonId } from "@/lib/measure/trust-reasons";
import { pointAtContact, pointAtEvent, type PointAtTime } from "@/lib/measure/value-at-event";

/** What is said when a length is missing and more can be said than that. */
const SAY_NO_LENGTH: Partial<Record<LengthId, string>> = {
  Lb: "no bat length: knob and tip are needed on three frames or more, one of them well before or after contact",
};

/** A sample, or null with the reasons that remove the reading; notes and grey reasons come in both cases. */
export interface PreparedSample {
  readonly sample: Sample | null;
  readonly reasons: readonly TrustReason[];
  readonly inputsUsed: InputsUsed;
  /** The clip ends before the expression's window does. */
  readonly isCut: boolean;
}

/** The events whose times make a moment, with their weights. */
function eventsOf(moment: Moment): readonly { readonly event: EventId; readonly weight: number }[] {
  if (typeof moment === "string") return [{ event: moment, weight: 1 }];
  return (Object.entries(moment) as [EventId, number][]).map(([event, weight]) => ({ event, weight }));
}

/** Every event that an expression needs. */
export function eventsNeeded({ reads, events = [] }: Pick<Expression, "reads" | "events">): readonly EventId[] {
  return [...new Set([...Object.values(reads).flatMap(([, moment]) => eventsOf(moment).map(({ event }) => event)), ...events])];
}

/** Gathers what an expression reads from a clip and its swing. Never throws for what is missing: it says it. */
export function prepareSample(expression: Expression, context: ClipContext): PreparedSample {
  const gathered = new Gathering(context);
  const reads = Object.entries(expression.reads);
  for (const event of eventsNeeded(expression)) gathered.takeEvent(event);
  if (reads.length > 0) gathered.takePlaces(reads);
  if (expression.window) gathered.takeWindow(expression.window);
  for (const id of expression.lengths ?? []) gathered.takeLength(id);
  for (const [id, points] of Object.entries(expression.resting ?? {})) gathered.takeResting(id, points);
  return gathered.result();
}

class Gathering {
  private readonly reasons: TrustReason[] = [];
  private isMissing = false;
  private readonly inputs: (SampleInput & { readonly event: EventId })[] = [];
  private readonly places: SamplePlace[] = [];
  private readonly lengths: Sample["lengths"][number][] = [];
  private readonly resting: Named<string>[] = [];
  private readonly events: Named<EventId>[] = [];
  private readonly scaleFrames: (readonly number[])[] = [];
  private window: Sample["window"] = null;
  private isCut = false;

  constructor(private readonly context: ClipContext) {}

  private remove(id: TrustReasonId, say?: string): void {
    this.isMissing = true;
    this.reasons.push(reasonOf(id, say));
  }

  takeEvent(id: EventId): void {
    const event = this.context.swing.events[id];
    if (!event || !Number.isFinite(event.seconds)) return this.remove("event-missing", `${EVENT_NAMES[id]} is not marked`);
    const period = event.framePeriodSeconds ?? this.context.tracks?.periodSeconds ?? null;
    const floor = event.source === "placed" && period !== null && period > 0 ? frameQuantisationSd(period) : 0;
    const own = Number.isFinite(event.sdSeconds) && event.sdSeconds >= 0 ? event.sdSeconds : Math.hypot(MARKED_SD_SECONDS[id], floor);
    this.events.push({ id, value: event.seconds, sd: Math.max(own, floor) });
    if (event.source === "suggested") this.reasons.push(reasonOf("event-guess", `${EVENT_NAMES[id]} is a guess`));
  }

  takePlaces(reads: readonly (readonly [string, PlaceAtMoment])[]): void {
    const { tracks } = this.context;
    if (!tracks) return this.context.swing.events.contact ? this.remove("time-unknown") : this.remove("event-missing", "contact is not marked");
    for (const place of new Set(reads.map(([, [place]]) => place))) {
      const uses = reads.filter(([, [own]]) => own === place);
      this.takePlace(place, uses, tracks);
    }
  }

  /** One point set serves every use of a place, or the next one is tried for all of them. */
  private takePlace(place: PlaceId, uses: readonly (readonly [string, PlaceAtMoment])[], tracks: ClipTracks): void {
    let firstFailure: { id: TrustReasonId; say: string } | null = null;
    for (const mix of mixesOf(place)) {
      const found: { name: string; moment: Moment; parts: { track: Track; weight: number; at: PointAtTime }[] }[] = [];
      let failure: { id: TrustReasonId; say: string } | null = null;
      for (const [name, [, moment]] of uses) {
        const parts = this.mixAt(mix, moment, tracks);
        if (parts === null) continue;
        if ("id" in parts) failure ??= parts;
        else found.push({ name, moment, parts: parts.list });
      }
      if (!failure) {
        for (const { name, moment, parts } of found) this.addPlace(name, moment, parts);
        return;
      }
      firstFailure ??= failure;
    }
    if (firstFailure) this.remove(firstFailure.id, firstFailure.say);
  }

  /** Seconds and SD of a moment, and the event it is told by; null when one of its events is not marked. */
  private timeOf(moment: Moment): { readonly event: EventId; readonly value: number; readonly sd: number } | null {
    const parts = eventsOf(moment).map(({ event, weight }) => ({ event, weight, known: this.events.find(({ id }) => id === event) }));
    const [heaviest] = [...parts].sort((a, b) => b.weight - a.weight);
    if (!heaviest || parts.some(({ known }) => !known)) return null;
    const value = parts.reduce((sum, { weight, known }) => sum + weight * (known?.value ?? NaN), 0);
    return { event: heaviest.event, value, sd: Math.hypot(...parts.map(({ weight, known }) => weight * (known?.sd ?? 0))) };
  }

  private mixAt(mix: PointMix, given: Moment, tracks: ClipTracks) {
    const moment = this.timeOf(given);
    if (!moment) return null;
    const { event } = moment;
    const list: { track: Track; weight: number; at: PointAtTime }[] = [];
    for (const [point, weight] of Object.entries(mix) as [PointId, number][]) {
      const track = tracks.byPoint[point];
      const read = given === "contact" ? pointAtContact : pointAtEvent;
      const at = track ? read(track, tracks, moment.value, moment.sd) : ("points-missing" as const);
      if (!track || typeof at === "string") return failureOf(point, event, moment.value, track, tracks, typeof at === "string" ? at : "points-missing");
      list.push({ track, weight, at });
    }
    return { list };
  }

  takeWindow(read: WindowRead): void {
    if (this.isMissing) return;
    const { window, failure, hasSuggested, isCut } = prepareWindow(read, this.events, this.context);
    if (failure) return this.remove(failure.id, failure.say);
    if (hasSuggested) this.reasons.push(reasonOf("points-unconfirmed"));
    this.window = window;
    this.isCut = isCut;
  }

  private addPlace(name: string, moment: Moment, parts: readonly { track: Track; weight: number; at: PointAtTime }[]): void {
    const terms = parts.flatMap(({ track, weight, at }) => at.terms.map((term) => ({ input: this.inputOf(track, term.frame, this.timeOf(moment)?.event ?? "contact"), weight: weight * term.weight })));
    const mixed = (of: (at: PointAtTime) => PointAtTime["speed"]) =>
      parts.reduce((sum, { weight, at }) => ({ h: sum.h + weight * (of(at)?.h ?? 0), v: sum.v + weight * (of(at)?.v ?? 0) }), { h: 0, v: 0 });
    const speed = parts.every(({ at }) => at.speed !== null) ? mixed(({ speed: own }) => own) : null;
    const bend = parts.some(({ at }) => at.bend !== null) ? mixed(({ bend: own }) => own) : null;
    this.places.push({ name, moment: eventsOf(moment), terms, speed, bend });
  }

  private inputOf(track: Track, frame: number, event: EventId): number {
    const known = this.inputs.findIndex((input) => input.point === track.point && input.frame === frame);
    if (known >= 0) return known;
    const isSuggested = track.suggestedFrames.has(frame);
    if (isSuggested) this.reasons.push(reasonOf("points-unconfirmed"));
    return this.inputs.push({ point: track.point, frame, h: track.h[frame] ?? NaN, v: track.v[frame] ?? NaN, sd: placeSdPx(track, frame, this.context.tracks?.seconds ?? [], (isGuess) => this.context.noise(track.point, isGuess)), event }) - 1;
  }

  takeLength(id: Sample["lengths"][number]["id"]): void {
    const length = this.context.length(id);
    if (!length) return this.context.tracks ? this.remove("no-scale", SAY_NO_LENGTH[id]) : undefined;
    this.lengths.push({ id, value: length.value, sd: length.sd });
    this.scaleFrames.push(length.frames);
    if (length.isRough) this.reasons.push(reasonOf("rough-scale"));
    if (length.isLate) this.reasons.push(reasonOf("starts-late"));
    if (length.hasSuggested) this.reasons.push(reasonOf("points-unconfirmed"));
  }

  takeResting(id: string, [upper, lower]: readonly [PointId, PointId]): void {
    const { tracks, swing, noise } = this.context;
    if (!tracks) return;
    const { frames, quality } = stanceFrames(tracks, [upper, lower], swing.events);
    if (frames.length === 0) return this.remove("points-missing", `${POINT_NAMES[upper]} and ${POINT_NAMES[lower]} are not placed at stance`);
    const heights = frames.map((frame) => mixed({ [upper]: 1 }, "v", frame, tracks) - mixed({ [lower]: 1 }, "v", frame, tracks));
    const isSuggestedOn = (point: PointId, frame: number) => tracks.byPoint[point]?.suggestedFrames.has(frame) ?? false;
    const variance = frames.reduce((sum, frame) => sum + noise(upper, isSuggestedOn(upper, frame)) ** 2 + noise(lower, isSuggestedOn(lower, frame)) ** 2, 0);
    const sd = Math.sqrt(variance / frames.length) * medianSdFactor(frames.length) * (quality === "still" ? 1 : 2);
    this.resting.push({ id, value: median(heights), sd });
    this.scaleFrames.push(frames);
    if (quality !== "still") this.reasons.push(reasonOf(quality === "late" ? "starts-late" : "rough-scale"));
    if (frames.some((frame) => isSuggestedOn(upper, frame) || isSuggestedOn(lower, frame))) this.reasons.push(reasonOf("points-unconfirmed"));
  }

  result(): PreparedSample {
    const { inputs, places, lengths, resting, events } = this;
    const frames = [...new Set(inputs.map(({ frame, event }) => `${event} ${frame}`))].map((key) => {
      const own = inputs.filter((input) => `${input.event} ${input.frame}` === key);
      return { frameIndex: own[0]?.frame ?? 0, at: own[0]?.event ?? "contact", points: own.map(({ point }) => point) };
    });
    const inputsUsed: InputsUsed = {
      frames,
      points: [...new Set([...inputs.map(({ point }) => point), ...(this.window?.points.map(({ point }) => point) ?? [])])],
      events: events.map(({ id }) => id),
      scaleFrameIndexes: together(this.scaleFrames),
    };
    return { sample: this.isMissing ? null : { inputs, places, lengths, resting, events, window: this.window }, reasons: this.reasons, inputsUsed, isCut: this.isCut };
  }
}

/** The frames of several rows, each once and in order; a single row is in order already. */
function together(rows: readonly (readonly number[])[]): readonly number[] {
  const [first, ...others] = [...new Set(rows)];
  if (!first || others.length === 0) return first ?? [];
  return [...new Set([first, ...others].flat())].sort((a, b) => a - b);
}

/** Why a point gave no value at an event, as closely as can be said. */
function failureOf(point: PointId, event: EventId, seconds: number, track: Track | undefined, tracks: ClipTracks, id: TrustReasonId): { id: TrustReasonId; say: string } {
  const period = tracks.periodSeconds;
  const where = `${POINT_NAMES[point]} at ${EVENT_NAMES[event]}`;
  if (seconds > secondsOf(tracks, tracks.seconds.length - 1) + period / 2) return { id: "cut-off", say: `the clip ends before ${EVENT_NAMES[event]}` };
  if (seconds < secondsOf(tracks, 0) - period / 2) return { id: "points-missing", say: `the clip starts after ${EVENT_NAMES[event]}` };
  if (track?.framesOutside.some((frame) => Math.abs(secondsOf(tracks, frame) - seconds) <= 3 * period)) return { id: "out-of-frame", say: `outside the picture: ${where}` };
  if (id === "gap") return { id, say: `a hole of more than three frames: ${where}` };
  return { id: "points-missing", say: `not placed: ${where}` };
}
