import { describe, expect, test } from "vitest";
import faultFile from "@/seed/library/faults.json";
import { medianOf, percentile95, sideAxes, TRUE_READING_IDS, type TrueReadingId } from "./readings";
import { FAULT_PARAMETERS, swingSpec, type Body, type FaultParameter, type SwingSpec } from "./spec";
import { pointsOf } from "./points";
import { hitterOf, type Hitter } from "./skeleton";
import { truthOf, type SwingTruth } from "./truth";
import { distance } from "./vec";

interface Link {
  readonly checkpoint: string;
  readonly op: string;
  readonly value: number;
  readonly valueYouth?: number;
}

const linksOf = (id: string): readonly Link[] => faultFile.faults.find((fault) => fault.id === id)?.checkpoints ?? [];
const isTrueReading = (id: string): id is TrueReadingId => (TRUE_READING_IDS as readonly string[]).includes(id);
const faulty = (id: FaultParameter, amount: number, parts: Partial<SwingSpec> = {}): SwingTruth =>
  truthOf(swingSpec({ framesPerSecond: 60, faults: { [id]: amount }, ...parts }));

/** Seconds before contact at which the shoulders, seen from the side, have narrowed to the cosine of 30 degrees. */
function chestOpenLead({ pointsAt, events }: SwingTruth): number {
  const times = Array.from({ length: 200 }, (_, i) => events.load + (i / 199) * -events.load);
  const widths = times.map((t) => {
    const at = sideAxes(pointsAt(t), 1);
    return Math.abs(at("sh_f").u - at("sh_b").u);
  });
  const limit = Math.cos(Math.PI / 6) * percentile95(widths);
  const widest = widths.indexOf(Math.max(...widths));
  return -times[widths.findIndex((width, i) => i > widest && width <= limit)]!;
}

describe("a fault parameter", () => {
  test("has the id of a fault in the library", () => {
    const ids = faultFile.faults.map((fault) => fault.id);
    for (const id of FAULT_PARAMETERS) expect(ids).toContain(id);
  });

  test.each(FAULT_PARAMETERS)("%s at 1 moves each side-view reading that its links name beyond the link's limit", (id) => {
    for (const body of ["child", "adult"] as Body[]) {
      const { readings } = faulty(id, 1, { body });
      for (const link of linksOf(id)) {
        if (!isTrueReading(link.checkpoint)) continue;
        const limit = (body === "child" ? link.valueYouth : undefined) ?? link.value;
        const past = link.op === ">" ? readings![link.checkpoint] - limit : limit - readings![link.checkpoint];
        expect(past, `${link.checkpoint} of a ${body}`).toBeGreaterThan(0);
      }
    }
  }, 20_000);

  test.each(FAULT_PARAMETERS)("%s bends the motion a little when it is small and much when it is whole", (id) => {
    const hitters = [0, 0.1, 1].map((amount) => hitterOf(swingSpec({ faults: { [id]: amount } })));
    const furthest = (a: Hitter, b: Hitter) => {
      let most = 0;
      for (let t = -0.8; t < 0.3; t += 0.02) {
        const [p, q] = [pointsOf(a, a.poseAt(t)), pointsOf(b, b.poseAt(t))];
        for (const point of ["wr_b", "el_b", "kn_f", "toe_b", "hip_f", "sh_f"] as const) most = Math.max(most, distance(p[point], q[point]));
      }
      return most;
    };
    expect(furthest(hitters[0]!, hitters[1]!)).toBeGreaterThan(0.002);
    expect(furthest(hitters[0]!, hitters[1]!)).toBeLessThan(0.12);
    expect(furthest(hitters[0]!, hitters[2]!)).toBeGreaterThan(0.04);
  });

  test("front-shoulder-opens turns the chest open earlier than the link's limit, a clean swing does not", () => {
    const limit = linksOf("front-shoulder-opens").find((link) => link.checkpoint === "chest-open-lead")!.value;
    expect(chestOpenLead(faulty("front-shoulder-opens", 1))).toBeGreaterThan(limit);
    expect(chestOpenLead(faulty("front-shoulder-opens", 0))).toBeLessThan(0.13);
  });

  test("back-elbow-no-load keeps the back elbow from rising, as seen from the front", () => {
    const rise = ({ pointsAt, events }: SwingTruth) => {
      const over = (t: number) => pointsAt(t).sh_b.y - pointsAt(t).el_b.y;
      const times = Array.from({ length: 40 }, (_, i) => events.load + (i / 39) * (events.plant - events.load));
      const upperArm = medianOf(times.map((t) => Math.hypot(pointsAt(t).sh_b.x - pointsAt(t).el_b.x, over(t))));
      return (Math.max(...times.map(over)) - over(events.stance)) / upperArm;
    };
    expect(rise(faulty("back-elbow-no-load", 1, { view: "front" }))).toBeLessThan(0);
    expect(rise(faulty("back-elbow-no-load", 0, { view: "front" }))).toBeGreaterThan(0.05);
  });
});
