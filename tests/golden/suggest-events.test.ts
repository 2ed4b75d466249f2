import { beforeAll, describe, expect, it, vi } from "vitest";
import { seededRandom } from "@/lib/core/random";
import type { ClipInput, EventId, FramePoints, SwingEvent } from "@/lib/measure/clip-input";
import { markedEventSdSeconds } from "@/lib/measure/event-times";
import { SUGGESTION_RULES, suggestEvents } from "@/lib/measure/suggest-events/suggest-events";
import type { BallPlace, Suggestion } from "@/lib/measure/suggest-events/suggestion";
import phases from "@/seed/library/phases.json";
import { ballOf } from "@/seed/media/ball";
import { project } from "@/seed/media/camera";
import { POINT_IDS } from "@/seed/media/points";
import { hitterOf } from "@/seed/media/skeleton";
import { BODIES, SIDES, swingSpec, type SwingSpec } from "@/seed/media/spec";
import { truthOf, type SwingTruth } from "@/seed/media/truth";
import { placedNoisePx, trueTorsoPx } from "./marked-swing";

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const RATES = [60, 120, 240] as const;
/** Every body from either side, each mirrored and not; contact anywhere between frames. */
const HITTERS = Array.from({ length: 12 }, (_, i) => {
  const spec = swingSpec({ side: SIDES[i % 2], body: BODIES[i % 3], seed: 200 + i, framesPerSecond: 60, task: "toss" });
  return { spec, truth: truthOf(spec), isMirrored: i % 4 > 1, phase: (0.37 * i) % 1 };
});
type Filmed = (typeof HITTERS)[number];

const FILMS = new Map<string, ClipInput>();

/** The same, drawn once for a hitter of the list. */
function filmOnce(hitter: Filmed, fps: number, noise: number): ClipInput {
  const key = `${hitter.spec.seed} ${fps} ${noise}`;
  const known = FILMS.get(key) ?? film(hitter, fps, noise);
  FILMS.set(key, known);
  return known;
}

/** A clip with every point on every frame from 1.3 s before contact to 0.6 s after it. */
function film({ spec, truth, isMirrored, phase }: Filmed, fps: number, noise = 0): ClipInput {
  const before = Math.round(1.3 * fps);
  const seconds = Array.from({ length: before + Math.round(0.6 * fps) }, (_, i) => (i - before - phase) / fps);
  const random = seededRandom(`suggest ${spec.seed} ${fps}`);
  const sd = noise * placedNoisePx(trueTorsoPx(truth));
  const points = seconds.map((time): FramePoints => {
    const places = truth.pointsAt(time);
    return Object.fromEntries(POINT_IDS.map((id) => {
      const x = places[id].x + sd * random.normal();
      return [id, { x: isMirrored ? spec.widthPx - x : x, y: places[id].y + sd * random.normal(), source: "placed" }];
    }));
  });
  return {
    view: spec.view, mirrored: isMirrored, secondsFromContact: seconds, captureFps: fps, cameraOffDeg: 0,
    cameraMoved: false, cameraZoomed: false, stabilised: false, points: Object.fromEntries(points.entries()),
  };
}

const mark = (event: EventId, seconds: number, fps: number): SwingEvent => ({ seconds, sdSeconds: markedEventSdSeconds(event, 1 / fps), source: "placed" });

/** The ball's places on the frames of a clip, where they lie in the picture. */
function ballOn(clip: ClipInput, { spec, truth, isMirrored }: Filmed, noise: number): BallPlace[] {
  const ball = ballOf(spec, hitterOf(spec));
  const random = seededRandom(`ball ${spec.seed} ${clip.captureFps}`);
  return (clip.secondsFromContact ?? []).flatMap((seconds) => {
    const at = ball.at(seconds);
    if (!at || Math.abs(seconds) > 0.3) return [];
    const { x, y } = project(truth.camera, at);
    if (x < 0 || x > spec.widthPx || y < 0 || y > spec.heightPx) return [];
    const seen = x + noise * random.normal();
    return [{ seconds, x: isMirrored ? spec.widthPx - seen : seen, y: y + noise * random.normal() }];
  });
}

