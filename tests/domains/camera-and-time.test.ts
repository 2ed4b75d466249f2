import { describe, expect, test } from "vitest";
import type { ActionOutcome } from "@/lib/access/define-action";
import { placePoint, setCameraLine, setClipFacts, setClipTime, setEvent } from "@/lib/domains/clips/actions";
import { getSwing } from "@/lib/domains/clips/queries";
import { readSwing } from "@/lib/domains/measurement/rules";
import { checkpointDefinition } from "@/lib/domains/library/rules";
import type { CheckpointRecord } from "@/lib/domains/library/schema";
import { STARTER_RULES } from "@/lib/measure/reading-rules";
import { database } from "@/lib/platform/database";
import { cameraOf, project } from "@/seed/media/camera";
import { swingSpec } from "@/seed/media/spec";
import { truthOf } from "@/seed/media/truth";
import checkpoints from "@/seed/library/checkpoints.json";
import { buildClip, coachWithPlayer } from "./clip-story";

type Story = Awaited<ReturnType<typeof coachWithPlayer>>;

/** The five corners of home plate as a side camera so many degrees off its line shows them. */
function platePicture(cameraOffDeg: number) {
  const camera = cameraOf(swingSpec({ cameraOffDeg }));
  return [[0.27, 0.9659], [-0.1618, 0.75], [0.0541, 0.9659], [0.27, 0.5341], [0.0541, 0.5341]].map(([x = NaN, z = NaN]) => project(camera, [x, 0, z]));
}
const plate = (cameraOffDeg: number) => ({ v: 1 as const, frameIndex: 3, corners: platePicture(cameraOffDeg) });
const only = async ({ coach }: Story, swingId: string) => (await getSwing.as(coach, { swingId })).clips[0]!;
const cameraFacts = { view: "side", isMirrored: false, filmedRate: "as-file", hasCameraMoved: false, hasCameraZoomed: false, isStabilised: false } as const;

async function story(fps = 240) {
  const one = await coachWithPlayer();
  return { ...one, ...(await buildClip({ ...one, fps })) };
}

