import { isPerson, type Actor } from "@/lib/access/actor";
import { ageYears } from "@/lib/core/age";
import type { FrameTimes } from "@/lib/core/frame-times";
import type { Id } from "@/lib/core/ids";
import { unpackTicks } from "@/lib/core/packed-ticks";
import { dayOf, dayValue } from "@/lib/core/days";
import type { Database, Prisma } from "@/lib/platform/database";
import { shownOn } from "./models/scope";
import type { ClipOwner, ClipSubject, MarkSubject, SwingSubject, UploadSubject } from "./policy";
import { frameForTick, lineUpEvents, realSecondsBetween } from "./rules";
import { clipAddress, markShapeForm, plateMarkForm, type CameraFacts, type SwingPage } from "./schema";
import type { BattingSide, CameraView, ClipView, EventId, EventView, PointId } from "./view";

const NO_ROW: Prisma.ClipWhereInput = { id: { in: [] } };

/** A consent to film for lessons that is in force on a day, as a condition on consents. */
export function lessonPermitOn(day: string) {
  return { use: "lesson", validUntil: { gt: dayValue(day) } } satisfies Prisma.PermitWhereInput;
}

/** The same as a condition on players. */
export function permittedOn(day: string): Prisma.PlayerWhereInput {
  return { permits: { some: lessonPermitOn(day) } };
}

/** The same of a player that is read: the permit is there, or none is. */
export function permitSelect(day: string) {
  return { permits: { where: lessonPermitOn(day), select: { use: true } } } satisfies Prisma.PlayerSelect;
}

/** The clips that this actor may watch: the same answer as the ability "clip.watch", as a condition on rows. */
export function clipsScope(actor: Actor): Prisma.ClipWhereInput {
  if (!isPerson(actor)) return NO_ROW;
  const watched = { academyId: actor.academyId, player: permittedOn(actor.today) };
  switch (actor.role) {
    case "head-coach":
      return watched;
    case "coach":
      return { ...watched, OR: [{ playerId: { in: [...actor.coachedPlayerIds] } }, { swing: { models: { some: shownOn(actor.today) } } }] };
    case "guardian":
      return { ...watched, playerId: { in: [...actor.wardIds] } };
    case "player":
      return actor.ownPlayerId ? { ...watched, playerId: actor.ownPlayerId } : NO_ROW;
    default:
      return NO_ROW;
  }
}

const clipSubjectSelect = (today: string) =>
  ({
    id: true, academyId: true, playerId: true, swingId: true, fileId: true, firstFrame: true, lastFrame: true,
    player: { select: permitSelect(today) },
    swing: { select: { models: { where: shownOn(today), select: { id: true } } } },
  }) satisfies Prisma.ClipSelect;

type ClipSubjectRow = Prisma.ClipGetPayload<{ select: ReturnType<typeof clipSubjectSelect> }>;

function clipSubject({ player, swing, ...row }: ClipSubjectRow): ClipSubject {
  return { ...row, isPermitted: player.permits.length > 0, isModel: swing.models.length > 0 };
}

/** A clip of the actor's academy with whether it may be watched today: one query, the permit in it. */
export async function findClipSubject(db: Database, academyId: Id, clipId: Id, today: string): Promise<ClipSubject | null> {
  const row = await db.clip.findFirst({ where: { id: clipId, academyId }, select: clipSubjectSelect(today) });
  return row && clipSubject(row);
}

export async function findMarkSubject(db: Database, academyId: Id, markId: Id, today: string): Promise<MarkSubject | null> {
  const row = await db.mark.findFirst({ where: { id: markId, academyId, removedAt: null }, select: { clip: { select: clipSubjectSelect(today) } } });
  return row && { ...clipSubject(row.clip), markId };
}

export async function findSwingSubject(db: Database, where: { id: Id; academyId?: Id }): Promise<SwingSubject | null> {
  return db.swing.findFirst({ where, select: { id: true, academyId: true, playerId: true } });
}

/** A player of the academy, as whose clips are asked for. */
export async function findClipOwner(db: Database, academyId: Id, playerId: Id): Promise<ClipOwner | null> {
  const found = await db.player.findFirst({ where: { id: playerId, academyId }, select: { academyId: true } });
  return found && { academyId: found.academyId, playerId };
}

