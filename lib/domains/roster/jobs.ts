import { DONE, defineJob, skipped } from "@/lib/access/define-job";
import { sayIn } from "@/lib/core/words/catalogue";
import { letterLanguage } from "@/lib/core/words/languages";
import { database } from "@/lib/platform/database";
import { sendMail } from "@/lib/platform/mail";
import { settings } from "@/lib/platform/settings";
import { noticeWritten } from "./events";

/** One letter for all that waits: it names nobody and says nothing of what happened. */
export const tellThatSomethingWaits = defineJob(noticeWritten, async ({ payload }) => {
  const user = await database().user.findUnique({
    where: { id: payload.userId },
    select: { email: true, language: true, deactivatedAt: true, academy: { select: { name: true } }, _count: { select: { notices: { where: { readAt: null } } } } },
  });
  if (!user) return skipped("nobody has this number");
  if (!user.email || user.deactivatedAt) return skipped("no letter can reach this person");
  if (user._count.notices === 0) return skipped("everything was read meanwhile");
  const say = sayIn(letterLanguage(user.language));
  await sendMail({
    to: user.email,
    subject: say("Something waits for you at {academy}", { academy: user.academy.name }),
    text: `${say("Something new waits for you in Cagebook. Please sign in to read it:")}\n\n${settings().APP_URL}`,
  });
  return DONE;
});