describe("where the camera stood", () => {
  test("stated, it has no doubt of its own and no sign; taken back, nothing is left of it", async () => {
    const one = await story();
    const { coach, clipId, swingId } = one;
    expect((await only(one, swingId)).camera).toMatchObject({ cameraOffDeg: null, cameraOffSdDeg: null, cameraOffSource: null, plateMark: null });
    await setCameraLine.as(coach, { clipId, source: "stated", offDeg: 8 });
    expect((await only(one, swingId)).camera).toMatchObject({ cameraOffDeg: 8, cameraOffSdDeg: null, cameraOffSource: "stated" });
    await expect(setCameraLine.as(coach, { clipId, source: "stated", offDeg: -8 })).rejects.toThrow();
    await setCameraLine.as(coach, { clipId, source: "unknown" });
    expect((await only(one, swingId)).camera).toMatchObject({ cameraOffDeg: null, cameraOffSource: null });
  });

  test("home plate marked in any order gives the true angle with its doubt, and the corners are kept as they were marked", async () => {
    const one = await story();
    for (const [point, x] of [["hip_f", 628], ["hip_b", 612]] as const) await placePoint.as(one.coach, { clipId: one.clipId, frameIndex: 0, point, x, y: 380 });
    for (const trueDeg of [-12, 10]) {
      await setCameraLine.as(one.coach, { clipId: one.clipId, source: "plate", plateMark: plate(trueDeg) });
      const { camera } = await only(one, one.swingId);
      expect(Math.abs((camera.cameraOffDeg ?? NaN) - trueDeg)).toBeLessThan(2);
      expect(camera.cameraOffSdDeg).toBeGreaterThan(0.3);
      expect(camera.cameraOffSdDeg).toBeLessThan(3);
      expect(camera).toMatchObject({ cameraOffSource: "plate", plateMark: plate(trueDeg) });
    }
    await setCameraLine.as(one.coach, { clipId: one.clipId, source: "stated", offDeg: 0 });
    expect((await only(one, one.swingId)).camera.plateMark).toBeNull();
  });

  test("corners that make no plate, too few of them, and a frame of another clip keep nothing and say why", async () => {
    const { coach, clipId } = await story();
    const mark = plate(5);
    const line = { ...mark, corners: mark.corners.map((_, i) => ({ x: 100 + 40 * i, y: 300 })) };
    await expect(setCameraLine.as(coach, { clipId, source: "plate", plateMark: line })).rejects.toThrow(/Nothing was kept: .*plate/);
    await expect(setCameraLine.as(coach, { clipId, source: "plate", plateMark: { ...mark, corners: mark.corners.slice(1) } })).rejects.toThrow();
    await expect(setCameraLine.as(coach, { clipId, source: "plate", plateMark: { ...mark, frameIndex: 9999 } })).rejects.toThrow("does not belong");
    await expect(setCameraLine.as(coach, { clipId, source: "widths" })).rejects.toThrow("Nothing was kept");
  });

  test("the body at the stance gives a rough angle that says so", async () => {
    const { coach, clipId, swingId, ...rest } = await story();
    await setEvent.as(coach, { clipId, event: "contact", frameIndex: 300 });
    await setEvent.as(coach, { clipId, event: "stance", frameIndex: 60 });
    for (const [point, x, y] of [["sh_f", 620, 300], ["sh_b", 560, 300], ["hip_f", 610, 400], ["hip_b", 570, 400], ["heel_b", 560, 600], ["toe_b", 545, 605]] as const) {
      await placePoint.as(coach, { clipId, frameIndex: 60, point, x, y });
    }
    await setCameraLine.as(coach, { clipId, source: "widths" });
    const { camera } = await only({ coach, ...rest } as Story, swingId);
    expect(camera.cameraOffSource).toBe("widths");
    expect(camera.cameraOffDeg).toBeGreaterThan(5);
    expect(camera.cameraOffSdDeg).toBeGreaterThan(8);
  });

  test("an angle from the picture outlasts other corrections of the clip, and falls with its view", async () => {
    const one = await story();
    const { coach, clipId, swingId } = one;
    await setCameraLine.as(coach, { clipId, source: "plate", plateMark: plate(-12) });
    const { camera } = await only(one, swingId);
    const shown = Math.round(Math.abs(camera.cameraOffDeg ?? NaN) * 10) / 10;
    await setClipFacts.as(coach, { clipId, ...cameraFacts, hasCameraMoved: true, cameraOffDeg: shown });
    expect((await only(one, swingId)).camera).toEqual({ ...camera, hasCameraMoved: true });
    await setClipFacts.as(coach, { clipId, ...cameraFacts, view: "front", cameraOffDeg: shown });
    expect((await only(one, swingId)).camera).toMatchObject({ cameraOffDeg: null, cameraOffSource: null, plateMark: null });
    await setClipFacts.as(coach, { clipId, ...cameraFacts, cameraOffDeg: 20 });
    expect((await only(one, swingId)).camera).toMatchObject({ cameraOffDeg: 20, cameraOffSource: "stated" });
  });

  test("N21, N56: 10 degrees off greys exactly the readings with the 6-degree limit, 25 degrees all that have a limit", { timeout: 90_000 }, async () => {
    const { coach, academyId, clipId, swingId } = await story(120);
    const truth = truthOf(swingSpec({ task: "toss", framesPerSecond: 120, seconds: 1.7 }));
    await database().swing.update({ where: { id: swingId }, data: { task: "toss" } });
    const data = truth.frames.flatMap(({ index, points }) =>
      Object.entries(points).map(([point, { picture }]) => ({ academyId, clipId, frameIndex: index, point, source: "placed", xPx: picture.x, yPx: picture.y })),
    );
    await database().clipPoint.createMany({ data });
    for (const event of ["stance", "load", "toe", "plant", "launch", "contact", "extension", "finish"] as const) {
      await setEvent.as(coach, { clipId, event, frameIndex: truth.contactFrame + Math.round(120 * truth.events[event]) });
    }
    const records = (checkpoints.checkpoints as unknown as CheckpointRecord[]).filter((it) => it.views.measured.includes("side"));
    const book = { editionId: null, rules: STARTER_RULES, checkpoints: records.map((it) => ({ id: it.id, name: it.name, area: it.area, phase: it.phase, definition: checkpointDefinition(it) })) };
    for (const offDeg of [4, 10, 25]) {
      await setCameraLine.as(coach, { clipId, source: "stated", offDeg });
      const readings = (readSwing(await getSwing.as(coach, { swingId }), book)[0]?.readings ?? []).filter(({ value }) => value !== null);
      const grey = readings.filter(({ reasons }) => reasons.some(({ id }) => id === "camera-off-line")).map(({ checkpointId }) => checkpointId);
      const limitOf = (id: string) => records.find((it) => it.id === id)?.maxCameraOffDeg ?? Infinity;
      expect(grey).toEqual(readings.map(({ checkpointId }) => checkpointId).filter((id) => limitOf(id) < offDeg));
      expect(readings.every(({ isGrey, reasons }) => isGrey || !reasons.some(({ id }) => id === "camera-off-line"))).toBe(true);
      expect(readings.length).toBeGreaterThan(20);
      expect(grey.length).toBeGreaterThanOrEqual({ 4: 0, 10: 1, 25: 20 }[offDeg] ?? NaN);
    }
  });

  test("the database keeps no angle without its source's kind, and no plate mark of another source", async () => {
    const { clipId } = await story();
    const change = (data: object) => database().clip.update({ where: { id: clipId }, data });
    await expect(change({ cameraOffDeg: 3, cameraOffSource: "guessed" })).rejects.toThrow();
    await expect(change({ cameraOffSource: "stated" })).rejects.toThrow();
    await expect(change({ cameraOffDeg: 3, cameraOffSource: "stated", plateMark: plate(3) })).rejects.toThrow();
  });
});