/** The swing that a clip shows. */
export async function findSwingOfClip(db: Database, academyId: Id, clipId: Id): Promise<SwingSubject | null> {
  const clip = await db.clip.findFirst({ where: { id: clipId, academyId }, select: { swing: { select: { id: true, academyId: true, playerId: true } } } });
  return clip?.swing ?? null;
}

export async function findUploadSubject(db: Database, where: { id: Id; academyId?: Id }): Promise<UploadSubject | null> {
  const row = await db.upload.findFirst({ where, select: { id: true, academyId: true, playerId: true, userId: true, state: true, byteLength: true } });
  return row && { ...row, byteLength: Number(row.byteLength) };
}

const swingSelect = {
  id: true, playerId: true, side: true, swingKind: true, task: true, effort: true, pitchHeight: true, pitchSide: true, pitchSpeed: true, batClass: true,
  filmedOn: true,
  player: { select: { givenName: true, familyName: true, birthDate: true, heightM: true, permits: { where: { use: "lesson" }, select: { validUntil: true } } } },
  events: { orderBy: { event: "asc" } },
  clips: {
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    include: { file: { include: { frameTimes: true } }, points: true, unseenPoints: true, marks: { where: { removedAt: null }, orderBy: [{ createdAt: "asc" }, { id: "asc" }] } },
  },
} satisfies Prisma.SwingSelect;

type SwingRowForPage = Prisma.SwingGetPayload<{ select: typeof swingSelect }>;
type ClipRowForPage = SwingRowForPage["clips"][number];

/** One swing with all that is recorded of it; `today` decides whether its film may be shown. */
export async function readSwingPage(db: Database, swingId: Id, today: string): Promise<SwingPage> {
  const row = await db.swing.findUniqueOrThrow({ where: { id: swingId }, select: swingSelect });
  const { player } = row;
  const playerName = `${player.givenName} ${player.familyName}`;
  const filmedOn = dayOf(row.filmedOn);
  const isShown = player.permits.some((permit) => dayOf(permit.validUntil) > today);
  return {
    id: row.id,
    playerId: row.playerId,
    playerName,
    side: row.side as BattingSide,
    filmedOn,
    facts: factsOf(row),
    ageYears: ageYears(dayOf(player.birthDate), filmedOn),
    heightM: player.heightM,
    isShown,
    clips: row.clips.map((clip) => ({
      clip: clipView(row, clip, playerName, isShown),
      camera: cameraFacts(clip),
    })),
  };
}

/** The closed lists are kept by the form through which every row came. */
export function factsOf(row: Pick<SwingRowForPage, keyof SwingPage["facts"]>): SwingPage["facts"] {
  const { side, swingKind, task, effort, pitchHeight, pitchSide, pitchSpeed, batClass } = row;
  return { side, swingKind, task, effort, pitchHeight, pitchSide, pitchSpeed, batClass } as SwingPage["facts"];
}

function clipView(swing: SwingRowForPage, clip: ClipRowForPage, playerName: string, isShown: boolean): ClipView {
  const frameTimes = timesOfClip(clip);
  const { task, pitchHeight, pitchSide, effort } = swing;
  return {
    id: clip.id,
    swingId: swing.id,
    playerId: swing.playerId,
    playerName,
    view: clip.view as CameraView,
    isMirrored: clip.isMirrored,
    side: swing.side as BattingSide,
    facts: { task, pitchHeight, pitchSide, effort },
    widthPx: clip.file.widthPx,
    heightPx: clip.file.heightPx,
    frameTimes,
    realSecondsPerFileSecond: clip.realSecondsPerFileSecond,
    timeBasis: clip.timeBasis as ClipView["timeBasis"],
    steppingUrl: clipAddress.stepping(clip.id),
    posterUrl: clipAddress.poster(clip.id),
    events: lineUpEvents(timingOf(clip), eventViews(swing, clip)),
    points: clip.points.filter(isForced(clip.points, clip.unseenPoints)).map((it) => ({
      frameIndex: it.frameIndex, point: it.point as PointId, x: it.xPx, y: it.yPx, source: it.source === "placed" ? "coach" : "suggested",
      ...(it.followedSdPx === null ? {} : { followedSdPx: it.followedSdPx }),
    })),
    unseenPoints: clip.unseenPoints.map((it) => ({ frameIndex: it.frameIndex, point: it.point as PointId })),
    marks: clip.marks.flatMap((it) => {
      const shape = markShapeForm.safeParse(it.shape);
      return shape.success ? [{ id: it.id, frameIndex: it.frameIndex, shape: shape.data }] : [];
    }),
    abilities: { canMeasure: isShown, canMark: isShown },
  };
}

