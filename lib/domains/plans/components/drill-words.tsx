import type { Say } from "@/lib/core/words/say";
import { Told } from "@/lib/ui/words/told";

/** Texts one after the other, each in the page's language or marked as English. */
export function TellAll({ texts, say }: { texts: readonly string[]; say: Say }) {
  if (say.knows(...texts)) return texts.map(say.told).join(" ");
  return texts.map((text, place) => (
    <span key={text}>
      {place > 0 ? " " : ""}
      <Told say={say} text={text} />
    </span>
  ));
}

/** "You need: bat, tee." In English as a whole where one of the things has no translation. */
export function YouNeed({ items, say }: { items: readonly string[]; say: Say }) {
  return (
    <p className="small" lang={say.langOf(...items)}>
      {youNeed(items, say)}
    </p>
  );
}

export function youNeed(items: readonly string[], say: Say): string {
  const voice = say.around(...items);
  return voice("You need: {things}.", { things: items.map(voice.told).join(", ") });
}
