import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { FrameTimes } from "@/lib/core/frame-times";
import {
  clampLook, clockSecondsOf, commandOfKey, eventKeys, eventSecondsOf, frameForTick, lineUpEvents, nearestFrame, nextPoint, panBy, placementOf, pointNeeds,
  sayClock, stepFrame, tickAtClockSeconds, toPicture, toScreen, waitingNeeds, wholeLook, zoomAbout, type KeyPress, type WantedCheckpoint,
} from "./rules";
import type { EventView } from "./view";

const times = (ticks: readonly number[]): FrameTimes => ({ timeBaseNum: 1, timeBaseDen: 90_000, ticks });
const ticksArb = fc.array(fc.integer({ min: 1, max: 5000 }), { minLength: 2, maxLength: 60 }).map((steps) => {
  let at = 700;
  return steps.map((step) => (at += step));
});
const press = (key: string, more: Partial<KeyPress> = {}): KeyPress => ({ key, shiftKey: false, ctrlKey: false, metaKey: false, altKey: false, ...more });

describe("time on the swing clock", () => {
  test("contact is zero, and 375 ticks of 1/90000 before it in an eighth-speed file are one real 1920th of a second before", () => {
    const clip = { frameTimes: times([0, 375, 750]), realSecondsPerFileSecond: 1 / 8 };
    expect(clockSecondsOf(clip, 2, 750)).toBe(0);
    expect(clockSecondsOf(clip, 1, 750)).toBeCloseTo(-1 / 1920, 12);
  });
  test("without contact the clock starts at the first frame", () => {
    expect(clockSecondsOf({ frameTimes: times([9000, 18000]), realSecondsPerFileSecond: 1 }, 1, null)).toBeCloseTo(0.1, 12);
  });
  test("a frame's clock time leads back to the frame, at uneven intervals too", () => {
    fc.assert(
      fc.property(ticksArb, fc.nat(), fc.constantFrom(1, 1 / 2, 1 / 8), fc.nat(), (ticks, at, real, zero) => {
        const clip = { frameTimes: times(ticks), realSecondsPerFileSecond: real };
        const frame = at % ticks.length;
        const contact = ticks[zero % ticks.length] ?? null;
        const tick = tickAtClockSeconds(clip, clockSecondsOf(clip, frame, contact), contact);
        expect(nearestFrame(clip.frameTimes, tick)).toBe(frame);
      }),
    );
  });
  test("no frame lies nearer to a tick than the nearest frame", () => {
    fc.assert(
      fc.property(ticksArb, fc.integer({ min: -1000, max: 400_000 }), (ticks, tick) => {
        const found = Math.abs((ticks[nearestFrame(times(ticks), tick)] ?? NaN) - tick);
        for (const it of ticks) expect(found).toBeLessThanOrEqual(Math.abs(it - tick));
      }),
    );
  });
  test("an instant more than one interval outside the clip falls on no frame of it", () => {
    const clip = times([1000, 1400, 1800, 2200]);
    expect(frameForTick(clip, 601)).toBe(0);
    expect(frameForTick(clip, 599)).toBeNull();
    expect(frameForTick(clip, 2600)).toBe(3);
    expect(frameForTick(clip, 2601)).toBeNull();
  });
  test("steps stop at both ends of the clip", () => {
    expect(stepFrame(3, -10, 40)).toBe(0);
    expect(stepFrame(35, 10, 40)).toBe(39);
  });
  test("before contact is said with a true minus, after it with a plus, and a rounded nothing without either", () => {
    expect(sayClock(-0.1)).toBe("−0.100");
    expect(sayClock(0.0704)).toBe("+0.070");
    expect(sayClock(-0.0002)).toBe("0.000");
  });
});

