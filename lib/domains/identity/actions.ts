"use server";

import type { z } from "zod";
import { isPerson, type Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { LANGUAGE_COOKIE } from "@/lib/access/request-language";
import { anyone, may, mayInAcademy, signedIn } from "@/lib/access/guard";
import { sayIn } from "@/lib/core/words/catalogue";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import * as commands from "./commands";
import { makeChildLogin as childLogin, managePeople, managePerson } from "./policy";
import {
  acceptLinkForm, askResetForm, changePasswordForm, childLoginForm, chooseLanguageForm, closeSessionForm, endRoleForm, grantRoleForm, inviteStaffForm, nothingForm,
  personForm, switchRoleForm,
} from "./schema";
import { findChildSubject, findUserSubject } from "./scope";

type In<Form extends z.ZodType> = z.infer<Form>;
const personOf = <Input extends { userId: Id }>(input: Input, db: Database, actor: Person) => findUserSubject(db, actor.academyId, input.userId);

export const signOut = defineAction({
  name: "identity.sign-out",
  input: nothingForm,
  policy: signedIn<In<typeof nothingForm>>("everybody may end their own session"),
  run: async ({ actor, tx }) => {
    await commands.closeSession(tx, actor, actor.sessionId);
    return { redirectTo: "/sign-in" };
  },
});

export const closeSession = defineAction({
  name: "identity.close-session",
  input: closeSessionForm,
  policy: signedIn<In<typeof closeSessionForm>>("everybody may end their own sessions; another's is not found among them"),
  run: async ({ actor, input, tx }) => {
    await commands.closeSession(tx, actor, input.sessionId);
    return { message: "That device is signed out." };
  },
});

export const signOutEverywhere = defineAction({
  name: "identity.sign-out-everywhere",
  input: nothingForm,
  policy: signedIn<In<typeof nothingForm>>("everybody may end all their own sessions"),
  run: async ({ actor, tx }) => {
    await commands.closeSessions(tx, actor.academyId, actor.userId);
    return { redirectTo: "/sign-in" };
  },
});

export const switchRole = defineAction({
  name: "identity.switch-role",
  input: switchRoleForm,
  policy: signedIn<In<typeof switchRoleForm>>("everybody may change to a role of their own; another is not found"),
  run: async ({ actor, input, tx }) => {
    await commands.switchRole(tx, actor, input.role);
    return { redirectTo: "/" };
  },
});

export const chooseLanguage = defineAction({
  name: "identity.choose-language",
  input: chooseLanguageForm,
  policy: anyone<In<typeof chooseLanguageForm>>("everybody reads in a language of their own, before the sign-in too"),
  run: async ({ actor, input, tx }) => {
    if (isPerson(actor)) await commands.chooseLanguage(tx, actor, input.language);
    return { cookie: { name: LANGUAGE_COOKIE, value: input.language } };
  },
});

export const changePassword = defineAction({
  name: "identity.change-password",
  input: changePasswordForm,
  policy: signedIn<In<typeof changePasswordForm>>("everybody may change their own password, who knows the present one"),
  run: async ({ actor, input, tx }) => {
    await commands.changePassword(tx, actor, input);
    return { message: "Your new password is kept. Every other device is signed out." };
  },
});

export const acceptLink = defineAction({
  name: "identity.accept-link",
  input: acceptLinkForm,
  policy: anyone<In<typeof acceptLinkForm>>("whoever holds the secret of a link has no password yet, or lost it"),
  run: async ({ input, tx }) => {
    await commands.acceptLink(tx, input.secret, input.password);
    return { redirectTo: "/sign-in?welcome=1" };
  },
});

export const askReset = defineAction({
  name: "identity.ask-reset",
  input: askResetForm,
  policy: anyone<In<typeof askResetForm>>("who lost the password cannot sign in; the answer is the same for every name"),
  run: async ({ input, tx }) => {
    await commands.countTry([{ key: `reset ${input.name.toLowerCase()}`, most: 5 }]);
    await commands.askReset(tx, input.name);
    return { message: "If this address belongs to a sign-in here, a letter with a link is on its way. It works for two hours." };
  },
});

export const makeChildLogin = defineAction({
  name: "identity.make-child-login",
  input: childLoginForm,
  policy: may(childLogin, (input: In<typeof childLoginForm>, db, actor) => findChildSubject(db, actor.academyId, input.playerId)),
  run: async ({ actor, input, granted, tx }) => {
    await commands.setChildLogin(tx, actor, granted, input);
    return { message: sayIn(actor.language)("Kept. Your child signs in with the user name {userName} and this password.", { userName: input.userName }) };
  },
});

export const inviteStaff = defineAction({
  name: "identity.invite-staff",
  input: inviteStaffForm,
  policy: mayInAcademy<In<typeof inviteStaffForm>, "people.manage">(managePeople),
  run: async ({ actor, input, granted, tx }) => ({ redirectTo: `/people/${await commands.inviteStaff(tx, actor, granted, input)}` }),
});

export const inviteAgain = defineAction({
  name: "identity.invite-again",
  input: personForm,
  policy: may(managePerson, personOf<In<typeof personForm>>),
  run: async ({ granted, tx }) => {
    await commands.inviteAgain(tx, granted);
    return { message: "A new letter is on its way. The link in the older one no longer works." };
  },
});

export const grantRole = defineAction({
  name: "identity.grant-role",
  input: grantRoleForm,
  policy: may(managePerson, personOf<In<typeof grantRoleForm>>),
  run: async ({ actor, input, granted, tx }) => commands.grantRole(tx, actor, granted.id, input),
});

export const endRole = defineAction({
  name: "identity.end-role",
  input: endRoleForm,
  policy: may(managePerson, personOf<In<typeof endRoleForm>>),
  run: async ({ actor, input, granted, tx }) => commands.endRole(tx, actor, granted, input.grantId, input.until),
});

export const deactivate = defineAction({
  name: "identity.deactivate",
  input: personForm,
  policy: may(managePerson, personOf<In<typeof personForm>>),
  run: async ({ actor, granted, tx }) => {
    await commands.deactivate(tx, actor, granted);
    return { message: "This sign-in is closed, and every device with it." };
  },
});

export const reactivate = defineAction({
  name: "identity.reactivate",
  input: personForm,
  policy: may(managePerson, personOf<In<typeof personForm>>),
  run: async ({ granted, tx }) => {
    await commands.reactivate(tx, granted);
    return { message: "This person can sign in again." };
  },
});