/** First move on exact points without a filter: when hips, hands or front ankle first pass 0.30 torso lengths a second. */
function trueFirstMove(truth: SwingTruth): number {
  const limit = 0.3 * trueTorsoPx(truth);
  const step = 0.001;
  const places = [["hip_f", "hip_b"], ["wr_f", "wr_b"], ["an_f", "an_f"]] as const;
  for (let time = truth.events.stance; time < 0; time += step) {
    const [a, b] = [truth.pointsAt(time - step / 2), truth.pointsAt(time + step / 2)];
    const isMoving = places.some(([one, other]) => Math.hypot(b[one].x + b[other].x - a[one].x - a[other].x, b[one].y + b[other].y - a[one].y - a[other].y) / 2 / step > limit);
    if (isMoving) return time;
  }
  return NaN;
}

interface Held {
  readonly name: string;
  readonly errorSeconds: number;
  readonly sdSeconds: number;
}

function heldAt(fps: number, noise: number): readonly Held[] {
  return HITTERS.flatMap((hitter) => {
    const { truth, spec } = hitter;
    const clip = filmOnce(hitter, fps, noise);
    const contact = mark("contact", 0, fps);
    const stance = mark("stance", truth.events.stance, fps);
    const truths: Partial<Record<EventId, number>> = { ...truth.events, "first-move": trueFirstMove(truth) };
    const name = ({ event, note }: Suggestion) => (note ? `${event}, ${note}` : event);
    const sets = [
      suggestEvents(clip, spec.side, { contact }),
      suggestEvents(clip, spec.side, { contact, stance }).filter(({ event }) => event === "first-move" || event === "load"),
      suggestEvents(clip, spec.side, {}).filter(({ event }) => event === "contact"),
      suggestEvents(clip, spec.side, {}, { ball: ballOn(clip, hitter, 1.5 * noise) }).filter(({ event, note }) => event === "contact" && note === null),
    ];
    return sets.flat().map((one) => ({ name: name(one), errorSeconds: one.seconds - (truths[one.event] ?? NaN), sdSeconds: one.sdSeconds }));
  });
}

/** Share within two SDs, bias and median SD of each kind of suggestion. */
function summaryOf(held: readonly Held[]) {
  return [...new Set(held.map(({ name }) => name))].map((name) => {
    const own = held.filter((one) => one.name === name);
    const sds = own.map(({ sdSeconds }) => sdSeconds).sort((a, b) => a - b);
    return {
      name, cases: own.length,
      within: own.filter(({ errorSeconds, sdSeconds }) => Math.abs(errorSeconds) <= 2 * sdSeconds).length / own.length,
      biasMs: (1000 * own.reduce((sum, { errorSeconds }) => sum + errorSeconds, 0)) / own.length,
      medianSdMs: 1000 * (sds[sds.length >> 1] ?? NaN),
    };
  });
}
type Row = ReturnType<typeof summaryOf>[number];
const tableOf = (rows: readonly Row[]) =>
  `\n${rows.map(({ name, cases, within, biasMs, medianSdMs }) => `${name.padEnd(20)} ${String(cases).padStart(4)} cases  ${(100 * within).toFixed(0).padStart(4)} % within 2 SD  bias ${biasMs.toFixed(1).padStart(6)} ms  median SD ${medianSdMs.toFixed(1).padStart(5)} ms`).join("\n")}\n`;

describe.each([["no noise", 0], ["a quarter of the library's noise", 0.25], ["the library's noise of placed points", 1]] as const)("with %s", (_, noise) => {
  describe.each(RATES)("at %i frames a second", (fps) => {
    let rows: readonly Row[] = [];
    beforeAll(() => {
      rows = summaryOf(heldAt(fps, noise));
    });
    it("each suggested event lies within 2 of its SDs of the truth in at least 90 of 100 cases", () => {
      for (const { within } of rows) expect(within, tableOf(rows)).toBeGreaterThanOrEqual(0.9);
    });
    it("every hitter gets toe, plant, launch, extension, finish and a guess of contact", () => {
      for (const name of ["toe", "plant", "launch", "extension", "finish", "contact, guess"]) {
        expect(rows.find((row) => row.name === name)?.cases, `${name}${tableOf(rows)}`).toBe(HITTERS.length);
      }
    });
    it("first move and load are suggested where the stance is marked or found", () => {
      for (const name of ["first-move", "load"]) expect(rows.find((row) => row.name === name)?.cases ?? 0, `${name}${tableOf(rows)}`).toBeGreaterThanOrEqual(0.75 * HITTERS.length);
    });
    it("no SD is wider than a tenth of a second", () => {
      for (const { medianSdMs } of rows) expect(medianSdMs, tableOf(rows)).toBeLessThanOrEqual(100);
    });
  });
});

