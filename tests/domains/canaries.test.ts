import { readdir, readFile } from "node:fs/promises";
import path from "node:path";
import { globSync } from "tinyglobby";
import { beforeAll, describe, expect, test } from "vitest";
import type { Action } from "@/lib/access/define-action";
import type { Query } from "@/lib/access/define-query";
import type { Route } from "@/lib/access/define-route";
import type { Person } from "@/lib/access/actor";
import { isOperation } from "@/lib/access/operation";
import { newId, type Id } from "@/lib/core/ids";
import { tellThatSomethingWaits } from "@/lib/domains/roster/jobs";
import { database } from "@/lib/platform/database";
import { buildLibrary } from "@/seed/builders/library";
import { canaryOf, CLOSED_WORDS, FAMILY_MAY_READ, PRIVATE } from "../support/private-columns";
import { actorOf, family, sentPlan } from "./practice-story";

interface Column {
  readonly table: string;
  readonly column: string;
  readonly type: string;
  readonly isNeeded: boolean;
}

const WORDS = ["text", "varchar", "citext", "jsonb", "json", "_text", "_varchar", "bpchar"];

async function columnsOf(): Promise<Column[]> {
  return database().$queryRaw<Column[]>`
    SELECT c.table_name AS "table", c.column_name AS "column", c.udt_name AS "type", c.is_nullable = 'NO' AND c.column_default IS NULL AS "isNeeded"
    FROM information_schema.columns c JOIN information_schema.tables t USING (table_schema, table_name)
    WHERE table_schema = 'public' AND t.table_type = 'BASE TABLE' AND c.table_name NOT LIKE '\\_%' ORDER BY c.table_name, c.ordinal_position`;
}

const flat = (lists: Readonly<Record<string, readonly string[]>>) => Object.entries(lists).flatMap(([table, columns]) => columns.map((column) => `${table}.${column}`));
const PRIVATE_COLUMNS = Object.entries(PRIVATE).flatMap(([table, { columns, only }]) => columns.map((column) => ({ table, column, only, canary: canaryOf(table, column) })));

/** What a row cannot do without, where a made-up word is refused by the database. */
const NEEDED: Readonly<Record<string, Readonly<Record<string, unknown>>>> = {
  Observation: { state: "seen", source: "eye" }, SymptomCall: { state: "seen" }, TallyBall: { act: "swung", quality: "hard" }, Proposal: { kind: "drill", state: "open", editionId: null },
  ModelSwing: { sport: "baseball", rightBasis: "own-consent" }, Upload: { state: "receiving", clipId: null }, SignInLink: { purpose: "reset" }, Walkthrough: { side: "right", title: "A talk" },
  WalkthroughTake: { voiceState: "none" }, WalkthroughChapter: { fromMs: 0, toMs: 9 }, Focus: { state: "ended" }, PainReport: { level: 3 },
};

/** Writes a row of any table, its identifiers those of the story, as the database's owner: no trigger and no reference is asked. */
async function insertRow(table: string, columns: readonly Column[], ids: Readonly<Record<string, unknown>>): Promise<string> {
  const plain = (type: string): unknown => (type === "uuid" ? newId() : type === "jsonb" ? "{}" : type === "bool" ? false : type === "timestamptz" || type === "date" ? "2026-11-25" : type.startsWith("_") ? "{}" : type === "text" || type === "citext" ? "x" : 1);
  const given: Readonly<Record<string, unknown>> = { ...ids, ...NEEDED[table] };
  const filled = columns
    .filter(({ table: own, column, isNeeded }) => own === table && (isNeeded || (column in given && column !== "sentAt")))
    .map(({ column, type }) => ({ column, type, value: column === "id" ? newId() : column.endsWith("ById") ? ids.coachId : (given[column] ?? (column in given ? null : plain(type))) }));
  const values = filled.map(({ value, type }) => (value === null ? "NULL" : `'${String(value)}'::${type.startsWith("_") ? `${type.slice(1)}[]` : type}`)).join(", ");
  return `INSERT INTO "${table}" (${filled.map(({ column }) => `"${column}"`).join(", ")}) VALUES (${values})`;
}

