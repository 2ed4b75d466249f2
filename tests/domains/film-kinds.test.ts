import { execFileSync } from "node:child_process";
import { afterAll, describe, expect, test } from "vitest";
import { makeFirstStill, makeSteppingCopy } from "@/lib/platform/video/make-pictures";
import { readVideo } from "@/lib/platform/video/ingest";
import { FILM_KINDS } from "./film-kinds";
import { filmRoom } from "./video-files";

const room = filmRoom();
afterAll(room.remove);

/** The fields of each picture of a copy and then of one still, read by a decoder's own: sixteen grey levels each. */
function fieldsOf(copy: string, still: string): number[][] {
  const small = "scale=4:4:flags=area,setsar=1,format=gray,settb=1/90000";
  const both = `[0:v]${small}[a];[1:v]${small}[b];[a][b]concat=n=2:v=1`;
  const grey = execFileSync("ffmpeg", ["-v", "error", "-i", copy, "-i", still, "-filter_complex", both, "-fps_mode", "passthrough", "-f", "rawvideo", "-"]);
  return Array.from({ length: grey.length / 16 }, (_, i) => [...grey.subarray(i * 16, i * 16 + 16)]);
}

/** The index that an upright picture of made fields says; NaN when it does not stand upright. */
function indexOf(fields: readonly number[]): number {
  const middle = (Math.min(...fields) + Math.max(...fields)) / 2;
  const bits = fields.map((grey) => Number(grey > middle));
  if (bits.slice(8).join("") !== "10000011") return NaN;
  return bits.slice(0, 8).reduce((sum, bit, i) => sum + bit * 2 ** i, 0);
}

const indices = (first: number, count: number) => Array.from({ length: count }, (_, i) => first + i);

describe.each(FILM_KINDS)("$name", ({ frames, timing, size, said, make, firstIndex = 0 }) => {
  test("is read with its exact times and copied upright, frame by frame, each at its own time", async () => {
    const file = make(room);
    const { probe, times } = await readVideo(file);
    expect(probe).toMatchObject({ rotationDeg: 0, hasSound: false, captureFps: null, isHdr: false, isInterlaced: false, widthPx: size[0], heightPx: size[1], ...said });
    expect(times).toEqual({ timeBaseNum: timing.num, timeBaseDen: timing.den, ticks: indices(0, frames).map(timing.tickOf) });

    const copy = await makeSteppingCopy(file, probe, times, room.at("copy.mp4"));
    const fromFirst = (ticks: readonly number[], per = 1) => ticks.map((tick) => (tick - (ticks[0] ?? 0)) * per);
    const own = fromFirst(times.ticks, (timing.num * copy.times.timeBaseDen) / (timing.den * copy.times.timeBaseNum));
    fromFirst(copy.times.ticks).forEach((tick, i) => expect(Math.abs(tick - (own[i] ?? NaN)), `frame ${i} in ticks of the copy`).toBeLessThanOrEqual(0.5));

    expect(copy.probe).toMatchObject({ rotationDeg: 0, isHdr: false, codec: "h264" });
    expect(Math.max(copy.probe.widthPx, copy.probe.heightPx)).toBeLessThanOrEqual(1920);
    expect(Math.min(copy.probe.widthPx, copy.probe.heightPx)).toBeLessThanOrEqual(1080);
    expect(Math.abs(copy.probe.widthPx / copy.probe.heightPx - size[0] / size[1])).toBeLessThan(0.03);

    const frame = (frames * 2) % 3 === 0 ? frames - 1 : frames >> 1;
    await makeFirstStill(file, probe, times, frame, room.at("still.jpg"), 640);
    const fields = fieldsOf(room.at("copy.mp4"), room.at("still.jpg"));
    expect(fields.map(indexOf)).toEqual([...indices(firstIndex, frames), firstIndex + frame]);
    // White as bright as paper (203 cd/m², ITU-R BT.2408) is light and not burnt out on an ordinary screen, black stays black.
    for (const picture of said.isHdr ? fields : []) {
      expect(Math.max(...picture)).toBeGreaterThan(160);
      expect(Math.max(...picture)).toBeLessThan(235);
      expect(Math.min(...picture)).toBeLessThan(30);
    }
  });
});

test("there are at least twenty-five kinds, each once", () => {
  expect(new Set(FILM_KINDS.map(({ name }) => name)).size).toBeGreaterThanOrEqual(25);
});
