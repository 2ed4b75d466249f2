import { authorize } from "@/lib/access/ability";
import { defineJob, DONE, skipped } from "@/lib/access/define-job";
import { now } from "@/lib/platform/clock";
import { database, inTransaction } from "@/lib/platform/database";
import { sendDueMessage } from "./commands";
import { messagesDue } from "./events";
import { sendDue } from "./policy";
import { readDue } from "./scope";

/** Lets go and rings what waited for the hours in which messages go out, each in a transaction of its own. */
export const sendDueMessages = defineJob(messagesDue, async ({ actor }) => {
  let count = 0;
  for (const subject of await readDue(database(), now())) {
    const granted = authorize(actor, sendDue, subject);
    count += Number(await inTransaction((tx) => sendDueMessage(tx, granted)));
  }
  return count > 0 ? DONE : skipped("nothing was due");
});
