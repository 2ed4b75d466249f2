import { describe, expect, test } from "vitest";
import { fetchCopy } from "./fetch-copy";

const bytes = Uint8Array.from({ length: 1000 }, (_, i) => i % 251);

/** A line that gives at most so many bytes an answer and then breaks; counts what was asked for. */
function line(breaksAfter: readonly (number | null)[], status = 200) {
  const ranges: string[] = [];
  const fetchBytes = (async (_: unknown, init?: RequestInit) => {
    const range = new Headers(init?.headers).get("range");
    ranges.push(range ?? "all");
    const from = range ? Number(/bytes=(\d+)-/.exec(range)?.[1]) : 0;
    const most = breaksAfter[ranges.length - 1];
    if (most === undefined) throw new TypeError("Failed to fetch");
    const rest = bytes.slice(from);
    const body = new ReadableStream<Uint8Array>({
      start(out) {
        out.enqueue(most === null ? rest : rest.slice(0, most));
        if (most === null) out.close();
        else setTimeout(() => out.error(new TypeError("network error")));
      },
    });
    return new Response(status === 200 ? body : null, { status: status === 200 && from > 0 ? 206 : status, headers: { "content-length": String(rest.length) } });
  }) as typeof fetch;
  return { ranges, fetchBytes };
}
const ask = (fetchBytes: typeof fetch, parts: number[] = []) => fetchCopy("/copy", { signal: new AbortController().signal, onProgress: (part) => parts.push(part), fetchBytes, waitMs: async () => {} });

describe("fetching the stepping copy", () => {
  test("a line that breaks twice is taken up where it broke, and every byte is there once", async () => {
    const { ranges, fetchBytes } = line([300, 200, null]);
    const parts: number[] = [];
    const blob = await ask(fetchBytes, parts);
    expect(ranges).toEqual(["all", "bytes=300-", "bytes=500-"]);
    expect(new Uint8Array(await blob.arrayBuffer())).toEqual(bytes);
    expect(parts.at(-1)).toBe(1);
  });
  test("a line that stays lost gets a sentence that says nothing was lost", async () => {
    await expect(ask(line([300]).fetchBytes)).rejects.toThrow(/^The line was lost while the pictures came\. Nothing that was placed is lost/);
  });
  test("a copy that is not there is asked for once and says what is kept", async () => {
    const { ranges, fetchBytes } = line([null], 404);
    await expect(ask(fetchBytes)).rejects.toThrow(/stepping copy of this clip is not there.*are kept/);
    expect(ranges).toHaveLength(1);
  });
  test("a page that is left asks no more", async () => {
    const left = new AbortController();
    const { ranges, fetchBytes } = line([300, null]);
    const asked = fetchCopy("/copy", { signal: left.signal, onProgress: () => left.abort(), fetchBytes, waitMs: async () => {} });
    await expect(asked).rejects.toThrow();
    expect(ranges).toHaveLength(1);
  });
});
