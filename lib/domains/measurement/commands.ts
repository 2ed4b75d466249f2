import type { Granted } from "@/lib/access/ability";
import { canonicalJson, contentHash } from "@/lib/core/canonical-json";
import type { SwingSubject } from "@/lib/domains/clips/policy";
import type { SwingPage } from "@/lib/domains/clips/schema";
import { now } from "@/lib/platform/clock";
import type { Prisma, Transaction } from "@/lib/platform/database";
import { clipInput, readSwing, swingInput } from "./rules";
import type { ReadingBook } from "./view";

/** Readings of a swing as rows, each with the hash of all that it was made of. */
export async function readingRows(swing: SwingPage, book: ReadingBook, academyId: string): Promise<Prisma.ReadingCreateManyInput[]> {
  const { editionId } = book;
  if (!editionId) return [];
  const definitions = new Map(book.checkpoints.map((it) => [it.id, it.definition]));
  const rows: Prisma.ReadingCreateManyInput[] = [];
  for (const { clipId, readings } of readSwing(swing, book)) {
    const own = swing.clips.find(({ clip }) => clip.id === clipId);
    // Thousands of points: hashed once for the clip, not once for each reading.
    const inputs = await contentHash(own && [clipInput(own.clip, own.camera), swingInput(swing, own.clip), book.rules]);
    for (const reading of readings) {
      const { checkpointId, formulaId, formulaVersion, value, sd, verdict, isGrey } = reading;
      const inputsHash = await contentHash([definitions.get(checkpointId), inputs]);
      const body = JSON.parse(canonicalJson(reading)) as Prisma.InputJsonObject;
      rows.push({ academyId, clipId, swingId: swing.id, checkpointId, formulaId, formulaVersion, editionId, inputsHash, value, sd, verdict, isGrey, body, computedAt: now() });
    }
  }
  return rows;
}

/** Puts the readings of a swing in the place of those that were there: derived, never edited. */
export async function replaceReadings(tx: Transaction, swing: Granted<SwingSubject, "swing.read">, rows: Prisma.ReadingCreateManyInput[]): Promise<void> {
  await tx.reading.deleteMany({ where: { academyId: swing.academyId, swingId: swing.id } });
  await tx.reading.createMany({ data: rows });
}
