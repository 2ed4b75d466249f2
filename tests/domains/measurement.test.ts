import { describe, expect, test } from "vitest";
import { newId } from "@/lib/core/ids";
import { placePoint, setClipFacts, setEvent } from "@/lib/domains/clips/actions";
import { checkpointDefinition } from "@/lib/domains/library/rules";
import type { CheckpointRecord } from "@/lib/domains/library/schema";
import { makeReadings } from "@/lib/domains/measurement/jobs";
import { getSwingReadings } from "@/lib/domains/measurement/queries";
import { readSwing, swingInput, wantedCheckpoints } from "@/lib/domains/measurement/rules";
import type { ReadingBook, SwingReadings } from "@/lib/domains/measurement/view";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import { database } from "@/lib/platform/database";
import { buildLibrary } from "@/seed/builders/library";
import library from "@/seed/library/checkpoints.json";
import { buildClip, coachWithPlayer } from "./clip-story";

const records = library.checkpoints as unknown as readonly CheckpointRecord[];
const record = (id: string) => {
  const found = records.find((it) => it.id === id);
  if (!found) throw new Error(id);
  return found;
};
const book = (...ids: string[]): ReadingBook => ({
  editionId: newId(),
  rules: STARTER_RULES,
  checkpoints: ids.map((id) => ({ id, name: record(id).name, area: record(id).area, phase: record(id).phase, definition: checkpointDefinition(record(id)) })),
});

/** A right-hander from the side, filmed at so many frames a second, with stance, plant and contact set and the trunk placed. */
async function filmedSwing(given: { fps?: number; factor?: number; offDeg?: number | null } = {}) {
  const { fps = 240, factor = 1, offDeg = 0 } = given;
  const story = await coachWithPlayer();
  const built = await buildClip({ ...story, fps, frames: 480 });
  const { clipId, swingId } = built;
  await database().swing.update({ where: { id: swingId }, data: { task: "machine" } });
  await database().clip.update({ where: { id: clipId }, data: { realSecondsPerFileSecond: factor, cameraOffDeg: offDeg } });
  const frames = { stance: 60, plant: 252, contact: 300 };
  for (const [event, frameIndex] of Object.entries(frames)) await setEvent.as(story.coach, { clipId, event: event as "plant", frameIndex });
  for (const frameIndex of Object.values(frames)) {
    for (const [point, x, y] of [["hip_f", 620, 400], ["hip_b", 600, 400], ["sh_f", 575, 310], ["sh_b", 555, 310], ["kn_f", 690, 480]] as const) {
      await placePoint.as(story.coach, { clipId, frameIndex, point, x, y });
    }
  }
  const measured: SwingReadings = await getSwingReadings.as(story.coach, { swingId });
  return { ...story, ...built, swing: measured.swing, measured };
}

