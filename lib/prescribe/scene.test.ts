import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";
import type { Drill } from "./drill";
import { CAUTIONS } from "./cautions";
import { sceneOf, sceneWords, setUpChecklist } from "./scene";

const drills: readonly Drill[] = JSON.parse(readFileSync(path.resolve(import.meta.dirname, "../../seed/library/drills.json"), "utf8")).drills;
const of = (id: string) => sceneOf(drills.find((drill) => drill.id === id)!);

it("every drill has a picture in the same language: its ground, a circle whenever a bat is swung, a net whenever one is needed", () => {
  for (const drill of drills) {
    const scene = sceneOf(drill);
    expect([scene.widthM, scene.lengthM], drill.id).toEqual([drill.spaceM.w, drill.spaceM.l]);
    if (drill.gear.includes("bat") || drill.dose.fullSwings > 0) expect(scene.hasCircle, drill.id).toBe(true);
    if (drill.gear.some((entry) => entry.includes("net"))) expect(scene.props, drill.id).toContain("net");
    if (drill.gear.includes("screen")) expect(scene.props, drill.id).toContain("screen");
    if (drill.setup === "tee") expect(scene.props, drill.id).toContain("tee");
    expect(sceneWords(scene)).toMatch(/^Seen from above, .*\.$/);
  }
});

it("shows who tosses, throws or works the machine, and an adult where one is in charge", () => {
  expect(of("front-toss-middle")).toMatchObject({ hasAdult: true, props: expect.arrayContaining(["tosser", "screen"]) });
  expect(of("self-toss-drive").props).not.toContain("tosser");
  expect(of("speed-ladder").props).toContain("machine");
  expect(of("mirror-load")).toEqual({ widthM: 2, lengthM: 2, props: ["mirror"], hasCircle: false, hasAdult: false });
});

it("before the first time one looks at ground, circle, net distance and ball type of every drill that has them", () => {
  for (const drill of drills) {
    const scene = sceneOf(drill);
    const list = setUpChecklist(scene, [CAUTIONS["soft-balls"], CAUTIONS.stop]).join(" ");
    expect(list).toContain(`${scene.widthM} by ${scene.lengthM} m`);
    expect(list.includes("The circle is clear")).toBe(scene.hasCircle);
    expect(list.includes("stands 2 to 3 m ahead")).toBe(scene.props.includes("net"));
    expect(list).toContain("Soft balls only.");
    // What is said while swinging is no part of setting up.
    expect(list).not.toContain(CAUTIONS.stop);
  }
});
