import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import type { EventId, View } from "@/lib/measure/clip-input";
import { isKnownFormula, listFormulas } from "@/lib/measure/formula-registry";
import { POINT_IDS, type PointId } from "@/lib/measure/points";
import { readClip } from "@/lib/measure/read-clip";
import type { Reading } from "@/lib/measure/reading";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import { effectOf } from "@/lib/measure/trust-reasons";
import { filmedWhole, wholeEvents, wholeHitter, type Body, type WholeFilming } from "@/lib/measure/whole-swing.fixture";
import library from "@/seed/library/checkpoints.json";

vi.setConfig({ testTimeout: 60_000 });

const definitions = (library.checkpoints as unknown as readonly CheckpointDefinition[]).filter(({ formulaId, formulaVersion }) => isKnownFormula(formulaId, formulaVersion));
const VIEWS: readonly View[] = ["side", "rear", "front"];
/** Readings that are drawn carry a value that depends a little on the draws. */
const isDrawn = (id: string) => ["extreme", "crossing"].includes(definitions.find((one) => one.id === id)?.estimate ?? "");

/** Every checkpoint in every view that measures it. */
function readAll(filming: WholeFilming = {}, bodyAt: (seconds: number) => Body = wholeHitter, options: Parameters<typeof readClip>[3] = {}): ReadonlyMap<string, Reading> {
  return new Map(VIEWS.flatMap((view) => {
    const own = definitions.filter(({ views }) => views.measured.includes(view));
    const { clip, swing } = filmedWhole(view, filming, bodyAt);
    return readClip(own, clip, swing, options).map((reading): [string, Reading] => [`${reading.checkpointId} ${view}`, reading]);
  }));
}
const plain = readAll();

/** Both readings are there, or both are not; values as near as their shape allows, doubts within a sixth. */
function expectSame(other: ReadonlyMap<string, Reading>, only: (id: string) => boolean = () => true, compared = plain): void {
  for (const [key, reading] of compared) {
    const twin = other.get(key);
    if (!only(reading.checkpointId)) continue;
    if (reading.value === null || reading.sd === null) {
      expect([twin?.value, twin?.censoredWords], key).toEqual([reading.value, reading.censoredWords]);
      continue;
    }
    const near = isDrawn(reading.checkpointId) ? 0.25 * reading.sd : 1e-8;
    expect(Math.abs((twin?.value ?? NaN) - reading.value), `${key} value`).toBeLessThan(near);
    expect(Math.abs((twin?.sd ?? NaN) / reading.sd - 1), `${key} sd`).toBeLessThan(1 / 6);
    reading.named.forEach((named, i) => {
      const own = twin?.named[i];
      if (named.value === null || named.sd === null) expect([own?.value, own?.word], key).toEqual([named.value, named.word]);
      else expect(Math.abs((own?.value ?? NaN) - named.value), `${key} ${named.id}`).toBeLessThan(isDrawn(reading.checkpointId) ? 0.5 * named.sd : 1e-8);
    });
  }
}

it("every formula reads a whole swing in its primary view, and nothing there makes it grey but its own doubt", () => {
  expect(definitions.map(({ formulaId }) => formulaId).sort()).toEqual(listFormulas().map(({ id }) => id).sort());
  for (const { id, views } of definitions) {
    const reading = plain.get(`${id} ${views.measured[0]}`);
    expect([id, reading?.value === null, reading?.reasons.filter((reason) => effectOf(reason.id) === "null")]).toEqual([id, false, []]);
    expect((reading?.sd ?? NaN) >= 0 || reading?.censoredWords !== null, id).toBe(true);
  }
});

