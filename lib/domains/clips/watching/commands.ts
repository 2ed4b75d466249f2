import type { Granted } from "@/lib/access/ability";
import type { Person } from "@/lib/access/actor";
import { now } from "@/lib/platform/clock";
import type { Database } from "@/lib/platform/database";
import type { ClipSubject } from "../policy";

const QUARTER_MS = 15 * 60_000;

/** Notes that somebody looked: one row per session, clip and quarter hour. */
export async function noteRead(db: Database, actor: Person, clip: Granted<ClipSubject, "clip.watch">): Promise<void> {
  const quarter = new Date(Math.floor(now().getTime() / QUARTER_MS) * QUARTER_MS);
  await db.mediaRead.createMany({ data: { academyId: clip.academyId, sessionId: actor.sessionId, clipId: clip.id, quarter }, skipDuplicates: true });
}
