import { describe, expect, it } from "vitest";
import type { CheckpointDefinition } from "@/lib/measure/checkpoint-definition";
import { readCheckpoint } from "@/lib/measure/read-checkpoint";
import { filmedWhole, WHOLE_SECONDS, wholeEvents, type Body, type WholeFilming } from "@/lib/measure/whole-swing.fixture";
import library from "@/seed/library/checkpoints.json";

const definitions = library.checkpoints as unknown as readonly CheckpointDefinition[];
type Moments = Readonly<Partial<Record<keyof typeof WHOLE_SECONDS, Body>>>;

/** Reads a checkpoint in its primary view on points that stand still (`always`) but for what is said of their moments. */
function read(id: string, always: Body, moments: Moments = {}, filming: WholeFilming = {}) {
  const definition = definitions.find((one) => one.id === id)!;
  const bodyAt = (t: number): Body => {
    const at = Object.entries(WHOLE_SECONDS).find(([, seconds]) => Math.abs(seconds - t) < 0.012);
    return { ...always, ...(at ? moments[at[0] as keyof Moments] : {}) };
  };
  const { clip, swing } = filmedWhole(definition.views.measured[0]!, filming, bodyAt);
  return readCheckpoint(definition, clip, swing);
}
const trunk = (u = 0, w = 0): Body => ({ hip_f: [u + 15, w, 100], hip_b: [u - 15, w, 100], sh_f: [u + 20, w, 200], sh_b: [u - 20, w, 200] });
const named = (reading: ReturnType<typeof read>, id: string) => reading.named.find((one) => one.id === id);
const deg = (turn: number) => (turn * Math.PI) / 180;

