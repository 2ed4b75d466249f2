import { z } from "zod";
import { LANGUAGES } from "@/lib/core/words/languages";
import { ROLES } from "@/lib/access/actor";
import { isId, type Id } from "@/lib/core/ids";
import { STAFF_ROLES } from "./rules";

const id = z.custom<Id>(isId, "There is no such record.");
const day = z.preprocess(
  (value) => (value === "" || value === null ? undefined : value),
  z.iso.date("Write the day as year, month, day, such as 2026-11-25.").optional(),
);
const password = z.string({ error: "Write a password." }).min(1, "Write a password.").max(1000, "This password is too long.");
const displayName = z.string({ error: "Write the name." }).trim().min(1, "Write the name.").max(80, "Keep the name below 80 letters.");
const email = z
  .string({ error: "Write a mail address." })
  .trim()
  .toLowerCase()
  .max(254, "This mail address is too long.")
  .pipe(z.email("This is no mail address. It needs a name, an @ and a place, such as kim@example.org."));
const userName = z
  .string({ error: "Write a user name." })
  .trim()
  .toLowerCase()
  .regex(/^[a-z0-9][a-z0-9.-]{2,29}$/, "A user name has 3 to 30 letters, digits, points or hyphens, and no spaces.");
const secret = z.string().regex(/^[A-Za-z0-9_-]{43}$/);

export const nothingForm = z.object({});
export const signInForm = z.object({ name: z.string().trim().min(1).max(254), password: z.string().min(1).max(1000) });
export const linkForm = z.object({ secret: z.string().max(200) });
export const acceptLinkForm = z.object({ secret, password });
export const askResetForm = z.object({ name: z.string({ error: "Write your mail address." }).trim().min(1, "Write your mail address.").max(254, "This is too long.") });
export const changePasswordForm = z.object({ currentPassword: password, newPassword: password });
export const closeSessionForm = z.object({ sessionId: id });
export const chooseLanguageForm = z.object({ language: z.enum(LANGUAGES, "We do not speak that language yet.") });
export const switchRoleForm = z.object({ role: z.enum(ROLES, "Choose a role.") });

export const childLoginForm = z.object({ playerId: id, userName, password });
export const childForm = z.object({ playerId: id });

const staffRole = z.enum(STAFF_ROLES, "Choose a role.");
export const inviteStaffForm = z.object({ displayName, email, role: staffRole });
export const personForm = z.object({ userId: id });
export const grantRoleForm = z.object({ userId: id, role: staffRole, from: day, until: day });
export const endRoleForm = z.object({ userId: id, grantId: id, until: day });
export const listPeopleForm = z.object({ after: id.optional() });