describe("how fast a clip was filmed", () => {
  test("a stated slow motion changes real time, and can be undone to what the file itself said", async () => {
    const one = await story(30);
    const { coach, clipId, swingId } = one;
    const before = (await only(one, swingId)).clip;
    await setClipTime.as(coach, { clipId, realSecondsPerFileSecond: 1 / 8 });
    expect((await only(one, swingId)).clip).toMatchObject({ realSecondsPerFileSecond: 1 / 8, timeBasis: "stated" });
    await setClipTime.as(coach, { clipId, realSecondsPerFileSecond: before.realSecondsPerFileSecond, timeBasis: before.timeBasis });
    expect((await only(one, swingId)).clip).toMatchObject({ realSecondsPerFileSecond: 1, timeBasis: "measured" });
  });
  test("nobody can state that a time was measured", async () => {
    const one = await story(30);
    await setClipTime.as(one.coach, { clipId: one.clipId, realSecondsPerFileSecond: 1 / 8, timeBasis: "measured" });
    expect((await only(one, one.swingId)).clip).toMatchObject({ realSecondsPerFileSecond: 1, timeBasis: "measured" });
    const impossible = (seconds: number): Promise<ActionOutcome> => setClipTime.as(one.coach, { clipId: one.clipId, realSecondsPerFileSecond: seconds });
    for (const seconds of [0, -1, 2, NaN]) await expect(impossible(seconds)).rejects.toThrow();
  });
  test("a factor of two outlasts a correction of another fact", async () => {
    const one = await story(30);
    await setClipTime.as(one.coach, { clipId: one.clipId, realSecondsPerFileSecond: 1 / 2 });
    await setClipFacts.as(one.coach, { clipId: one.clipId, ...cameraFacts, filmedRate: "120", isStabilised: true, cameraOffDeg: null });
    expect(await only(one, one.swingId)).toMatchObject({ clip: { realSecondsPerFileSecond: 1 / 2, timeBasis: "stated" }, camera: { isStabilised: true } });
  });
});