describe("values worked by hand, in the primary view", () => {
  it("back-elbow-draw: an elbow that goes 8 of 40 pixels away from the plate behind its shoulder", () => {
    const arm = (w: number): Body => ({ el_b: [-20, w, 160], sh_b: [-20, 0, 200] });
    expect(read("back-elbow-draw", { ...trunk(), ...arm(0) }, { plant: arm(-8) }).value).toBeCloseTo(8 / 40, 1);
  });
  it("back-elbow-draw: not when the shoulders coil by more than 15 degrees, nor when the elbow moved less than 3 pixels", () => {
    const turned = (coil: number, w: number): Body => ({ sh_f: [20, 22 * Math.sin(deg(coil)), 200], sh_b: [-20, -22 * Math.sin(deg(coil)), 200], el_b: [-20, w - 22 * Math.sin(deg(coil)), 160] });
    const says = (landing: Body) => {
      const { clip, swing } = filmedWhole("rear", {}, (t) => ({ ...trunk(), ...(t < -0.5 ? turned(0, 0) : t < -0.1 ? landing : turned(-90, 0)) }));
      return readCheckpoint(definitions.find(({ id }) => id === "back-elbow-draw")!, clip, swing).reasons.filter(({ id }) => id === "rule").map(({ say }) => say);
    };
    expect(says(turned(30, -9))).toEqual(["the shoulders coiled: the draw cannot be told from the coil"]);
    expect(says(turned(0, -2))).toEqual(["too small to read: the elbow moved less than 3 pixels against the shoulder"]);
    expect(says(turned(10, -9))).toEqual([]);
  });
  const leg: Body = { ...trunk(), hip_f: [15, 0, 100], kn_f: [15, 0, 50], an_f: [15, 0, 0], an_b: [-25, 0, 0] };
  it("stride-length: ankles 100 apart under a leg of 100, times 2.04; rough, since the height is not entered", () => {
    const reading = read("stride-length", leg, { plant: { hip_f: [75, 0, 100], kn_f: [75, 0, 50], an_f: [75, 0, 0] } });
    expect(reading.value).toBeCloseTo(100 / 204, 3);
    expect(reading.reasons.map(({ id }) => id)).toContain("rough-scale");
  });
  it("stride-length: an entered height and pixels per metre take the leg's place, without being rough", () => {
    const known = { clip: { pixelsPerMetre: { value: 110, sd: 1 } }, swing: { standingHeightM: 1.8 } };
    const reading = read("stride-length", leg, { plant: { an_f: [75, 0, 0] } }, known);
    expect(reading.value).toBeCloseTo(100 / 198, 9);
    expect(reading.reasons).toEqual([]);
    expect(reading.doubt?.scale).toBeCloseTo((100 / 198) * Math.hypot(0.02 / 1.8, 1 / 110), 6);
  });
  const feet: Body = { ...trunk(), heel_b: [-30, -8, 4], toe_b: [-30, 17, 4], heel_f: [30, -8, 4], toe_f: [30, 17, 4], an_f: [30, 0, 10] };
  it("stride-direction: a foot of 25 that steps 10 away from the plate, and its landing line", () => {
    const reading = read("stride-direction", feet, { plant: { an_f: [80, -10, 10], toe_f: [85, 7, 4] } });
    expect(reading.value).toBeCloseTo(-10 / 25, 1);
    expect(named(reading, "landing-line")?.value).toBeCloseTo(-10 / 25, 1);
  });
  it("front-foot-angle: half a foot's width is 60 degrees; a square foot is closed, without a number", () => {
    const landing = (width: number) => read("front-foot-angle", feet, { plant: { heel_f: [80, 0, 4], toe_f: [90, width, 4] } });
    expect(Math.abs((landing(12.5).value ?? NaN) - 60)).toBeLessThan(1);
    expect([landing(12.5).word, landing(24.5).word]).toEqual([null, "closed"]);
    expect(landing(26).quantiles?.p16).toBeGreaterThanOrEqual(0);
  });
  it.each([["chest-open-at-plant", "sh", 44], ["pelvis-open-at-plant", "hip", 44]] as const)("%s: asin of the width over the full width of the finish, signed", (id, part, width) => {
    const turned = (turn: number): Body => ({ [`${part}_f`]: [0, (-width / 2) * Math.sin(deg(turn)), 200], [`${part}_b`]: [0, (width / 2) * Math.sin(deg(turn)), 200] });
    const swing = (turn: number) => {
      const definition = definitions.find((one) => one.id === id)!;
      const { clip, swing: own } = filmedWhole("front", {}, (t) => ({ ...trunk(), ...turned(t > -0.1 ? 90 : turn) }));
      return readCheckpoint(definition, clip, own);
    };
    expect(Math.abs((swing(-20).value ?? NaN) + 20)).toBeLessThan(0.5);
    expect(Math.abs((swing(30).value ?? NaN) - 30)).toBeLessThan(0.5);
    expect(swing(80).reasons.map(({ say }) => say)).toContain("turned too far: beyond 70 degrees the width hardly changes");
  });
  it("a width above the full width is said, not clipped silently", () => {
    const wide = read("chest-open-at-plant", { ...trunk(), sh_f: [0, -20, 200], sh_b: [0, 20, 200] }, { plant: { sh_f: [0, -23, 200], sh_b: [0, 23, 200] } });
    expect([wide.value, wide.reasons[0]?.say]).toEqual([null, "turned too far: beyond 70 degrees the width hardly changes (it looks 15 % wider than its full width: a point may be off)"]);
  });
  it("trunk-fold-change: 10 degrees of new bend, and hips 5 of 100 away from the plate", () => {
    const bent: Body = { hip_f: [0, -5, 100], hip_b: [0, -5, 100], sh_f: [0, -5 + 100 * Math.sin(deg(10)), 100 + 100 * Math.cos(deg(10))], sh_b: [0, -5 + 100 * Math.sin(deg(10)), 100 + 100 * Math.cos(deg(10))] };
    const reading = read("trunk-fold-change", trunk(), { contact: bent });
    expect(reading.value).toBeCloseTo(10, 9);
    expect(named(reading, "seat-out")?.value).toBeCloseTo(0.05, 9);
  });
  it("barrel-below-hands: 45 degrees down, whichever way the bat points across", () => {
    for (const side of [50, -50]) expect(read("barrel-below-hands", { ...trunk(), knob: [0, 10, 150], tip: [0, 10 + side, 100] }).value).toBeCloseTo(45, 9);
  });
  it("head-travel: the helmet goes 12 of 100 forward and drops 9; with the helmet in one frame only, both ears in both", () => {
    const head = (u: number, v: number): Body => ({ helmet: [u, 0, v], ear_f: [u + 4, 0, v - 4], ear_b: [u - 4, 0, v - 4] });
    const reading = read("head-travel", { ...trunk(), ...head(0, 240) }, { contact: head(12, 231) });
    expect([reading.value, named(reading, "drop")?.value].map((value) => Number(value?.toFixed(9)))).toEqual([0.12, 0.09]);
    const { helmet: _, ...ears } = head(12, 231);
    const { clip, swing } = filmedWhole("side", {}, (t) => (Math.abs(t) < 0.012 ? { ...trunk(), ...ears } : { ...trunk(), ...head(0, 240) }));
    const byEars = readCheckpoint(definitions.find(({ id }) => id === "head-travel")!, clip, swing);
    expect(byEars.value).toBeCloseTo(0.12, 9);
    expect(byEars.inputsUsed.points).not.toContain("helmet");
  });
  it("face-to-contact: a nose 6 toward the plate from ears 12 apart", () => {
    expect(read("face-to-contact", { ...trunk(), nose: [5, 6, 230], ear_f: [0, -6, 232], ear_b: [0, 6, 232] }).value).toBeCloseTo(0.5, 1);
  });
  it("bat-angle-early: a bat of 84 whose tip is half of it above the knob, a quarter of the way to contact", () => {
    const { clip, swing } = filmedWhole("side", {}, (t) => ({ knob: [0, 0, 150], tip: t < -0.1 ? [-84 * Math.cos(deg(30)), 0, 192] : [0, 84, 150] }));
    const reading = readCheckpoint(definitions.find(({ id }) => id === "bat-angle-early")!, clip, swing);
    expect(Math.abs((reading.value ?? NaN) - 30)).toBeLessThan(0.5);
    expect(named(reading, "gravity-moment")?.value).toBeNull();
    expect(named(reading, "gravity-moment")?.reasons.length).toBeGreaterThan(0);
  });
});

