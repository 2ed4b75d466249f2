/** Vowels that make a syllable of their own; an accent on i or u parts it from its neighbour. */
const STRONG = /[aeoáéóíú]/g;

/** Syllables of a Spanish word: one for each strong vowel of a run of vowels, one for a run of weak ones. */
export function syllablesOf(word: string): number {
  const plain = word.toLowerCase().replace(/qu(?=[eiéí])/g, "q").replace(/gu(?=[eiéí])/g, "g").replace(/y(?![aeiouáéíóú])/g, "i").replace(/(?<=[aeiouáéíóúü])h(?=[aeiouáéíóúü])/g, "");
  const runs = plain.match(/[aeiouáéíóúü]+/g) ?? [];
  return Math.max(1, runs.reduce((sum, run) => sum + Math.max(1, run.match(STRONG)?.length ?? 0), 0));
}

/**
 * How easily a Spanish text is read: 206.835 − 62.3 syllables a word − words a sentence (F. Szigriszt Pazos, Sistemas predictivos de
 * legibilidad del mensaje escrito, Madrid 1993). Each text begins a sentence of its own.
 */
export function readingEase(texts: readonly string[]): { readonly ease: number; readonly words: number } {
  const count = { sentences: 0, words: 0, syllables: 0 };
  for (const sentence of texts.flatMap((text) => text.split(/[.!?:…]+(?=\s|$)|\n+/))) {
    const words = sentence.match(/[\p{L}\p{N}]+/gu) ?? [];
    if (words.length === 0) continue;
    count.sentences += 1;
    count.words += words.length;
    count.syllables += words.reduce((sum, word) => sum + syllablesOf(word), 0);
  }
  return { ease: 206.835 - (62.3 * count.syllables) / count.words - count.words / count.sentences, words: count.words };
}

/**
 * From 65 a text is "bastante fácil", from 80 "muy fácil"; below 55 it is hard (INFLESZ scale: I. M. Barrio-Cantalejo et al., An Sist Sanit
 * Navar 2008;31(2):135-152; from memory). What a child reads alone stays well within "bastante fácil".
 */
export const CHILD_EASE = 70;
