import { authorize } from "@/lib/access/ability";
import { defineJob, DONE } from "@/lib/access/define-job";
import { now, todayIn } from "@/lib/platform/clock";
import { database, inTransaction } from "@/lib/platform/database";
import { hoursBefore } from "../arriving/rules";
import { remindOfSent } from "./commands";
import { waitingDue } from "./events";
import { remindOf } from "./policy";
import { REMIND_AFTER_HOURS } from "./rules";
import { readOverdue } from "./scope";

/** Reminds coaches of clips that wait too long, each once. While no consent is in force there is nothing to look at, so nobody is reminded. */
export const remindOfWaiting = defineJob(waitingDue, async ({ actor }) => {
  for (const { today, ...sent } of await readOverdue(database(), hoursBefore(now(), REMIND_AFTER_HOURS), todayIn)) {
    if (sent.isPermitted) await inTransaction((tx) => remindOfSent(tx, authorize(actor, remindOf, sent), today));
  }
  return DONE;
});
