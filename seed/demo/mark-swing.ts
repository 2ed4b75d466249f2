import type { Id } from "@/lib/core/ids";
import { seededRandom } from "@/lib/core/random";
import { tellChanged } from "@/lib/domains/clips/commands";
import { timesOf } from "@/lib/domains/clips/scope";
import { now } from "@/lib/platform/clock";
import { inTransaction } from "@/lib/platform/database";
import type { SwingTruth } from "../media/truth";
import type { DemoFilm } from "./films";

/** How far a careful hand is off, in pixels of a 720-line picture. */
const HAND_PX = 0.8;
const EVENTS = ["stance", "load", "toe", "plant", "launch", "contact", "extension", "finish"] as const;

interface Where {
  readonly academyId: Id;
  readonly clipId: Id;
  readonly swingId: Id;
  readonly coachId: Id;
}

/**
 * Sets the events and places the points near each of them, or on every frame from the stance on, as a coach with a steady
 * hand would. Another camera of the swing gets its own contact only: the other events are the swing's.
 */
export async function markSwing({ academyId, clipId, swingId, coachId }: Where, truth: SwingTruth, film: Pick<DemoFilm, "marked" | "isMirrored" | "otherCameraOf">): Promise<void> {
  const { view, widthPx } = truth.spec;
  // A mirrored left-hander looks as the right-hander does, and the same hand places the same points on both.
  const side = film.isMirrored ? (truth.spec.side === "left" ? "right" : "left") : truth.spec.side;
  const hand = seededRandom(`${truth.spec.seed} ${view} ${side}`);
  const offPx = (HAND_PX * truth.spec.heightPx) / 720;
  const fps = truth.spec.framesPerSecond;
  const last = truth.frames.length - 1;
  const frameAt = (seconds: number) => Math.min(last, Math.max(0, truth.contactFrame + Math.round(seconds * fps)));
  const frames = new Map(EVENTS.map((event) => [event, frameAt(truth.events[event])]));

  const wanted = new Set<number>();
  if (film.marked === "every-frame") for (let frame = frames.get("stance") ?? 0; frame <= last; frame++) wanted.add(frame);
  for (const [event, frame] of frames) {
    if (event === "extension" || event === "finish") continue;
    // At contact the two frames before it say how fast things move; the ball changes everything after it.
    for (const step of event === "contact" ? [-2, -1, 0] : [-1, 0, 1]) wanted.add(Math.min(last, Math.max(0, frame + step)));
  }
  const points = [...wanted].flatMap((frameIndex) => {
    const frame = truth.frames[frameIndex];
    if (!frame) return [];
    return Object.entries(frame.points).map(([point, { picture }]) => ({
      academyId, clipId, frameIndex, point, source: "placed", setById: coachId,
      xPx: (film.isMirrored ? widthPx - picture.x : picture.x) + offPx * hand.normal(),
      yPx: picture.y + offPx * hand.normal(),
    }));
  });
  const inside = points.filter(({ xPx, yPx }) => xPx >= 0 && yPx >= 0 && xPx <= truth.spec.widthPx && yPx <= truth.spec.heightPx);

  await inTransaction(async (tx) => {
    const { file } = await tx.clip.findUniqueOrThrow({ where: { id: clipId }, select: { file: { select: { frameTimes: true } } } });
    const times = timesOf(file.frameTimes);
    const own = [...frames].filter(([event]) => event === "contact" || !film.otherCameraOf);
    const events = own.map(([event, frameIndex]) => ({
      academyId, swingId, clipId, event, frameIndex, source: "placed", setById: coachId, tick: BigInt(times.ticks[frameIndex] ?? 0),
    }));
    await tx.swingEvent.createMany({ data: events });
    await tx.clipPoint.createMany({ data: inside });
    await tellChanged(tx, { swingId }, now());
  });
}
