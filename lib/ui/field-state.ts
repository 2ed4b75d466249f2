import type { ActionState } from "@/lib/core/action-state";

/**
 * What a refused form gives back to one of its fields: the sentence about it, and the value that was typed (else the
 * value it began with). Spread into a field: `<TextInput name="height" {...fieldState(state, "height")} />`.
 */
export function fieldState(state: ActionState, name: string, initial?: string): { error?: string; defaultValue?: string } {
  if (state.status !== "refused") return { defaultValue: initial };
  return { error: state.fields[name], defaultValue: state.values[name] ?? initial };
}

/** The same for a box to tick: a refused form gives back whether it was ticked. */
export function checkState(state: ActionState, name: string, isInitial = false): { error?: string; defaultChecked: boolean } {
  if (state.status !== "refused") return { defaultChecked: isInitial };
  return { error: state.fields[name], defaultChecked: name in state.values };
}
