import { authorize } from "@/lib/access/ability";
import { defineJob, DONE, skipped } from "@/lib/access/define-job";
import { NotFoundError } from "@/lib/core/errors";
import { swingChanged } from "@/lib/domains/clips/events";
import { readSwing } from "@/lib/domains/clips/policy";
import { findSwingSubject, readSwingPage } from "@/lib/domains/clips/scope";
import { getCheckpointDefinitions } from "@/lib/domains/library/queries";
import { dayOf } from "@/lib/core/days";
import { now } from "@/lib/platform/clock";
import { database, inTransaction } from "@/lib/platform/database";
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
  await inTransaction(async (tx) => {
    // Two runs for the same swing wait for each other; the later one reads the later state.
    await tx.$queryRaw`SELECT 1 FROM "Swing" WHERE "id" = ${swing.id}::uuid FOR UPDATE`;
    const page = await readSwingPage(tx, swing.id, dayOf(now()));
    await replaceReadings(tx, swing, await readingRows(page, book, swing.academyId));
  });
  return DONE;
});
