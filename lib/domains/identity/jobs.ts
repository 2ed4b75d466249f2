import { DONE, defineJob, skipped } from "@/lib/access/define-job";
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
  const text =
    payload.purpose === "invitation"
      ? [`${user.academy.name} invites you to its Cagebook.`, "Choose your password here:", link, `The link works once, for ${INVITATION_DAYS} days. If you did not expect it, do nothing.`]
      : ["Somebody asked for a new password for this address.", "Choose it here:", link, `The link works once, for ${RESET_HOURS} hours. If it was not you, do nothing; your password stays.`];
  await sendMail({
    to: user.email,
    subject: payload.purpose === "invitation" ? `Your invitation to ${user.academy.name}` : "A new password for Cagebook",
    text: text.join("\n\n"),
  });
  return DONE;
});