describe("laws of the picture, for every formula in every view that measures it", () => {
  it("a mirrored file reads as the file before it was mirrored", () => expectSame(readAll({ mirrored: true })));
  it("a left-handed hitter who is the mirror image reads as the right-handed one", () => expectSame(readAll({ side: "left" })));
  it("a mirrored file of a left-handed hitter is turned back exactly once", () => expectSame(readAll({ side: "left", mirrored: true })));
  it("moving the picture changes nothing", () => {
    fc.assert(fc.property(fc.integer({ min: -3000, max: 3000 }), fc.integer({ min: -3000, max: 3000 }), (x, y) => expectSame(readAll({ shift: [x, y] }))), { numRuns: 3 });
  });
  it("zooming the picture in changes no value, once a person's noise is a share of the body", () => {
    const near = readAll({ zoom: 1.5 });
    fc.assert(fc.property(fc.double({ min: 1.5, max: 6, noNaN: true }), (zoom) => expectSame(readAll({ zoom }), undefined, near)), { numRuns: 3 });
  });
  it("turning the picture changes no angle at a joint and no ratio of lengths", () => {
    const turnable = ["front-knee-firming", "front-side-stack", "lead-arm-bend-at-plant", "top-hand-hold", "trunk-shortening", "trunk-fold-change"];
    const turned = readAll({ turnDeg: 7 });
    for (const [key, { checkpointId, value }] of plain) if (turnable.includes(checkpointId)) expect(Math.abs((turned.get(key)?.value ?? NaN) - (value ?? NaN)), key).toBeLessThan(1e-8);
    expect(turnable.filter((id) => definitions.some((one) => one.id === id))).toEqual(turnable);
  });
});

describe("laws of time and doubt, for every formula", () => {
  it("readings at instants do not depend on the frame rate while the frames are there", () => {
    // Drawn readings: these points have no noise, and each rate takes off the noise that it assumes.
    const fast = readAll({ fps: 480 });
    for (const [key, reading] of readAll({ fps: 240 })) {
      if (reading.value === null || reading.sd === null) continue;
      expect(Math.abs((fast.get(key)?.value ?? NaN) - reading.value), key).toBeLessThan((isDrawn(reading.checkpointId) ? 1.25 : 0.25) * reading.sd + 1e-9);
    }
  });
  it("more noise of the points gives more doubt wherever points are read", () => {
    const noise = { ...STARTER_RULES.noise, placed: { T: 0.02, px: 2.5 } };
    for (const [key, reading] of readAll({}, wholeHitter, { rules: { ...STARTER_RULES, noise } })) {
      const quiet = plain.get(key);
      if (reading.sd === null || quiet?.sd == null) continue;
      if (reading.inputsUsed.points.length > 0 && !isDrawn(reading.checkpointId)) expect(reading.sd, key).toBeGreaterThan(1.05 * quiet.sd);
      if (reading.inputsUsed.points.length === 0) expect(reading.sd, key).toBe(quiet.sd);
    }
  });
  it("less certain events give no less doubt, and more wherever only times are read", () => {
    for (const [key, reading] of readAll({ swing: { events: wholeEvents(0.006) } })) {
      const sure = plain.get(key)?.sd;
      if (reading.sd === null || sure == null) continue;
      if (!isDrawn(reading.checkpointId)) expect(reading.sd, key).toBeGreaterThanOrEqual(0.95 * sure);
      if (reading.inputsUsed.points.length === 0) expect(reading.sd, key).toBeGreaterThan(1.5 * sure);
    }
  });
  it("the same inputs give the same reading to the last digit", () => expect([...readAll()]).toEqual([...plain]));
});

