import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import type { WalkthroughView } from "../view";
import { openingFrames } from "./rules";
import { smallKey } from "./schema";

/** Where the small still of a clip lies, and what it is made of. */
export interface OpeningPlace {
  readonly clipId: Id;
  /** The frame as the film counts it. */
  readonly filmFrame: number;
  readonly key: string;
  readonly steppingKey: string;
}

/** The small stills with which a walkthrough begins: of the clips that this view shows. */
export async function readOpeningPlaces(db: Database, academyId: Id, view: WalkthroughView): Promise<readonly OpeningPlace[]> {
  const frames = new Map(openingFrames(view).map(({ clipId, frame }) => [clipId, frame]));
  const rows = await db.clip.findMany({ where: { academyId, id: { in: [...frames.keys()] } }, select: { id: true, firstFrame: true, file: { select: { contentHash: true, steppingKey: true } } } });
  return rows.map(({ id, firstFrame, file: { contentHash, steppingKey } }) => {
    const filmFrame = firstFrame + (frames.get(id) ?? 0);
    return { clipId: id, filmFrame, key: smallKey(academyId, contentHash, filmFrame), steppingKey };
  });
}
