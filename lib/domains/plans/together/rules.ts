/** Texts by the name of their part. */
export type Parts<Part extends string> = Readonly<Record<Part, string>>;

/** The same words, however a browser ends its lines. */
export function isSameText(one: string, other: string): boolean {
  const plain = (text: string) => text.replace(/\r\n?/g, "\n").trim();
  return plain(one) === plain(other);
}

/** What comes of a text that two wrote at once. */
export interface Brought<Part extends string> {
  readonly parts: Parts<Part>;
  /** Parts that the other changed and the sender left alone: the other's stand. */
  readonly taken: readonly Part[];
  /** Parts that both changed: nothing may be kept before the sender has seen the other's. */
  readonly overtaken: readonly Part[];
}

/** Brings what was sent together with what is kept now, part by part; `was` is what the sender saw. */
export function bringTogether<Part extends string>(kept: Parts<Part>, was: Parts<Part>, sent: Parts<Part>): Brought<Part> {
  const names = Object.keys(sent) as Part[];
  const moved = names.filter((part) => !isSameText(kept[part], was[part]) && !isSameText(kept[part], sent[part]));
  const taken = moved.filter((part) => isSameText(sent[part], was[part]));
  return { parts: { ...sent, ...Object.fromEntries(taken.map((part) => [part, kept[part]])) }, taken, overtaken: moved.filter((part) => !taken.includes(part)) };
}

/** One part of a text in a page's form. */
export interface Box {
  /** What stands in it. */
  readonly text: string;
  /** The kept words that it was written on. */
  readonly base: string;
  /** What was sent last and may be kept by now; null before anything was. */
  readonly sent: string | null;
  /** Grows whenever other words are put into the box. */
  readonly turn: number;
}

export const boxOf = (kept: string, typed = kept): Box => ({ text: typed, base: kept, sent: null, turn: 0 });

/** A box once the page knows what is kept now: nothing that was typed is lost, and what nobody typed into follows. */
export function caughtUp(box: Box, kept: string): Box {
  if (isSameText(kept, box.base)) return box;
  if (isSameText(kept, box.text) || (box.sent !== null && isSameText(kept, box.sent))) return { ...box, base: kept };
  return isSameText(box.text, box.base) ? takenOver(box, kept) : box;
}

/** Another's words stand in the box now. */
export const takenOver = (box: Box, kept: string): Box => ({ ...box, text: kept, base: kept, turn: box.turn + 1 });

/** Whether somebody kept other words than those that the box was written on. */
export const isOvertaken = (box: Box, kept: string): boolean => !isSameText(box.base, kept);