interface Story {
  readonly actors: readonly Person[];
  readonly guardianIds: readonly Id[];
  /** What every operation is asked with: once with what was sent, once with what is only drafted. */
  readonly asked: readonly Readonly<Record<string, unknown>>[];
}

let columns: Column[];
let story: Story;

async function build(): Promise<Story> {
  const made = await family({ bats: "both" });
  const { academyId, playerId, clipId, users } = made;
  await buildLibrary(academyId);
  const draft = await sentPlan({ academyId, playerId, authorId: users.coach.id, side: "left", isDraft: true });
  const { swingId, fileId } = await database().clip.findUniqueOrThrow({ where: { id: clipId }, select: { swingId: true, fileId: true } });
  const ids = { academyId, playerId, clipId, swingId, fileId, side: "right", userId: users.coach.id, coachId: users.coach.id, noteId: made.noteId, planId: made.planId, sessionId: made.coach.sessionId };
  const walkthroughId = newId();
  await database().walkthrough.create({ data: { id: walkthroughId, academyId, playerId, side: "right", title: "x", createdById: users.coach.id } });
  const owned = { ...ids, walkthroughId, takeId: newId(), painReportId: newId(), rankingRunId: newId(), editionId: newId(), baseEditionId: newId() };
  await database().$transaction(async (tx) => {
    await tx.$executeRaw`SET LOCAL session_replication_role = replica`;
    for (const { table, only } of PRIVATE_COLUMNS.filter((one, index, all) => all.findIndex(({ table: own }) => own === one.table) === index)) {
      const [{ count } = { count: 0 }] = await tx.$queryRawUnsafe<{ count: number }[]>(`SELECT count(*)::int AS "count" FROM "${table}" WHERE ${only ?? "true"}`);
      if (count === 0) await tx.$executeRawUnsafe(await insertRow(table, columns, owned));
    }
    for (const { table, column, only, canary } of PRIVATE_COLUMNS) {
      const type = columns.find((one) => one.table === table && one.column === column)?.type ?? "text";
      // Unique columns hold the word and the row's own number.
      const isAlone = ["email", "userName", "secretHash", "contentHash", "key", "faultId", "recordId", "inputHash", "checkpointId"].includes(column);
      const word = type === "jsonb" ? `jsonb_build_object('canary', '${canary}')` : type === "_text" ? `ARRAY['${canary}']` : isAlone ? `'${canary}-' || gen_random_uuid()` : `'${canary}'`;
      await tx.$executeRawUnsafe(`UPDATE "${table}" SET "${column}" = ${word} WHERE ${only ?? "true"}`);
    }
  });
  // A stop, with what was said of it: the words are the coaches' alone.
  const [report] = await database().painReport.findMany({ where: { playerId } });
  const pause = await database().pause.create({ data: { id: newId(), academyId, playerId, painReportId: report!.id } });
  await database().notice.create({ data: { id: newId(), academyId, userId: users.odile.id, playerId, kind: "note-sent", subjectId: made.noteId } });
  const common = { ...owned, playerIds: [playerId], pauseId: pause.id, use: "lesson", day: "2026-11-25", part: "knee", level: "3", frameIndex: 96, side: "right" };
  return {
    actors: [made.player, made.odile],
    guardianIds: [users.odile.id, users.bastien.id],
    asked: [
      { ...common, noteId: made.noteId, planId: made.planId, planDrillId: made.teeId },
      { ...common, side: "left", noteId: draft.noteId, planId: draft.planId, planDrillId: draft.teeId },
    ],
  };
}

beforeAll(async () => {
  columns = await columnsOf();
  story = await build();
});