describe("suggestions", () => {
  const hitter = HITTERS[4]!;
  const { spec } = hitter;
  const contact = mark("contact", 0, 240);
  const events = (list: readonly Suggestion[]) => list.map(({ event }) => event);
  const clip = film(hitter, 240);
  const all = suggestEvents(clip, spec.side, { contact });

  it("come in the order of the rules, with the library's views and need of a still camera", () => {
    expect(events(all)).toEqual(["stance", "first-move", "toe", "plant", "load", "launch", "extension", "finish"]);
    for (const rule of SUGGESTION_RULES) {
      const own = phases.events.find(({ id }) => id === rule.event)!;
      expect([rule.event, rule.stillCamera]).toEqual([own.id, own.stillCamera]);
      if (own.views.length > 0) expect([...rule.views].sort(), rule.event).toEqual([...own.views].sort());
    }
  });
  it("do not depend on the frame rate: without noise 60 and 240 frames a second differ by less than two intervals of the slower film", () => {
    for (const one of HITTERS) {
      const [slow, fast] = [60, 240].map((fps) => suggestEvents(filmOnce(one, fps, 0), one.spec.side, { contact: mark("contact", 0, fps) }));
      expect(events(slow!)).toEqual(events(fast!));
      slow!.forEach(({ event, seconds }, i) => expect(Math.abs(seconds - fast![i]!.seconds), event).toBeLessThan(2 / 60));
    }
  });
  it("are the same for a left-handed hitter as for the right-handed one in a mirror, and for a mirrored file", () => {
    const seen = (side: SwingSpec["side"], isMirrored: boolean) => {
      const own = { ...spec, side };
      return suggestEvents(film({ ...hitter, spec: own, truth: truthOf(own), isMirrored }, 240), side, { contact });
    };
    const plain = seen("right", false);
    for (const [side, isMirrored] of [["right", true], ["left", false], ["left", true]] as const) {
      seen(side, isMirrored).forEach(({ event, seconds }, i) => expect(Math.abs(seconds - plain[i]!.seconds), event).toBeLessThan(1e-6));
    }
  });
  it.each(["cameraMoved", "stabilised", "cameraZoomed"] as const)("that need a still camera are not offered with %s", (fact) => {
    expect(events(suggestEvents({ ...clip, [fact]: true }, spec.side, { contact }))).toEqual(["extension"]);
  });
  it("are offered only in the views of their rules", () => {
    expect(events(suggestEvents({ ...clip, view: "front" }, spec.side, { contact }))).toEqual(["extension", "finish"]);
    expect(events(suggestEvents({ ...clip, view: "rear" }, spec.side, { contact })).filter((event) => !["stance", "first-move", "launch"].includes(event))).toEqual([]);
    expect(suggestEvents({ ...clip, view: null }, spec.side, { contact })).toEqual([]);
  });
  it("stand back from what a coach marked, and count from it", () => {
    const marked = { contact, toe: mark("toe", -0.3, 240), stance: mark("stance", -0.9, 240) };
    const list = suggestEvents(clip, spec.side, marked);
    expect(events(list)).toEqual(["first-move", "plant", "load", "launch", "extension", "finish"]);
    expect(list.find(({ event }) => event === "load")!.seconds).toBeLessThanOrEqual(-0.3);
  });
  it("are not offered where their points are missing on more than a fifth of the frames", () => {
    const thin = Object.fromEntries(Object.entries(clip.points).filter(([frame]) => Number(frame) % 4 !== 0));
    const full = Object.fromEntries(Object.entries(clip.points).filter(([frame]) => Number(frame) % 6 !== 0));
    expect(suggestEvents({ ...clip, points: thin }, spec.side, {})).toEqual([]);
    expect(events(suggestEvents({ ...clip, points: full }, spec.side, { contact }))).toEqual(events(all).filter((event) => event !== "launch"));
  });
  it("of launch need the tip by hand on every frame of its window", () => {
    const frame = clip.secondsFromContact!.findIndex((time) => time > -0.2);
    const own = clip.points[frame]!;
    const points = { ...clip.points, [frame]: { ...own, tip: { ...own.tip!, source: "suggested" as const } } };
    expect(events(suggestEvents({ ...clip, points }, spec.side, { contact }))).toEqual(events(all).filter((event) => event !== "launch"));
  });
  it("of a clip that ends in the swing are cut off, and one that starts in it has no stance to tell", () => {
    const part = (from: number, to: number) => {
      const kept = clip.secondsFromContact!.flatMap((time, frame) => (time >= from && time <= to ? [frame] : []));
      return { ...clip, secondsFromContact: kept.map((frame) => clip.secondsFromContact![frame]!), points: Object.fromEntries(kept.map((frame, i) => [i, clip.points[frame]!])) };
    };
    const cut = suggestEvents(part(-1.3, 0.15), spec.side, { contact }).find(({ event }) => event === "finish");
    expect([cut?.note, cut?.seconds]).toEqual(["cut off", part(-1.3, 0.15).secondsFromContact.at(-1)]);
    expect(events(suggestEvents(part(-0.45, 0.6), spec.side, { contact }))).not.toContain("first-move");
  });
  it("of contact take the ball's tracks first, then the sound less its way, then the tip as a guess", () => {
    const ball = ballOn(clip, hitter, 0);
    const heard = { soundOnsetSeconds: 0.02, cameraDistanceM: { value: 6.86, sd: 1 } };
    const of = (facts: Parameters<typeof suggestEvents>[3]) => suggestEvents(clip, spec.side, {}, facts)[0]!;
    expect(of({ ball, ...heard })).toMatchObject({ event: "contact", note: null, source: "suggested" });
    expect(Math.abs(of({ ball, ...heard }).seconds)).toBeLessThan(0.001);
    expect(of(heard)).toEqual({ event: "contact", seconds: 0.02 - 6.86 / 343, sdSeconds: Math.hypot(0.002, 1 / 343), note: null, source: "sound" });
    expect(of({ soundOnsetSeconds: 0.02 }).note).toBe("guess");
    expect(of({ ball: ball.filter(({ seconds }) => seconds < 0) }).note).toBe("guess");
  });
  it("of release come from given facts only", () => {
    expect(events(all)).not.toContain("release");
    const of = (release: NonNullable<Parameters<typeof suggestEvents>[3]>["release"]) => suggestEvents(clip, spec.side, { contact }, { release }).find(({ event }) => event === "release");
    expect(of({ flightSeconds: 0.5, relativeSpeedSd: 0.05 })).toEqual({ event: "release", seconds: -0.5, sdSeconds: 0.025, note: "computed", source: "computed" });
    expect(of({ heardSeconds: -0.45 })).toMatchObject({ seconds: -0.45, sdSeconds: 0.01, source: "sound" });
    expect(of({ flightSeconds: NaN, relativeSpeedSd: 0.05 })).toBeUndefined();
  });
  it("are none, and never a throw, for what cannot be", () => {
    const same = { x: 5, y: 5, source: "placed" as const };
    const still = Object.fromEntries(Object.keys(clip.points).map((frame) => [frame, Object.fromEntries(POINT_IDS.map((id) => [id, same]))]));
    const broken = Object.fromEntries(Object.keys(clip.points).map((frame) => [frame, Object.fromEntries(POINT_IDS.map((id) => [id, { ...same, x: NaN }]))]));
    const never = { contact: mark("contact", 5, 240), stance: mark("stance", 9, 240), toe: mark("toe", -9, 240) };
    for (const changed of [
      { points: {} }, { points: broken }, { secondsFromContact: null }, { secondsFromContact: [] }, { secondsFromContact: [0] },
      { secondsFromContact: [0, -1, 2] }, { secondsFromContact: [NaN, NaN] }, { view: null },
    ]) expect(suggestEvents({ ...clip, ...changed }, spec.side, { contact })).toEqual([]);
    for (const known of [{}, { contact }, never, { contact: { ...contact, seconds: NaN } }]) {
      for (const points of [clip.points, still]) {
        for (const { seconds, sdSeconds } of suggestEvents({ ...clip, points }, spec.side, known, { ball: [{ seconds: NaN, x: 1, y: 1 }], soundOnsetSeconds: NaN })) {
          expect(Number.isFinite(seconds) && sdSeconds > 0 && Number.isFinite(sdSeconds)).toBe(true);
        }
      }
    }
  });
  it("of ten thousand frames are found as well", () => {
    const long = Array.from({ length: 10_000 }, (_, i) => (i - 5000) / 240);
    const seen = (time: number) => {
      const places = hitter.truth.pointsAt(time);
      return Object.fromEntries(POINT_IDS.map((id) => [id, { ...places[id], source: "placed" as const }]));
    };
    const [first, last] = [seen(-1.2), seen(0.6)];
    const frames = long.map((time) => (time < -1.2 ? first : time > 0.6 ? last : seen(time)));
    expect(suggestEvents({ ...clip, mirrored: false, secondsFromContact: long, points: Object.fromEntries(frames.entries()) }, spec.side, { contact }).length).toBeGreaterThan(5);
  });
});