describe("the unknown stays unknown, for every formula", () => {
  const expectReasoned = (readings: ReadonlyMap<string, Reading>, mayRead: (id: string) => boolean = () => false) => {
    for (const [key, reading] of readings) {
      if (mayRead(reading.checkpointId)) continue;
      expect([key, reading.value, reading.verdict, reading.probabilities]).toEqual([key, null, null, null]);
      expect(reading.reasons.some(({ id }) => effectOf(id) === "null"), key).toBe(true);
    }
  };
  const isOfTimes = (id: string) => definitions.find((one) => one.id === id)?.scope === "swing";
  const without = (gone: PointId): ((t: number) => Body) => (t) => Object.fromEntries(Object.entries(wholeHitter(t)).filter(([point]) => point !== gone));

  it("without one of its points there is no reading, unless another set stands in for it", () => {
    for (const gone of POINT_IDS) {
      for (const [key, reading] of readAll({ fps: 120 }, without(gone))) {
        if (reading.value === null) expect(reading.reasons.length, `${key} without ${gone}`).toBeGreaterThan(0);
        else expect(reading.inputsUsed.points, `${key} without ${gone}`).not.toContain(gone);
      }
    }
  });
  it("without one of its events there is no reading", () => {
    for (const gone of ["release", "load", "plant", "launch", "contact"] as const satisfies readonly EventId[]) {
      const { [gone]: _, ...events } = wholeEvents();
      for (const [key, reading] of readAll({ fps: 120, swing: { events } })) {
        const needs = definitions.find(({ id }) => id === reading.checkpointId)?.events.includes(gone);
        if (needs) expect([key, gone, reading.value, reading.reasons.length > 0]).toEqual([key, gone, null, true]);
      }
    }
  });
  it("points at no number, and no points at all, give none", () => {
    expectReasoned(readAll({ fps: 120 }, (t) => Object.fromEntries(Object.keys(wholeHitter(t)).map((point) => [point, [NaN, NaN, NaN]]))), isOfTimes);
    expectReasoned(readAll({ fps: 120 }, () => ({})), isOfTimes);
  });
  it("all points equal, and so a torso without length, gives none", () => {
    expectReasoned(readAll({ fps: 120 }, (t) => Object.fromEntries(Object.keys(wholeHitter(t)).map((point) => [point, [3, 3, 3]]))), isOfTimes);
  });
  it("one frame gives none", () => {
    expectReasoned(readAll({ fromSeconds: 0, toSeconds: 0 }), isOfTimes);
    expectReasoned(readAll({ fromSeconds: -0.2, toSeconds: -0.2 }), isOfTimes);
  });
  it("events out of order give none", () => {
    const { plant, launch, contact, load, release, ...rest } = wholeEvents();
    const events = { ...rest, contact, plant: { ...plant, seconds: 0.05 }, launch: { ...launch, seconds: 0.06 }, load: { ...load, seconds: 0.07 }, release: { ...release, seconds: 0.08 } };
    expectReasoned(readAll({ fps: 120, swing: { events } }), (id) => !definitions.find((one) => one.id === id)?.events.some((event) => ["plant", "launch", "load", "release"].includes(event)));
  });
  const exchanged = (pairs: readonly string[]) => (t: number): Body => Object.fromEntries(Object.entries(wholeHitter(t)).map(([point, place]) => {
    const [pair = "", end] = point.split("_");
    return [end && pairs.includes(pair) ? `${pair}_${end === "f" ? "b" : "f"}` : point, place];
  }));
  it("front and back exchanged, or the wrong side noted, gives none and asks", () => {
    const all = ["ear", "sh", "el", "wr", "hip", "kn", "an", "heel", "toe"];
    expectReasoned(readAll({ fps: 120 }, exchanged(all)), isOfTimes);
    expectReasoned(readAll({ fps: 120, clip: { mirrored: true } }), isOfTimes);
  });
  it("only the hips exchanged takes away what reads the hips, and nothing else from the side", () => {
    for (const [key, reading] of readAll({ fps: 120 }, exchanged(["hip"]))) {
      if (isOfTimes(reading.checkpointId) || !key.endsWith(" side")) continue;
      const readsHips = plain.get(key)?.inputsUsed.points.some((point) => point.startsWith("hip_"));
      if (readsHips) expect([key, reading.value, reading.reasons.map(({ say }) => say)]).toEqual([key, null, ["front and back are exchanged at the hips"]]);
      else expect(reading.value === null, key).toBe(plain.get(key)?.value === null);
    }
  });
  it("ten thousand frames give a reading like any other or a reason, and no exception", () => {
    for (const [key, reading] of readAll({ fps: 2000, fromSeconds: -4.3, toSeconds: 0.7 })) {
      if (reading.value === null) expect(reading.reasons.length, key).toBeGreaterThan(0);
      else expect(Number.isFinite(reading.sd) || reading.censoredWords !== null, key).toBe(true);
    }
  });
});