describe("times in the ball's flight", () => {
  const flight = (release: number, plant: number) => {
    const events = { ...wholeEvents(0.002), release: { seconds: -release, sdSeconds: 0.004, source: "placed" as const }, plant: { seconds: -plant, sdSeconds: 0.006, source: "placed" as const } };
    return read("plant-in-ball-flight", {}, {}, { swing: { events } });
  };
  it("the same landing is another share of another flight, judged by that flight's own limits", () => {
    const [short, long] = [flight(0.45, 0.2), flight(0.6, 0.2)];
    expect([short.value, long.value].map((value) => Number(value?.toFixed(4)))).toEqual([0.5556, 0.6667]);
    expect([short.verdict, long.verdict]).toEqual(["fine", "fine"]);
    expect(long.band?.ok[0]).toBeCloseTo(1 - 0.28 / 0.6, 12);
    expect(named(short, "flight")?.value).toBeCloseTo(0.45, 12);
  });
  it("a landing 0.09 s before contact is late in any flight", () => expect([flight(0.45, 0.09).verdict, flight(0.7, 0.09).verdict]).toEqual(["talk-about", "talk-about"]));
  it("a load that ends a tenth of a second before the release", () => {
    const reading = read("load-before-release", {});
    expect(reading.value).toBeCloseTo(WHOLE_SECONDS.release - WHOLE_SECONDS.load, 12);
    expect(reading.verdict).toBe("fine");
  });
  it("neither off a tee, nor with a release that nobody marked", () => {
    for (const id of ["plant-in-ball-flight", "load-before-release"]) {
      for (const facts of [{ task: "tee" as const }, { releaseSource: "none" }, { releaseSource: "computed-assumed-speed" }]) {
        expect(read(id, {}, {}, { swing: facts }).reasons.map((reason) => reason.id)).toEqual(["rule"]);
      }
    }
  });
});
