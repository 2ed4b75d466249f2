import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import { isKnownFormula } from "@/lib/measure/formula-registry";
import { readCheckpoint } from "@/lib/measure/read-checkpoint";
import { readClip } from "@/lib/measure/read-clip";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import { EVENT_SECONDS, event, filmed, hitter, onEvents, torso, without, type Filming, type Places } from "@/lib/measure/swing.fixture";
import library from "@/seed/library/checkpoints.json";

const definitions = library.checkpoints as unknown as readonly CheckpointDefinition[];
const known = definitions.filter(({ formulaId, formulaVersion }) => isKnownFormula(formulaId, formulaVersion));
const definition = (id: string) => {
  const found = definitions.find((one) => one.id === id);
  if (!found) throw new Error(id);
  return found;
};
const readHitter = (filming: Filming = {}, placesAt: (seconds: number) => Places = hitter) => {
  const { clip, swing } = filmed(placesAt, filming);
  return readClip(definitions, clip, swing);
};
const readOne = (id: string, shot: ReturnType<typeof filmed>) => readCheckpoint(definition(id), shot.clip, shot.swing);

describe("values worked by hand", () => {
  const leg = (knee: readonly [number, number]): Places => ({ hip_f: [0, 100], kn_f: knee, an_f: [0, 0] });
  const cases: readonly [string, Parameters<typeof onEvents>[0], number, Record<string, number | string>?][] = [
    ["load-hip-shift", { stance: torso(0), load: torso(-12) }, -0.12],
    ["hip-travel", { stance: torso(), plant: { an_b: [-50, 0], an_f: [100, 0] }, contact: torso(40) }, 90 / 150],
    ["back-foot-release", { stance: { ...torso(), heel_b: [-30, 9], toe_b: [-28, 4] }, plant: { toe_b: [-28, 4] }, contact: { heel_b: [-25, 30], toe_b: [-15, 4] } }, (26 - 5) / 52, { slide: 13 / 52 }],
    ["front-knee-firming", { stance: torso(), plant: leg([50, 50]), contact: leg([0, 50]) }, 90, { "knee-at-plant": 90, "knee-at-contact": 180 }],
    ["shoulder-behind-knee", { stance: torso(), plant: { kn_f: [70, 50], sh_f: [20, 200] } }, 0.5],
    ["front-side-stack", { stance: torso(), contact: { an_f: [100, 0], ...torso(0, 100, [0, 100]) } }, 135, { "side-of-break": "hips toward the catcher" }],
    ["top-hand-hold", { stance: torso(), load: { wr_b: [-20, 200], sh_b: [-20, 210] }, launch: { wr_b: [10, 170], sh_b: [-20, 210] } }, 0.4],
    ["hands-back-at-plant", { stance: { ...torso(), wr_f: [-30, 200], wr_b: [-34, 200], an_f: [30, 0] }, plant: { wr_f: [-8, 200], wr_b: [-12, 200], sh_b: [-20, 200], an_f: [100, 0] } }, 0.1, { "hands-to-ankle-growth": (110 - 62) / 100 }],
    ["lead-arm-bend-at-plant", { stance: torso(), plant: { sh_f: [20, 200], el_f: [20, 170], wr_f: [-10, 170] } }, 90],
    ["trunk-lean-at-contact", { stance: torso(), contact: torso(0, 100, [-100, 100]) }, 45],
    ["trunk-shortening", { stance: torso(), plant: torso(), contact: torso(0, 100, [0, 90]) }, 0.9],
    ["contact-depth", { stance: torso(), contact: { tip: [150, 120], knob: [50, 120], an_f: [100, 0] } }, (150 - 18 - 100) / 100],
  ];
  it.each(cases)("%s has the value worked by hand, and so have its named values", (id, places, expected, named = {}) => {
    const reading = readOne(id, onEvents(places));
    expect(reading.reasons.filter(({ id: reason }) => reason !== "camera-unknown")).toEqual([]);
    expect(reading.value).toBeCloseTo(expected, 9);
    expect(Object.fromEntries(reading.named.map((one) => [one.id, one.word ?? (one.value === null ? null : Number(one.value.toFixed(9)))]))).toEqual(
      Object.fromEntries(Object.entries(named).map(([key, value]) => [key, typeof value === "number" ? Number(value.toFixed(9)) : value])),
    );
  });

  it("barrel-catch-up divides by the 95th percentile of the bat's length over the clip", () => {
    const reading = readOne("barrel-catch-up", filmed((t) => ({ knob: [0, 0], tip: t > 0.004 ? [0, 100] : [30, 95.39392014169457] })));
    expect(reading.value).toBeCloseTo(0.3, 6);
  });

  it("times between events are differences of their seconds with the root of the squares of their SDs", () => {
    const { clip, swing } = filmed(() => ({}), { swing: { events: { plant: event(-0.19, 0.006), launch: event(-0.16, 0.008), contact: event(0, 0.002) } } });
    const [plant, launch] = [readCheckpoint(definition("plant-to-contact-time"), clip, swing), readCheckpoint(definition("launch-to-contact-time"), clip, swing)];
    expect([plant.value, launch.value]).toEqual([0.19, 0.16]);
    expect(plant.sd).toBeCloseTo(Math.hypot(0.006, 0.002), 12);
    expect(launch.sd).toBeCloseTo(Math.hypot(0.008, 0.002), 12);
    expect(plant.verdict).toBe("fine");
  });

  it("hips out toward the pitcher are told from hips back toward the catcher", () => {
    const word = (u: number) => readOne("front-side-stack", onEvents({ stance: torso(), contact: { an_f: [0, 0], ...torso(u, 100, [-u, 100]) } })).named[0]?.word;
    expect([word(60), word(-60), word(1)]).toEqual(["hips toward the pitcher", "hips toward the catcher", null]);
  });
});