describe("keys", () => {
  test("every event has its own letter, and the letter sets it in either case", () => {
    expect(new Set(eventKeys.map((it) => it.key)).size).toBe(eventKeys.length);
    for (const { event, key } of eventKeys) expect(commandOfKey(press(key.toLowerCase()))).toEqual({ kind: "set-event", event });
  });
  test("shift and a letter goes to the event and never sets it", () => {
    expect(commandOfKey(press("P", { shiftKey: true }))).toEqual({ kind: "go-event", event: "plant" });
  });
  test("arrows step one frame, with shift ten", () => {
    expect(commandOfKey(press("ArrowRight"))).toEqual({ kind: "step", by: 1 });
    expect(commandOfKey(press("a"))).toEqual({ kind: "take-points", isAll: false });
    expect(commandOfKey(press("A", { shiftKey: true }))).toEqual({ kind: "take-points", isAll: true });
    expect(commandOfKey(press("ArrowLeft", { shiftKey: true }))).toEqual({ kind: "step", by: -10 });
  });
  test("the browser's own keys are left alone", () => {
    for (const key of ["c", "l", "p", "ArrowLeft"]) expect(commandOfKey(press(key, { ctrlKey: true }))).toBeNull();
    expect(commandOfKey(press("ArrowLeft", { altKey: true }))).toBeNull();
    expect(commandOfKey(press("toString"))).toBeNull();
  });
});

describe("picture and screen", () => {
  const side = fc.double({ min: 50, max: 4000, noNaN: true });
  const size = fc.record({ width: side, height: side });
  const unit = fc.double({ min: 0, max: 1, noNaN: true });
  const lookArb = fc.record({ zoom: fc.double({ min: 0.1, max: 20, noNaN: true }), centre: fc.record({ x: fc.double({ min: -500, max: 5000, noNaN: true }), y: fc.double({ min: -500, max: 5000, noNaN: true }) }) });
  test("a spot taken to the screen and back is where it was, at any letter-box, zoom and pan", () => {
    fc.assert(
      fc.property(size, size, lookArb, unit, unit, (picture, box, look, ux, uy) => {
        const place = placementOf(look, picture, box);
        const spot = { x: ux * picture.width, y: uy * picture.height };
        const back = toPicture(place, toScreen(place, spot));
        expect(back.x).toBeCloseTo(spot.x, 6);
        expect(back.y).toBeCloseTo(spot.y, 6);
      }),
    );
  });
  test("along each axis the picture either lies wholly inside the box, in the middle, or covers it", () => {
    fc.assert(
      fc.property(size, size, lookArb, (picture, box, look) => {
        const place = placementOf(look, picture, box);
        for (const [start, length, room] of [
          [place.dx, picture.width * place.scale, box.width],
          [place.dy, picture.height * place.scale, box.height],
        ] as const) {
          if (length <= room + 1e-6) expect(start).toBeCloseTo((room - length) / 2, 5);
          else {
            expect(start).toBeLessThanOrEqual(1e-6);
            expect(start + length).toBeGreaterThanOrEqual(room - 1e-6);
          }
        }
      }),
    );
  });
  test("a tall clip in a wide box is letter-boxed left and right", () => {
    const place = placementOf(wholeLook({ width: 720, height: 1280 }), { width: 720, height: 1280 }, { width: 1000, height: 640 });
    expect(place).toEqual({ scale: 0.5, dx: 320, dy: 0 });
  });
  test("zooming about a spot keeps it under the finger while the edges allow", () => {
    const picture = { width: 1280, height: 720 };
    const box = { width: 640, height: 360 };
    const about = { x: 700, y: 300 };
    const before = toScreen(placementOf(wholeLook(picture), picture, box), about);
    const after = toScreen(placementOf(zoomAbout(wholeLook(picture), 3, about, picture, box), picture, box), about);
    expect(after.x).toBeCloseTo(before.x, 9);
    expect(after.y).toBeCloseTo(before.y, 9);
  });
  test("panning there and back returns the look when no edge was met", () => {
    const picture = { width: 1280, height: 720 };
    const box = { width: 640, height: 360 };
    const look = clampLook({ zoom: 4, centre: { x: 640, y: 360 } }, picture, box);
    expect(panBy(panBy(look, 20, -15, picture, box), -20, 15, picture, box)).toEqual(look);
  });
});

