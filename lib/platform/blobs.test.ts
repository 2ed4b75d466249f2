import { createReadStream, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { Readable } from "node:stream";
import { text } from "node:stream/consumers";
import { afterAll, describe, expect, test } from "vitest";
import { diskBlobs } from "./blobs";

const folder = mkdtempSync(path.join(tmpdir(), "cagebook-blobs-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const blobs = diskBlobs(folder);

describe("blobs of the disk", () => {
  test("what was kept is read back, whole or in part", async () => {
    await blobs.keepStream("films/one", Readable.from(["belt first"]));
    expect(await text(blobs.read("films/one"))).toBe("belt first");
    expect(await text(blobs.read("films/one", { start: 5, end: 9 }))).toBe("first");
    expect(await blobs.lengthOf("films/one")).toBe(10);
  });

  test("a source that fails before its first byte is an error for the caller, and leaves no blob", async () => {
    const gone = createReadStream(path.join(folder, "not-there"));
    await expect(blobs.keepStream("films/two", gone)).rejects.toThrow(/ENOENT/);
    expect(await blobs.lengthOf("films/two")).toBeNull();
  });

  test.each(["../secret/x", "films/../../x", "one", "films/UP", "/films/x"])("a key that is not ours is refused: %s", (key) => {
    expect(() => blobs.read(key)).toThrow(RangeError);
  });
});
