import { describe, expect, test } from "vitest";
import { NOBODY } from "@/lib/access/actor";
import { beginUpload } from "@/lib/domains/clips/actions";
import { sendUploadBytes } from "@/lib/domains/clips/routes";
import { askReset } from "@/lib/domains/identity/actions";
import { newId, type Id } from "@/lib/core/ids";
import { askOffset, coachWithPlayer, createBytes, facts } from "./clip-story";

describe("bytes that are sent", () => {
  const begun = async () => {
    const story = await coachWithPlayer();
    const { uploadId } = (await beginUpload.as(story.coach, { playerId: story.playerId, ...facts, byteLength: 2000 })).data as { uploadId: Id };
    await createBytes(story.coach, uploadId, 2000);
    return { ...story, uploadId };
  };

  test("to an address that names two uploads reach neither, whoever owns the first", async () => {
    const [mine, theirs] = [await begun(), await begun()];
    const headers = { "tus-resumable": "1.0.0", "upload-offset": "0", "content-type": "application/offset+octet-stream" };
    const parts = [mine.uploadId, theirs.uploadId];
    const request = new Request(`http://cage.test/api/uploads/${parts.join("/")}`, { method: "PATCH", headers, body: new Uint8Array(10) });
    expect((await sendUploadBytes.as(mine.coach, request, { tus: parts })).status).toBe(404);
    const asked = new Request(`http://cage.test/api/uploads/${parts.join("/")}`, { method: "HEAD", headers: { "tus-resumable": "1.0.0" } });
    expect((await sendUploadBytes.as(mine.coach, asked, { tus: parts })).status).toBe(404);
    expect((await askOffset(theirs.coach, theirs.uploadId)).headers.get("upload-offset")).toBe("0");
  });
});

describe("a crowd at the door", () => {
  test("that asks for letters all at once is answered, and holds up nobody", async () => {
    const asked = Array.from({ length: 60 }, () => askReset.as(NOBODY, { name: `${newId()}@example.test` }));
    const outcomes = await Promise.allSettled(asked);
    expect(outcomes.filter(({ status }) => status === "rejected")).toEqual([]);
  }, 9000);
});