describe("which point to ask for", () => {
  const wanted: readonly WantedCheckpoint[] = [
    { id: "knee", points: ["hip_f", "kn_f", "an_f"], events: ["plant", "contact"], scales: [] },
    { id: "lean", points: ["sh_f", "sh_b", "hip_f", "hip_b"], events: ["contact"], scales: [] },
    { id: "catch-up", points: ["tip", "knob"], events: ["contact"], scales: [{ points: ["tip", "knob"], over: "clip" }] },
    { id: "behind", points: ["kn_f", "sh_f"], events: ["plant"], scales: [{ points: ["sh_f", "sh_b", "hip_f", "hip_b"], over: "stance" }] },
    { id: "time", points: [], events: ["release", "plant"], scales: [] },
  ];
  const at = (event: EventView["event"], frameIndex: number | null): EventView => ({ event, frameIndex, tick: 0, source: "coach", sdSeconds: null });
  test("no point is asked for twice on a frame, and none at the pitcher's release", () => {
    const needs = pointNeeds(wanted);
    const keys = needs.map((it) => `${it.event} ${it.point}`);
    expect(new Set(keys).size).toBe(keys.length);
    expect(needs.some((it) => it.event === "release")).toBe(false);
  });
  test("frames are visited one after the other, the one with most to place first", () => {
    const visited = pointNeeds(wanted).map((it) => it.event);
    const order = visited.filter((event, i) => event !== visited[i - 1]);
    expect(new Set(order).size).toBe(order.length);
    expect(order[0]).toBe("contact");
  });
  test("on a frame the point that most readings wait for comes first", () => {
    expect(pointNeeds(wanted)[0]).toEqual({ event: "contact", point: "hip_f", readings: 2 });
  });
  test("a length that is the longest seen is asked for on three frames", () => {
    const alone = pointNeeds(wanted).filter((it) => it.point === "knob");
    expect(alone.map((it) => it.event).sort()).toEqual(["contact", "plant"]);
    const three = pointNeeds([...wanted, { id: "shift", points: ["hip_f"], events: ["load"], scales: [] }]).filter((it) => it.point === "knob");
    expect(three).toHaveLength(3);
  });
  test("a suggestion still waits, a placed point and one that cannot be seen do not", () => {
    const needs = pointNeeds([{ id: "lean", points: ["sh_f", "sh_b", "hip_f", "hip_b"], events: ["contact"], scales: [] }]);
    const waiting = waitingNeeds(
      needs,
      [at("contact", 9)],
      [{ frameIndex: 9, point: "sh_f", x: 1, y: 1, source: "coach" }, { frameIndex: 9, point: "sh_b", x: 1, y: 1, source: "suggested" }],
      [{ frameIndex: 9, point: "hip_f" }],
    );
    expect(waiting.map((it) => it.point)).toEqual(["sh_b", "hip_b"]);
  });
  test("nothing is asked for at an event that does not fall on this clip", () => {
    expect(waitingNeeds(pointNeeds(wanted), [at("contact", null)], [], [])).toEqual([]);
  });
  test("the frame in hand is finished before another is asked for", () => {
    const waiting = waitingNeeds(pointNeeds(wanted), [at("contact", 9), at("plant", 4)], [], []);
    expect(nextPoint(waiting, 4)?.frameIndex).toBe(4);
    expect(nextPoint(waiting, 30)?.frameIndex).toBe(9);
    expect(nextPoint([], 4)).toBeNull();
  });
});

describe("events of another clip of the swing", () => {
  const times = { timeBaseNum: 1, timeBaseDen: 120, ticks: Array.from({ length: 121 }, (_, i) => i) };
  const clip = { frameTimes: times, realSecondsPerFileSecond: 1, timeBasis: "measured" } as const;
  const elsewhere = { clipId: "side", view: "side", frameIndex: 60, secondsFromContact: -0.1 } as const;
  const toe = { event: "toe", frameIndex: null, tick: null, source: "coach", sdSeconds: null, elsewhere } as const;
  const contact = (frameIndex: number) => ({ event: "contact", frameIndex, tick: frameIndex, source: "coach", sdSeconds: null }) as const;
  test("they move with this clip's contact and keep their seconds", () => {
    for (const frame of [60, 80]) {
      const [, lined] = lineUpEvents(clip, [contact(frame), toe]);
      expect(lined).toMatchObject({ frameIndex: frame - 12, tick: frame - 12 });
      expect(eventSecondsOf(clip, lined ?? toe, frame)).toBe(-0.1);
    }
  });
  test("without contact on either clip, or without real time, they have no frame", () => {
    const unknown = { ...toe, elsewhere: { ...elsewhere, secondsFromContact: null } };
    for (const lined of [lineUpEvents(clip, [toe])[0], lineUpEvents(clip, [contact(60), unknown])[1], lineUpEvents({ ...clip, timeBasis: "unknown" }, [contact(60), toe])[1]])
      expect(lined).toMatchObject({ frameIndex: null, tick: null });
  });
});
