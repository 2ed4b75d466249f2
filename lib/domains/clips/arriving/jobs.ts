import { authorize } from "@/lib/access/ability";
import { defineJob, DONE } from "@/lib/access/define-job";
import { blobs } from "@/lib/platform/blobs";
import { now } from "@/lib/platform/clock";
import { database } from "@/lib/platform/database";
import { log } from "@/lib/platform/log";
import { removeDeadWork } from "@/lib/platform/work-folder";
import { arrivedBefore, arrivedOf, dropReceived } from "@/lib/platform/video/incoming";
import { endRetry, putAwayHalfSent, receiveIfArrived, tellAgain } from "./commands";
import { leftoversDue } from "./events";
import { tidyUpload } from "./policy";
import { HALF_SENT_HOURS, hoursBefore, RETRY_DAYS, STRAY_HOURS } from "./rules";
import { readAwaited, readUploadsUnderWay } from "./scope";

/**
 * Catches up with everything that a death of the house or a lost line can leave on the way: whole films that nobody was told of, films that
 * wait while nobody looks, half-sent ones, bytes that belong to nothing. Each step can be repeated.
 */
export const tidyLeftovers = defineJob(leftoversDue, async ({ actor }) => {
  // Files and new rows carry the clock of the machine and of the database.
  const real = new Date();
  const done = { received: 0, toldAgain: 0, halfSent: 0, retriesEnded: 0, strays: 0, unfinished: 0 };
  for (const found of await readUploadsUnderWay(database(), "receiving")) {
    const upload = authorize(actor, tidyUpload, found);
    const arrived = await arrivedOf(upload.id);
    if (arrived?.byteLength === upload.byteLength) done.received += Number(await receiveIfArrived(upload));
    else if (await isOld(upload.id, arrived?.lastAt ?? null, hoursBefore(real, HALF_SENT_HOURS))) {
      await putAwayHalfSent(upload);
      done.halfSent += 1;
    }
  }
  for (const found of await readUploadsUnderWay(database(), "checking")) done.toldAgain += Number(await tellAgain(authorize(actor, tidyUpload, found)));
  for (const found of await readUploadsUnderWay(database(), { refusedBefore: hoursBefore(now(), RETRY_DAYS * 24) })) {
    await endRetry(authorize(actor, tidyUpload, found));
    done.retriesEnded += 1;
  }
  const lying = await arrivedBefore(hoursBefore(real, STRAY_HOURS));
  const awaited = await readAwaited(database(), lying);
  for (const uploadId of lying.filter((id) => !awaited.has(id))) {
    await dropReceived(uploadId);
    done.strays += 1;
  }
  done.unfinished = (await blobs().removeUnfinished(hoursBefore(real, 24))) + (await removeDeadWork(hoursBefore(real, 24)));
  if (Object.values(done).some((count) => count > 0)) log().info(done, "leftovers tidied");
  return DONE;
});

/** Whether an upload began long ago and no byte of it came since. */
async function isOld(uploadId: string, lastByteAt: Date | null, before: Date): Promise<boolean> {
  if (lastByteAt) return lastByteAt < before;
  return (await database().upload.count({ where: { id: uploadId, createdAt: { lt: before } } })) > 0;
}
