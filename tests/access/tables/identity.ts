import type { AccessRow } from "../row";

const nothing = () => ({});
const somebody = "9b1d2c4e-5f60-4a71-8b82-93a4b5c6d7e8";
const coach: AccessRow["input"] = ({ userIds }) => ({ userId: userIds.coach });

export const rows: readonly AccessRow[] = [
  { name: "identity.answer-auth", may: "everybody", input: () => ({ path: ["csrf"] }) },
  { name: "identity.get-link", may: "everybody", input: () => ({ secret: "none" }) },
  { name: "identity.accept-link", may: "everybody", input: () => ({ secret: "x".repeat(43), password: "three plain words" }) },
  { name: "identity.ask-reset", may: "everybody", input: () => ({ name: "kim@example.test" }) },
  { name: "identity.list-kept-letters", may: "everybody", input: nothing },

  { name: "identity.choose-language", may: "everybody", input: () => ({ language: "es" }) },

  { name: "identity.get-me", may: "everybody signed in", input: nothing },
  { name: "identity.list-my-sessions", may: "everybody signed in", input: nothing },
  { name: "identity.sign-out", may: "everybody signed in", input: nothing },
  { name: "identity.sign-out-everywhere", may: "everybody signed in", input: nothing },
  { name: "identity.close-session", may: "everybody signed in", input: () => ({ sessionId: somebody }) },
  { name: "identity.switch-role", may: "everybody signed in", input: () => ({ role: "coach" }) },
  { name: "identity.change-password", may: "everybody signed in", input: () => ({ currentPassword: "a", newPassword: "three plain words" }) },

  { name: "identity.get-child-login", may: ["guardian"], input: ({ playerId }) => ({ playerId }) },
  { name: "identity.make-child-login", may: ["guardian"], input: ({ playerId }) => ({ playerId, userName: "pia", password: "three plain words" }) },

  { name: "identity.list-people", may: ["admin", "adminElsewhere"], input: nothing },
  { name: "identity.invite-staff", may: ["admin", "adminElsewhere"], input: () => ({ displayName: "Kim", email: "kim@example.test", role: "coach" }) },
  { name: "identity.get-person", may: ["admin"], input: coach },
  { name: "identity.invite-again", may: ["admin"], input: coach },
  { name: "identity.grant-role", may: ["admin"], input: ({ userIds }) => ({ userId: userIds.coach, role: "head-coach" }) },
  { name: "identity.end-role", may: ["admin"], input: ({ userIds }) => ({ userId: userIds.coach, grantId: somebody }) },
  { name: "identity.deactivate", may: ["admin"], input: coach },
  { name: "identity.reactivate", may: ["admin"], input: coach },
];
