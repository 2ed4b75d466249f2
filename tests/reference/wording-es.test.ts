import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { es } from "@/lib/core/words/es";
import { translationsForm } from "@/lib/domains/library/translations/schema";
import { refusalsOf } from "@/lib/prescribe/wording";

/**
 * What may be said to a child holds in Spanish too, for all that the house itself says: the same groups of words as in
 * `lib/prescribe/wording.ts`. Common practice, no source.
 */
const LETTER = "\\p{L}";
const word = (list: string) => new RegExp(`(?<!${LETTER})(?:${list})(?!${LETTER})`, "iu");
const KEPT_OUT = [
  word("mal[oa]s?|mal hech[oa]s?|peor(?:es)?|terribles?|horribles?|fe[oa]s?|inútil(?:es)?|decepci(?:ón|ona\\w*)|vergüenza|avergonzad[oa]s?"),
  word("defectos?|fallas?|fracas[oa]s?|fracasad[oa]s?|culpas?|culpables?"),
  word("puntajes?|calificaci(?:ón|ones)|rankings?|percentil(?:es)?"),
  word("floj[oa]s?|perezos[oa]s?|torpes?|débil(?:es)?|tont[oa]s?|descuidad[oa]s?|perdedor(?:es|as?)?|cobardes?|llor(?:ón|ona|ones)|(?<!dedo )gord[oa]s?|flac[oa]s?|enclenques?"),
  /como (?:una? )?(?:niñ[oa]|nena|bebé|abuel[oa])/iu,
  word("tendinitis|esguinces?|fracturas?|conmoci(?:ón|ones)(?: cerebral(?:es)?)?|luxaci(?:ón|ones)|desgarros?|hernias?|bursitis"),
];
/** "Eres lento", "Luz está tensa", "es un jugador miedoso". */
const LABEL = /(?<!\p{L})(?:eres|estás|pareces|(?:él|ella|tu hij[oa]) (?:es|está|parece))\s+(?:(?:muy|tan|un poco|demasiado|siempre|todavía)\s+)*(?:lent|tens|ríg|asustad|tímid|nervios|distraíd|terc|pequeñ|baj|chic|atrasad|incapa|un[ao]?\s)/iu;
const COMPARED = /(?:mejor|peor|más \p{L}+|menos \p{L}+) que (?:tú|tus? (?:herman|amig|compañer)|l[oa]s (?:demás|otr[oa]s)|otr[oa]s|nadie|tod[oa]s)/iu;

const refused = (text: string) => [...KEPT_OUT, LABEL, COMPARED].flatMap((rule) => rule.exec(text)?.[0] ?? []);
const library = translationsForm.parse(JSON.parse(readFileSync(path.resolve("seed/library/es.json"), "utf8")));

describe("what the house says in Spanish", () => {
  it("calls nobody anything, blames nobody and names no injury: every sentence of the catalogue", () => {
    expect(Object.entries(es).flatMap(([key, text]) => refused(text).map((found) => `${found} in: ${text} (${key})`))).toEqual([]);
  });

  it("nor does the library, in a drill or in what is in focus", () => {
    expect(Object.entries(library.texts).flatMap(([place, { text }]) => refused(text).map((found) => `${found} at ${place}: ${text}`))).toEqual([]);
  });

  it("holds no number for the name of what is in focus, which a child below eleven reads", () => {
    for (const [place, { text }] of Object.entries(library.texts)) if (place.endsWith("/playerWording")) expect(text, place).not.toMatch(/\d/);
  });

  it("would be refused if it did", () => {
    for (const text of ["Eres lento.", "Estás muy tensa.", "Tu swing es malo.", "Bateas mejor que tus amigos.", "Corres como una niña.", "Es tendinitis.", "Fue tu culpa."]) expect(refused(text), text).not.toEqual([]);
    expect(refusalsOf("You are slow.", { givenName: "Luz", ageYears: 10, otherFaults: [] })).not.toEqual([]);
  });
});
