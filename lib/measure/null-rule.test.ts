import { describe, expect, it } from "vitest";
import { clipContext } from "@/lib/measure/clip-context";
import { nullRuleHolds } from "@/lib/measure/null-rule";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import { filmed, onEvents, torso, type Filming, type Places } from "@/lib/measure/swing.fixture";

type Shot = ReturnType<typeof filmed>;
const holds = (rule: Partial<Parameters<typeof nullRuleHolds>[0]>, shot: Shot, window: Parameters<typeof nullRuleHolds>[1]["window"] = null) =>
  nullRuleHolds({ say: "why", ...rule }, { window }, clipContext(shot.clip, shot.swing, STARTER_RULES));
const base = (width: number) => onEvents({ stance: torso(), plant: { an_b: [0, 0], an_f: [width, 0] } });
const always = (places: Places, filming?: Filming) => filmed(() => places, filming);

describe("a null rule", () => {
  const narrow = { left: "u(an_f,t_plant)-u(an_b,t_plant)", op: "<", right: "0.5*T" };
  it("compares two expressions on the estimates", () => {
    expect([holds(narrow, base(49)), holds(narrow, base(51))]).toEqual([true, false]);
  });
  it("does not hold when something it reads is unknown", () => {
    expect(holds(narrow, onEvents({ plant: { an_b: [0, 0], an_f: [1, 0] } }))).toBe(false);
    expect(holds({ fact: "task", is: ["tee"] }, always({}, { swing: { task: null } }))).toBe(false);
    expect(holds({ fact: "leftBox" }, always({}))).toBe(false);
  });
  it("asks for facts of clip and swing and for other readings of the swing", () => {
    expect(holds({ fact: "task", is: ["tee", "dry"] }, always({}, { swing: { task: "dry" } }))).toBe(true);
    expect(holds({ fact: "leftBox" }, always({}, { swing: { leftBox: true } }))).toBe(true);
    const below = { fact: "swing-reading", checkpoint: "barrel-below-hands", op: "<", right: 0 };
    expect([-3, 3, null].map((value) => holds(below, always({}, { swing: { swingReadings: { "barrel-below-hands": value } } })))).toEqual([true, false, false]);
  });
  it.each<[string, number]>([
    ["2+3*4-6/2", 11], ["-(1-3)", 2], ["2-3-4", -5], ["max(1,abs(-7),sqrt(9))", 7], ["min(4,hypot(3,4))", 4],
    ["placed(tip,t_contact)", 1], ["placed(knob,t_contact)", 0], ["u(midhip,t_contact)", 0], ["T", 100], ["t_contact-t_plant", 0.2],
  ])("%s is %d", (left, right) => {
    const shot = always({ ...torso(), tip: [0, 0], hip_f: [15, 100], kn_f: [15, 50], an_f: [65, 50] }, { shift: [0, 0] });
    expect(holds({ left: `abs(${left}-(${right}))`, op: "<", right: 0.000001 }, shot)).toBe(true);
  });
  it("over the window holds when it holds on any of its frames", () => {
    const rises = filmed((t) => ({ heel_b: [0, t > -0.01 ? 50 : 0], toe_b: [0, 0] }));
    const high = { left: "v(heel_b)-v(toe_b)", op: ">", right: 40, over: "window" };
    expect(holds(high, rises, { from: "t_plant", to: "t_contact" })).toBe(true);
    expect(holds(high, rises, { from: "t_plant", to: "t_launch" })).toBe(false);
  });
  it("reads places and angles without a time on each frame of the window", () => {
    const bent = filmed((t) => ({ hip_f: [0, 100], kn_f: [0, 50], an_f: t > -0.02 ? [50, 50] : [0, 0] }));
    const rule = { left: "angle(hip_f,kn_f,an_f)", op: "<", right: 91, over: "window" };
    expect(holds(rule, bent, { from: "t_plant", to: "t_contact" })).toBe(true);
    expect(holds(rule, bent, { from: "t_plant", to: "t_launch" })).toBe(false);
  });
  it("counts the window's frames and its longest hole", () => {
    const holed = filmed((t) => (t > -0.11 && t < -0.098 ? {} : { tip: [0, 0] }), { fps: 240 });
    const window = { from: "t_contact-0.125", to: "t_contact" };
    expect(holds({ left: "frames()", op: "=", right: 31 }, holed, window)).toBe(true);
    expect(holds({ left: "gap(tip)", op: "=", right: 3 }, holed, window)).toBe(true);
  });
});