describe("the side of the swing", () => {
  it("a left-handed hitter who is noted as right-handed reads nothing that is made of points: the side is asked for, not guessed", () => {
    const { clip } = filmed(hitter, { side: "left" });
    const { swing } = filmed(hitter);
    const reading = readCheckpoint(definition("trunk-lean-at-contact"), clip, swing);
    expect([reading.value, reading.reasons.map(({ id }) => id)]).toEqual([null, ["rule"]]);
    expect(reading.reasons[0]?.say).toMatch(/side of the swing/);
    expect(readCheckpoint(definition("plant-to-contact-time"), clip, swing).value).not.toBeNull();
  });
});

describe("laws of doubt", () => {
  it("more noise of the points gives more doubt in every reading made of points at instants", () => {
    const noisier = { ...STARTER_RULES, noise: { ...STARTER_RULES.noise, placed: { T: 0.024, px: 3 } } };
    const { clip, swing } = filmed(hitter);
    const atInstants = known.filter(({ window }) => !window);
    const louder = readClip(atInstants, clip, swing, { rules: noisier });
    readClip(atInstants, clip, swing).forEach((reading, i) => {
      const other = louder[i];
      if (reading.inputsUsed.points.length > 0) expect(other?.doubt?.points, reading.checkpointId).toBeGreaterThan(1.5 * (reading.doubt?.points ?? NaN));
      else expect(other?.sd).toBe(reading.sd);
    });
  });
  it("suggested points have more doubt than placed ones and make the reading grey, without a verdict", () => {
    const placed = readHitter();
    readHitter({ source: "suggested" }, without(["knob", "tip", "helmet"])).forEach((reading, i) => {
      if (reading.value === null || reading.inputsUsed.points.length === 0) return;
      expect(reading.doubt?.points, reading.checkpointId).toBeGreaterThan(placed[i]?.doubt?.points ?? NaN);
      expect(reading.reasons.map(({ id }) => id)).toContain("points-unconfirmed");
      expect([reading.isGrey, reading.verdict, reading.probabilities]).toEqual([true, null, null]);
    });
  });
  it("a less certain event gives more doubt, as fast as the value moves there", () => {
    const at = (sd: number) => readHitter({ swing: { events: { ...eventsOf(), contact: event(0, sd) } } }).find((one) => one.checkpointId === "contact-depth");
    expect(at(0.004)?.doubt?.time).toBeGreaterThan(1.5 * (at(0.0013)?.doubt?.time ?? NaN));
    expect(at(0.004)?.value).toBe(at(0.0013)?.value);
  });
  it("points on the events' own frames only leave the timing's part unknown, and say so", () => {
    const reading = readOne("shoulder-behind-knee", onEvents({ stance: torso(), plant: { kn_f: [70, 50], sh_f: [20, 200] } }));
    expect(reading.doubt?.time).toBeNull();
  });
  it("an angle's values never pass straight, and its quantiles neither", () => {
    const reading = readOne("front-side-stack", onEvents({ stance: torso(), contact: { an_f: [0, 0], ...torso(0) } }));
    expect(reading.value).toBe(180);
    expect(reading.quantiles?.p84).toBeLessThanOrEqual(180);
    expect(reading.quantiles?.p50).toBeLessThan(180);
    expect(reading.probabilities?.fine).toBe(1);
  });
  it("the same inputs give the same doubt to the last digit", () => {
    expect(readHitter()).toEqual(readHitter());
  });
  it("a camera's angle that is itself in doubt adds that doubt, also when it is told to be square", () => {
    const part = (cameraOffDeg: number, cameraOffSdDeg: number | null) => readOne("trunk-lean-at-contact", filmed(hitter, { clip: { cameraOffDeg, cameraOffSdDeg } })).sdCamera;
    expect(part(0, 10)).toBeCloseTo(part(10, null), 12);
    expect(part(8, 6)).toBeCloseTo(part(10, null), 12);
  });
  it("a camera known to be off the line adds its own part, kept apart, and none when square", () => {
    const lean = (off: number | null) => readOne("trunk-lean-at-contact", filmed(hitter, { clip: { cameraOffDeg: off } }));
    expect(lean(10).sdCamera).toBeCloseTo(4, 9);
    expect(lean(0).sdCamera).toBe(0);
    expect(lean(10).sd).toBe(lean(0).sd);
    expect(lean(null).reasons.map(({ id }) => id)).toEqual(["camera-unknown"]);
    expect(lean(16).reasons.map(({ id }) => id)).toEqual(["camera-off-line"]);
    expect(lean(16).isGrey).toBe(true);
  });
});

