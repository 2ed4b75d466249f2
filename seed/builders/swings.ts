import { newId, type Id } from "@/lib/core/ids";
import { packTicks } from "@/lib/core/packed-ticks";
import { dayValue } from "@/lib/core/days";
import { database, type Prisma } from "@/lib/platform/database";

/** A file as the phone made it: 240 frames a second, one second long. */
export async function buildMediaFile(given: { academyId: Id; frameCount?: number }) {
  const id = newId();
  const frameCount = given.frameCount ?? 240;
  return database().mediaFile.create({
    data: {
      id, academyId: given.academyId, contentHash: id.replaceAll("-", "").repeat(2), byteLength: 1_000_000n, container: "mp4", codec: "h264",
      widthPx: 1280, heightPx: 720, rotationDeg: 0, durationS: frameCount / 240, hasSound: false,
      originalKey: `original/${id}`, steppingKey: `stepping/${id}`, posterKey: `poster/${id}`,
      frameTimes: { create: { timeBaseNum: 1, timeBaseDen: 240, frameCount, packedTicks: packTicks(Array.from({ length: frameCount }, (_, i) => i)) } },
    },
  });
}

interface SwingGiven {
  academyId: Id;
  playerId: Id;
  createdById: Id;
  side?: "right" | "left";
  swingKind?: "power" | "two-strike" | "running-slap";
  task?: string;
  effort?: string;
  pitchHeight?: string;
  pitchSide?: string;
  pitchSpeed?: string;
  batClass?: string;
  filmedOn?: string;
  createdAt?: Date;
  views?: readonly ("side" | "rear" | "front")[];
}

/** A swing with one clip per view, of a file of its own. */
export async function buildSwing(given: SwingGiven) {
  const { academyId, playerId, createdById } = given;
  const swing = await database().swing.create({
    data: {
      id: newId(), academyId, playerId, createdById, side: given.side ?? "right", swingKind: given.swingKind ?? "power", task: given.task ?? "tee",
      effort: given.effort ?? "game", pitchHeight: given.pitchHeight ?? "belt", pitchSide: given.pitchSide ?? "middle", pitchSpeed: given.pitchSpeed ?? "unknown",
      batClass: given.batClass ?? "usual", filmedOn: dayValue(given.filmedOn ?? "2026-11-25"), createdAt: given.createdAt,
    },
  });
  const clips = [];
  for (const view of given.views ?? ["side"]) {
    const file = await buildMediaFile({ academyId });
    clips.push(
      await database().clip.create({
        data: {
          id: newId(), academyId, playerId, swingId: swing.id, fileId: file.id, firstFrame: 0, lastFrame: 239, view, isMirrored: false,
          realSecondsPerFileSecond: 1, timeBasis: "measured", createdById,
        },
      }),
    );
  }
  return { ...swing, clips };
}

/** A reading as the measuring code would have kept it; what is not given is quiet and sure. */
export async function buildReading(given: {
  academyId: Id; swingId: Id; clipId: Id; editionId: Id; checkpointId: string; value: number | null; sd?: number | null;
  verdict?: string | null; isGrey?: boolean; frameIndex?: number; unit?: string;
}) {
  const { academyId, swingId, clipId, editionId, checkpointId, value } = given;
  const sd = given.sd === undefined ? 0.01 : given.sd;
  const verdict = given.verdict === undefined ? "fine" : given.verdict;
  const body = {
    checkpointId, formulaId: checkpointId, formulaVersion: 1, unit: given.unit ?? "degrees", value, sd, doubt: null, sdCamera: 0, quantiles: null,
    probabilities: null, verdict, size: null, deviation: null, named: [], reasons: [], isGrey: given.isGrey ?? false, band: null,
    inputsUsed: { frames: [{ frameIndex: given.frameIndex ?? 100, at: "contact", points: [] }], points: [], events: [], scaleFrameIndexes: [] },
  } satisfies Prisma.InputJsonObject;
  return database().reading.create({
    data: {
      academyId, swingId, clipId, editionId, checkpointId, formulaId: checkpointId, formulaVersion: 1, inputsHash: "given", value, sd, verdict,
      isGrey: given.isGrey ?? false, body,
    },
  });
}
