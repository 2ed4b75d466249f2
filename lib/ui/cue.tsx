import { classNames } from "./class-names";

/** A cue as it was said: in quotes, italic, never edited. */
export function Cue({ text, isLead = false }: { text: string; isLead?: boolean }) {
  return <span className={classNames("said", isLead && "lead")}>“{text}”</span>;
}
