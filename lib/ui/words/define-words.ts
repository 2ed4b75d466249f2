/** The languages the texts exist in. A second one is added here and as one more file beside each `en.ts`. */
export type Language = "en";

/** The language of this installation. */
export const LANGUAGE: Language = "en";

/** A slice of the catalogue: a text, a text with gaps, or a named group of them. */
export interface Words {
  readonly [name: string]: string | ((...gaps: never[]) => string) | Words;
}

/** What another language must supply for a slice: the same names and the same gaps. */
export type Translated<T> = {
  readonly [K in keyof T]: T[K] extends string
    ? string
    : T[K] extends (...gaps: infer Gaps) => string
      ? (...gaps: Gaps) => string
      : Translated<T[K]>;
};

/**
 * One slice of the catalogue in the language of this installation. The English slice sets the shape; a language
 * that lacks a text does not compile.
 */
export function defineWords<T extends Words>(slices: Record<Language, Translated<T>> & { en: T }): Translated<T> {
  return slices[LANGUAGE];
}