function cameraFacts(clip: ClipRowForPage): CameraFacts {
  const { hasCameraMoved, hasCameraZoomed, isStabilised, cameraOffDeg, cameraOffSdDeg, cameraOffSource } = clip;
  const plateMark = plateMarkForm.safeParse(clip.plateMark).data ?? null;
  return { hasCameraMoved, hasCameraZoomed, isStabilised, cameraOffDeg, cameraOffSdDeg, cameraOffSource: cameraOffSource as CameraFacts["cameraOffSource"], plateMark };
}

type PointKey = Pick<ClipRowForPage["points"][number], "frameIndex" | "point" | "source">;

/** What a coach said of a point, its place or that it cannot be seen, stands before a suggestion of the same name on the same frame. */
export function isForced(points: readonly PointKey[], unseen: readonly Omit<PointKey, "source">[] = []): (point: PointKey) => boolean {
  const said = new Set([...points.filter((it) => it.source === "placed"), ...unseen].map((it) => `${it.frameIndex} ${it.point}`));
  return (it) => it.source === "placed" || !said.has(`${it.frameIndex} ${it.point}`);
}

type EventRow = SwingRowForPage["events"][number];
/** What is needed of a clip to lay the swing's events on it. */
type TimedClip = Pick<ClipRowForPage, "id" | "view" | "realSecondsPerFileSecond" | "timeBasis" | "firstFrame" | "lastFrame"> & { readonly file: Pick<ClipRowForPage["file"], "frameTimes"> };

/** What a coach placed stands before what was suggested; the suggestion stays where it was kept. */
function inForce(rows: readonly EventRow[]): readonly EventRow[] {
  const found = new Map<string, EventRow>();
  for (const row of rows) if (row.source === "placed" || !found.has(row.event)) found.set(row.event, row);
  return [...found.values()];
}

/** The swing's events for one of its clips: its own contact, and every other event from whichever clip it was set on. */
export function eventViews(swing: { readonly events: readonly EventRow[]; readonly clips: readonly TimedClip[] }, clip: TimedClip): EventView[] {
  return inForce(swing.events.filter(({ event, clipId }) => event !== "contact" || clipId === clip.id)).flatMap((row): EventView[] => {
    const said = { event: row.event as EventId, source: row.source === "placed" ? ("coach" as const) : ("suggested" as const), sdSeconds: row.sdSeconds };
    const tick = Number(row.tick);
    if (row.clipId === clip.id) return [{ ...said, tick, frameIndex: frameForTick(timesOfClip(clip), tick) }];
    const other = swing.clips.find(({ id }) => id === row.clipId);
    if (!other) return [];
    const contact = inForce(swing.events.filter(({ event, clipId }) => event === "contact" && clipId === other.id))[0];
    const isTimed = contact && other.timeBasis !== "unknown";
    const secondsFromContact = isTimed ? realSecondsBetween(timingOf(other), Number(contact.tick), tick) : null;
    return [{ ...said, tick: null, frameIndex: null, elsewhere: { clipId: other.id, view: other.view as CameraView, frameIndex: row.frameIndex, secondsFromContact } }];
  });
}

export function timingOf(clip: TimedClip) {
  return { frameTimes: timesOfClip(clip), realSecondsPerFileSecond: clip.realSecondsPerFileSecond, timeBasis: clip.timeBasis as ClipView["timeBasis"] };
}

/** The times of a clip's own frames, counted from its first: a stretch of those of its file, at the file's own ticks. */
export function timesOfClip(clip: { readonly firstFrame: number; readonly lastFrame: number; readonly file: { readonly frameTimes: Parameters<typeof timesOf>[0] } }): FrameTimes {
  const times = timesOf(clip.file.frameTimes);
  const isWhole = clip.firstFrame === 0 && clip.lastFrame === times.ticks.length - 1;
  return isWhole ? times : { ...times, ticks: times.ticks.slice(clip.firstFrame, clip.lastFrame + 1) };
}

/** The kept times of a file's frames. */
export function timesOf(row: { timeBaseNum: number; timeBaseDen: number; packedTicks: Uint8Array } | null): FrameTimes {
  if (!row) throw new Error("a file without frame times was kept");
  return { timeBaseNum: row.timeBaseNum, timeBaseDen: row.timeBaseDen, ticks: unpackTicks(row.packedTicks) };
}