describe("the unknown stays unknown", () => {
  const reasonsOf = (id: string, shot: ReturnType<typeof filmed>) => {
    const reading = readOne(id, shot);
    return { value: reading.value, verdict: reading.verdict, ids: [...new Set(reading.reasons.map((reason) => reason.id))] };
  };
  const unknown = (...ids: string[]) => ({ value: null, verdict: null, ids });
  const lean = "trunk-lean-at-contact";
  it.each<[string, string, ReturnType<typeof filmed>, string[]]>([
    ["no view", lean, filmed(hitter, { clip: { view: null } }), ["view-not-declared"]],
    ["another view", lean, filmed(hitter, { clip: { view: "rear" } }), ["view-not-measured"]],
    ["no real time", lean, filmed(hitter, { clip: { secondsFromContact: null } }), ["time-unknown"]],
    ["times that run backward", lean, filmed(hitter, { clip: { secondsFromContact: [0, -1, -2] } }), ["time-unknown"]],
    ["one frame and no rate", lean, filmed(hitter, { clip: { secondsFromContact: [0], captureFps: null } }), ["time-unknown"]],
    ["an event not marked", "shoulder-behind-knee", filmed(hitter, { swing: { events: { contact: event(0) } } }), ["event-missing"]],
    ["an event at no number", "plant-to-contact-time", filmed(hitter, { swing: { events: { contact: event(0), plant: event(NaN) } } }), ["event-missing"]],
    ["a point not placed", lean, filmed(without(["sh_b"])), ["points-missing"]],
    ["a point at no number", lean, filmed((t) => ({ ...hitter(t), sh_b: [NaN, 1] })), ["points-missing"]],
    ["points on each other", lean, filmed((t) => ({ ...hitter(t), hip_f: [0, 0], hip_b: [0, 0], sh_f: [0, 0], sh_b: [0, 0] })), ["points-missing"]],
    ["a torso without length", "shoulder-behind-knee", filmed((t) => ({ ...hitter(t), hip_f: [0, 0], hip_b: [0, 0], sh_f: [0, 0], sh_b: [0, 0] })), ["no-scale"]],
    ["no torso", "shoulder-behind-knee", filmed(without(["hip_b"])), ["no-scale"]],
    ["events out of order", "front-knee-firming", filmed(hitter, { swing: { events: { ...eventsOf(), plant: event(0.02) } } }), ["rule"]],
    ["a hole around the event", "shoulder-behind-knee", filmed((t) => (Math.abs(t + 0.2) < 0.009 ? {} : hitter(t))), ["gap"]],
    ["a clip that ends too soon", lean, filmed(hitter, { clip: { secondsFromContact: Array.from({ length: 100 }, (_, i) => i / 240 - 0.9) } }), ["cut-off"]],
    ["a moved camera", "load-hip-shift", filmed(hitter, { clip: { cameraMoved: true } }), ["camera-moved"]],
    ["a stabilised picture", "hip-travel", filmed(hitter, { clip: { stabilised: true } }), ["camera-moved"]],
    ["a zoom and a length", "contact-depth", filmed(hitter, { clip: { cameraZoomed: true } }), ["camera-moved"]],
    ["a point outside the picture", lean, filmed(hitter, { clip: { widthPx: 905, heightPx: 2000 } }), ["out-of-frame"]],
    ["a running slap", lean, filmed(hitter, { swing: { swingKind: "running-slap" } }), ["slap"]],
    ["a tee", "plant-to-contact-time", filmed(hitter, { swing: { task: "tee" } }), ["rule"]],
    ["a base too narrow to share out", "hip-travel", filmed((t) => ({ ...hitter(t), an_f: [0, 10], an_b: [-30, 10] })), ["rule"]],
  ])("%s gives no reading and its reason", (_, id, shot, ids) => {
    expect(reasonsOf(id, shot)).toEqual(unknown(...ids));
  });
  it("a zoom takes away what compares two frames: a shift of the foot, a trunk's length", () => {
    const zoomed = filmed(hitter, { clip: { cameraZoomed: true } });
    for (const id of ["hip-travel", "trunk-shortening", "back-foot-release"]) expect(reasonsOf(id, zoomed), id).toEqual(unknown("camera-moved"));
    const anyStill = { ...definition(lean), stillCamera: true };
    expect(readCheckpoint(anyStill, zoomed.clip, zoomed.swing).value).toBeNull();
  });
  it("a zoom leaves angles of one frame alone", () => {
    expect(readOne(lean, filmed(hitter, { clip: { cameraZoomed: true } })).value).not.toBeNull();
  });
  it("taking points away never gives a reading that was not there", () => {
    fc.assert(fc.property(fc.subarray(["sh_f", "hip_b", "kn_f", "an_f", "an_b", "wr_b", "knob", "tip", "heel_b"] as const), (gone) => {
      readHitter({}, without(gone)).forEach((reading) => {
        const needsGone = reading.inputsUsed.points.some((point) => (gone as readonly string[]).includes(point));
        expect(needsGone).toBe(false);
        if (reading.value === null) expect(reading.reasons.length).toBeGreaterThan(0);
      });
    }), { numRuns: 30 });
  }, 60_000);
  it("whatever numbers come in, a reading is finite with an SD or unknown with a reason", () => {
    const odd = fc.oneof(fc.double(), fc.constantFrom(0, NaN, Infinity, -Infinity, 1e300, -0.2, 5e-324));
    fc.assert(fc.property(fc.array(odd, { minLength: 12, maxLength: 12 }), fc.array(odd, { minLength: 3, maxLength: 3 }), odd, (n, times, off) => {
      const place = (t: number): Places => ({ ...hitter(t), sh_f: [n[0] ?? 0, n[1] ?? 0], kn_f: [n[2] ?? 0, n[3] ?? 0], tip: [n[4] ?? 0, n[5] ?? 0], an_f: [n[6] ?? 0, n[7] ?? 0], hip_b: [n[8] ?? 0, n[9] ?? 0], wr_f: [n[10] ?? 0, n[11] ?? 0] });
      const events = { ...eventsOf(), plant: event(times[0] ?? 0, times[1] ?? 0), launch: event(times[2] ?? 0, off) };
      for (const reading of readHitter({ fps: 60, clip: { cameraOffDeg: off }, swing: { events } }, place)) {
        if (reading.value === null) expect(reading.reasons.length).toBeGreaterThan(0);
        else expect([reading.checkpointId, Number.isFinite(reading.value), Number.isFinite(reading.sd) || reading.censoredWords !== null]).toEqual([reading.checkpointId, true, true]);
      }
    }), { numRuns: 60 });
  }, 60_000);
  it("hands are the wrists in every frame or the knob in every frame, never a mixture", () => {
    const reading = readOne("hands-back-at-plant", filmed((t) => (t < -0.5 ? without(["wr_f"])(t) : hitter(t))));
    const growth = reading.named[0];
    expect(reading.inputsUsed.points).toEqual(["wr_f", "wr_b", "sh_b"]);
    const knobU = (t: number) => hitter(t).knob?.[0] ?? NaN;
    const ankleU = (t: number) => hitter(t).an_f?.[0] ?? NaN;
    const T = 100;
    expect(growth?.value).toBeCloseTo((ankleU(-0.2) - knobU(-0.2) - (ankleU(-1) - knobU(-1))) / T, 1);
  });
});