describe("from clips to readings", () => {
  test("240 frames a second that play at 30 give the real time from landing to contact, not eight times as much", async () => {
    const { swing } = await filmedSwing({ fps: 30, factor: 1 / 8 });
    const reading = readSwing(swing, book("plant-to-contact-time"))[0]?.readings[0];
    expect(reading?.value).toBeCloseTo(48 / 240, 9);
    expect(reading?.reasons.map(({ id }) => id)).not.toContain("slow-frames");
  });

  test("a placed event has the doubt of a hand and of the frames, contact only that of the frames", async () => {
    const { swing } = await filmedSwing();
    const { events } = swingInput(swing);
    expect(events.contact).toMatchObject({ seconds: 0, source: "placed" });
    expect(events.contact?.sdSeconds).toBeCloseTo(1 / 240 / Math.sqrt(12), 9);
    expect(events.plant?.sdSeconds).toBeCloseTo(Math.hypot(0.006, 1 / 240 / Math.sqrt(12)), 9);
    expect(events.plant?.seconds).toBeCloseTo(-48 / 240, 9);
  });

  test("a shoulder behind the knee is read from the points, in torso lengths", async () => {
    const { swing } = await filmedSwing();
    const reading = readSwing(swing, book("shoulder-behind-knee"))[0]?.readings[0];
    const torso = Math.hypot(45, 90);
    expect(reading?.value).toBeCloseTo((690 - 575) / torso, 6);
    expect(reading?.isGrey).toBe(false);
    expect(reading?.sd).toBeGreaterThan(0);
  });

  test("a clip filmed 25 degrees off square shows the reading grey with the reason", async () => {
    const { swing } = await filmedSwing({ offDeg: 25 });
    const reading = readSwing(swing, book("shoulder-behind-knee"))[0]?.readings[0];
    expect(reading).toMatchObject({ isGrey: true, verdict: null });
    expect(reading?.reasons.map(({ id }) => id)).toContain("camera-off-line");
  });

  test("a contact that was only heard makes times grey until somebody confirms it", async () => {
    const { swing } = await filmedSwing();
    const heard = {
      ...swing,
      clips: swing.clips.map((it) => ({ ...it, clip: { ...it.clip, events: it.clip.events.map((event) => (event.event === "contact" ? { ...event, source: "suggested" as const, sdSeconds: 0.01 } : event)) } })),
    };
    expect(readSwing(heard, book("plant-to-contact-time"))[0]?.readings[0]).toMatchObject({ isGrey: true, verdict: null });
  });

  test("nothing is timed on a clip whose real time nobody knows, or on which contact is not set", async () => {
    const { swing, coach, clipId, swingId } = await filmedSwing();
    await setClipFacts.as(coach, { clipId, view: "side", isMirrored: false, filmedRate: "unknown", hasCameraMoved: false, hasCameraZoomed: false, isStabilised: false, cameraOffDeg: 0 });
    const { swing: unknown } = await getSwingReadings.as(coach, { swingId });
    const uncontacted = { ...swing, clips: swing.clips.map((it) => ({ ...it, clip: { ...it.clip, events: it.clip.events.filter((event) => event.event !== "contact") } })) };
    for (const one of [unknown, uncontacted]) {
      const readings = readSwing(one, book("plant-to-contact-time", "shoulder-behind-knee"))[0]?.readings ?? [];
      expect(readings.map(({ value }) => value)).toEqual([null, null]);
      expect(readings.every(({ reasons }) => reasons.length > 0)).toBe(true);
    }
  });

  test("what a view needs is asked for by event and point, and only where it can be measured", () => {
    const wanted = wantedCheckpoints([record("load-hip-shift"), record("plant-to-contact-time")], "side");
    expect(wanted).toEqual([{ id: "load-hip-shift", points: ["hip_f", "hip_b"], events: ["stance", "load"], scales: [{ points: ["sh_f", "sh_b", "hip_f", "hip_b"], over: "stance" }] }]);
    expect(wantedCheckpoints([record("load-hip-shift")], "rear")).toEqual([]);
  });
});

describe("kept readings", () => {
  test("an academy without a library has clips and no readings, and the job ends well", async () => {
    const { swingId, measured } = await filmedSwing();
    expect(measured.clips.every(({ readings }) => readings.length === 0)).toBe(true);
    expect(await makeReadings.perform({ swingId }, false)).toEqual({ is: "done" });
    expect(await database().reading.count({ where: { swingId } })).toBe(0);
  });

  test("with a library every checkpoint that can be read has a row, made anew by each run and equal for equal inputs", async () => {
    const { swingId, academyId, coach } = await filmedSwing();
    const { id: editionId } = await buildLibrary(academyId);
    await makeReadings.perform({ swingId }, false);
    await makeReadings.perform({ swingId }, false);
    const rows = await database().reading.findMany({ where: { swingId } });
    const measured = await getSwingReadings.as(coach, { swingId });
    expect(rows.map((row) => row.checkpointId).sort()).toEqual(measured.book.checkpoints.map(({ id }) => id).sort());
    expect(rows).toHaveLength(45);
    const kept = rows.find((row) => row.checkpointId === "shoulder-behind-knee");
    expect(kept).toMatchObject({ editionId, isGrey: false, value: measured.clips[0]?.readings.find((it) => it.checkpointId === "shoulder-behind-knee")?.value });
    expect(kept?.inputsHash).toMatch(/^[0-9a-f]{64}$/);

    await placePoint.as(coach, { clipId: kept?.clipId ?? "", frameIndex: 252, point: "kn_f", x: 660, y: 480 });
    await makeReadings.perform({ swingId }, false);
    const moved = await database().reading.findFirstOrThrow({ where: { swingId, checkpointId: "shoulder-behind-knee" } });
    expect(moved.value).not.toBe(kept?.value);
    expect(moved.inputsHash).not.toBe(kept?.inputsHash);
    expect(measured.wanted[0]?.checkpoints.length).toBeGreaterThan(5);
  });

  test("a swing that is gone is skipped", async () => {
    expect(await makeReadings.perform({ swingId: newId() }, false)).toMatchObject({ is: "skipped" });
  });
});
