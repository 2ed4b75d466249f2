import type { es } from "./es";
import { LOCALES, type Language } from "./languages";
import { fill, type Gap } from "./message";

/** Every sentence of the catalogue. A sentence is its own key: who changes the English is told that its translations are out of date. */
export type Sentence = keyof typeof es;

/** A sentence without gaps. */
export type PlainSentence = Exclude<Sentence, `${string}{${string}`>;

/** The names of a sentence's gaps. A branch of a plural holds no gap but `#`. */
type GapsIn<Text extends string> = Text extends `${string}{${infer Rest}`
  ? Rest extends `${infer Inside}}${infer After}`
    ? Inside extends `${infer Name}, plural, ${string}`
      ? Name | (After extends `${string}}}${infer Later}` ? GapsIn<Later> : never)
      : Inside | GapsIn<After>
    : never
  : never;
type Gaps<Text extends string> = [GapsIn<Text>] extends [never] ? [] : [gaps: Readonly<Record<GapsIn<Text>, Gap>>];

/** Sentences by their English. */
export type Messages = Readonly<Record<string, string>>;

/** Says things in one language. */
export interface Say {
  /** A sentence of the catalogue with its gaps filled. */
  <Text extends Sentence>(text: Text, ...gaps: Gaps<Text>): string;
  readonly language: Language;
  /** `en` on a page in another language, for what stays in the coach's own words or has no translation; nothing on an English page. */
  readonly asWritten: "en" | undefined;
  /** Whether each of these texts can be said in this language. */
  knows(...texts: readonly string[]): boolean;
  /** A text that stands in the catalogue or among the library's own in this language, any other as it is. */
  told(text: string): string;
  /** How a text from `told` is to be marked: `en` where it stayed English on a page in another language. */
  langOf(...texts: readonly string[]): "en" | undefined;
  /** A voice for a sentence that holds these texts: English as a whole where one of them has no translation. */
  around(...texts: readonly string[]): Say;
  /** "Wednesday 9 December" of a day YYYY-MM-DD. */
  day(day: string): string;
  /** "Ana, Luis and Eva" */
  list(things: readonly string[]): string;
}

/**
 * A voice in a language.
 * @param messages its sentences by their English; none for English
 */
export function sayFrom(language: Language, messages: Messages | null): Say {
  const has = (text: string) => messages === null || Object.hasOwn(messages, text);
  const knows = (...texts: readonly string[]) => texts.every(has);
  const asWritten = language === "en" ? undefined : "en";
  const locale = LOCALES[language];
  const say = (text: string, gaps?: Readonly<Record<string, Gap>>) => fill(messages?.[text] ?? text, knows(text) ? language : "en", gaps);
  const voice: Say = Object.assign(say as unknown as (text: Sentence) => string, {
    language,
    asWritten,
    knows,
    told: (text: string) => messages?.[text] ?? text,
    langOf: (...texts: readonly string[]) => (knows(...texts) ? undefined : asWritten),
    around: (...texts: readonly string[]): Say => (knows(...texts) ? voice : english),
    day: (day: string) => new Intl.DateTimeFormat(locale, { weekday: "long", day: "numeric", month: "long", timeZone: "UTC" }).format(new Date(`${day}T00:00:00Z`)).replace(",", ""),
    list: (things: readonly string[]) => new Intl.ListFormat(locale, { type: "conjunction" }).format(things),
  }) as Say;
  return voice;
}

/** The voice of the house: what it says is the key itself. */
export const english: Say = sayFrom("en", null);
