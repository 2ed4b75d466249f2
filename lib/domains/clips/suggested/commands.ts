import type { Granted } from "@/lib/access/ability";
import { now } from "@/lib/platform/clock";
import type { Transaction } from "@/lib/platform/database";
import { tell } from "@/lib/platform/queue";
import { settings } from "@/lib/platform/settings";
import type { ClipSubject } from "../policy";
import { suggestionsWanted } from "./events";
import type { Suggested } from "./rules";
import type { NotSuggested } from "./schema";

type Looked = Granted<ClipSubject, "clip.suggest-points">;

/** A coach sets several events in a row: the model looks once, a while after the last. */
const PAUSE_MS = 15_000;
const TRIES = 2;
/** Looks come one after the other, so that they never take the whole worker. */
const LINE = "pose";

/** Tells the worker that points may be suggested on a clip; nothing is told where the academy's house has it switched off. */
export async function wantSuggestions(tx: Transaction, { id: clipId }: Pick<ClipSubject, "id">, isAgain = false): Promise<void> {
  if (settings().SUGGEST_POINTS === "off") return;
  const telling = isAgain ? { key: `points again ${clipId}` } : { key: `points ${clipId}`, runAt: new Date(now().getTime() + PAUSE_MS) };
  await tell(tx, suggestionsWanted, { clipId, again: isAgain ? 1 : 0 }, { ...telling, tries: TRIES, line: LINE });
}

/** Forgets what nobody has touched: front and back of it were told by a fact that no longer holds. */
export async function dropSuggestions(tx: Transaction, { academyId, id: clipId }: Pick<ClipSubject, "academyId" | "id">): Promise<void> {
  await tx.clipPoint.deleteMany({ where: { academyId, clipId, source: "suggested", setById: null } });
  await tx.suggestedFrame.deleteMany({ where: { academyId, clipId } });
}

/** How a look at a clip ended. */
export interface LookEnd {
  readonly basis: string;
  readonly model: { readonly model: string; readonly version: string } | null;
  /** Median of a frame. */
  readonly msPerFrame: number | null;
}

/** Writes down why nothing is suggested; suggestions of an earlier look stay. */
export async function endLook(tx: Transaction, clip: Looked, reason: NotSuggested, end: LookEnd): Promise<void> {
  await keepRun(tx, clip, reason === "failed" ? "failed" : "skipped", reason, end);
}

/**
 * Puts suggestions in the place of those that the model made before and nobody touched. A suggestion whose front and back a person exchanged
 * stays, and so does every point that a person placed, beside which the suggestion only tells how far off the model was.
 */
export async function keepSuggestions(tx: Transaction, clip: Looked, { frames, points }: Suggested, end: LookEnd & { readonly model: NonNullable<LookEnd["model"]> }): Promise<void> {
  const { academyId, id: clipId } = clip;
  const { model, version: modelVersion } = end.model;
  await dropSuggestions(tx, clip);
  await tx.clipPoint.createMany({
    data: points.map(({ frameIndex, point, x, y, confidence }) => ({ academyId, clipId, frameIndex, point, source: "suggested", xPx: x, yPx: y, confidence, setAt: now() })),
    skipDuplicates: true,
  });
  await tx.suggestedFrame.createMany({
    data: frames.map(({ frameIndex, presence, exchanged }) => ({ academyId, clipId, frameIndex, model, modelVersion, presence, exchanged: [...exchanged], madeAt: now() })),
  });
  await keepRun(tx, clip, "done", null, end);
}

async function keepRun(tx: Transaction, { academyId, id: clipId }: Looked, outcome: string, reason: NotSuggested | null, { basis, model, msPerFrame }: LookEnd): Promise<void> {
  const said = { outcome, reason, basis, model: model?.model ?? null, modelVersion: model?.version ?? null, msPerFrame, endedAt: now() };
  await tx.suggestingRun.upsert({ where: { academyId_clipId: { academyId, clipId } }, create: { academyId, clipId, ...said }, update: said });
}
