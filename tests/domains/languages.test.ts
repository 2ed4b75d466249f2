import { describe, expect, test } from "vitest";
import type { Person } from "@/lib/access/actor";
import { es } from "@/lib/core/words/es";
import { chooseLanguage } from "@/lib/domains/identity/actions";
import { hashPassword, signIn } from "@/lib/domains/identity/commands";
import { LibraryRefusedError } from "@/lib/domains/library/commands";
import { readLibrary } from "@/lib/domains/library/schema";
import { importTranslations } from "@/lib/domains/library/translations/commands";
import { getTranslations } from "@/lib/domains/library/translations/queries";
import { familyTexts, hashOfText } from "@/lib/domains/library/translations/rules";
import { translationsForm } from "@/lib/domains/library/translations/schema";
import { logPractice } from "@/lib/domains/practice/actions";
import { getToday } from "@/lib/domains/practice/queries";
import { sendLetter } from "@/lib/domains/identity/jobs";
import { reportPain } from "@/lib/domains/roster/actions";
import { tellThatSomethingWaits } from "@/lib/domains/roster/jobs";
import { keptLetters } from "@/lib/platform/mail";
import { database, inTransaction } from "@/lib/platform/database";
import { buildLibrary, buildTranslations } from "@/seed/builders/library";
import { loadStarterLibrary, loadTranslations } from "@/seed/library";
import { actorOf, family } from "./practice-story";

/** The same person, as their next request finds them. */
const again = ({ userId, academyId, role }: Person) => actorOf({ id: userId, academyId }, role);

