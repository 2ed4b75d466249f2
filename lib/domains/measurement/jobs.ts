import { authorize } from "@/lib/access/ability";
import { defineJob, DONE, skipped } from "@/lib/access/define-job";
import { contentHash } from "@/lib/core/canonical-json";
import { NotFoundError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import { swingChanged } from "@/lib/domains/clips/events";
import { readSwing } from "@/lib/domains/clips/policy";
import { findSwingSubject, readSwingPage } from "@/lib/domains/clips/scope";
import { getCheckpointDefinitions } from "@/lib/domains/library/queries";
import { dayOf } from "@/lib/core/days";
import { now } from "@/lib/platform/clock";
import { database, inTransaction, type Transaction } from "@/lib/platform/database";
import { readingRows, replaceReadings } from "./commands";
import { readingBook } from "./rules";

/** Makes the readings of a swing anew, from what is recorded now. */
export const makeReadings = defineJob(swingChanged, async ({ payload, actor }) => {
  const found = await findSwingSubject(database(), { id: payload.swingId });
  if (!found) return skipped("the swing is gone");
  const swing = authorize(actor, readSwing, found);
  const library = await getCheckpointDefinitions.as(actor, { academyId: swing.academyId }).catch((error: unknown) => {
    if (error instanceof NotFoundError) return null;
    throw error;
  });
  const book = readingBook(library);
  const today = dayOf(now());
  // Read and worked out without holding anybody up; kept only if nothing of it changed meanwhile.
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    const page = await readSwingPage(database(), swing.id, today);
    const rows = await readingRows(page, book, swing.academyId);
    const state = await contentHash(page);
    const isKept = await whileHeld(swing.id, async (tx) => {
      if ((await contentHash(await readSwingPage(tx, swing.id, today))) !== state) return false;
      await replaceReadings(tx, swing, rows);
      return true;
    });
    if (isKept) return DONE;
  }
  // Somebody is marking quickly: then once while the swing is held.
  await whileHeld(swing.id, async (tx) => replaceReadings(tx, swing, await readingRows(await readSwingPage(tx, swing.id, today), book, swing.academyId)));
  return DONE;
});

const ATTEMPTS = 2;

/** Two runs for the same swing wait for each other; the later one reads the later state. */
function whileHeld<T>(swingId: Id, work: (tx: Transaction) => Promise<T>): Promise<T> {
  return inTransaction(async (tx) => {
    await tx.$queryRaw`SELECT 1 FROM "Swing" WHERE "id" = ${swingId}::uuid FOR UPDATE`;
    return work(tx);
  });
}
