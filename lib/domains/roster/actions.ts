"use server";

import type { z } from "zod";
import type { Person } from "@/lib/access/actor";
import { defineAction } from "@/lib/access/define-action";
import { may, mayInAcademy, signedIn } from "@/lib/access/guard";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import * as commands from "./commands";
import * as policy from "./policy";
import * as forms from "./schema";
import { findPlayerSubject } from "./scope";

type In<Form extends z.ZodType> = z.infer<Form>;
const playerOf = <Input extends { playerId: Id }>(input: Input, db: Database, actor: Person) => findPlayerSubject(db, actor.academyId, input.playerId);

export const addPlayer = defineAction({
  name: "roster.add-player",
  input: forms.addPlayerForm,
  policy: mayInAcademy<In<typeof forms.addPlayerForm>, "roster.manage">(policy.manageRoster),
  run: async ({ input, granted, tx }) => ({ redirectTo: `/roster/${await commands.addPlayer(tx, granted, input)}` }),
});

export const editPlayer = defineAction({
  name: "roster.edit-player",
  input: forms.editPlayerForm,
  policy: may(policy.editPlayer, playerOf<In<typeof forms.editPlayerForm>>),
  run: async ({ input, granted, tx }) => commands.editPlayer(tx, granted, input),
});

export const leaveAcademy = defineAction({
  name: "roster.leave-academy",
  input: forms.playerIdForm,
  policy: may(policy.editPlayer, playerOf<In<typeof forms.playerIdForm>>),
  run: async ({ actor, granted, tx }) => {
    await commands.leaveAcademy(tx, actor, granted);
    return { message: "The player has left. Coaches no longer see the record; it is kept." };
  },
});

export const takeBack = defineAction({
  name: "roster.take-back",
  input: forms.playerIdForm,
  policy: may(policy.editPlayer, playerOf<In<typeof forms.playerIdForm>>),
  run: async ({ granted, tx }) => {
    await commands.takeBack(tx, granted);
    return { message: "The player is back. Assign a coach next." };
  },
});

export const addGuardian = defineAction({
  name: "roster.add-guardian",
  input: forms.addGuardianForm,
  policy: may(policy.manageGuardians, playerOf<In<typeof forms.addGuardianForm>>),
  run: async ({ actor, input, granted, tx }) => {
    await commands.addGuardian(tx, actor, granted, input);
    return { message: "Kept. Who is new here gets a letter with a link." };
  },
});

export const endGuardianship = defineAction({
  name: "roster.end-guardianship",
  input: forms.endGuardianshipForm,
  policy: may(policy.manageGuardians, playerOf<In<typeof forms.endGuardianshipForm>>),
  run: async ({ actor, input, granted, tx }) => commands.endGuardianship(tx, actor, granted, input.guardianshipId),
});

export const invitePlayer = defineAction({
  name: "roster.invite-player",
  input: forms.invitePlayerForm,
  policy: may(policy.editPlayer, playerOf<In<typeof forms.invitePlayerForm>>),
  run: async ({ actor, input, granted, tx }) => {
    await commands.invitePlayer(tx, actor, granted, input.email);
    return { message: "Kept. Who is new here gets a letter with a link." };
  },
});

export const assignCoach = defineAction({
  name: "roster.assign-coach",
  input: forms.assignCoachForm,
  policy: may(policy.assignCoaches, playerOf<In<typeof forms.assignCoachForm>>),
  run: async ({ actor, input, granted, tx }) => commands.assignCoach(tx, actor, granted, input),
});

export const endAssignment = defineAction({
  name: "roster.end-assignment",
  input: forms.endAssignmentForm,
  policy: may(policy.assignCoaches, playerOf<In<typeof forms.endAssignmentForm>>),
  run: async ({ actor, input, granted, tx }) => commands.endAssignment(tx, actor, granted, input.assignmentId, input.until),
});

