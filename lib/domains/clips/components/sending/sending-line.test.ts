import { describe, expect, test, vi } from "vitest";
import type { ActionState } from "@/lib/core/action-state";
import type { KeptFilm } from "./kept-films";
import { NotTaken, Stopped, type Sending } from "./send-video-file";
import { SendingLine, type SendingDeps } from "./sending-line";

/** A house that counts what reaches it: every film once, whatever happens to the line. */
function house(given: Partial<SendingDeps> = {}) {
  const kept = new Map<string, KeptFilm>();
  const begun: { id: string; playerId: string; contentHash?: string }[] = [];
  const sent: string[] = [];
  const cancelled: string[] = [];
  const moved: string[] = [];
  const lineBacks: (() => void)[] = [];
  let atOnce = 0;
  let mostAtOnce = 0;
  const deps: SendingDeps = {
    userId: "coach",
    readFacts: async () => null,
    hash: async (bytes) => `hash of ${await bytes.text()}`,
    begin: async ({ playerId, contentHash }) => {
      const same = begun.find((it) => it.contentHash === contentHash && it.playerId === playerId);
      const uploadId = same?.id ?? `upload-${begun.length + 1}`;
      if (!same) begun.push({ id: uploadId, playerId, contentHash });
      return { status: "done", data: { uploadId, isResumed: same !== undefined, swingId: null } };
    },
    cancel: async (id) => {
      cancelled.push(id);
      return { status: "done" };
    },
    move: async (id, playerId) => {
      moved.push(`${id} to ${playerId}`);
      return { status: "done" };
    },
    send: (bytes, id, _isResumed, onArrived): Sending => {
      atOnce += 1;
      mostAtOnce = Math.max(mostAtOnce, atOnce);
      const done = Promise.resolve().then(() => {
        onArrived(bytes.size);
        atOnce -= 1;
        sent.push(id);
      });
      return { done, stop: () => undefined };
    },
    keep: async (film) => {
      kept.set(film.id, film);
      return true;
    },
    drop: async (id) => void kept.delete(id),
    lineBack: () => new Promise((resolve) => lineBacks.push(resolve)),
    alone: async (_id, work) => work(),
    nowMs: () => 0,
    ...given,
  };
  const line = new SendingLine(deps);
  const states = () => line.snapshot().map(({ state }) => state);
  return { deps, line, kept, begun, sent, cancelled, moved, lineBacks, states, mostAtOnce: () => mostAtOnce };
}
const films = (...names: string[]) => names.map((name) => new File([name], `${name} Lindqvane.mov`));
const giveAll = (line: SendingLine, to: string) => Promise.all(line.snapshot().map(({ key }) => line.give(key, to, { side: "right" })));

