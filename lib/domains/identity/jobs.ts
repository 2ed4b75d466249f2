import { DONE, defineJob, skipped } from "@/lib/access/define-job";
import { sayIn } from "@/lib/core/words/catalogue";
import { letterLanguage } from "@/lib/core/words/languages";
import { database, inTransaction } from "@/lib/platform/database";
import { sendMail } from "@/lib/platform/mail";
import { settings } from "@/lib/platform/settings";
import { makeLink } from "./commands";
import { letterDue } from "./events";
import { INVITATION_DAYS, RESET_HOURS } from "./rules";

/** Writes the letter with its link. Tried again it makes a new link, and the one before stops working. */
export const sendLetter = defineJob(letterDue, async ({ payload }) => {
  const user = await database().user.findUnique({ where: { id: payload.userId }, include: { academy: { select: { name: true } } } });
  if (!user) return skipped("nobody has this number");
  if (!user.email || user.deactivatedAt) return skipped("no letter can reach this person");
  const secret = await inTransaction((tx) => makeLink(tx, user, payload.purpose));
  const link = `${settings().APP_URL.replace(/\/$/, "")}/${payload.purpose}/${secret}`;
  const say = sayIn(letterLanguage(user.language));
  const academy = user.academy.name;
  const text =
    payload.purpose === "invitation"
      ? [say("{academy} invites you to its Cagebook.", { academy }), say("Choose your password here:"), link, say("The link works once, for {count} days. If you did not expect it, do nothing.", { count: INVITATION_DAYS })]
      : [say("Somebody asked for a new password for this address."), say("Choose it here:"), link, say("The link works once, for {count} hours. If it was not you, do nothing; your password stays.", { count: RESET_HOURS })];
  await sendMail({
    to: user.email,
    subject: payload.purpose === "invitation" ? say("Your invitation to {academy}", { academy }) : say("A new password for Cagebook"),
    text: text.join("\n\n"),
  });
  return DONE;
});