export const reassignPlayers = defineAction({
  name: "roster.reassign-players",
  input: forms.reassignForm,
  policy: mayInAcademy<In<typeof forms.reassignForm>, "roster.manage">(policy.manageRoster),
  run: async ({ actor, input, granted, tx }) => {
    const count = await commands.reassignPlayers(tx, actor, granted, input.fromUserId, input.toUserId);
    return { message: count === 1 ? "One player was handed over." : `${count} players were handed over.` };
  },
});

export const recordConsent = defineAction({
  name: "roster.record-consent",
  input: forms.recordConsentForm,
  policy: may(policy.recordConsent, playerOf<In<typeof forms.recordConsentForm>>),
  run: async ({ actor, input, granted, tx }) => commands.recordConsent(tx, actor, granted, input),
});

export const withdrawConsent = defineAction({
  name: "roster.withdraw-consent",
  input: forms.withdrawConsentForm,
  policy: may(policy.withdrawConsent, playerOf<In<typeof forms.withdrawConsentForm>>),
  run: async ({ input, granted, tx }) => {
    await commands.withdrawConsent(tx, granted, input.use);
    return { message: "Withdrawn. From now on nothing is shown under it." };
  },
});

export const setHomeSetup = defineAction({
  name: "roster.set-home-setup",
  input: forms.homeSetupForm,
  policy: may(policy.setHome, playerOf<In<typeof forms.homeSetupForm>>),
  run: async ({ input, granted, tx }) => commands.setHomeSetup(tx, granted, input),
});

export const recordComplaint = defineAction({
  name: "roster.record-complaint",
  input: forms.recordComplaintForm,
  policy: may(policy.recordComplaint, playerOf<In<typeof forms.recordComplaintForm>>),
  run: async ({ actor, input, granted, tx }) => {
    await commands.recordComplaint(tx, actor, granted, input.part);
    return { message: "Kept. Drills that load this part are left out while it lasts." };
  },
});

export const endComplaint = defineAction({
  name: "roster.end-complaint",
  input: forms.endComplaintForm,
  policy: may(policy.recordComplaint, playerOf<In<typeof forms.endComplaintForm>>),
  run: async ({ input, granted, tx }) => commands.endComplaint(tx, granted, input.complaintId),
});

export const reportPain = defineAction({
  name: "roster.report-pain",
  input: forms.reportPainForm,
  policy: may(policy.reportPain, playerOf<In<typeof forms.reportPainForm>>),
  run: async ({ actor, input, granted, tx }) => {
    const pauseId = await commands.reportPain(tx, actor, granted, input);
    return { message: "Stop swinging now. Tell an adult. Swings are paused, and the coach has been told.", data: { pauseId } };
  },
});

const cleared = (isOver: boolean) => ({ message: isOver ? "Cleared by both sides. Swings may begin again." : "Kept. Swings stay paused until the other side clears it too." });

export const clearPauseAsCoach = defineAction({
  name: "roster.clear-pause-as-coach",
  input: forms.clearPauseForm,
  policy: may(policy.clearPauseAsCoach, playerOf<In<typeof forms.clearPauseForm>>),
  run: async ({ actor, input, granted, tx }) => cleared(await commands.clearPause(tx, actor, granted, input.pauseId, "coach")),
});

export const clearPauseAsFamily = defineAction({
  name: "roster.clear-pause-as-family",
  input: forms.clearPauseAsFamilyForm,
  policy: may(policy.clearPauseAsFamily, playerOf<In<typeof forms.clearPauseAsFamilyForm>>),
  run: async ({ actor, input, granted, tx }) => cleared(await commands.clearPause(tx, actor, granted, input.pauseId, "family", input.clinicianSaidOn)),
});

export const readNotice = defineAction({
  name: "roster.read-notice",
  input: forms.readNoticeForm,
  policy: signedIn<In<typeof forms.readNoticeForm>>("everybody puts away their own notices; another's is not found among them"),
  run: async ({ actor, input, tx }) => commands.readNotice(tx, actor, input.noticeId),
});