describe("what only the academy reads", () => {
  test("is said of every column that can hold words, and of none that is not there", () => {
    const there = columns.filter(({ type }) => WORDS.includes(type)).map(({ table, column }) => `${table}.${column}`);
    const whole = PRIVATE_COLUMNS.filter(({ only }) => !only).map(({ table, column }) => `${table}.${column}`);
    const partly = PRIVATE_COLUMNS.filter(({ only }) => only).map(({ table, column }) => `${table}.${column}`);
    const others = [...flat(FAMILY_MAY_READ), ...flat(CLOSED_WORDS)];
    expect(there.filter((name) => ![...whole, ...partly, ...others].includes(name)), "say in tests/support/private-columns.ts who may read these").toEqual([]);
    expect([...whole, ...partly, ...others].filter((name) => !there.includes(name)), "these are gone").toEqual([]);
    expect(whole.filter((name) => others.includes(name)), "private and not private").toEqual([]);
  });

  test("has a canary of its own in every private column", async () => {
    for (const { table, column, canary } of PRIVATE_COLUMNS) {
      const [{ count } = { count: 0 }] = await database().$queryRawUnsafe<{ count: number }[]>(`SELECT count(*)::int AS "count" FROM "${table}" WHERE "${column}"::text LIKE '%${canary}%'`);
      expect(count, canary).toBeGreaterThan(0);
    }
  });

  test("is in no answer, no refusal and no letter that a family can get from any operation", async () => {
    const root = path.resolve(import.meta.dirname, "../..");
    const files = globSync(["lib/domains/*/{queries,routes,actions}.ts", "lib/domains/*/*/{queries,routes,actions}.ts"], { cwd: root });
    const operations = (await Promise.all(files.map(async (file) => Object.values((await import(path.join(root, file))) as Record<string, unknown>)))).flat().filter(isOperation);
    const ordered = ["query", "route", "action"].flatMap((kind) => operations.filter(({ operation }) => operation.kind === kind));
    const heard: { readonly from: string; readonly text: string }[] = [];
    const answered = new Set<string>();
    const ask = async (value: (typeof ordered)[number], actor: Person, asked: Story["asked"][number]): Promise<void> => {
      const { kind, name } = value.operation;
      const answer =
        kind === "route"
          ? (value as Route).as(actor, new Request("http://localhost/"), asked as never).then(async (response) => `${response.status} ${[...response.headers].join()} ${Buffer.from(await response.arrayBuffer()).toString("latin1")}`)
          : (value as unknown as Query<unknown, unknown> | Action<unknown>).as(actor, asked).then((said) => {
              answered.add(name);
              return JSON.stringify(said) ?? "";
            });
      heard.push({ from: `${name} as ${actor.role}`, text: await answer.catch((error: unknown) => `${String(error)} ${JSON.stringify(error)}`) });
    };
    for (const value of ordered) {
      const each = story.actors.flatMap((actor) => story.asked.map((asked) => ({ actor, asked })));
      // What only reads may be asked at once; what writes goes one after the other.
      if (value.operation.kind === "action") for (const { actor, asked } of each) await ask(value, actor, asked);
      else await Promise.all(each.map(({ actor, asked }) => ask(value, actor, asked)));
    }
    for (const userId of story.guardianIds) await tellThatSomethingWaits.perform({ userId }, false);
    const folder = process.env.MAIL_DIR ?? "";
    const letters = await Promise.all((await readdir(folder)).map(async (name) => readFile(path.join(folder, name), "utf8")));
    expect(letters.length).toBeGreaterThan(0);
    heard.push(...letters.map((text) => ({ from: "a letter", text })));

    expect(operations.length).toBeGreaterThan(150);
    for (const name of ["practice.get-today", "practice.get-stops", "practice.get-parents-page", "practice.list-week", "plans.list-sent-notes", "plans.get-note-for-family", "roster.list-consents", "roster.report-pain"]) {
      expect(answered, name).toContain(name);
    }
    const all = heard.map(({ text }) => text).join("\n");
    expect(all).toContain("Your load is quiet.");
    const found = PRIVATE_COLUMNS.flatMap(({ canary }) => heard.filter(({ text }) => text.toLowerCase().includes(canary)).map(({ from }) => `${canary} in ${from}`));
    expect([...new Set(found)]).toEqual([]);
  }, 90_000);

  test("would be found: a coach's own page holds it", async () => {
    const { getNoteForCoach } = await import("@/lib/domains/plans/queries");
    const note = await database().note.findFirstOrThrow({ where: { sentAt: { not: null } } });
    const coachSession = await database().session.findFirstOrThrow({ where: { activeRole: "coach" } });
    const coach = await actorOf({ id: coachSession.userId, academyId: note.academyId }, "coach");
    expect(JSON.stringify(await getNoteForCoach.as(coach, { noteId: note.id }))).toContain(canaryOf("PrivateNote", "words"));
  });
});
