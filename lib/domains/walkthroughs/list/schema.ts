import { z } from "zod";
import { markShapeForm } from "@/lib/domains/clips/schema";
import { eventIds } from "@/lib/domains/clips/view";
import { idForm } from "@/lib/domains/roster/schema";

/**
 * The stored form of one take: what was shown while somebody talked. Nothing of a picture is in it, only which frame of which clip was
 * shown when, so that the real frames are shown again. Times are whole milliseconds of the take's own clock, which stands still in
 * a pause and knows no time of day. Clips are named by their place in `clips` (0 to 3). Places and shapes are in pixels of the upright,
 * unflipped picture. Seconds are real seconds from contact (from the first frame where a clip has no `zeroTick`).
 *
 * `v` is the version of this form. A form that changes gets the next number and a step in `UPGRADES`, so that what was kept before is
 * read as the newest form; a version that this program does not know is refused.
 */
export const LIST_VERSION = 1;

/** A take is half an hour at most, and holds so many things that were shown. */
export const MOST_MS = 30 * 60_000;
export const MOST_HAPPENINGS = 12_000;
export const MOST_CLIPS = 4;
const MOST_STANDING_MARKS = 60;
/** A list in bytes, as it is sent. */
export const MOST_LIST_BYTES = 900_000;

const v = z.literal(LIST_VERSION);
const at = z.int().min(0).max(MOST_MS);
const clip = z.int().min(0).max(MOST_CLIPS - 1);
const frame = z.int().min(0).max(1_000_000);
const frames = z.array(frame).min(1).max(MOST_CLIPS);
const px = z.number().min(-20_000).max(20_000);
const spot = z.strictObject({ x: px, y: px });
const seconds = z.number().min(-3600).max(3600);
const look = z.strictObject({ zoom: z.number().min(1).max(8), x: px, y: px });
const rate = z.number().gt(0).max(1);
const markId = z.string().regex(/^[a-z0-9]{1,12}$/);

/** What was called up: an event of the swing, or something of the library, as it was named then. */
export const CALLED_KINDS = ["event", "checkpoint", "fault", "drill"] as const;
const name = z.string().trim().min(1).max(120);
const called = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("event"), id: z.enum(eventIds), name }),
  z.strictObject({ kind: z.enum(["checkpoint", "fault", "drill"]), id: z.string().regex(/^[a-z0-9-]{1,80}$/), name }),
]);

/** Clips over one another: how much of the upper ones is seen, which place lies on which, and how long each torso is. */
const over = z.strictObject({
  opacity: z.number().min(0).max(1),
  spots: z.array(spot).min(2).max(MOST_CLIPS),
  torsosPx: z.array(z.number().positive().max(20_000).nullable()).min(2).max(MOST_CLIPS),
});

/** How everything stood when the take began. */
const start = z.strictObject({
  frames,
  looks: z.array(look).min(1).max(MOST_CLIPS),
  flips: z.array(z.boolean()).min(1).max(MOST_CLIPS),
  inHand: clip,
  isLocked: z.boolean(),
  hasPoints: z.boolean(),
  over: over.nullable(),
});

const happening = z.discriminatedUnion("kind", [
  /** The frame of every clip; whatever was playing stands still. */
  z.strictObject({ at, kind: z.literal("show"), frames }),
  /** These clips run from one instant of their common clock to another, at a part of real time. */
  z.strictObject({ at, kind: z.literal("play"), rate, fromSeconds: seconds, toSeconds: seconds, clips: z.array(clip).min(1).max(MOST_CLIPS) }),
  z.strictObject({ at, kind: z.literal("look"), clip, look }),
  z.strictObject({ at, kind: z.literal("flip"), clip, isFlipped: z.boolean() }),
  z.strictObject({ at, kind: z.literal("hand"), clip }),
  z.strictObject({ at, kind: z.literal("lock"), isLocked: z.boolean() }),
  z.strictObject({ at, kind: z.literal("points"), hasPoints: z.boolean() }),
  z.strictObject({ at, kind: z.literal("over"), over: over.nullable() }),
  /** Drawn from `at` on, in so many milliseconds; of a pen each place has its own. */
  z.strictObject({ at, kind: z.literal("mark"), id: markId, clip, frame, shape: markShapeForm, overMs: at, paceMs: z.array(at).max(200).optional() }),
  z.strictObject({ at, kind: z.literal("unmark"), id: markId }),
  z.strictObject({ at, kind: z.literal("call"), called: called.nullable() }),
]);

