import { factWords } from "./like-for-like";

/** What tells one clip from another where several stand beside each other. */
export interface Captioned {
  readonly swingId: string;
  readonly playerId: string;
  /** Given name, for a clip of another player. */
  readonly playerName: string;
  /** YYYY-MM-DD */
  readonly day: string;
  readonly view: string;
}

/**
 * Words for the corner of each picture, no two alike: the first clip is "This swing", others say their day; the view is said
 * where they differ in it, a player's name where it is not the first one's.
 * @param today YYYY-MM-DD; the year is said when it is another one
 */
export function besideCaptions(clips: readonly Captioned[], today: string): readonly string[] {
  const [first] = clips;
  const isOneView = clips.every(({ view }) => view === first?.view);
  const plain = clips.map((it) => {
    const who = it.playerId === first?.playerId ? "" : `${it.playerName}, `;
    const which = it.swingId === first?.swingId ? "This swing" : dayWords(it.day, today);
    return `${who}${which}${isOneView ? "" : `, ${viewWords(it.view)}`}`;
  });
  return plain.map((words, i) => {
    const before = plain.slice(0, i).filter((it) => it === words).length;
    return before > 0 ? `${words}, ${before + 1}` : words;
  });
}

/** "18 Nov", with the year when it is another than today's. */
export function dayWords(day: string, today: string): string {
  const isThisYear = day.slice(0, 4) === today.slice(0, 4);
  return new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", ...(isThisYear ? {} : { year: "numeric" }), timeZone: "UTC" }).format(new Date(`${day}T00:00:00Z`));
}

/** "from behind": a view as one says it of a clip. */
export function viewWords(view: string): string {
  return factWords("view", view).replace(/^filmed /, "");
}
