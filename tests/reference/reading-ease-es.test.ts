import { expect, it } from "vitest";
import { readingEase, syllablesOf } from "../support/reading-ease-es";

it("syllables of Spanish words are those of the rules of the language", () => {
  const known: Readonly<Record<string, number>> = { bate: 2, pelota: 3, cadera: 3, pie: 1, izquierdo: 3, día: 2, rodilla: 3, después: 2, equipo: 3, guante: 2, bateo: 3, cuerpo: 2, oído: 3, ejercicio: 4, hoy: 1, aire: 2, ahora: 3, guía: 2, y: 1 };
  expect(Object.fromEntries(Object.keys(known).map((word) => [word, syllablesOf(word)]))).toEqual(known);
});

it("short words in short sentences are easy, and long ones are not", () => {
  expect(readingEase(["Para el bate. Mira la pelota."]).ease).toBeGreaterThan(75);
  expect(readingEase(["La responsabilidad institucional correspondiente requiere consideraciones administrativas extraordinariamente diferenciadas"]).ease).toBeLessThan(0);
});
