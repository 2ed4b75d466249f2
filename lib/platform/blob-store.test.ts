import { createReadStream, existsSync, mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { Readable } from "node:stream";
import { buffer, text } from "node:stream/consumers";
import S3rver from "s3rver";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { removeFolder, type Blobs } from "./blob-store";
import { diskBlobs } from "./disk-blobs";
import { s3Blobs } from "./s3-blobs";

const folder = mkdtempSync(path.join(tmpdir(), "cagebook-blobs-"));
const disk = path.join(folder, "disk");
const inScratch = <T>(work: (folder: string) => Promise<T>) => work(mkdtempSync(path.join(folder, "scratch-")));
const DISK = "a folder of this machine";
const key = { accessKeyId: "S3RVER", secretAccessKey: "S3RVER" };
const server = new S3rver({ port: 0, address: "127.0.0.1", silent: true, directory: path.join(folder, "objects"), configureBuckets: [{ name: "films", configs: [] }] });
let endpoint = "";
beforeAll(async () => {
  endpoint = `http://127.0.0.1:${(await server.run()).port}`;
});
afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true, force: true });
});

const stores: readonly (readonly [string, () => Blobs])[] = [
  [DISK, () => diskBlobs(disk)],
  ["an object store", () => s3Blobs({ bucket: "films", endpoint, region: "us-east-1", key }, inScratch)],
];

describe.each(stores)("blobs in %s", { timeout: 30_000 }, (where, open) => {
  let blobs: Blobs;
  beforeAll(() => {
    blobs = open();
  });

  test("what was kept is read back, whole or in part", async () => {
    await blobs.keepStream("films/one", Readable.from(["belt first"]));
    expect(await text(blobs.read("films/one"))).toBe("belt first");
    expect(await text(blobs.read("films/one", { start: 5, end: 9 }))).toBe("first");
    expect(await text(blobs.read("films/one", { start: 0, end: 0 }))).toBe("b");
    expect(await blobs.lengthOf("films/one")).toBe(10);
  });

  test("a finished file is moved in, byte for byte, and a program may read it from a path", async () => {
    const file = path.join(folder, "film");
    const bytes = Buffer.from(Array.from({ length: 300_000 }, (_, i) => (i * 7919) % 251));
    writeFileSync(file, bytes);
    await blobs.keepFile("films/large/original", file);
    expect(existsSync(file)).toBe(false);
    expect((await buffer(blobs.read("films/large/original"))).equals(bytes)).toBe(true);
    expect((await blobs.withFile("films/large/original", (at) => buffer(createReadStream(at)))).equals(bytes)).toBe(true);
  });

  test("a source that fails before its first byte is an error for the caller, and leaves no blob", async () => {
    const gone = createReadStream(path.join(folder, "not-there"));
    await expect(blobs.keepStream("films/two", gone)).rejects.toThrow(/ENOENT/);
    expect(await blobs.lengthOf("films/two")).toBeNull();
  });

  test("a source that fails half way leaves what was there before", async () => {
    await blobs.keepStream("films/kept", Readable.from(["whole"]));
    const half = Readable.from((async function* () {
      yield "ha";
      throw new Error("the line broke");
    })());
    await expect(blobs.keepStream("films/kept", half)).rejects.toThrow("the line broke");
    expect(await text(blobs.read("films/kept"))).toBe("whole");
  });

  // An object store promises this itself; the tests' own does not keep it.
  test.runIf(where === DISK)("two who write the same key at once leave one of the two, whole", async () => {
    const words = ["a".repeat(200_000), "b".repeat(150_000)];
    await Promise.all(words.map((it) => blobs.keepStream("films/raced", Readable.from([it]))));
    expect(words).toContain(await text(blobs.read("films/raced")));
  });

  test("no room left is said in a sentence, and what was kept stays", async () => {
    const full = Readable.from((async function* () {
      yield "some";
      throw Object.assign(new Error("write"), { code: "ENOSPC" });
    })());
    await expect(blobs.keepStream("films/kept", full)).rejects.toMatchObject({ id: "store-full", status: 507, message: expect.stringMatching(/no room left.*admin/) });
    expect(await blobs.lengthOf("films/kept")).toBe(5);
  });

  test("a lost blob is said in a sentence, wherever it is asked for", async () => {
    const lost = { id: "blob-lost", status: 410, message: expect.stringMatching(/no longer where they were kept/) };
    expect(await blobs.lengthOf("films/lost")).toBeNull();
    await expect(text(blobs.read("films/lost"))).rejects.toMatchObject(lost);
    await expect(blobs.withFile("films/lost", async () => "read")).rejects.toMatchObject(lost);
    await expect(blobs.remove("films/lost")).resolves.toBeUndefined();
  });

  test("a folder is listed and taken away whole, and its neighbours stay", async () => {
    for (const name of ["a/x/one", "a/x/deep/two", "a/xy/three"]) await blobs.keepStream(name, Readable.from(["x"]));
    expect(await blobs.keysIn("a/x")).toEqual(["a/x/deep/two", "a/x/one"]);
    expect(await removeFolder(blobs, "a/x")).toBe(2);
    expect(await blobs.keysIn("a/x")).toEqual([]);
    expect(await blobs.lengthOf("a/xy/three")).toBe(1);
  });

  test.each(["../secret/x", "films/../../x", "one", "films/UP", "/films/x", "films//x", "films/x/", "films/.x", "films/\0x", "films/Ada Reed.mp4"])("a key that is not ours is refused: %s", async (bad) => {
    expect(() => blobs.read(bad)).toThrow(RangeError);
    await expect((async () => blobs.lengthOf(bad))()).rejects.toThrow(RangeError);
    await expect((async () => blobs.keepStream(bad, Readable.from(["x"])))()).rejects.toThrow(RangeError);
    if (bad !== "one") await expect((async () => blobs.keysIn(bad))()).rejects.toThrow(RangeError);
    await expect((async () => blobs.withFile(bad, async () => 1))()).rejects.toThrow(RangeError);
  });
});

test("what a killed writer left half-written on the disk is no blob, and goes once it is old", async () => {
  const blobs = diskBlobs(disk);
  await blobs.keepStream("half/x/whole", Readable.from(["x"]));
  const left = path.join(disk, "half/x/whole.0.part");
  writeFileSync(left, "ha");
  expect(await blobs.keysIn("half/x")).toEqual(["half/x/whole"]);
  expect(await blobs.removeUnfinished(new Date(Date.now() - 60_000))).toBe(0);
  utimesSync(left, new Date(0), new Date(0));
  expect(await blobs.removeUnfinished(new Date(Date.now() - 60_000))).toBe(1);
  expect(readdirSync(path.join(disk, "half/x"))).toEqual(["whole"]);
});

test("a store that does not answer is said in a sentence", async () => {
  const nobody = s3Blobs({ bucket: "films", endpoint: "http://127.0.0.1:9", region: "us-east-1", key }, inScratch);
  await expect(nobody.lengthOf("films/one")).rejects.toMatchObject({ id: "store-away", status: 503 });
});
