import { newId } from "@/lib/core/ids";
import { makeLink } from "@/lib/domains/identity/commands";
import { dayValue } from "@/lib/core/days";
import { now, todayIn } from "@/lib/platform/clock";
import { closeDatabase, database, inTransaction } from "@/lib/platform/database";
import { settings } from "@/lib/platform/settings";
import { buildLibrary, buildTranslations } from "./builders/library";
import { buildDemo } from "./demo/build";
import { DEMO_PASSWORD, GROWN_UPS, PLAYERS, SIGN_INS } from "./demo/people";

/** What stands in a new database: the demo academy, or an academy with its first admin. Prints how to sign in. */
async function main(words: readonly string[]): Promise<void> {
  const adminMail = words[words.indexOf("--admin") + 1];
  const isEmpty = (await database().academy.count()) === 0;
  if (settings().DEMO === "on") {
    await buildDemo();
    console.log(signInWords());
  } else if (isEmpty) {
    if (!words.includes("--admin") || !adminMail) {
      throw new Error("There is no academy in this database yet. Name its first admin: npm start -- --no-demo --admin mail@example.org");
    }
    console.log(await foundAcademy(adminMail));
  }
  // Also for an academy from before there were other languages.
  for (const edition of await database().edition.findMany({ distinct: ["academyId"], select: { academyId: true } })) await buildTranslations(edition.academyId);
}

/** An academy of one's own: the starter library, and an admin who chooses a password by a link. */
async function foundAcademy(email: string): Promise<string> {
  const academyId = newId();
  const timeZone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  await database().academy.create({
    data: { id: academyId, name: "Our academy", timeZone, createdAt: now(), locations: { create: { id: newId(), name: "Main", timeZone } } },
  });
  await buildLibrary(academyId);
  const user = await database().user.create({
    data: {
      id: newId(), academyId, displayName: "Admin", email,
      roles: { create: { id: newId(), role: "admin", from: dayValue(todayIn(timeZone)) } },
    },
  });
  const secret = await inTransaction((tx) => makeLink(tx, user, "invitation"));
  return `The first admin is ${email}. Choose a password here, once:\n  ${settings().APP_URL}/invitation/${secret}`;
}

function signInWords(): string {
  const lines = SIGN_INS.map(({ key, as }) => {
    const grownUp = GROWN_UPS.find((person) => person.key === key);
    const player = PLAYERS.find((candidate) => candidate.key === key);
    const name = grownUp?.email ?? player?.userName ?? player?.email ?? key;
    return `  ${name.padEnd(26)} ${as}`;
  });
  return `A made-up academy is inside. Sign in with the password "${DEMO_PASSWORD}" as\n${lines.join("\n")}`;
}

main(process.argv.slice(2))
  .then(closeDatabase)
  .catch((error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    process.exit(1);
  });