describe("reasons that leave the number", () => {
  const reading = (id: string, filming: Filming) => readOne(id, filmed(hitter, filming));
  it("too few frames a second are grey, and 59.94 counts as 60", () => {
    expect(reading("front-knee-firming", { fps: 60 }).reasons.map(({ id }) => id)).toEqual(["slow-frames"]);
    expect(reading("trunk-lean-at-contact", { fps: 60, clip: { captureFps: 59.94 } }).isGrey).toBe(false);
  });
  it("a suggested event nobody confirmed is a guess and grey", () => {
    const guess = reading("front-knee-firming", { swing: { events: { ...eventsOf(), plant: event(-0.2, 0.01, "suggested") } } });
    expect([guess.isGrey, guess.reasons[0]?.id]).toEqual([true, "event-guess"]);
  });
  it("without a stance the scale is rough, with twice the doubt, and the reading stands", () => {
    const { stance: _, ...events } = eventsOf();
    const rough = reading("shoulder-behind-knee", { swing: { events } });
    expect(rough.reasons.map(({ id }) => id)).toEqual(["rough-scale"]);
    expect(rough.verdict).not.toBeNull();
  });
  it("a resting height taken before toe touch has twice the doubt of one at the stance", () => {
    const foot = { heel_b: [0, 20], toe_b: [0, 0] } as const;
    const shot = (quiet: number) => filmed((t) => (Math.abs(t - quiet) < 0.001 ? { ...torso(), ...foot } : t >= 0 && t < 0.001 ? foot : t < -0.999 && t > -1.001 ? torso() : {}));
    const [still, rough] = [readOne("back-foot-release", shot(-1)), readOne("back-foot-release", shot(-0.5))];
    const own = (sd: number | undefined) => (sd ?? NaN) ** 2;
    expect(own(rough.doubt?.points) / own(still.doubt?.points)).toBeCloseTo((2 + 2 * 4) / (2 + 2), 6);
    expect(rough.reasons.map(({ id }) => id)).toContain("rough-scale");
  });
  it("a point that two events share carries one noise: hips that load on their stance frame have not moved, without doubt from points", () => {
    const same = reading("load-hip-shift", { swing: { events: { ...eventsOf(), load: event(EVENT_SECONDS.stance, 0.005) } } });
    expect(same.value).toBe(0);
    expect(same.doubt?.points).toBeCloseTo(0, 9);
  });
  it("times take the slowest clip that gave an event", () => {
    const events = { ...eventsOf(), launch: { ...event(-0.15, 0.01), framePeriodSeconds: 1 / 60 } };
    expect(reading("launch-to-contact-time", { swing: { events } }).reasons.map(({ id }) => id)).toEqual(["slow-frames"]);
  });
  it("a doubt wider than the band is grey, and makes no chances and no evidence", () => {
    const events = { ...eventsOf(), plant: event(-0.2, 0.2) };
    const wide = reading("plant-to-contact-time", { swing: { events } });
    expect([wide.isGrey, wide.reasons.map(({ id }) => id), wide.probabilities, wide.size, wide.deviation]).toEqual([true, ["wide"], null, null, null]);
    expect(wide.value).toBeCloseTo(0.2, 9);
  });
  it("a checkpoint for a player's own baseline only has a value and no verdict", () => {
    const { clip, swing } = filmed(hitter);
    const own = readCheckpoint({ ...definition("contact-depth"), ownBaselineOnly: true }, clip, swing);
    expect([own.value === null, own.verdict, own.isGrey]).toEqual([false, null, false]);
  });
  it("a named value keeps or breaks its own limit, and a grey one says neither", () => {
    const knee = (filming: Filming) => reading("front-knee-firming", filming).named[1]?.isInsideLimit;
    expect([knee({}), knee({ fps: 60 })]).toEqual([true, null]);
  });
  it("a checkpoint whose formula is not known here is refused alone and left out of a clip's readings", () => {
    const { clip, swing } = filmed(hitter);
    const unknown = { ...definition("hip-travel"), formulaVersion: 9 };
    expect(() => readCheckpoint(unknown, clip, swing)).toThrow(RangeError);
    expect(readClip([unknown], clip, swing)).toEqual([]);
  });
  it("a reading names the frames and points of its still", () => {
    const knee = reading("front-knee-firming", {});
    expect(knee.inputsUsed.frames).toEqual([
      { frameIndex: 216, at: "plant", points: ["hip_f", "kn_f", "an_f"] },
      { frameIndex: 264, at: "contact", points: ["hip_f", "kn_f", "an_f"] },
    ]);
  });
  it("the youth band is in force under 13 and not from 13 on", () => {
    const low = (ageYears: number | null) => reading("front-knee-firming", { swing: { ageYears } }).band?.ok[0];
    expect([low(12), low(13), low(null)]).toEqual([3, 6, 6]);
  });
  it("an academy's rules that cannot be are refused", () => {
    const { clip, swing } = filmed(hitter);
    expect(() => readClip(known, clip, swing, { rules: { ...STARTER_RULES, draws: 10 } })).toThrow(RangeError);
  });
});

function eventsOf() {
  return Object.fromEntries(Object.entries(EVENT_SECONDS).map(([id, at]) => [id, event(at, 0.005)])) as Record<keyof typeof EVENT_SECONDS, ReturnType<typeof event>>;
}