const listClip = z.strictObject({
  clipId: idForm,
  frameCount: z.int().min(1).max(1_000_001),
  widthPx: z.int().min(1).max(20_000),
  heightPx: z.int().min(1).max(20_000),
  /** Tick of contact as it stood then; null: the clip counts from its first frame. */
  zeroTick: z.number().nullable(),
  realSecondsPerFileSecond: z.number().gt(0).max(1),
  caption: z.string().trim().min(1).max(80),
  /** What was drawn on the clip before the talk began. */
  marks: z.array(z.strictObject({ frame, shape: markShapeForm })).max(MOST_STANDING_MARKS),
});

const shapeOfList = z.strictObject({
  v,
  durationMs: at,
  clips: z.array(listClip).min(1).max(MOST_CLIPS),
  start,
  happenings: z.array(happening).max(MOST_HAPPENINGS),
});

/** The list as it is kept: in order, within its own time, about its own clips and frames only. */
export const listForm = shapeOfList.superRefine((list, context) => {
  const wrong = (message: string) => context.addIssue({ code: "custom", message });
  const count = list.clips.length;
  const areFrames = (given: readonly number[]) => given.length === count && given.every((it, i) => it < (list.clips[i]?.frameCount ?? 0));
  const isOver = (given: Over | null) => given === null || (given.spots.length === count && given.torsosPx.length === count);
  if (new Set(list.clips.map((it) => it.clipId)).size < count) wrong("A clip is named twice.");
  if (!areFrames(list.start.frames) || list.start.looks.length !== count || list.start.flips.length !== count || list.start.inHand >= count || !isOver(list.start.over)) wrong("How it began does not fit the clips.");
  for (const { marks, frameCount } of list.clips) if (marks.some((it) => it.frame >= frameCount)) wrong("A drawing lies on a frame that is not there.");
  let before = 0;
  const drawn = new Set<string>();
  for (const it of list.happenings) {
    if (it.at < before || it.at > list.durationMs) return wrong("What was shown is out of order, or after the end.");
    before = it.at;
    if ("clip" in it && it.clip >= count) return wrong("Something is said of a clip that is not there.");
    if (it.kind === "show" && !areFrames(it.frames)) return wrong("A frame is shown that is not there.");
    if (it.kind === "play" && (it.clips.some((one) => one >= count) || it.toSeconds < it.fromSeconds)) return wrong("What is played does not fit the clips.");
    if (it.kind === "over" && !isOver(it.over)) return wrong("What lies over one another does not fit the clips.");
    if (it.kind === "mark") {
      if (it.frame >= (list.clips[it.clip]?.frameCount ?? 0) || drawn.has(it.id)) return wrong("A drawing does not fit its clip.");
      if (it.paceMs && (it.shape.kind !== "pen" || it.paceMs.length !== it.shape.places.length || it.paceMs.some((ms, i) => ms > it.overMs || ms < (it.paceMs?.[i - 1] ?? 0)))) return wrong("A pen's pace does not fit its stroke.");
      drawn.add(it.id);
    }
    if (it.kind === "unmark" && !drawn.has(it.id)) return wrong("A drawing is taken away that is not there.");
  }
});

export type TakeList = z.infer<typeof shapeOfList>;
export type ListClip = TakeList["clips"][number];
export type Happening = TakeList["happenings"][number];
export type Called = z.infer<typeof called>;
export type Over = z.infer<typeof over>;

/** From each older version to the next. There is one version so far. */
const UPGRADES: Readonly<Record<number, (older: unknown) => unknown>> = {};

/** A kept list in the newest form; null when this program cannot read it: a version it does not know, or something that is no list. */
export function readList(kept: unknown): TakeList | null {
  let list = kept;
  for (let version = versionOf(list); version !== null && version < LIST_VERSION; version = versionOf(list)) {
    const upgrade = UPGRADES[version];
    if (!upgrade) return null;
    list = upgrade(list);
  }
  return listForm.safeParse(list).data ?? null;
}

function versionOf(list: unknown): number | null {
  return typeof list === "object" && list !== null && "v" in list && typeof list.v === "number" ? list.v : null;
}
