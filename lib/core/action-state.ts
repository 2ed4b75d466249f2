/**
 * What a form knows after it was sent: nothing yet, kept, or refused with a sentence for the whole form, one per
 * field, and the values that were typed, so that nothing has to be typed twice. It was overtaken when somebody changed
 * the thing since the person looked.
 */
export type ActionState =
  | { status: "idle" }
  | { status: "done"; message?: string; data?: unknown }
  | { status: "refused"; message: string; fields: Record<string, string>; values: Record<string, string>; isOvertaken?: boolean };

/** The state of a form that was not sent yet. */
export const IDLE: ActionState = { status: "idle" };
