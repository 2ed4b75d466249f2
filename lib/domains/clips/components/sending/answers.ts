import type { Answers } from "./sending-line";

/** What was answered in a form, name by name; boxes that are not ticked are not there. */
export function answersOf(form: HTMLFormElement): Answers {
  return Object.fromEntries([...new FormData(form)].filter((entry): entry is [string, string] => typeof entry[1] === "string"));
}