describe("films on their way", () => {
  test("nothing is begun before somebody says whose a film is; then each is sent once, two at a time, and nothing of it stays on the device", async () => {
    const it = house();
    it.line.choose(films("a", "b", "c", "d"));
    await Promise.resolve();
    expect([it.begun, it.kept.size]).toEqual([[], 0]);
    await giveAll(it.line, "pia");
    await vi.waitFor(() => expect(it.states()).toEqual(["sent", "sent", "sent", "sent"]));
    expect([it.sent.sort(), it.mostAtOnce(), it.kept.size]).toEqual([["upload-1", "upload-2", "upload-3", "upload-4"], 2, 0]);
  });

  test("the name of a file goes nowhere, not even into what this device keeps", async () => {
    const keep = vi.fn(async (_film: KeptFilm) => true);
    const it = house({ keep });
    it.line.choose(films("a"));
    await giveAll(it.line, "pia");
    await vi.waitFor(() => expect(it.states()).toEqual(["sent"]));
    expect(keep.mock.calls.map(([film]) => film.bytes instanceof File)).not.toContain(true);
  });

  test("a line that is lost twice, before the house is asked and within the bytes, loses nothing and doubles nothing", async () => {
    let asks = 0;
    let sends = 0;
    const first = house();
    const it = house({
      begin: async (input) => (++asks === 1 ? Promise.reject(new TypeError("Failed to fetch")) : first.deps.begin(input)),
      send: (...args) => (++sends === 1 ? { done: Promise.reject(new Error("no line")), stop: () => undefined } : first.deps.send(...args)),
    });
    it.line.choose(films("a"));
    await giveAll(it.line, "pia");
    for (const cut of [1, 2]) {
      await vi.waitFor(() => expect([it.states(), it.lineBacks.length]).toEqual([["lost"], cut]));
      expect(it.kept.size).toBe(1);
      it.lineBacks.at(-1)?.();
    }
    await vi.waitFor(() => expect(it.states()).toEqual(["sent"]));
    expect([first.begun.length, first.sent, it.kept.size]).toEqual([1, ["upload-1"], 0]);
  });

  test("a page that is read anew takes up what it kept, under the same number at the house", async () => {
    const before = house({ send: () => ({ done: new Promise(() => undefined), stop: () => undefined }) });
    before.line.choose(films("a", "b", "c"));
    await giveAll(before.line, "pia");
    await vi.waitFor(() => expect(before.states()).toEqual(["sending", "sending", "waiting"]));
    const after = house({ begin: before.deps.begin });
    after.line.adopt([...before.kept.values()]);
    after.line.adopt([...before.kept.values()]);
    await vi.waitFor(() => expect(after.states()).toEqual(["sent", "sent", "sent"]));
    expect([before.begun.length, after.sent.sort()]).toEqual([3, ["upload-1", "upload-2", "upload-3"]]);
  });

  test("a film that another window sends is left to it", async () => {
    const it = house({ alone: async () => undefined });
    it.line.choose(films("a"));
    await giveAll(it.line, "pia");
    await vi.waitFor(() => expect(it.states()).toEqual([]));
    expect(it.begun).toEqual([]);
  });

  test("a film that is taken back is taken back at the house too, also while the house is being asked", async () => {
    let answer: (state: ActionState) => void = () => undefined;
    const begin = vi.fn(() => new Promise<ActionState>((resolve) => (answer = resolve)));
    const it = house({ begin });
    const [key = 0] = it.line.choose(films("a"));
    await it.line.give(key, "pia", {});
    await vi.waitFor(() => expect(begin).toHaveBeenCalledTimes(1));
    await it.line.stop(key);
    answer({ status: "done", data: { uploadId: "late", isResumed: false, swingId: null } });
    await vi.waitFor(() => expect(it.cancelled).toEqual(["late"]));
    expect([it.sent, it.kept.size]).toEqual([[], 0]);
  });

  test("a refusal of the house is told in its words and at its fields, and can be tried again with other answers", async () => {
    let isRefusing = true;
    const it = house();
    const other = house({ begin: async (input) => (isRefusing ? { status: "refused", message: "Pia does not bat left-handed.", fields: { side: "no" }, values: {} } : it.deps.begin(input)) });
    const [key = 0] = other.line.choose(films("a"));
    await other.line.give(key, "pia", { side: "left" });
    await vi.waitFor(() => expect(other.line.snapshot()[0]).toMatchObject({ state: "refused", sentence: "Pia does not bat left-handed.", fields: { side: "no" } }));
    isRefusing = false;
    await other.line.give(key, "pia", { side: "right" });
    await vi.waitFor(() => expect(other.states()).toEqual(["sent"]));
  });

  test("what was taken back elsewhere stops here, and what is not ours any more says so", async () => {
    const ends = [new Stopped(), new NotTaken("This sending is not yours any more.")];
    const it = house({ send: () => ({ done: Promise.reject(ends.shift()), stop: () => undefined }) });
    it.line.choose(films("a", "b"));
    await giveAll(it.line, "pia");
    await vi.waitFor(() => expect(it.states()).toEqual(["stopped", "refused"]));
  });

  test("another owner is told to the house once the film is on its way, and simply counts before", async () => {
    const it = house();
    const [early = 0, late = 0] = it.line.choose(films("a", "b"));
    await it.line.give(late, "pia", { side: "right" });
    await vi.waitFor(() => expect(it.states()).toEqual(["unowned", "sent"]));
    await it.line.give(late, "ned", { side: "left" });
    await it.line.give(early, "ned", { side: "left" });
    await vi.waitFor(() => expect(it.states()).toEqual(["sent", "sent"]));
    expect(it.moved).toEqual(["upload-1 to ned"]);
    expect(it.begun.map(({ playerId }) => playerId)).toEqual(["pia", "ned"]);
  });
});
