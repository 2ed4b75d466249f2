import { fleschKincaid } from "flesch-kincaid";
import { syllable } from "syllable";

/**
 * The school year in which a text is read with ease, by Flesch and Kincaid (Kincaid, Fishburne, Rogers and Chissom 1975: 0.39 words a
 * sentence + 11.8 syllables a word − 15.59). Each text begins a sentence of its own; the formula was made for whole passages, so
 * that single lines are put together before they are judged.
 */
export function readingGrade(texts: readonly string[]): { readonly grade: number; readonly words: number; readonly sentences: number } {
  const count = { sentence: 0, word: 0, syllable: 0 };
  for (const sentence of texts.flatMap((text) => text.split(/[.!?]+(?=\s|$)|\n+/))) {
    const words = sentence.match(/[\p{L}\p{N}]+(?:['’-][\p{L}\p{N}]+)*/gu) ?? [];
    if (words.length === 0) continue;
    count.sentence += 1;
    count.word += words.length;
    for (const word of words) count.syllable += Math.max(1, syllable(word));
  }
  return { grade: fleschKincaid(count), words: count.word, sentences: count.sentence };
}

/**
 * A child of ten is in the fourth or fifth school year (ages by year: common practice, no source). What a child reads alone stays
 * a year below the younger of the two.
 */
export const CHILD_GRADE = 4;
/** One drill's few lines swing more about their mean than a page does: at most the year the child is in. */
export const DRILL_GRADE = 5;