describe("the library's own texts in Spanish", () => {
  test("are there for everything a family reads, and none is out of date", async () => {
    const { parts } = readLibrary(await loadStarterLibrary());
    const places = familyTexts(parts!);
    const { texts } = translationsForm.parse((await loadTranslations()).es);
    expect([...places.keys()].filter((place) => !texts[place])).toEqual([]);
    for (const [place, { of }] of Object.entries(texts)) expect(of, place).toBe(await hashOfText(places.get(place) ?? ""));
  });

  test("lose no number of a caution: distances, weights, ages, minutes", async () => {
    const { parts } = readLibrary(await loadStarterLibrary());
    const places = familyTexts(parts!);
    const { texts } = translationsForm.parse((await loadTranslations()).es);
    const numbers = (text: string) => (text.match(/\d+(?:\.\d+)?/g) ?? []).sort();
    const told = [...Object.entries(texts)].filter(([place]) => /\/safety\/|^loads\/|\/equipment\/|\/steps\//.test(place));
    expect(told.length).toBeGreaterThan(400);
    for (const [place, { text }] of told) expect(numbers(text), `${place}: ${text}`).toEqual(expect.arrayContaining(numbers(places.get(place) ?? "")));
    for (const [key, text] of Object.entries(es)) if (!key.includes("{")) expect(numbers(text), key).toEqual(numbers(key));
  });

  test("at a place that the library does not have are refused by name, and nothing is taken", async () => {
    const { academyId } = await family();
    await buildLibrary(academyId);
    await buildTranslations(academyId);
    const before = await database().libraryText.count({ where: { academyId } });
    const file = { schema: 1, about: "", language: "es", texts: { "drills/mirror-load/name": { of: "0".repeat(12), text: "x" }, "drills/no-such-drill/name": { of: "0".repeat(12), text: "x" }, "drills/mirror-load/purpose": { of: "0".repeat(12), text: "x" } } };
    const refusal = await inTransaction((tx) => importTranslations(tx, academyId, "es", file)).catch((error: unknown) => error);
    expect(refusal).toBeInstanceOf(LibraryRefusedError);
    expect(String(refusal)).toContain("drills/no-such-drill/name");
    expect(String(refusal)).toContain("drills/mirror-load/purpose");
    expect(await database().libraryText.count({ where: { academyId } })).toBe(before);
  });

  test("are shown while the English is the one they were made from, and English again once it was edited", async () => {
    const { academyId, player } = await family();
    await buildLibrary(academyId);
    await buildTranslations(academyId);
    await database().user.update({ where: { id: player.userId }, data: { language: "es" } });
    const reader = await again(player);
    expect(await getTranslations.as(reader, { texts: ["Mirror load check"] })).toEqual({ "Mirror load check": "Revisar la carga en el espejo" });
    expect(await getTranslations.as(reader, { texts: ["Mirror load check, slowly"] })).toEqual({});
    // Said again for the new words, it is shown again.
    const file = { schema: 1, about: "", language: "es", texts: { "drills/mirror-load/name": { of: await hashOfText("Mirror load check, slowly"), text: "Revisar la carga en el espejo, despacio" } } };
    await inTransaction((tx) => importTranslations(tx, academyId, "es", file));
    expect(await getTranslations.as(reader, { texts: ["Mirror load check, slowly", "Mirror load check"] })).toEqual({ "Mirror load check, slowly": "Revisar la carga en el espejo, despacio" });
    // English asks the database nothing.
    expect(await getTranslations.as(player, { texts: ["Mirror load check"] })).toEqual({});
  });
});

describe("the language of a sign-in", () => {
  test("is each person's own: a guardian reads Spanish and the player English, and staff pages stay English", async () => {
    const { player, odile, coach, playerId } = await family();
    await chooseLanguage.as(odile, { language: "es" });
    await chooseLanguage.as(coach, { language: "es" });
    expect((await again(odile)).language).toBe("es");
    expect((await again(player)).language).toBe("en");
    expect((await again(coach)).language).toBe("en");
    await expect(chooseLanguage.as(odile, { language: "xx" as "es" })).rejects.toThrow("We do not speak that language yet.");
    const today = await getToday.as(await again(odile), { playerId });
    expect(today.note?.keptWell).toBe("Your load is quiet.");
  });

  test("is that of the sign-in page for who never chose, and a choice made once stays", async () => {
    const { odile } = await family();
    await database().user.update({ where: { id: odile.userId }, data: { passwordHash: await hashPassword("three plain words"), email: "odile@example.test" } });
    const enter = (language: "en" | "es") => signIn({ name: "odile@example.test", password: "three plain words", address: "10.9.9.9", device: "a phone", language });
    const language = async () => (await database().user.findUniqueOrThrow({ where: { id: odile.userId } })).language;
    await enter("es");
    expect(await language()).toBe("es");
    await enter("en");
    expect(await language()).toBe("es");
  });

  test("is what answers and refusals of the house are said in", async () => {
    const { player, teeId } = await family();
    await chooseLanguage.as(player, { language: "es" });
    expect(await logPractice.as(await again(player), { planDrillId: teeId })).toEqual({ message: "Hecho. Van 18." });
    expect(await logPractice.as(player, { planDrillId: teeId })).toEqual({ message: "Done. 18 counted." });
  });
});

test("every letter is written in its receiver's language, and still says nothing of what happened", async () => {
  const { player, odile, playerId } = await family();
  await database().user.update({ where: { id: odile.userId }, data: { email: "odile.letters@example.test", language: "es" } });
  await reportPain.as(player, { playerId, part: "elbow", level: "6", words: "when I throw" });
  await tellThatSomethingWaits.perform({ userId: odile.userId }, false);
  await sendLetter.perform({ userId: odile.userId, purpose: "reset" }, false);
  const letters = (await keptLetters(20)).filter(({ to }) => to === "odile.letters@example.test");
  expect(letters.map(({ subject }) => subject).sort()).toEqual([expect.stringMatching(/^Algo te espera en /), "Una contraseña nueva para Cagebook"]);
  expect(JSON.stringify(letters)).not.toMatch(/elbow|codo|pain|dolor|throw|Something|Somebody/i);
});
